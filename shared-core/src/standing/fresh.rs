//! Whether a sign-off is fresh: used, or given anew, within the days that its training allows.
//!
//! What is known of uses is this phone's log and, of the time before it had one, what the hub told it. A rulebook asks for no
//! longer than the log is kept. Whose use of what is known nowhere counts as none: the next step is a turn with a signer.

use crate::ids::PersonId;
use crate::members::Member;
use crate::rulebook::Rulebook;
use crate::standing::Key;
use crate::state::State;
use crate::time::{Instant, Span};

/// When a sign-off was last used, or given, where its training asks for that: the days it allows, and the instant, if one is
/// known.
pub fn kept_by(book: &Rulebook, state: &State, member: &Member, training: &str) -> Option<(u32, Option<Instant>)> {
    let days = book.training(training).and_then(|training| training.use_within_days)?;
    let last = last_used(book, state, &member.id, training)
        .max(member.used.get(training).copied())
        .max(member.said.get(&Key::Training(training.to_owned()).name()).copied());
    Some((days, last))
}

/// The same, of a sign-off that has gone stale by now.
pub fn stale(
    book: &Rulebook,
    state: &State,
    member: &Member,
    training: &str,
    now: Instant,
) -> Option<(u32, Option<Instant>)> {
    kept_by(book, state, member, training).filter(|(days, last)| last.is_none_or(|last| now >= last + days_span(*days)))
}

/// So many days, of 24 hours.
pub fn days_span(days: u32) -> Span {
    Span::from_minutes(i64::from(days) * 24 * 60)
}

fn last_used(book: &Rulebook, state: &State, who: &PersonId, training: &str) -> Option<Instant> {
    let machines = book.machines.iter().filter(|machine| machine.training == training);
    machines.filter_map(|machine| state.used.get(&(who.clone(), machine.id.clone())).copied()).max()
}
