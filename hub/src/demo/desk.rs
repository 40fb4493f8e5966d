//! What the demo's steward and members said of earlier lines: a repair that was checked, a part that is waited for, a mess
//! that was asked about, two incidents. Draws no chance: the evenings stay as they are.

use shared_core::entry::{Condition, Entry, Fact, Happened, Matter, Of, Place, Step, Told};
use shared_core::ids::{MachineId, PersonId, SessionId};
use shared_core::time::{HOUR_MS, Instant, Span};

use crate::shop::Rules;

const DAY: Span = Span::from_ms(24 * HOUR_MS);
/// Messes older than this were asked about and seen to.
const ASKED_DAYS: i64 = 5;

/// More entries, for a log that is told up to `now`.
pub(super) fn entries(rules: &Rules, told: &[Entry], now: Instant) -> Vec<Entry> {
    let Some(steward) = rules.members.iter().find(|member| member.steward).map(|member| member.id.clone()) else {
        return Vec::new();
    };
    let mut more = repairs(told, &steward, now);
    more.extend(messes(told, &steward, now));
    more.extend(incidents(rules, &steward, now));
    more.retain(|entry| entry.at < now);
    more
}

fn ago(now: Instant, days: i64, minutes: i64) -> Instant {
    now - Span::from_ms(DAY.ms() * days) + Span::from_minutes(minutes)
}

fn said(at: Instant, who: &PersonId, fact: Fact) -> Entry {
    Entry { at, session: SessionId::outside(), who: who.clone(), fact }
}

fn note(of: &Of, step: Step, words: &str) -> Fact {
    let note = Some(words.to_owned()).filter(|words| !words.is_empty());
    Fact::Noted { of: of.clone(), step, note }
}

/// What was mended was checked by the steward; for what is out a part is waited for.
fn repairs(told: &[Entry], steward: &PersonId, now: Instant) -> Vec<Entry> {
    let mut more = Vec::new();
    let cleared_at = |machine: &MachineId, from: Instant| {
        let clears = |entry: &&Entry| {
            entry.at > from && matches!(&entry.fact, Fact::TagCleared { machine: of } if of == machine)
        };
        told.iter().find(clears).map(|entry| entry.at)
    };
    for entry in told {
        let Fact::TaggedOut { machine, .. } = &entry.fact else { continue };
        let of = Of { matter: Matter::Tag(machine.clone()), at: entry.at, who: entry.who.clone() };
        let (by, hour) = (&entry.who, Span::from_ms(HOUR_MS));
        let waits = |until| Step::WaitsForPart { until: Some(until) };
        match cleared_at(machine, entry.at) {
            Some(at) if by != steward => {
                more.push(said(entry.at + hour, by, note(&of, waits(at), "a new one is ordered")));
                more.push(said(at - hour, by, note(&of, Step::Mended, "changed, and run for ten minutes")));
                more.push(said(at, steward, note(&of, Step::Checked, "")));
            }
            Some(_) => {}
            None => {
                more.push(said(entry.at + hour, by, note(&of, Step::Remarked, "the clamp is worn, not the guard")));
                let until = now + Span::from_ms(DAY.ms() * 6);
                more.push(said(entry.at + DAY, steward, note(&of, waits(until), "clamp is on its way")));
            }
        }
    }
    more
}

/// Old messes were asked about, and it is noted how that ended.
fn messes(told: &[Entry], steward: &PersonId, now: Instant) -> Vec<Entry> {
    let is_old = |entry: &&Entry| entry.at < ago(now, ASKED_DAYS, 0);
    let messes =
        told.iter().filter(is_old).filter(|entry| matches!(entry.fact, Fact::Found { condition: Condition::Mess, .. }));
    let noted = messes.flat_map(|entry| {
        let of = Of { matter: Matter::Found, at: entry.at, who: entry.who.clone() };
        let later = |hours: i64| entry.at + Span::from_ms(hours * HOUR_MS);
        [
            said(later(14), steward, note(&of, Step::Asked, "")),
            said(later(20), steward, note(&of, Step::SeenTo, "was called away; a second pan hangs there now")),
        ]
    });
    noted.collect()
}

/// A near miss that nobody has looked into yet, and an older one after which something was changed.
fn incidents(rules: &Rules, steward: &PersonId, now: Instant) -> Vec<Entry> {
    let mut others = rules.members.iter().filter(|member| !member.steward && member.inducted_until.is_some());
    let (Some(one), Some(other)) = (others.next(), others.next()) else { return Vec::new() };
    let hot = rules.rulebook.machines.iter().find(|machine| machine.hot_work);
    let told = |kind, first_aid| Told {
        place: hot.map(|machine| Place::Machine(machine.id.clone())),
        kind: Some(kind),
        first_aid: Some(first_aid),
    };
    let (old, new) = (ago(now, 12, 30), ago(now, 2, 15));
    let of = Of { matter: Matter::Incident, at: old, who: one.id.clone() };
    let cut = "Caught a finger on a fresh edge while carrying sheet, without gloves. Rinsed and covered it.";
    let spark = "A spark went through the gap beside the screen and onto the rag bin. Its lid was shut.";
    vec![
        said(old, &one.id, Fact::Incident { note: cut.into(), told: told(Happened::Incident, true) }),
        said(ago(now, 11, 0), steward, note(&of, Step::Changed, "gloves for carrying hang beside the rack now")),
        said(ago(now, 11, 5), steward, note(&of, Step::SeenTo, "")),
        said(new, &other.id, Fact::Incident { note: spark.into(), told: told(Happened::NearMiss, false) }),
    ]
}
