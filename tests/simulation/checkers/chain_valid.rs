//! The hub's log is a valid signed log: every line, every chain, whatever the network did.
//!
//! Gaps are told exactly where a phone declared its own lines unreadable; nothing else is wrong, and `verify` says so.

use shared_core::log::chain::{ChainFault, LineFault, verify_log};
use shared_core::log::jws::JwsFault;
use shared_core::sync::message::Why;

use crate::world::World;

pub(crate) fn check(world: &World) {
    let verified = verify_log(&world.hub.store.text());
    let unsigned = world.hub.store.log.values().filter(|row| row.aside == Some(Why::Damaged) && row.erased.is_none());
    let unsigned = unsigned.count() as u64;
    let erased = world.hub.store.log.values().filter(|row| row.erased.is_some()).count() as u64;
    let rows: Vec<_> = world.hub.store.log.values().collect();
    let (mut gaps, mut told) = (0, 0);
    for problem in &verified.problems {
        match &problem.why {
            LineFault::Chain(ChainFault::Gap { .. }) => gaps += 1,
            // Set aside: its phone vouched for it and did not sign it. What comes behind follows what is not there.
            LineFault::Chain(ChainFault::Jws(JwsFault::Signature)) => {
                let row =
                    usize::try_from(problem.line - 1).ok().and_then(|line| rows.get(line)).expect("it has a line");
                assert_eq!(row.aside, Some(Why::Damaged), "not signed, and not set aside: {row:?}");
                told += 1;
            }
            // Behind what was declared lost a line may follow an entry that nobody has: `prev` names what is gone.
            why => panic!("line {} of the hub's log: {why}", problem.line),
        }
    }
    assert_eq!(told, unsigned, "what is not signed is told, and nothing else");
    let lost = world.hub.store.lost.len() as u64;
    assert_eq!(gaps, lost + unsigned, "a gap for each stretch that was declared lost or is not signed, and no other");
    // Where a gap opens before one it is told as that.
    assert!(verified.erased <= erased, "what is left of an erased line stands in its place, and nowhere else");
    assert_eq!(verified.entries + verified.erased + gaps + told, world.hub.store.log.len() as u64);
}
