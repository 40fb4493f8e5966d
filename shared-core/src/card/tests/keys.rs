//! Keys follow one another by their own word, and nobody else's.

use super::*;
use crate::card::CardFault as F;
use crate::card::statement::thumbprint;

/// RFC 8037 Appendix A.3: the thumbprint of the key of Appendix A.1.
#[test]
fn a_key_is_named_by_its_thumbprint() {
    let x = DeviceId::from("11qYAYKxCrfVS_7TyWQHOg7hcvPapiMlrwIaaPcHURo");
    let public = jws::key_bytes(&x).expect("an Ed25519 key");
    assert_eq!(thumbprint(&public), "kPrK_qmxVWaYVA9wwBF6Iuo3vVzz7TxHCTwXBygrS4k");
}

#[test]
fn the_last_key_is_in_use_and_the_ones_before_have_an_end() {
    let (old, new, statements) = rotated();
    let keys = Keys::read(&statements).expect("vouched for");
    let name = |key: &SigningKey| thumbprint(key.verifying_key().as_bytes());
    let told: Vec<_> = keys.all().iter().map(|key| (key.kid.clone(), key.from, key.until)).collect();
    assert_eq!(told, [(name(&old), day(-100), Some(day(40))), (name(&new), day(10), None)]);
    assert_eq!(keys.newest().map(|key| key.public), Some(new.verifying_key().to_bytes()));
    assert_eq!(keys.statements(), statements);
}

/// What is offered to a phone that knows nothing, the first key, or both.
#[test]
fn a_phone_follows_from_the_key_it_knows() {
    let (old, new, both) = rotated();
    let third = hub_keys::next(&new, &key(103), day(50), day(50));
    let (first, three) = (both[..1].to_vec(), vec![both[0].clone(), both[1].clone(), third.clone()]);
    let usurped = |by: &SigningKey| vec![both[0].clone(), hub_keys::next(by, &key(66), day(11), day(11))];
    let other_hub = vec![hub_keys::first(&key(200), day(-100))];
    let unknown = |key: &SigningKey| F::UnknownKey { kid: thumbprint(key.verifying_key().as_bytes()) };
    for (what, known, offered, wanted) in [
        ("at joining", &[][..], &both, Ok(2)),
        ("the same", &both, &both, Ok(2)),
        ("the next", &first, &both, Ok(2)),
        ("two at once", &first, &three, Ok(3)),
        ("an older answer", &three, &both, Ok(3)),
        ("another hub", &both, &other_hub, Err(F::OtherHub)),
        ("a stranger's word for a stranger", &first, &usurped(&key(66)), Err(unknown(&key(66)))),
        ("the old key's word, after it gave it to another", &both, &usurped(&old), Err(F::OtherHub)),
        ("a key left out", &first, &vec![both[0].clone(), third], Err(unknown(&new))),
        ("nothing", &both, &vec![], Err(F::OtherHub)),
        ("nothing, at joining", &[], &vec![], Err(F::Unreadable)),
    ] {
        let known = if known.is_empty() { Keys::default() } else { Keys::read(known).expect("known") };
        assert_eq!(known.follow(offered).map(|keys| keys.all().len()), wanted, "{what}");
    }
}

#[test]
fn a_statement_that_was_changed_is_no_statement() {
    let (_, _, statements) = rotated();
    for place in (0..statements[1].len()).step_by(5) {
        let mut bytes = statements[1].clone().into_bytes();
        bytes[place] = if bytes[place] == b'A' { b'B' } else { b'A' };
        let changed = vec![statements[0].clone(), String::from_utf8(bytes).expect("ASCII")];
        assert!(Keys::read(&changed).is_err(), "byte {place}");
    }
}
