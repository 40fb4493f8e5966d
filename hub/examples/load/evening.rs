//! What the phones say: ordinary evenings of ten lines, and a watch round now and then.

use shared_core::entry::{Condition, Entry, Fact, Place};
use shared_core::ids::{ChoreId, PersonId, SessionId};
use shared_core::time::{Instant, Span};

/// Lines of one evening.
pub(crate) const LINES: usize = 10;

/// A member's evening that begins at `begin`. `number` is its own.
pub(crate) fn evening(who: &PersonId, number: u64, begin: Instant) -> Vec<Entry> {
    let machine = || ["n0", "n1", "n2"][usize::try_from(number % 3).unwrap_or_default()].into();
    let chore = |of: &str, name: &str, minutes| Fact::ChoreDone {
        chore: ChoreId::of(of, name),
        minutes: Some(minutes),
        photo: None,
    };
    let said: [(i64, Fact); LINES] = [
        (0, Fact::Entered { room: "north".into(), out_by: begin + Span::from_minutes(150) }),
        (0, Fact::Attested { statement: "eyes".into() }),
        (1, Fact::Found { place: Place::Room("north".into()), condition: Condition::Clean, note: None }),
        (3, Fact::MachineStarted { machine: machine(), material: Some("mild steel".to_owned()) }),
        (29, Fact::MachineStopped { machine: machine() }),
        (31, Fact::SweepStarted { crew: 1 }),
        (35, chore("n1", "brush", 2.5)),
        (61, Fact::WatchRound),
        (88, chore("north", "floor", 6.0)),
        (91, Fact::Left),
    ];
    let session = session(number);
    let entry = |(minutes, fact)| {
        let (at, session) = (begin + Span::from_minutes(minutes), session.clone());
        Entry { at, session, who: who.clone(), fact }
    };
    said.into_iter().map(entry).collect()
}

/// A line that everybody may be handed.
pub(crate) fn round(who: &PersonId, number: u64, at: Instant) -> Entry {
    Entry { at, session: session(number), who: who.clone(), fact: Fact::WatchRound }
}

fn session(number: u64) -> SessionId {
    SessionId::from_entropy(number.wrapping_mul(0x9e37_79b9_7f4a_7c15).to_be_bytes())
}
