//! `cargo xtask bench --hub [PART]`: what one hub does for ten thousand phones that have joined, and how long each of them waits.
//!
//! The hub is the release, with a database on the disk and every commit forced to it. Its log holds a million entries of old
//! evenings. The phones (`hub/examples/load`) share the machine's cores with it; what they take is told beside what it takes.
//! When a sync is due does not depend on the hub: one that is late counts from when it was due, so that a slow hub hides nothing.

mod crowd;
mod live;
mod serving;
mod share;
mod shop;
mod start;
mod sync;
mod table;
mod two;

use anyhow::Result;

use self::crowd::check_us;
use self::shop::Shop;

/// What is measured.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Part {
    /// How long a hub takes until it answers.
    Start,
    /// Many syncs.
    Sync,
    /// Many open streams.
    Live,
    /// Two hubs on one database.
    Two,
}

const ALL: [(Part, &str); 4] = [(Part::Start, "start"), (Part::Sync, "sync"), (Part::Live, "live"), (Part::Two, "two")];

impl Part {
    /// The part of that name.
    pub(crate) fn named(name: &str) -> Option<Self> {
        ALL.iter().find(|(_, known)| *known == name).map(|(part, _)| *part)
    }
}

/// Phones that have joined.
const PHONES: u32 = 10_000;
/// Entries that the log holds.
const ENTRIES: u32 = 1_000_000;
/// Syncs that are due in a second.
const RATE: u32 = 500;
/// So long until each phone has had its turn.
const LAP_S: u32 = PHONES / RATE;

/// Measures a part, or all of them one after the other.
pub(crate) fn run(part: Option<Part>) -> Result<()> {
    let programs = shop::build()?;
    println!("one line opened and its signature checked, alone on a core: {:.1} µs", check_us(&programs)?);
    for (each, _) in ALL.iter().filter(|(each, _)| part.is_none_or(|part| part == *each)) {
        match each {
            Part::Two => two::run(&programs)?,
            Part::Start | Part::Sync | Part::Live => {
                let shop = Shop::kept(&programs, ENTRIES)?;
                match each {
                    Part::Start => start::run(&shop)?,
                    Part::Sync => sync::run(&shop)?,
                    Part::Live | Part::Two => live::run(&shop)?,
                }
            }
        }
    }
    Shop::forget()
}
