//! The hub's log is a valid signed log: every line, every chain, whatever the network did.
//!
//! Gaps are told exactly where a phone declared its own lines unreadable; nothing else is wrong, and `verify` says so.

use shared_core::log::chain::{ChainFault, LineFault, verify_log};
use shared_core::log::jws::JwsFault;
use shared_core::sync::message::Why;

use crate::world::World;

pub(crate) fn check(world: &World) {
    let verified = verify_log(&world.hub.store.text());
    let unsigned = world.hub.store.log.values().filter(|row| row.aside == Some(Why::Damaged)).count() as u64;
    let (mut gaps, mut told) = (0, 0);
    for problem in &verified.problems {
        match &problem.why {
            LineFault::Chain(ChainFault::Gap { .. }) => gaps += 1,
            // Set aside: its phone vouched for it and did not sign it. What comes behind follows what is not there.
            LineFault::Chain(ChainFault::Jws(JwsFault::Signature)) => told += 1,
            // Behind what was declared lost a line may follow an entry that nobody has: `prev` names what is gone.
            why => panic!("line {} of the hub's log: {why}", problem.line),
        }
    }
    assert_eq!(told, unsigned, "what is not signed is told, and nothing else");
    let lost = world.hub.store.lost.len() as u64;
    assert_eq!(gaps, lost + unsigned, "a gap for each stretch that was declared lost or is not signed, and no other");
    assert_eq!(verified.entries + gaps + told, world.hub.store.log.len() as u64);
}
