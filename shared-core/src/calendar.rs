//! The session's bells as a calendar file: a backup that a phone's calendar may ring from, without a network.
//!
//! iCalendar (RFC 5545): one event for the session, from the sweep bell to out-by, with an alarm at the first bell and one at
//! the sweep bell (section 3.6.6). A moved session keeps its UID and counts SEQUENCE up, so that a calendar moves what it
//! has (sections 3.8.4.7, 3.8.7.4). Some calendars pass alarms over when they take a file in; whoever offers this says so.
//!
//! Reads no clock. Lines end with CR LF and are folded at 75 bytes (section 3.1); texts are escaped (section 3.3.11).

use crate::ids::SessionId;
use crate::time::{Instant, Span};

/// What goes into the file.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Reminder<'a> {
    /// The session: the same event each time.
    pub session: &'a SessionId,
    /// How often the times have been told before; each telling counts one up.
    pub sequence: u32,
    /// When the file is made.
    pub made: Instant,
    /// The first bell.
    pub first_bell: Instant,
    /// The sweep bell, where the event begins.
    pub sweep_from: Instant,
    /// Out-by, where it ends.
    pub out_by: Instant,
    /// What the event is called, in the member's language.
    pub title: &'a str,
    /// What to do then.
    pub description: &'a str,
}

/// No line is longer, in bytes, its end not counted.
const LINE_BYTES_MAX: usize = 75;

impl Reminder<'_> {
    /// The file.
    pub fn write(&self) -> String {
        let mut file = File::begin("Session");
        // Out-by may lie before the sweep where a fire watch holds the only person: an event does not end before it begins.
        let ends = self.out_by.max(self.sweep_from + Span::from_minutes(1));
        file.line("BEGIN", "VEVENT");
        file.line("UID", &format!("{}@sweepbell", self.session));
        file.line("SEQUENCE", &self.sequence.to_string());
        file.line("DTSTAMP", &utc(self.made));
        file.line("DTSTART", &utc(self.sweep_from));
        file.line("DTEND", &utc(ends));
        file.line("SUMMARY", &escaped(self.title));
        file.line("DESCRIPTION", &escaped(self.description));
        file.line("TRANSP", "TRANSPARENT");
        file.line("CLASS", "PRIVATE");
        for at in [self.first_bell, self.sweep_from] {
            file.line("BEGIN", "VALARM");
            file.line("ACTION", "DISPLAY");
            file.line("TRIGGER;VALUE=DATE-TIME", &utc(at));
            file.line("DESCRIPTION", &escaped(self.description));
            file.line("END", "VALARM");
        }
        file.line("END", "VEVENT");
        file.end()
    }
}

/// A calendar file in the making.
#[derive(Clone, Debug)]
pub struct File(String);

impl File {
    /// A file about something, in one word.
    pub fn begin(about: &str) -> Self {
        let mut file = Self(String::new());
        file.line("BEGIN", "VCALENDAR");
        file.line("VERSION", "2.0");
        file.line("PRODID", &format!("-//Sweepbell//{about}//EN"));
        file.line("METHOD", "PUBLISH");
        file
    }

    /// The whole file.
    pub fn end(mut self) -> String {
        self.line("END", "VCALENDAR");
        self.0
    }

    /// Writes a content line, folded between characters.
    pub fn line(&mut self, name: &str, value: &str) {
        let line = format!("{name}:{value}");
        let mut length = 0;
        for letter in line.chars() {
            if length + letter.len_utf8() > LINE_BYTES_MAX {
                self.0.push_str("\r\n ");
                length = 1;
            }
            self.0.push(letter);
            length += letter.len_utf8();
        }
        self.0.push_str("\r\n");
    }
}

/// `19980119T070000Z` (section 3.3.5, form 2): whole seconds.
pub fn utc(at: Instant) -> String {
    let text = at.to_string();
    let whole = text.split(['.', 'Z']).next().unwrap_or_default();
    let mut plain: String = whole.chars().filter(|letter| !matches!(letter, '-' | ':')).collect();
    plain.push('Z');
    plain
}

/// A text as a value (section 3.3.11).
pub fn escaped(text: &str) -> String {
    let mut out = String::with_capacity(text.len());
    for letter in text.chars() {
        match letter {
            '\\' | ';' | ',' => out.extend(['\\', letter]),
            '\n' => out.push_str("\\n"),
            // No other control character may stand in a text.
            _ if letter.is_control() => {}
            _ => out.push(letter),
        }
    }
    out
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_file_is_as_the_standard_has_it() {
        let session = SessionId::from("4f3a");
        let at = |text| Instant::parse(text).expect(text);
        let reminder = Reminder {
            session: &session,
            sequence: 2,
            made: at("2026-11-28T18:00:00.250Z"),
            first_bell: at("2026-11-28T20:38:30.5Z"),
            sweep_from: at("2026-11-28T20:48:30.5Z"),
            out_by: at("2026-11-28T21:15:00Z"),
            title: "Sweep, now; \\ here",
            description: "Finish the pass you are on.\nThen brush the chips off, oily rags into the lidded bin \u{1f9f9}\u{1f9f9}.\u{7}",
        };
        let file = reminder.write();
        assert!(file.lines().all(|line| line.len() <= 75), "{file}");
        assert!(file.ends_with("END:VCALENDAR\r\n") && !file.replace("\r\n", "").contains(['\r', '\n']));
        let unfolded = file.replace("\r\n ", "");
        for line in [
            "UID:4f3a@sweepbell",
            "SEQUENCE:2",
            "DTSTAMP:20261128T180000Z",
            "DTSTART:20261128T204830Z",
            "DTEND:20261128T211500Z",
            "SUMMARY:Sweep\\, now\\; \\\\ here",
            "TRIGGER;VALUE=DATE-TIME:20261128T203830Z",
            "DESCRIPTION:Finish the pass you are on.\\nThen brush the chips off\\, oily rags into the lidded bin \u{1f9f9}\u{1f9f9}.",
        ] {
            assert!(unfolded.contains(&format!("{line}\r\n")), "{line}\n{unfolded}");
        }
        let late = Reminder { out_by: at("2026-11-28T20:00:00Z"), ..reminder };
        assert!(late.write().contains("DTEND:20261128T204930Z\r\n"), "{}", late.write());
    }
}
