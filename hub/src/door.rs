//! What the hub says at its start: where it is, how to join, the doors' addresses, and a code to scan.
//!
//! `listening on ...` stands first, then a line of [`Way`], so that a script can read them. A code travels in the
//! fragment, which browsers never send: it is in no log, here or elsewhere.

use std::io::{self, Write};
use std::net::{IpAddr, Ipv4Addr, SocketAddr, UdpSocket};

use qrcode::render::unicode::Dense1x2;
use qrcode::{EcLevel, QrCode};
use shared_core::code::door::{door_url, door_url_with_join, join_url};
use shared_core::rulebook::Rulebook;
use shared_core::time::Instant;

use crate::secret;

/// Letters and digits of a new code: with 32 to choose from, 50 bits, so that hundreds of open invites and thousands of
/// addresses with five wrong tries a minute each do not find one in its day.
pub(crate) const CODE_CHARS: usize = 10;
/// The shortest code that may be chosen for the demo shop.
pub(crate) const CHOSEN_CHARS_MIN: usize = 8;
/// No 0 and O, no 1 and I: they are read out aloud and typed with gloves on.
const ALPHABET: &[u8; 32] = b"23456789ABCDEFGHJKLMNPQRSTUVWXYZ";

/// A new join code, without the dash that it is shown with.
pub(crate) fn new_code() -> Result<String, getrandom::Error> {
    let bytes = secret::random::<CODE_CHARS>()?;
    Ok(bytes.iter().map(|byte| char::from(ALPHABET[usize::from(byte % 32)])).collect())
}

/// The demo's code, from a key that all processes of a hub share.
pub(crate) fn demo_code(key: &[u8; 32]) -> String {
    let digest = secret::digest([b"sweepbell demo code 1\n".as_slice(), key].concat());
    digest.iter().take(CODE_CHARS).map(|byte| char::from(ALPHABET[usize::from(byte % 32)])).collect()
}

/// A code as it is compared: upper case, letters and digits alone.
pub(crate) fn normal(code: &str) -> String {
    code.chars().filter(char::is_ascii_alphanumeric).map(|c| c.to_ascii_uppercase()).collect()
}

/// A code as it is shown: in two halves.
pub(crate) fn shown(code: &str) -> String {
    let half = code.len().div_ceil(2);
    code.split_at_checked(half).map_or_else(|| code.to_owned(), |(one, other)| format!("{one}-{other}"))
}

/// The address that phones reach a listener at, as far as this machine knows.
pub(crate) fn reachable(listening: SocketAddr, tls: bool) -> String {
    let scheme = if tls { "https" } else { "http" };
    let ip = if listening.ip().is_unspecified() { own_address() } else { listening.ip() };
    format!("{scheme}://{}", SocketAddr::new(ip, listening.port()))
}

/// This machine's address in its network. Nothing is sent: connecting a UDP socket only chooses a route, here to an
/// address that is reserved for documentation (RFC 5737).
fn own_address() -> IpAddr {
    let route = UdpSocket::bind((Ipv4Addr::UNSPECIFIED, 0)).and_then(|socket| {
        socket.connect((Ipv4Addr::new(192, 0, 2, 1), 9))?;
        socket.local_addr()
    });
    route.map_or(IpAddr::V4(Ipv4Addr::LOCALHOST), |address| address.ip())
}

/// How a phone joins, as far as it is said here.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(crate) enum Way {
    /// The demo shop: with this code anybody joins as anybody.
    Demo {
        /// The code.
        code: String,
    },
    /// No steward has a phone yet: this one-time code is for the first.
    First {
        /// The code.
        code: String,
        /// Whose.
        name: String,
        /// Until when.
        until: Instant,
    },
    /// No steward has a phone, and no member is one.
    NoSteward,
    /// A steward has a phone, and invites the others.
    Invited,
}

/// What there is to say.
#[derive(Debug)]
pub(crate) struct Announcement<'a> {
    /// Where the hub listens.
    pub(crate) listening: &'a str,
    /// The address that goes into codes.
    pub(crate) base: &'a str,
    /// How to join.
    pub(crate) way: &'a Way,
    /// The shop.
    pub(crate) rulebook: &'a Rulebook,
    /// Whether colours are understood.
    pub(crate) colours: bool,
}

