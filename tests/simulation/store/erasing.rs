//! Erasing at the hub, as its SQL does it: bodies go at somebody's wish or because they are over, places and hashes stay,
//! and phones are told of stretches to forget.
//!
//! What is in force is `shared_core::retention`'s to say; it is asked of every line that is kept, by when the hub heard it.

use std::collections::{BTreeMap, BTreeSet};

use shared_core::entry::Entry;
use shared_core::ids::{DeviceId, PersonId};
use shared_core::log::jws;
use shared_core::retention::{InForce, Said, named};
use shared_core::sync::cursor::Cursor;
use shared_core::sync::message::{Stretch, SyncAnswer};
use shared_core::time::Instant;

use super::{Row, Store};
use crate::planted::Planted;

/// A phone is told of so many stretches at once: few here, so that there are pages of them (the hub tells 500).
const STRETCHES_MAX: usize = 3;

/// Lines before a place of which it is looked for what is gone, and so many stretches of them are told (the hub's own numbers).
const LOOKED_BACK: u64 = 2_000;
const GONE_MAX: usize = 200;

/// Why a body was erased.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Gone {
    /// Somebody wanted it.
    Wanted,
    /// It was over.
    Over,
}

/// Lines that phones are to forget.
#[derive(Clone, Debug)]
pub(crate) struct Erasure {
    /// Its number, never given twice by one store.
    pub(crate) id: u64,
    pub(crate) stretch: Stretch,
    made: Instant,
}

/// A line whose body went, and what it said if it counted.
#[derive(Clone, Debug)]
pub(crate) struct Lost {
    pub(crate) dev: DeviceId,
    pub(crate) seq: u64,
    pub(crate) why: Gone,
    pub(crate) said: Option<Entry>,
}

impl Store {
    /// Erases all about a member that is not in force.
    pub(crate) fn erase_about(
        &mut self,
        member: &PersonId,
        whose: &BTreeMap<DeviceId, PersonId>,
        now: Instant,
        planted: Option<Planted>,
    ) -> Vec<Lost> {
        let in_force = self.in_force();
        let about = |row: &Row| {
            let names = |entry: &Entry| named(&entry.fact).contains(member) && jws::open(&row.jws).is_ok();
            whose.get(&row.dev) == Some(member) || row.entry.as_ref().is_some_and(names)
        };
        let stays = |row: &Row| {
            let held = said(row).is_some_and(|said| in_force.holds(&said));
            held && planted != Some(Planted::HubErasesWhatIsInForce)
        };
        let places = self.places_of(|row| about(row) && !stays(row));
        let lost = self.erase(&places, Gone::Wanted);
        let mut gone: BTreeMap<&DeviceId, Vec<u64>> = BTreeMap::new();
        for one in &lost {
            gone.entry(&one.dev).or_default().push(one.seq);
        }
        for (dev, mut seqs) in gone {
            seqs.sort_unstable();
            for stretch in seqs.chunk_by(|one, next| *next == one + 1) {
                self.erasures_made += 1;
                let stretch = Stretch { dev: dev.clone(), from: stretch[0], to: stretch[stretch.len() - 1] };
                self.erasures.push(Erasure { id: self.erasures_made, stretch, made: now });
            }
        }
        lost
    }

    /// Erases what was learned before `limit` and is in force no longer.
    pub(crate) fn retire(&mut self, limit: Instant) -> Vec<Lost> {
        let in_force = self.in_force();
        let over = |row: &Row| said(row).map_or(row.received < limit, |said| in_force.is_over(&said, limit));
        let places = self.places_of(over);
        self.erasures.retain(|erasure| erasure.made >= limit);
        self.erase(&places, Gone::Over)
    }

