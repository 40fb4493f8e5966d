//! A card is what the hub signed, while it holds, or says why not.

use super::*;
use crate::card::CardFault as F;
use crate::card::{GOOD_FOR, RENEWED_BEFORE, Role, open};
use crate::json::FromJson as _;

#[test]
fn a_card_says_again_what_it_was_made_of() {
    let (old, _, _) = rotated();
    let card = card();
    assert_eq!(trust(&[]).open(&card.seal(&old), day(1)), Ok(card.clone()));
    assert_eq!(card.standing(), ada());
    assert_eq!(card.roles, [Role::Member, Role::Steward]);
    let nobody = Member { inducted_until: None, signed_off: Map::new(), steward: false, signer: true, ..ada() };
    let card = Card::of(&nobody, phone(2), 8, day(0));
    assert_eq!(trust(&[]).open(&card.seal(&old), day(1)).map(|card| card.standing()), Ok(nobody));
}

/// Each reason, and the order of the reasons where two hold.
#[test]
fn a_card_that_does_not_count_says_why() {
    let (old, new, _) = rotated();
    let (by_old, by_new) = (card().seal(&old), card().seal(&new));
    let stranger = card().seal(&key(9));
    let unknown = F::UnknownKey { kid: crate::card::statement::thumbprint(key(9).verifying_key().as_bytes()) };
    let ends = day(0) + GOOD_FOR;
    let of = |part: usize, text: &str| text.split('.').nth(part).expect("three parts").to_owned();
    let mixed =
        |header: &str, payload: &str, signature: &str| [of(0, header), of(1, payload), of(2, signature)].join(".");
    let mut other = card();
    other.inducted_until = Some(day(4_000));
    for (what, text, taken_off, at, wanted) in [
        ("whole", by_new.clone(), &[][..], day(1), Ok(())),
        ("until its last millisecond", by_new.clone(), &[], Instant::from_ms(ends.ms() - 1), Ok(())),
        ("run out", by_new.clone(), &[], ends, Err(F::Expired { on: ends })),
        ("by the key before", by_old.clone(), &[], Instant::from_ms(day(40).ms() - 1), Ok(())),
        ("by the key before, too late", by_old.clone(), &[], day(40), Err(F::KeyRetired { on: day(40) })),
        ("run out and too late", by_old.clone(), &[], ends, Err(F::Expired { on: ends })),
        ("another phone is taken off", by_new.clone(), &[2], day(1), Ok(())),
        ("taken off", by_new.clone(), &[2, 1], day(1), Err(F::Revoked { since: day(12) })),
        ("taken off and run out", by_new.clone(), &[1], ends, Err(F::Revoked { since: day(12) })),
        ("by a stranger", stranger.clone(), &[], day(1), Err(unknown)),
        ("a stranger's under our name", mixed(&by_new, &by_new, &stranger), &[], day(1), Err(F::Signature)),
        ("says more than was signed", mixed(&by_new, &other.seal(&old), &by_new), &[], day(1), Err(F::Signature)),
        ("a list passed off as a card", taken_off(1, day(1), &[]).seal(&new), &[], day(1), Err(F::Unreadable)),
        ("an entry's header", mixed("eyJhbGciOiJFZERTQSJ9..", &by_new, &by_new), &[], day(1), Err(F::Unreadable)),
        ("one part more", format!("{by_new}.AA"), &[], day(1), Err(F::Unreadable)),
        ("padding", format!("{by_new}=="), &[], day(1), Err(F::Unreadable)),
        ("nothing", String::new(), &[], day(1), Err(F::Unreadable)),
    ] {
        assert_eq!(trust(taken_off).open(&text, at).map(drop), wanted, "{what}");
    }
}

#[test]
fn a_phone_that_knows_no_key_believes_nothing() {
    let (_, new, _) = rotated();
    let opened = open(&card().seal(&new), &Keys::default(), &Revoked::default(), day(1));
    assert!(matches!(opened, Err(F::UnknownKey { .. })), "{opened:?}");
}

#[test]
fn a_card_is_made_anew_when_it_says_otherwise_or_soon_runs_out() {
    let late = day(0) + GOOD_FOR - RENEWED_BEFORE;
    let lapsed = Member { signed_off: Map::new(), ..ada() };
    for (member, at, due) in [
        (ada(), day(0), false),
        (ada(), late, false),
        (ada(), Instant::from_ms(late.ms() + 1), true),
        (lapsed, day(0), true),
        (Member { signer: true, ..ada() }, day(0), true),
        (Member { name: "Ada".into(), ..ada() }, day(0), true),
    ] {
        assert_eq!(card().is_due(&member, at), due, "{member:?} at {at}");
    }
}

/// What a newer hub may say besides is passed over, and a role that is unknown here gives nothing.
#[test]
fn a_newer_hubs_card_is_read() {
    let mut said = serde_json::to_value(card()).expect("plain data");
    said["colour"] = "green".into();
    said["roles"] = serde_json::json!(["member", "treasurer"]);
    let read = Card::from_json(&said).expect("fields may be added");
    assert_eq!(read.roles, [Role::Member, Role::Member]);
    assert!(!read.standing().steward && !read.standing().signer);
}
