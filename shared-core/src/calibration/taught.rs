//! What a log had taught of chores at each instant, for as many instants as are asked for in their order.
//!
//! Only the last [`OBSERVED_MOST`] times of a chore teach anything. So of the years before the first instant no more is read
//! than it takes to have that many of each chore. Judges nothing.

use crate::estimate::History;
use crate::ids::ChoreId;
use crate::rulebook::Rulebook;
use crate::state::{self, OBSERVED_MOST, State};
use crate::time::Instant;

/// What a log teaches as it grows.
pub(super) struct Taught {
    to_come: Vec<Seen>,
    history: History,
}

/// The observed times of one chore.
struct Seen {
    chore: ChoreId,
    /// When, and in how many milliminutes. Once all are known, oldest first.
    times: Vec<(Instant, i64)>,
    /// So many of them were taken into what was learned.
    taken: usize,
    /// How many of them were known at the first instant.
    known_before: usize,
}

impl Taught {
    /// For instants from `first` on. Times of chores that the rulebook no longer has are passed over: nothing plans them.
    pub(super) fn of(book: &Rulebook, state: &State, first: Instant) -> Self {
        let (mut wanted, mut to_come) = (all_of(book), Vec::new());
        for session in state.latest_first() {
            to_come.extend(wanted.extract_if(.., |seen| seen.is_enough(first, session.last_at)));
            if wanted.is_empty() {
                break;
            }
            for seen in &mut wanted {
                let Some(done) = session.chores.get(&seen.chore) else { continue };
                let Some(milli) = done.minutes.and_then(state::believable_milli) else { continue };
                seen.times.push((done.at, milli));
                seen.known_before += usize::from(done.at <= first);
            }
        }
        to_come.append(&mut wanted);
        for seen in &mut to_come {
            seen.times.sort_unstable();
        }
        Self { to_come, history: History::new() }
    }

    /// What had been learned by an instant; they are asked for in their order.
    #[expect(clippy::cast_precision_loss, reason = "milliminutes of a chore are few")]
    pub(super) fn by(&mut self, now: Instant) -> &History {
        for seen in &mut self.to_come {
            let until = seen.times.partition_point(|(at, _)| *at <= now);
            if until > seen.taken {
                seen.taken = until;
                let last = &seen.times[until.saturating_sub(OBSERVED_MOST)..until];
                let minutes = last.iter().map(|(_, milli)| *milli as f64 / 1000.0).collect();
                self.history.insert(seen.chore.clone(), minutes);
            }
        }
        &self.history
    }
}

impl Seen {
    /// Whether nothing that happened until `until` can teach anything at `first` or later.
    fn is_enough(&self, first: Instant, until: Instant) -> bool {
        let counts = |(at, _): &&(Instant, i64)| until < *at && *at <= first;
        self.known_before >= OBSERVED_MOST && self.times.iter().filter(counts).count() >= OBSERVED_MOST
    }
}

fn all_of(book: &Rulebook) -> Vec<Seen> {
    let of_machines = book.machines.iter().flat_map(|one| one.chores.iter().map(|chore| (one.id.as_str(), chore)));
    let of_rooms = book.rooms.iter().flat_map(|one| one.chores.iter().map(|chore| (one.id.as_str(), chore)));
    let chore = |(owner, chore): (&str, &crate::rulebook::Chore)| ChoreId::of(owner, &chore.id);
    of_machines
        .chain(of_rooms)
        .map(|one| Seen { chore: chore(one), times: Vec::new(), taken: 0, known_before: 0 })
        .collect()
}
