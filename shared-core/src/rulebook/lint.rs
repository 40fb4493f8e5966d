//! What a rulebook's values must mean together: ids that are one thing's alone, references that lead somewhere,
//! chores that can be done, times that fit in a session.
//!
//! Every check runs, whatever the others found. Shape (keys, types, ranges) is not looked at here: [`super::parse`]
//! has reported it, and its stand-ins (empty ids) are passed over so that nothing is complained of twice.

use super::cycle::{Before, rings};
use super::reading::Reading;
use super::suggest::nearest;
use super::{Chore, Machine, Room, Rulebook, hazards, walk};
use crate::ids::ChoreId;
use crate::ordered::{Map, Set};
use crate::round::Every;

/// In a room chore's `after`: all chores of the machines that stand in that room.
const MACHINES: &str = "machines";

/// Notes every problem of meaning in `book`.
pub(super) fn check(book: &Rulebook, reading: &Reading<'_>) {
    shop(book, reading);
    something_is_there(book, reading);
    ids_are_unique(book, reading);
    references_resolve(book, reading);
    gear_is_known(book, reading);
    times_make_sense(book, reading);
    machines_make_sense(book, reading);
    chores_can_follow(book, reading);
    hazards::check(book, reading);
    walk::check(book, reading);
}

/// A machine or a room, where it is in the file, its id and its chores.
fn owners(book: &Rulebook) -> impl Iterator<Item = (String, &str, &[Chore])> {
    let rooms = book.rooms.iter().enumerate().map(|(n, room)| (format!("room.{n}"), room.id.as_str(), &*room.chores));
    let machines = book.machines.iter().enumerate();
    rooms.chain(machines.map(|(n, machine)| (format!("machine.{n}"), machine.id.as_str(), &*machine.chores)))
}

fn did_you_mean<'c>(word: &str, candidates: impl IntoIterator<Item = &'c str>) -> Option<String> {
    nearest(word, candidates).map(|candidate| format!("did you mean `{candidate}`?"))
}

/// The nearest id, or all of them where they are few enough to be read.
pub(super) fn one_of(word: &str, ids: &[&str]) -> Option<String> {
    did_you_mean(word, ids.iter().copied()).or_else(|| {
        let named: Vec<String> = ids.iter().filter(|id| !id.is_empty()).map(|id| format!("`{id}`")).collect();
        (1..=6).contains(&named.len()).then(|| format!("there is {}", named.join(", ")))
    })
}

fn shop(book: &Rulebook, reading: &Reading<'_>) {
    let zone = &book.shop.time_zone;
    if !zone.is_empty() && !is_zone_name(zone) {
        let hint = "a name such as `Europe/Amsterdam` or `UTC`: an offset would be wrong half the year".to_owned();
        reading.problem_at("shop.time_zone", format!("`{zone}` is not an IANA time zone"), Some(hint));
    }
    if let Some(number) = &book.shop.emergency
        && !number.trim().is_empty()
        && !(number.chars().any(|c| c.is_ascii_digit())
            && number.chars().all(|c| c.is_ascii_digit() || " +-()".contains(c)))
    {
        let hint = "only digits, `+`, `-`, brackets and blanks, as it is dialled".to_owned();
        reading.problem_at("shop.emergency", format!("`{number}` is not a number to call"), Some(hint));
    }
}

/// The shape of an IANA time zone name: `Area/Place`, or one of the few that stand alone. Whether there is such a
/// zone is for the hub to say, which has the database.
fn is_zone_name(zone: &str) -> bool {
    let parts: Vec<&str> = zone.split('/').collect();
    let word = |part: &str| {
        part.starts_with(|c: char| c.is_ascii_uppercase())
            && part.chars().all(|c| c.is_ascii_alphanumeric() || "_+-".contains(c))
    };
    let alone =
        ["UTC", "GMT", "CET", "MET", "EET", "WET", "EST", "MST", "HST", "EST5EDT", "CST6CDT", "MST7MDT", "PST8PDT"];
    parts.iter().all(|part| word(part)) && (alone.contains(&zone) || (2..=3).contains(&parts.len()))
}

fn something_is_there(book: &Rulebook, reading: &Reading<'_>) {
    if book.statements.is_empty() && reading.has("statement") {
        reading.problem_at(
            "statement",
            "there is no [[statement]]",
            Some("a shop asks something at its door".to_owned()),
        );
    }
    if book.rooms.is_empty() && reading.has("room") {
        reading.problem_at("room", "there is no [[room]]", Some("a session happens in a room".to_owned()));
    }
}

