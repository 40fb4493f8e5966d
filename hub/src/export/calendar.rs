//! The log as a calendar (RFC 5545): when each session was, and when each round is due.
//!
//! No member is named, since calendars are shared more readily than logs: a session is its room's. An event keeps its UID, so
//! that a file which is taken in again moves what is there. A round that nobody has done yet has no time to stand at.

use shared_core::calendar::{File, escaped, utc};
use shared_core::round::Every;
use shared_core::time::{Instant, Span};

use super::Known;

pub(super) fn write(known: &Known<'_>) -> String {
    let mut file = File::begin("Log");
    let made = known.entries.last().map_or(Instant::from_ms(0), |entry| entry.at);
    let mut sessions: Vec<_> = known.state.sessions.values().filter(|session| known.counts(session.from)).collect();
    sessions.sort_by_key(|session| (session.from, &session.id));
    for session in sessions {
        let to = session.left().unwrap_or(session.out_by).max(session.from + Span::from_minutes(1));
        let room = known.book.room(&session.room).map_or_else(|| session.room.as_str(), |room| room.name.as_str());
        begin(&mut file, session.id.as_str(), made, session.from);
        file.line("DTEND", &utc(to));
        file.line("SUMMARY", &escaped(room));
        file.line("END", "VEVENT");
    }
    for round in &known.book.rounds {
        let last = known.state.rounds.get(&round.id);
        let Some((every, last)) = Every::parse(&round.every).zip(last) else { continue };
        begin(&mut file, &format!("round-{}", round.id), made, every.after(last.at));
        file.line("SUMMARY", &escaped(&round.text));
        if let Some(source) = &round.source {
            file.line("DESCRIPTION", &escaped(source));
        }
        file.line("END", "VEVENT");
    }
    file.end()
}

fn begin(file: &mut File, id: &str, made: Instant, from: Instant) {
    file.line("BEGIN", "VEVENT");
    file.line("UID", &escaped(&format!("{id}@sweepbell")));
    file.line("DTSTAMP", &utc(made));
    file.line("DTSTART", &utc(from));
    file.line("TRANSP", "TRANSPARENT");
    file.line("CLASS", "PRIVATE");
}
