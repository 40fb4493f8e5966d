//! The hub's log is a valid signed log: every line, every chain, whatever the network did.
//!
//! Gaps are told exactly where a phone declared its own lines unreadable; nothing else is wrong, and `verify` says so.

use shared_core::log::chain::{ChainFault, LineFault, verify_log};

use crate::world::World;

pub(crate) fn check(world: &World) {
    let verified = verify_log(&world.hub.store.text());
    let mut gaps = 0;
    for problem in &verified.problems {
        match &problem.why {
            LineFault::Chain(ChainFault::Gap { .. }) => gaps += 1,
            // Behind what was declared lost a line may follow an entry that nobody has: `prev` names what is gone.
            why => panic!("line {} of the hub's log: {why}", problem.line),
        }
    }
    assert_eq!(gaps, world.hub.store.lost.len() as u64, "a gap for each stretch that was declared lost, and no other");
    assert_eq!(verified.entries + gaps, world.hub.store.log.len() as u64);
}