fn ids_are_unique(book: &Rulebook, reading: &Reading<'_>) {
    let unique = |what: &str, ids: &mut dyn Iterator<Item = (String, &str)>| {
        let mut seen = Set::new();
        for (path, id) in ids {
            if !id.is_empty() && !seen.insert(id) {
                reading.problem_at(&format!("{path}.id"), format!("`{id}` is the id of another {what}"), None);
            }
        }
    };
    let numbered = |table: &'static str| move |(n, id)| (format!("{table}.{n}"), id);
    unique("statement", &mut book.statements.iter().map(|s| s.id.as_str()).enumerate().map(numbered("statement")));
    unique("gear", &mut book.gear.iter().map(|g| g.id.as_str()).enumerate().map(numbered("gear")));
    unique("round", &mut book.rounds.iter().map(|r| r.id.as_str()).enumerate().map(numbered("round")));
    unique("extinguisher", &mut book.extinguishers.iter().map(|e| &*e.id).enumerate().map(numbered("extinguisher")));
    unique("exit", &mut book.exits.iter().map(|e| &*e.id).enumerate().map(numbered("exit")));
    unique("training", &mut book.trainings.iter().map(|t| &*t.id).enumerate().map(numbered("training")));
    unique("stop", &mut book.stops.iter().map(|s| s.id.as_str()).enumerate().map(numbered("stop")));
    // One namespace for both, because a chore is `owner/chore`.
    unique("room or machine", &mut owners(book).map(|(path, id, _)| (path, id)));
    for (path, owner, chores) in owners(book) {
        let ids = chores.iter().map(|chore| chore.id.as_str()).enumerate();
        unique(&format!("chore of `{owner}`"), &mut ids.map(|(n, id)| (format!("{path}.chore.{n}"), id)));
    }
}

fn references_resolve(book: &Rulebook, reading: &Reading<'_>) {
    let rooms: Vec<&str> = book.rooms.iter().map(|room| room.id.as_str()).collect();
    let stands_in = |path: String, room: &str| {
        if !room.is_empty() && !rooms.contains(&room) {
            reading.problem_at(&path, format!("there is no room `{room}`"), one_of(room, &rooms));
        }
    };
    for (n, machine) in book.machines.iter().enumerate() {
        stands_in(format!("machine.{n}.room"), machine.room.as_str());
    }
    for (n, round) in book.rounds.iter().enumerate() {
        stands_in(format!("round.{n}.room"), round.room.as_str());
    }
    for (n, stop) in book.stops.iter().enumerate() {
        stands_in(format!("stop.{n}.room"), stop.room.as_str());
    }
    for (n, extinguisher) in book.extinguishers.iter().enumerate() {
        stands_in(format!("extinguisher.{n}.room"), extinguisher.room.as_str());
    }
    for (n, exit) in book.exits.iter().enumerate() {
        stands_in(format!("exit.{n}.room"), exit.room.as_str());
    }
}

fn gear_is_known(book: &Rulebook, reading: &Reading<'_>) {
    let known: Vec<&str> = book.gear.iter().map(|gear| gear.id.as_str()).collect();
    for (path, _, chores) in owners(book) {
        for (n, chore) in chores.iter().enumerate() {
            let Some(gear) = &chore.gear else { continue };
            if !gear.as_str().is_empty() && !known.contains(&gear.as_str()) {
                let what = format!("there is no gear `{gear}`");
                reading.problem_at(&format!("{path}.chore.{n}.gear"), what, one_of(gear.as_str(), &known));
            }
        }
    }
}

fn times_make_sense(book: &Rulebook, reading: &Reading<'_>) {
    let session_minutes = book.shop.session_hours_max.saturating_mul(60);
    if book.reserve.floor_minutes >= session_minutes {
        let what = format!("a floor of {} minutes leaves no time to work", book.reserve.floor_minutes);
        reading.problem_at(
            "reserve.floor_minutes",
            what,
            Some(format!("a session is {session_minutes} minutes at most")),
        );
    }
    if book.fire_watch.minutes >= session_minutes && book.machines.iter().any(|machine| machine.hot_work) {
        let what = format!("a watch of {} minutes leaves no time for hot work", book.fire_watch.minutes);
        reading.problem_at("fire_watch.minutes", what, Some(format!("a session is {session_minutes} minutes at most")));
    }
    for (n, round) in book.rounds.iter().enumerate() {
        if !round.every.trim().is_empty() && Every::parse(&round.every).is_none() {
            let hint = "an ISO 8601 duration: `P1D` is a day, `P1M` a month, `PT12H` twelve hours".to_owned();
            reading.problem_at(&format!("round.{n}.every"), format!("`{}` is not how often", round.every), Some(hint));
        }
    }
    for (path, _, chores) in owners(book) {
        for (n, chore) in chores.iter().enumerate() {
            if chore.cap_milli.is_some_and(|cap| cap < chore.minutes_milli) {
                let hint = "a cap is the most that the chore may grow to".to_owned();
                reading.problem_at(&format!("{path}.chore.{n}.cap"), "`cap` is less than `minutes`", Some(hint));
            }
        }
    }
}

