//! What must hold, one file each: every checker watches one promise and knows nothing of the workload.
//!
//! Checkers see true time, every phone and the hub. They read logs plainly, in a few obvious lines, and compare with what
//! the shipping code claims; where they call it, they say so. Each finds a fault that is planted for it (`planted.rs`).
//!
//! What a screen claims is checked whenever that screen is made, an answer of the hub's when it goes out, a lie when it is
//! answered, clocks and bells after every tick. What follows from a log alone is looked at every 25 or 100 ticks and at the
//! end: nothing is taken out of a log but by erasing, so what is lost, forged or told under other rules is so still.

mod apart;
pub(crate) mod bells;
pub(crate) mod chain_valid;
pub(crate) mod converges;
pub(crate) mod covered_is_true;
pub(crate) mod erased_is_gone;
pub(crate) mod forged_is_refused;
pub(crate) mod free_after_watch;
pub(crate) mod mended_is_checked;
pub(crate) mod nothing_lost;
pub(crate) mod plain;
pub(crate) mod prefix_folds;
pub(crate) mod roster_never_drops;
pub(crate) mod rules_hold;
pub(crate) mod steady_time;
pub(crate) mod taken_is_kept;
pub(crate) mod words_count;

use std::collections::{BTreeMap, BTreeSet};

use shared_core::entry::Entry;
use shared_core::ids::DeviceId;
use shared_core::view::bench::BenchView;

use crate::store::Gone;
use crate::world::{Signed, World};

/// What was promised on screens, kept outside the phones.
#[derive(Debug)]
pub(crate) struct Expected {
    /// By phone: lines that a screen showed as done, by sequence number.
    pub(crate) confirmed: Vec<BTreeMap<u64, String>>,
    /// By phone: lines that the storage spoilt.
    pub(crate) rotten: Vec<BTreeSet<u64>>,
    /// By phone: what it said and let go of, because it was erased at the hub or is over.
    pub(crate) let_go: Vec<BTreeMap<u64, Entry>>,
    /// What each phone's member had said on another phone, and this one let go of.
    pub(crate) let_go_elsewhere: Vec<BTreeSet<(DeviceId, u64)>>,
    /// Every line whose body was ever erased at the hub, why last, and what it said if it counted.
    pub(crate) erased: BTreeMap<(DeviceId, u64), (Gone, Option<Entry>)>,
    /// Every line that a key signed.
    pub(crate) signed: Signed,
}

impl Expected {
    pub(crate) fn new(phones: usize) -> Self {
        let (confirmed, rotten) = (vec![BTreeMap::new(); phones], vec![BTreeSet::new(); phones]);
        let (let_go, let_go_elsewhere) = (vec![BTreeMap::new(); phones], vec![BTreeSet::new(); phones]);
        Self { confirmed, rotten, let_go, let_go_elsewhere, erased: BTreeMap::new(), signed: Signed::new() }
    }

    pub(crate) fn confirm(&mut self, phone: usize, lines: Vec<(u64, String)>) {
        self.confirmed[phone].extend(lines);
    }

    pub(crate) fn signed(&mut self, dev: &DeviceId, lines: &[(u64, String)]) {
        self.signed.entry(dev.clone()).or_default().extend(lines.iter().map(|(_, line)| line.clone()));
    }
}

/// After every tick; what is dear is asked less often.
pub(crate) fn each_tick(world: &mut World, tick: usize) {
    steady_time::check(world);
    if tick.is_multiple_of(25) {
        nothing_lost::on_phones(world);
        erased_is_gone::on_phones(world);
        roster_never_drops::check(world);
    }
    if tick.is_multiple_of(100) {
        forged_is_refused::check(world);
        rules_hold::check(world);
        words_count::at_the_hub(world);
        covered_is_true::gaps(world);
    }
}

/// After every look at a screen with a session.
pub(crate) fn each_look(world: &mut World, phone: usize, bench: &BenchView) {
    covered_is_true::check(world, phone, bench);
    free_after_watch::check(world, phone, bench);
}

/// When all is healed and quiet.
pub(crate) fn at_the_end(world: &mut World) {
    nothing_lost::on_phones(world);
    nothing_lost::at_the_hub(world);
    erased_is_gone::on_phones(world);
    chain_valid::check(world);
    forged_is_refused::check(world);
    forged_is_refused::honest_lines_count(world);
    rules_hold::check(world);
    words_count::at_the_hub(world);
    if forged_is_refused::forks_are_told(world) == Ok(true) {
        world.tally.count("lie: a fork was told");
    }
    roster_never_drops::check(world);
    covered_is_true::gaps(world);
    prefix_folds::check(world);
}
