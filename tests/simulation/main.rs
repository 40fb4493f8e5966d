//! The simulation: several phones, their owners and one hub, running the code that ships, under a seed.
//!
//! Everything that can differ between two evenings is drawn from the seed: who comes, how clocks go, what breaks. A faulty
//! phase is followed by a healed one, in which all ends must come together. What must hold is in `checkers`, one file a
//! promise; what people do in `workload`; what goes wrong in `net`, `disk`, `clocks` and `adversary`.
//!
//! A failure prints its seed and the one command that replays it:
//! `SEED=123 cargo test -p tests --test simulation one_seed -- --nocapture`.

mod adversary;
mod buddying;
mod chance;
mod checkers;
mod clocks;
mod disk;
mod hub;
mod net;
mod options;
mod phone;
mod shop;
mod tally;
mod workload;
mod world;

use std::time::{Instant, SystemTime, UNIX_EPOCH};

use tally::Tally;

/// The seeds that every change is tried with.
const FIXED_SEEDS: std::ops::Range<u64> = 0..1_000;

/// What the fixed seeds must have reached together: else a checker looked at nothing.
const REACHED: [&str; 11] = [
    "act: ConfirmBuddy done",
    "act: FinishRound done",
    "act: Leave done",
    "act: NoteJump done",
    "bell: Sweep",
    "bell: BuddyLapsed",
    "cover: shown as covered",
    "cover: gaps in reports",
    "lie: a fork was told",
    "watch: looked at",
    "roster: names looked at",
];

fn run_all(seeds: impl Iterator<Item = u64> + Send) -> Tally {
    let seeds = std::sync::Mutex::new(seeds);
    let next = || seeds.lock().ok()?.next();
    let workers = std::thread::available_parallelism().map_or(1, std::num::NonZero::get);
    std::thread::scope(|scope| {
        let work = || {
            let mut tally = Tally::default();
            while let Some(seed) = next() {
                tally.merge(&world::run(seed));
            }
            tally
        };
        let workers: Vec<_> = (0..workers).map(|_| scope.spawn(work)).collect();
        let mut all = Tally::default();
        for worker in workers {
            match worker.join() {
                Ok(tally) => all.merge(&tally),
                Err(panic) => std::panic::resume_unwind(panic),
            }
        }
        all
    })
}

#[test]
fn fixed_seeds() {
    let began = Instant::now();
    let tally = run_all(FIXED_SEEDS);
    eprintln!("{}\nin {:?}", tally.lines(), began.elapsed());
    for what in REACHED {
        assert!(tally.of(what) > 0, "no run reached `{what}`");
    }
}

/// The seed in `SEED`; without one a fresh seed, which a failure names.
#[test]
fn one_seed() {
    let given = std::env::var("SEED").ok().map(|seed| seed.parse().expect("SEED is a whole number"));
    let fresh = || SystemTime::now().duration_since(UNIX_EPOCH).map_or(0, |since| since.as_secs() * 1_000_003);
    let seed = given.unwrap_or_else(fresh);
    eprintln!("seed {seed}");
    eprintln!("{}", world::run(seed).lines());
}
