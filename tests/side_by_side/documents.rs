//! What the phones say: the same for both sides, as entries to sign and as plain documents.
//!
//! Evenings without their attestations, which the hub keeps from other members: so that every one is handed out.

use std::fmt::Write as _;

use shared_core::entry::{Condition, Entry, Fact, Place};
use shared_core::ids::{ChoreId, PersonId, SessionId};
use shared_core::log::wire;
use shared_core::time::{Instant, Span};

/// Phones that say something.
pub(crate) const PHONES: usize = 50;
/// What each of them says.
pub(crate) const ENTRIES_EACH: usize = 200;
/// Entries of one session.
const SESSION: usize = 20;

/// Whose phone this is.
pub(crate) fn member(phone: usize) -> PersonId {
    PersonId::new(format!("m{phone:02}"))
}

/// Everything that a phone says, in order, up to now.
pub(crate) fn entries(who: &PersonId, phone: usize, count: usize, now: Instant) -> Vec<Entry> {
    let each_ms = 5_000;
    let entry = |nth: usize| {
        let at = now - Span::from_ms(each_ms * i64::try_from(count - nth).unwrap_or(0));
        let number = (phone * 1_000 + nth / SESSION) as u64;
        let session = SessionId::from_entropy(number.wrapping_mul(0x9e37_79b9_7f4a_7c15).to_be_bytes());
        Entry { at, session, who: who.clone(), fact: fact(nth % SESSION, nth, at) }
    };
    (0..count).map(entry).collect()
}

fn fact(step: usize, nth: usize, at: Instant) -> Fact {
    let machine = || ["n0", "n1", "n2"][nth % 3].into();
    match step {
        0 => Fact::Entered { room: "north".into(), out_by: at + Span::from_minutes(180) },
        1 => Fact::Found { place: Place::Room("north".into()), condition: Condition::Clean, note: None },
        19 => Fact::Left,
        18 => Fact::ChoreDone { chore: ChoreId::of("north", "floor"), minutes: Some(4.0), photo: None },
        17 => Fact::ChoreDone { chore: ChoreId::of("n1", "brush"), minutes: Some(2.5), photo: None },
        16 => Fact::SweepStarted { crew: 1 },
        15 => Fact::Found {
            place: Place::Machine(machine()),
            condition: Condition::Mess,
            note: Some("chips under the vice, brushed off".to_owned()),
        },
        even if even % 2 == 0 => Fact::MachineStarted { machine: machine(), material: Some("mild steel".to_owned()) },
        _ => Fact::MachineStopped { machine: machine() },
    }
}

/// The same, a JSON document a line, with a short name that sorts in order.
pub(crate) fn documents(now: Instant) -> String {
    let mut text = String::new();
    for phone in 0..PHONES {
        for (nth, entry) in entries(&member(phone), phone, ENTRIES_EACH, now).iter().enumerate() {
            let body = wire::write(entry);
            let _ = writeln!(text, "{{\"_id\":\"{}-{nth:05}\",{}", member(phone), &body[1..]);
        }
    }
    text
}
