//! The worst case fits QR version 8 at error correction level M.

use super::{answer, ask};
use crate::code::answer::{BUDDY_BYTES_MAX, Draft, Kind};
use crate::code::base45;
use crate::code::packed::TooLong;
use crate::code::{PACKED_BYTES_MAX, PREFIX};
use crate::log::jws;
use crate::log::testing::{key, minute};

/// ISO/IEC 18004, capacities of QR codes: version 8, level M, alphanumeric.
const QR_8_M_ALPHANUMERIC: usize = 221;

#[test]
fn the_longest_text_fits_a_version_8_code() {
    let mut text = String::from(PREFIX);
    base45::encode_onto(&mut text, &[0xff; PACKED_BYTES_MAX]);
    assert_eq!(text.len(), QR_8_M_ALPHANUMERIC);
}

#[test]
fn the_longest_answer_takes_142_bytes_and_218_characters() {
    let text = answer(&ask(), Kind::Here, &"b".repeat(BUDDY_BYTES_MAX), 2).write().expect("it fits");
    assert_eq!(base45::decode(&text[PREFIX.len()..]).map(|bytes| bytes.len()), Some(142));
    assert_eq!(text.len(), 218);
    // ISO/IEC 18004, the alphanumeric set, which is base45's by RFC 9285 section 4.2.
    assert!(text.bytes().all(|byte| b"0123456789ABCDEFGHIJKLMNOPQRSTUVWXYZ $%*+-./:".contains(&byte)));
    let device = jws::device_of(&key(2).verifying_key());
    let longer = "b".repeat(BUDDY_BYTES_MAX + 1).as_str().into();
    assert_eq!(
        Draft::to(&ask(), Kind::Here, minute(0), longer, device).signing_input(&ask()),
        Err(TooLong { bytes: 25 })
    );
}

#[test]
fn an_ask_has_120_bytes_for_its_three_ids() {
    let mut ask = ask();
    ask.operator = "m".repeat(40).as_str().into();
    ask.room = "r".repeat(40).as_str().into();
    ask.machine = Some("m".repeat(40).as_str().into());
    assert_eq!(ask.write().map(|text| text.len()), Ok(QR_8_M_ALPHANUMERIC));
    ask.room = "r".repeat(41).as_str().into();
    assert_eq!(ask.write(), Err(TooLong { bytes: 145 }));
}