impl Announcement<'_> {
    /// Says it all. The two lines for scripts are flushed before anything that takes time.
    pub(crate) fn say(&self, out: &mut dyn Write) -> io::Result<()> {
        writeln!(out, "listening on {}", self.listening)?;
        match self.way {
            Way::Demo { code } => {
                writeln!(out, "join code {}", shown(code))?;
                writeln!(out, "This is the demo shop: with that code anybody joins as anybody.")?;
            }
            Way::First { code, name, until } => {
                writeln!(out, "invite code {} for {name}, good once and until {until}", shown(code))?;
                writeln!(
                    out,
                    "{name} looks after the shop and invites the others, on the phone or by `sweepbell invite`."
                )?;
            }
            Way::NoSteward => {
                writeln!(out, "no invite: nobody in the members file is a steward")?;
                writeln!(out, "Write `steward = true` for one, or make codes with `sweepbell invite make MEMBER`.")?;
            }
            Way::Invited => {
                writeln!(out, "no invite: a steward has joined")?;
                writeln!(out, "Stewards make codes on their phones; here, `sweepbell invite make MEMBER` does.")?;
            }
        }
        out.flush()?;
        writeln!(out, "\n{}", self.rulebook.shop.name)?;
        for room in &self.rulebook.rooms {
            writeln!(out, "  {}: {}", room.name, door_url(self.base, &room.id))?;
        }
        match (self.way, self.rulebook.rooms.first()) {
            (Way::Demo { code }, Some(room)) => {
                let url = door_url_with_join(self.base, &room.id, &shown(code));
                writeln!(out, "\nScan to join and open the door of {}:\n{}", room.name, picture(&url, self.colours))?;
            }
            (Way::First { code, name, .. }, _) => {
                let url = join_url(self.base, &shown(code));
                writeln!(out, "\nScan to join as {name}, once:\n{}", picture(&url, self.colours))?;
            }
            _ => {}
        }
        out.flush()
    }
}

/// A QR code of half blocks with its quiet zone (ISO/IEC 18004). Colours make it dark on light in any terminal;
/// without them it is right on light paper alone, and most readers take it either way.
pub(crate) fn picture(text: &str, colours: bool) -> String {
    let Ok(code) = QrCode::with_error_correction_level(text, EcLevel::L) else { return text.to_owned() };
    let blocks = code.render::<Dense1x2>().quiet_zone(true).build();
    if !colours {
        return blocks;
    }
    let lines: Vec<_> = blocks.lines().map(|line| format!("\x1b[38;5;16;48;5;231m{line}\x1b[0m")).collect();
    lines.join("\n")
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_code_is_the_same_however_it_is_typed() {
        for typed in ["ABCD-2345", "abcd2345", " abcd 2345 ", "AbCd–2345"] {
            assert_eq!(normal(typed), "ABCD2345", "{typed}");
        }
        assert_eq!(shown("ABCD2345"), "ABCD-2345");
    }

    #[test]
    fn new_codes_are_plain_and_differ() {
        let codes: Vec<_> = (0..50).map(|_| new_code().expect("random bytes")).collect();
        assert!(codes.iter().all(|code| code.len() == CODE_CHARS && code.bytes().all(|c| ALPHABET.contains(&c))));
        assert!(codes.windows(2).all(|pair| pair[0] != pair[1]));
    }

    #[test]
    fn a_wildcard_address_is_not_shown_to_phones() {
        for (listening, tls, shown) in [
            ("127.0.0.1:8787", false, Some("http://127.0.0.1:8787")),
            ("192.0.2.7:443", true, Some("https://192.0.2.7:443")),
            ("0.0.0.0:80", false, None),
        ] {
            let address = reachable(listening.parse().expect("an address"), tls);
            assert!(shown.map_or(!address.contains("0.0.0.0"), |shown| shown == address), "{address}");
        }
    }
}
