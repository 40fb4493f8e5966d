//! The worst answer fits QR version 8 at error correction level M, with a board's code version 9; the worst ask version 10.

use super::{answer, ask, signed};
use crate::code::answer::{BUDDY_BYTES_MAX, Draft, Kind};
use crate::code::base45;
use crate::code::packed::TooLong;
use crate::code::{ANSWER_BYTES_MAX, ASK_BYTES_MAX, PREFIX};
use crate::log::jws;
use crate::log::testing::{key, minute};

/// ISO/IEC 18004, capacities of QR codes: version 8, level M, alphanumeric.
const QR_8_M_ALPHANUMERIC: usize = 221;
/// The same, version 9.
const QR_9_M_ALPHANUMERIC: usize = 262;
/// The same, version 10.
const QR_10_M_ALPHANUMERIC: usize = 311;

#[test]
fn the_bounds_are_those_of_the_codes() {
    let longest = |bytes: usize| {
        let mut text = String::from(PREFIX);
        base45::encode_onto(&mut text, &vec![0xff; bytes]);
        text.len()
    };
    assert_eq!(longest(ASK_BYTES_MAX), QR_10_M_ALPHANUMERIC);
    assert_eq!(longest(ANSWER_BYTES_MAX - 1), QR_8_M_ALPHANUMERIC);
    assert!(longest(ANSWER_BYTES_MAX) <= QR_9_M_ALPHANUMERIC);
}

#[test]
fn the_longest_answer_takes_142_bytes_and_218_characters() {
    let text = answer(&ask(), Kind::Here, &"b".repeat(BUDDY_BYTES_MAX), 2).write().expect("it fits");
    assert_eq!(base45::decode(&text[PREFIX.len()..]).map(|bytes| bytes.len()), Some(142));
    assert_eq!(text.len(), 218);
    for (buddy, characters) in [(BUDDY_BYTES_MAX, 223), (BUDDY_BYTES_MAX - 1, QR_8_M_ALPHANUMERIC)] {
        let text = signed(&ask(), Kind::Here, &"b".repeat(buddy), 2, Some(999_999)).write().expect("it fits");
        assert_eq!(text.len(), characters);
    }
    // ISO/IEC 18004, the alphanumeric set, which is base45's by RFC 9285 section 4.2.
    assert!(text.bytes().all(|byte| b"0123456789ABCDEFGHIJKLMNOPQRSTUVWXYZ $%*+-./:".contains(&byte)));
    let device = jws::device_of(&key(2).verifying_key());
    let longer = "b".repeat(BUDDY_BYTES_MAX + 1).as_str().into();
    assert_eq!(
        Draft::to(&ask(), Kind::Here, minute(0), longer, device).signing_input(&ask()),
        Err(TooLong { bytes: 25, max: 24 })
    );
}

/// A member's id has at most 24 bytes, a room's or a machine's at most 64: the rulebook keeps to that.
#[test]
fn every_ask_fits_a_version_10_code_and_most_a_version_8() {
    let mut ask = ask();
    ask.operator = "m".repeat(24).as_str().into();
    for (length, characters) in [(40, 197), (48, QR_8_M_ALPHANUMERIC), (64, 269)] {
        ask.room = "r".repeat(length).as_str().into();
        ask.machine = Some("m".repeat(length).as_str().into());
        assert_eq!(ask.write().map(|text| text.len()), Ok(characters));
    }
    ask.room = "r".repeat(93).as_str().into();
    assert_eq!(ask.write(), Err(TooLong { bytes: 205, max: ASK_BYTES_MAX }));
}

/// No phone writes it, so no phone reads it: what is understood can be shown again.
#[test]
fn an_ask_that_no_phone_writes_is_damaged() {
    let head = base45::decode(&ask().write().expect("it fits")[PREFIX.len()..]).expect("base45")[..21].to_vec();
    for (length, read) in [(90, true), (91, false)] {
        let mut bytes = head.clone();
        for id in ["m".repeat(length), "r".repeat(90), String::new()] {
            bytes.push(u8::try_from(id.len()).expect("short"));
            bytes.extend(id.as_bytes());
        }
        let mut text = String::from(PREFIX);
        base45::encode_onto(&mut text, &bytes);
        assert_eq!(crate::code::read(&text, "https://yard.example").is_ok(), read, "{} bytes", bytes.len());
    }
}
