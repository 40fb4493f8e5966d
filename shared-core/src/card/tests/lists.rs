//! An older list of phones that were taken off never takes the place of a newer one.

use super::*;
use crate::card::CardFault as F;

#[test]
fn the_newer_list_stays_whatever_comes_late() {
    let (old, new, statements) = rotated();
    let list = |number, on, key: &SigningKey| taken_off(number, day(on), &[9]).seal(key);
    for (what, text, wanted) in [
        ("more changes", list(4, 13, &new), Ok((4, day(13)))),
        ("the same, said again later", list(3, 20, &new), Ok((3, day(20)))),
        ("the same, said earlier", list(3, 11, &new), Ok((3, day(12)))),
        ("fewer changes with a later date", list(2, 30, &new), Ok((3, day(12)))),
        ("by the key before, while it was in use", list(5, 39, &old), Ok((5, day(39)))),
        ("by the key before, later", list(5, 40, &old), Err(F::KeyRetired { on: day(40) })),
        ("a card", card().seal(&new), Err(F::Unreadable)),
    ] {
        let followed = trust(&[]).follow(&statements, &text);
        assert_eq!(followed.map(|trust| (trust.revoked.number, trust.revoked.issued)), wanted, "{what}");
    }
}

#[test]
fn a_list_says_since_when() {
    let list = taken_off(1, day(5), &[3, 4]);
    assert_eq!((list.since(&phone(4)), list.since(&phone(5))), (Some(day(5)), None));
}
