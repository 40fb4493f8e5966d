//! A scanned text: what is understood has one text, and is understood the same when it is written again.

use std::sync::LazyLock;

use shared_core::card::face::Face;
use shared_core::code::answer::Answer;
use shared_core::code::door::{door_url, door_url_with_join, join_url, machine_url, round_url, stop_url};
use shared_core::code::{Scanned, Unreadable, base45, read};
use shared_core::words::Words;

/// The shop whose codes are scanned.
const ORIGIN: &str = "https://yard.example.org";

/// Holds of any bytes.
///
/// # Panics
///
/// If it does not.
pub fn holds(bytes: &[u8]) {
    if let Ok(text) = std::str::from_utf8(bytes) {
        scanned(text);
    }
    // The bytes inside a code: two phones' own words, which few texts of a fuzzer's would reach.
    let mut text = String::from("SWB1:");
    base45::encode_onto(&mut text, bytes);
    assert_eq!(base45::decode(&text["SWB1:".len()..]).as_deref(), Some(bytes));
    scanned(&text);
}

static WORDS: LazyLock<Words> = LazyLock::new(Words::english);

fn scanned(text: &str) {
    let understood = match read(text, ORIGIN) {
        Ok(understood) => understood,
        Err(fault) => {
            assert!(!fault.reason(&WORDS).is_empty() && !fault.next_step(&WORDS).is_empty());
            if let Unreadable::OtherShop { host } = fault {
                assert!(!host.contains('/') && text.contains(&host), "{host}");
            }
            return;
        }
    };
    let written = match &understood {
        // Packed: the only text that says this.
        Scanned::Ask(ask) => {
            assert_eq!(ask.write().as_deref(), Ok(text.trim()));
            return;
        }
        Scanned::Answer(answer) => {
            assert_eq!(answer.write().as_deref(), Ok(text.trim()));
            assert_eq!(Answer::read(text.trim()).as_ref(), Some(answer));
            return;
        }
        Scanned::Face(face) => {
            assert_eq!(face.write().as_deref(), Ok(text.trim()));
            assert_eq!(Face::read(text.trim()).as_ref(), Some(face));
            return;
        }
        Scanned::Door { room, join: None } => door_url(ORIGIN, room),
        Scanned::Door { room, join: Some(code) } => door_url_with_join(ORIGIN, room, code),
        Scanned::Machine { machine } => machine_url(ORIGIN, machine),
        Scanned::Stop { stop } => stop_url(ORIGIN, stop),
        Scanned::Round { round } => round_url(ORIGIN, round),
        Scanned::Join { code } => join_url(ORIGIN, code),
    };
    // An address has several spellings; ours is one of them, and as long as a code may be it says the same.
    if written.len() <= shared_core::code::TEXT_BYTES_MAX {
        assert_eq!(read(&written, ORIGIN), Ok(understood), "{written}");
    }
}
