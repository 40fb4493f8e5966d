//! Codes that hang in the shop: addresses that any camera app opens, `<origin>/d/<room>`, `/m/<machine>`, `/s/<stop>` of the
//! induction walk and `/r/<round>`.
//!
//! A join code travels behind `#`, which a browser never sends to a server, as `<origin>/join#CODE` or on a door as
//! `#j=CODE`. Ids are percent-encoded (RFC 3986 section 2.1), so that any id of a rulebook makes a whole address.
//!
//! Says nothing about whether the room or machine exists: that is asked of the rulebook. [`PATHS`] is the one list of them.

use super::{Scanned, Unreadable};
use crate::ids::{MachineId, RoomId, RoundId, StopId};

/// How the path of a posted address begins, by what it names: a door, a machine, a stop of the induction walk, a round.
pub const PATHS: [&str; 4] = ["/d/", "/m/", "/s/", "/r/"];

/// Whether a path is one of a code that hangs in the shop.
pub fn is_posted(path: &str) -> bool {
    PATHS.iter().any(|begins| path.starts_with(begins))
}

/// The longest join code, in characters.
pub const JOIN_CHARS_MAX: usize = 64;

/// A door's address.
pub fn door_url(origin: &str, room: &RoomId) -> String {
    format!("{origin}/d/{}", escape(room.as_str()))
}

/// A door's address that also lets a phone join.
pub fn door_url_with_join(origin: &str, room: &RoomId, code: &str) -> String {
    format!("{}#j={}", door_url(origin, room), escape(code))
}

/// A machine's address.
pub fn machine_url(origin: &str, machine: &MachineId) -> String {
    format!("{origin}/m/{}", escape(machine.as_str()))
}

/// The address of a stop of the induction walk.
pub fn stop_url(origin: &str, stop: &StopId) -> String {
    format!("{origin}/s/{}", escape(stop.as_str()))
}

/// A round's address: it hangs where the round is done.
pub fn round_url(origin: &str, round: &RoundId) -> String {
    format!("{origin}/r/{}", escape(round.as_str()))
}

/// An invitation's address.
pub fn join_url(origin: &str, code: &str) -> String {
    format!("{origin}/join#{}", escape(code))
}

/// Understands an address.
pub(super) fn read(text: &str, origin: &str) -> Result<Scanned, Unreadable> {
    let (site, path, fragment) = split(text).ok_or(Unreadable::Foreign)?;
    let place = place(path, fragment);
    if place == Err(Unreadable::Foreign) || site.eq_ignore_ascii_case(origin) {
        return place;
    }
    Err(Unreadable::OtherShop { host: host(site).to_owned() })
}

/// An address in three: scheme and host, path, and what is behind `#`. A query is passed over.
fn split(text: &str) -> Option<(&str, &str, &str)> {
    let (address, fragment) = text.split_once('#').unwrap_or((text, ""));
    let address = address.split_once('?').map_or(address, |(address, _)| address);
    let (scheme, rest) = address.split_once("://")?;
    if !scheme.eq_ignore_ascii_case("https") && !scheme.eq_ignore_ascii_case("http") {
        return None;
    }
    let site_length = scheme.len() + "://".len() + rest.find('/').unwrap_or(rest.len());
    let (site, path) = address.split_at_checked(site_length)?;
    Some((site, path, fragment))
}

fn host(site: &str) -> &str {
    site.split_once("://").map_or(site, |(_, host)| host)
}

/// What a path names, if it has the form of ours.
fn place(path: &str, fragment: &str) -> Result<Scanned, Unreadable> {
    let scanned = if let Some(room) = path.strip_prefix("/d/") {
        let join = fragment.strip_prefix("j=");
        let code = join.and_then(join_code);
        let whole = join.is_some() == code.is_some();
        id(room).filter(|_| whole).map(|room| Scanned::Door { room: RoomId::new(room), join: code })
    } else if let Some(machine) = path.strip_prefix("/m/") {
        id(machine).map(|machine| Scanned::Machine { machine: MachineId::new(machine) })
    } else if let Some(stop) = path.strip_prefix("/s/") {
        id(stop).map(|stop| Scanned::Stop { stop: StopId::new(stop) })
    } else if let Some(round) = path.strip_prefix("/r/") {
        id(round).map(|round| Scanned::Round { round: RoundId::new(round) })
    } else if path.trim_end_matches('/') == "/join" {
        join_code(fragment).map(|code| Scanned::Join { code })
    } else {
        return Err(Unreadable::Foreign);
    };
    scanned.ok_or(Unreadable::Damaged)
}

fn id(escaped: &str) -> Option<String> {
    let escaped = escaped.strip_suffix('/').unwrap_or(escaped);
    unescape(escaped).filter(|id| !id.is_empty() && !escaped.contains('/'))
}

fn join_code(escaped: &str) -> Option<String> {
    unescape(escaped).filter(|code| !code.is_empty() && code.chars().count() <= JOIN_CHARS_MAX)
}

fn escape(text: &str) -> String {
    const HEX: &[u8; 16] = b"0123456789ABCDEF";
    let mut escaped = String::with_capacity(text.len());
    for byte in text.bytes() {
        if byte.is_ascii_alphanumeric() || b"-._~".contains(&byte) {
            escaped.push(char::from(byte));
        } else {
            escaped.push('%');
            escaped.push(char::from(HEX[usize::from(byte >> 4)]));
            escaped.push(char::from(HEX[usize::from(byte & 15)]));
        }
    }
    escaped
}

fn unescape(text: &str) -> Option<String> {
    let mut bytes = Vec::with_capacity(text.len());
    let mut rest = text.as_bytes();
    while let Some((first, behind)) = rest.split_first() {
        if *first == b'%' {
            let (digits, behind) = behind.split_first_chunk::<2>()?;
            let [high, low] = digits.map(|digit| char::from(digit).to_digit(16));
            bytes.push(u8::try_from(high? * 16 + low?).ok()?);
            rest = behind;
        } else {
            bytes.push(*first);
            rest = behind;
        }
    }
    String::from_utf8(bytes).ok()
}