    /// Fills in what a phone is to forget since the stretch of this number. In a new life all is told anew: in a copy that was
    /// put back a number may stand for another stretch.
    pub(crate) fn forgotten(&self, since: u64, planted: Option<Planted>, answer: &mut SyncAnswer) {
        let (asked, life) = (Cursor::of(since), self.life());
        let goes_on = asked.life == life || planted == Some(Planted::HubForgetsLivesOfErasures);
        let from = if goes_on { asked.place } else { 0 };
        let (mut last, mut told) = (from, 0);
        for erasure in self.erasures.iter().filter(|erasure| erasure.id > from) {
            if told == STRETCHES_MAX {
                answer.more = true;
                break;
            }
            (last, told) = (erasure.id, told + 1);
            answer.forget.push(erasure.stretch.clone());
        }
        answer.forgot = Cursor { life, place: last }.number();
    }

    /// Adds what is gone of the lines just before the place of a cursor, if anything behind it is gone as well: whoever goes on
    /// from there was away for longer than the log is kept, and may hear of no end of what they heard begin.
    pub(crate) fn gone_before(&self, dev: &DeviceId, cursor: u64, answer: &mut SyncAnswer) {
        let place = Cursor::of(cursor).holds_to(&self.lives, self.newest());
        if place == 0 || !self.log.range(place + 1..).any(|(_, row)| row.erased.is_some()) {
            return;
        }
        let before = self.log.range(place.saturating_sub(LOOKED_BACK) + 1..=place);
        let gone = before.filter(|(_, row)| row.erased.is_some() && row.dev != *dev);
        let mut gone: Vec<(&DeviceId, u64)> = gone.map(|(_, row)| (&row.dev, row.seq)).collect();
        gone.sort();
        let runs = gone.chunk_by(|one, next| one.0 == next.0 && one.1 + 1 == next.1);
        let stretch =
            |run: &[(&DeviceId, u64)]| Stretch { dev: run[0].0.clone(), from: run[0].1, to: run[run.len() - 1].1 };
        answer.forget.extend(runs.map(stretch).take(GONE_MAX));
    }

    /// The stretches up to a number of this life, all that a phone with that number has heard of.
    pub(crate) fn told_to_forget(&self, forgot: u64) -> impl Iterator<Item = &Erasure> {
        let cursor = Cursor::of(forgot);
        let to = if cursor.life == self.life() { cursor.place } else { 0 };
        self.erasures.iter().take_while(move |erasure| erasure.id <= to)
    }

    /// Whether a phone with that number has heard of all of them.
    pub(crate) fn all_told(&self, forgot: u64) -> bool {
        self.told_to_forget(forgot).count() == self.erasures.len()
    }

    /// In so many answers a phone hears of all of them.
    pub(crate) fn pages_to_forget(&self) -> usize {
        self.erasures.len().div_ceil(STRETCHES_MAX)
    }

    fn in_force(&self) -> InForce {
        let mut in_force = InForce::default();
        self.log.values().filter_map(said).for_each(|said| in_force.note(&said));
        in_force
    }

    fn places_of(&self, which: impl Fn(&Row) -> bool) -> BTreeSet<u64> {
        let kept = self.log.iter().filter(|(_, row)| row.erased.is_none());
        kept.filter(|(_, row)| which(row)).map(|(place, _)| *place).collect()
    }

    fn erase(&mut self, places: &BTreeSet<u64>, why: Gone) -> Vec<Lost> {
        let mut lost = Vec::new();
        for place in places {
            let Some(row) = self.log.get_mut(place) else { continue };
            let said = row.entry.take();
            (row.jws, row.received, row.book, row.erased) = (String::new(), Instant::default(), None, Some(why));
            lost.push(Lost { dev: row.dev.clone(), seq: row.seq, why, said });
        }
        self.changes += u64::from(!lost.is_empty());
        lost
    }
}

/// What of a line may be in force; nothing of one that counts for nothing.
fn said(row: &Row) -> Option<Said<'_>> {
    row.entry.as_ref().map(|entry| Said { learned: row.received, ..Said::of(entry) })
}