fn machines_make_sense(book: &Rulebook, reading: &Reading<'_>) {
    for (n, machine) in book.machines.iter().enumerate() {
        let Machine { wear, never_wear, name, .. } = machine;
        for (at, never) in never_wear.iter().enumerate() {
            if !never.is_empty() && wear.contains(never) {
                let what = format!("`{never}` is both worn and never worn at {name}");
                reading.problem_at(&format!("machine.{n}.never_wear.{at}"), what, None);
            }
        }
    }
}

/// Resolves every `after`, and finds the rings in what they say.
fn chores_can_follow(book: &Rulebook, reading: &Reading<'_>) {
    let all: Map<ChoreId, String> = owners(book)
        .flat_map(|(path, owner, chores)| {
            let number = chores.iter().enumerate();
            number.map(move |(n, chore)| (ChoreId::of(owner, &chore.id), format!("{path}.chore.{n}")))
        })
        .collect();
    let mut before = Before::new();
    for (path, owner, chores) in owners(book) {
        let room = book.rooms.iter().find(|room| room.id.as_str() == owner && path.starts_with("room."));
        for (n, chore) in chores.iter().enumerate() {
            let path = format!("{path}.chore.{n}");
            if chore.id == MACHINES {
                let hint = "in a room chore's `after` it means all machine chores".to_owned();
                reading.problem_at(&format!("{path}.id"), format!("`{MACHINES}` cannot be a chore's id"), Some(hint));
            }
            let earlier = before.entry(ChoreId::of(owner, &chore.id)).or_default();
            for (at, after) in chore.after.iter().enumerate().filter(|(_, after)| !after.is_empty()) {
                match resolve(book, room, owner, after) {
                    Resolved::Machines(chores) => earlier.extend(chores),
                    Resolved::One(id) if all.contains_key(&id) => {
                        earlier.insert(id);
                    }
                    Resolved::One(_) => {
                        let what = format!("there is no chore `{after}` to come after");
                        reading.problem_at(&format!("{path}.after.{at}"), what, after_hint(&all, owner, room, after));
                    }
                }
            }
        }
    }
    for ring in rings(&before) {
        let names: Vec<String> = ring.iter().chain(ring.first()).map(|chore| format!("`{chore}`")).collect();
        let place = ring.first().and_then(|first| all.get(first)).cloned().unwrap_or_default();
        let what = format!("these chores wait for each other: {}", names.join(" after "));
        reading.problem_at(&format!("{place}.after"), what, None);
    }
}

/// What one word of an `after` stands for.
enum Resolved {
    One(ChoreId),
    Machines(Vec<ChoreId>),
}

fn resolve(book: &Rulebook, room: Option<&Room>, owner: &str, after: &str) -> Resolved {
    match room {
        Some(room) if after == MACHINES => Resolved::Machines(
            book.machines_in(&room.id)
                .flat_map(|machine| machine.chores.iter().map(|chore| ChoreId::of(machine.id.as_str(), &chore.id)))
                .collect(),
        ),
        _ if after.contains('/') => Resolved::One(ChoreId::new(after)),
        _ => Resolved::One(ChoreId::of(owner, after)),
    }
}

fn after_hint(all: &Map<ChoreId, String>, owner: &str, room: Option<&Room>, after: &str) -> Option<String> {
    if after.contains('/') {
        return did_you_mean(after, all.keys().map(ChoreId::as_str));
    }
    if after == MACHINES {
        return Some("that word is for a room's chores".to_owned());
    }
    let own = all.keys().filter(|id| id.owner() == owner).filter_map(|id| id.as_str().split_once('/'));
    let words = own.map(|(_, chore)| chore).chain(room.map(|_| MACHINES));
    did_you_mean(after, words).or_else(|| {
        let elsewhere = all.keys().find(|id| id.as_str().split_once('/').is_some_and(|(_, chore)| chore == after))?;
        Some(format!("a chore of another owner is written `{elsewhere}`"))
    })
}
