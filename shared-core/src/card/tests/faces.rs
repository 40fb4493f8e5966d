//! A face fits a code, says what its card shows to others and no more, and counts as its card does.

use proptest::prelude::*;

use super::*;
use crate::card::face::{Face, MEMBER_BYTES_MAX, NAME_BYTES_MAX};
use crate::card::{CardFault as F, GOOD_FOR};
use crate::code::packed::TooLong;
use crate::code::{FACE_BYTES_MAX, PREFIX, Scanned, base45, read};

/// ISO/IEC 18004, capacities of QR codes: version 10, level M, alphanumeric.
const QR_10_M_ALPHANUMERIC: usize = 311;

fn face_by(key: &SigningKey) -> Face {
    Face::of(&card(), key).expect("it fits")
}

#[test]
fn a_face_shows_who_and_until_when_and_nothing_else() {
    let (_, new, _) = rotated();
    let text = face_by(&new).write().expect("it fits");
    let Ok(Scanned::Face(face)) = read(&text, "https://yard.example") else { panic!("{text}") };
    assert_eq!(Face::read(&text).as_ref(), Some(&face));
    assert_eq!((face.shown.member.as_str(), face.shown.name.as_str()), ("ada", "Ada Lovelock"));
    assert_eq!((&face.shown.dev, face.shown.number), (&phone(1), 7));
    assert_eq!((face.shown.issued, face.shown.until), (day(0), day(0) + GOOD_FOR));
    let bytes = base45::decode(&text[PREFIX.len()..]).expect("base45");
    assert!(!bytes.windows(5).any(|part| part == b"lathe"));
}

#[test]
fn the_longest_face_takes_192_bytes_and_293_characters() {
    let (_, new, _) = rotated();
    let mut card = card();
    card.member = "m".repeat(MEMBER_BYTES_MAX).as_str().into();
    // The 48th byte is the middle of a character.
    card.name = "n".repeat(NAME_BYTES_MAX - 1) + "ñandú";
    let face = Face::of(&card, &new).expect("it fits");
    assert_eq!(face.shown.name.len(), NAME_BYTES_MAX - 1);
    card.name = "ñ".repeat(NAME_BYTES_MAX);
    let text = Face::of(&card, &new).and_then(|face| face.write()).expect("it fits");
    assert_eq!(base45::decode(&text[PREFIX.len()..]).map(|bytes| bytes.len()), Some(192));
    assert_eq!(text.len(), 293);
    assert!(text.len() <= QR_10_M_ALPHANUMERIC && 192 <= FACE_BYTES_MAX);
    card.member = "m".repeat(MEMBER_BYTES_MAX + 1).as_str().into();
    assert_eq!(Face::of(&card, &new), Err(TooLong { bytes: 25, max: 24 }));
}

#[test]
fn a_face_counts_as_its_card_does() {
    let (old, new, _) = rotated();
    let ends = day(0) + GOOD_FOR;
    for (what, by, taken_off, at, wanted) in [
        ("whole", &new, &[][..], day(1), Ok(())),
        ("run out", &new, &[], ends, Err(F::Expired { on: ends })),
        ("by the key before", &old, &[], day(39), Ok(())),
        ("by the key before, too late", &old, &[], day(40), Err(F::KeyRetired { on: day(40) })),
        ("taken off", &new, &[1], day(1), Err(F::Revoked { since: day(12) })),
    ] {
        assert_eq!(trust(taken_off).check(&face_by(by), at), wanted, "{what}");
    }
    let stranger = trust(&[]).check(&face_by(&key(9)), day(1));
    assert!(matches!(stranger, Err(F::UnknownKey { .. })), "{stranger:?}");
}

proptest! {
    /// A face with any of its bytes changed is unreadable or does not count.
    #[test]
    fn a_changed_face_never_counts(place in 0_usize..192, change in 1_u8..) {
        let (_, new, _) = rotated();
        let text = face_by(&new).write().expect("it fits");
        let mut bytes = base45::decode(&text[PREFIX.len()..]).expect("base45");
        let place = place % bytes.len();
        bytes[place] ^= change;
        let mut changed = String::from(PREFIX);
        base45::encode_onto(&mut changed, &bytes);
        if let Some(face) = Face::read(&changed) {
            prop_assert!(trust(&[]).check(&face, day(1)).is_err(), "byte {}", place);
        }
    }
}
