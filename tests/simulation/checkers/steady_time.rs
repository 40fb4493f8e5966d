//! Steady time keeps up with true time: while a page lives and nobody sets the wall clock, it is off by what the clock was
//! off when the page opened, and by no more than a told jump.
//!
//! The allowance is the 30 s under which wall and steady time may disagree, and drift. And while a page is looked at without
//! a break, steady time goes as true time goes, whatever anybody does to the wall clock.

use shared_core::clock::{ASLEEP_MS, JUMP_MS};

use crate::world::World;

pub(crate) fn check(world: &World) {
    for (number, phone) in world.phones.iter().enumerate() {
        let Some(page) = &phone.page else { continue };
        if let Some(true_ms) = phone.clocks.awake_ms(world.true_ms)
            && world.options.tick_ms < ASLEEP_MS
        {
            let went_ms = (page.steady.now() - page.began).ms();
            let apart = (went_ms - true_ms).abs();
            assert!(apart <= 2 + true_ms / 1_000, "phone {number}: steady time went {went_ms} ms in {true_ms} ms");
        }
        if phone.clocks.set > 0 || phone.clocks.is_asleep() {
            continue;
        }
        let off = (phone.clocks.wall(world.shop.base, world.true_ms) - page.steady.now()).ms();
        // A page that opens behind its own last entry starts ahead of the wall clock and stays so.
        let ahead = page.steady.wall_ahead().ms().min(0);
        assert!(off - ahead <= JUMP_MS + 1_000, "phone {number}: steady time fell {off} ms behind its wall clock");
    }
}
