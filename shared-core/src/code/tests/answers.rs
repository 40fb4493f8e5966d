//! An answer counts for one ask, once, from the phone of somebody else who is known.

use super::{answer, ask};
use crate::code::answer::{Accepted, Answer, AnswerFault, Kind, accept};
use crate::code::ask::{ASK_MINUTES, Ask};
use crate::code::{PREFIX, base45};
use crate::entry::Given;
use crate::ids::{DeviceId, PersonId};
use crate::in_room::RoomKey;
use crate::log::jws;
use crate::log::testing::{key, minute};
use crate::ordered::Set;
use crate::time::{Instant, Span};
use crate::words::Words;

/// Phone 2 is `m2`'s, phone 3 is `m3`'s, no other is known.
fn person_of(device: &DeviceId) -> Option<PersonId> {
    [(2, "m2"), (3, "m3"), (1, "m1")]
        .into_iter()
        .find(|(phone, _)| jws::device_of(&key(*phone).verifying_key()) == *device)
        .map(|(_, person)| person.into())
}

fn judge(answer: &Answer, ask: &Ask, now: Instant) -> Result<Accepted, AnswerFault> {
    accept(answer, ask, now, &"m1".into(), &person_of, &Set::new(), None)
}

#[test]
fn a_buddy_who_is_here_or_leaving_counts() {
    for kind in [Kind::Here, Kind::Leaving] {
        let accepted = judge(&answer(&ask(), kind, "m2", 2), &ask(), minute(2));
        assert_eq!(accepted, Ok(Accepted { buddy: "m2".into(), kind, given: Given::OnTheirWord }));
    }
}

#[test]
fn each_check_says_which_it_is() {
    let ask = ask();
    let good = answer(&ask, Kind::Here, "m2", 2);
    let moved = |change: fn(&mut Ask)| {
        let mut moved = ask.clone();
        change(&mut moved);
        moved
    };
    let other_room = moved(|ask| ask.room = "forge".into());
    let other_operator = moved(|ask| ask.operator = "m3".into());
    let other_session = moved(|ask| ask.session = "0000000000000000".into());
    let other_nonce = moved(|ask| ask.nonce = [8; 8]);
    let mut leaving = good.clone();
    leaving.said.kind = Kind::Leaving;
    let mut renamed = good.clone();
    renamed.said.buddy = "m3".into();
    for (what, answer, ask, wanted) in [
        ("another room", &good, &other_room, AnswerFault::Signature),
        ("another operator", &good, &other_operator, AnswerFault::Signature),
        ("another session", &good, &other_session, AnswerFault::OtherAsk),
        ("another ask", &good, &other_nonce, AnswerFault::OtherAsk),
        ("turned into leaving", &leaving, &ask, AnswerFault::Signature),
        ("another buddy's name", &renamed, &ask, AnswerFault::Signature),
        ("oneself", &answer(&ask, Kind::Here, "m1", 1), &ask, AnswerFault::Oneself),
        ("oneself on a friend's phone", &answer(&ask, Kind::Here, "m1", 2), &ask, AnswerFault::Oneself),
        ("a friend's name on one's own phone", &answer(&ask, Kind::Here, "m2", 1), &ask, AnswerFault::OtherPerson),
        ("a stranger's phone", &answer(&ask, Kind::Here, "m2", 9), &ask, AnswerFault::UnknownPhone),
    ] {
        assert_eq!(judge(answer, ask, minute(2)), Err(wanted), "{what}");
        let words = Words::english();
        assert!(wanted.reason(&words).ends_with('.') && wanted.next_step(&words).ends_with('.'));
    }
    let used = Set::from([ask.nonce]);
    assert_eq!(accept(&good, &ask, minute(2), &"m1".into(), &person_of, &used, None), Err(AnswerFault::UsedBefore));
}

/// By the operator's clock alone: what the buddy's clock says is never reckoned with.
#[test]
fn an_ask_runs_out() {
    let ask = ask();
    let mut answer = answer(&ask, Kind::Here, "m2", 2);
    let end = minute(ASK_MINUTES);
    let late = Err(AnswerFault::AskTooOld);
    for (now, counts) in
        [(minute(0), true), (end, true), (end + Span::from_ms(1), false), (minute(-1), false), (minute(10_000), false)]
    {
        assert_eq!(judge(&answer, &ask, now).is_ok(), counts, "{now}");
        if !counts {
            assert_eq!(judge(&answer, &ask, now), late);
        }
    }
    answer = super::answer(&ask, Kind::Here, "m2", 2);
    assert_eq!(answer.said.at, minute(1));
    assert!(judge(&answer, &ask, minute(0)).is_ok(), "the buddy's clock is ahead, and that is no matter");
}

#[test]
fn any_flipped_bit_of_an_answer_is_found() {
    let ask = ask();
    let text = answer(&ask, Kind::Here, "m2", 2).write().expect("it fits");
    let bytes = base45::decode(&text[PREFIX.len()..]).expect("base45");
    for place in 0..bytes.len() * 8 {
        let mut flipped = bytes.clone();
        flipped[place / 8] ^= 1 << (place % 8);
        let counts = Answer::unpack(&flipped).is_some_and(|answer| judge(&answer, &ask, minute(2)).is_ok());
        assert!(!counts, "bit {place}");
    }
}

/// The log keeps an answer as proof: anyone who has the session's room and operator can check it later.
#[test]
fn a_kept_answer_reads_back() {
    let good = answer(&ask(), Kind::Here, "m2", 2);
    let kept = Answer::read(&good.write().expect("it fits")).expect("it was written");
    assert!(kept.is_signed_for(&"m1".into(), &"fitting".into()));
    assert!(!kept.is_signed_for(&"m1".into(), &"forge".into()) && !kept.is_signed_for(&"m3".into(), &"fitting".into()));
    assert_eq!(kept, good);
    assert_eq!(Answer::read(&ask().write().expect("it fits")), None);
    assert_eq!(Answer::read("rubbish"), None);
}

/// With the code of the room's board a word is more than a word; with a wrong one it is none. Where no board hangs, a code
/// says nothing.
#[test]
fn what_was_read_off_the_board_shows_that_the_buddy_is_in_the_room() {
    let (ask, key) = (ask(), RoomKey([3; 32]));
    let here = |code: Option<u32>| super::signed(&ask, Kind::Here, "m2", 2, code);
    let shown = key.code(minute(2));
    for (answer, board, wanted) in [
        (here(Some(shown)), Some(&key), Ok(Given::InTheRoom)),
        (here(Some(key.code(minute(1)))), Some(&key), Ok(Given::InTheRoom)),
        (here(Some(key.code(minute(0)))), Some(&key), Err(AnswerFault::BoardCode)),
        (here(Some((shown + 1) % 1_000_000)), Some(&key), Err(AnswerFault::BoardCode)),
        (here(Some(shown)), Some(&RoomKey([4; 32])), Err(AnswerFault::BoardCode)),
        (here(Some(shown)), None, Ok(Given::OnTheirWord)),
        (here(None), Some(&key), Ok(Given::OnTheirWord)),
        (super::signed(&ask, Kind::Leaving, "m2", 2, Some(1)), Some(&key), Ok(Given::OnTheirWord)),
    ] {
        let read = Answer::read(&answer.write().expect("it fits")).expect("it was written");
        assert_eq!(read, answer);
        let judged =
            accept(&read, &ask, minute(2), &"m1".into(), &person_of, &Set::new(), board.map(|key| (key, minute(2))));
        assert_eq!(judged.map(|accepted| accepted.given), wanted, "{:?}", answer.said.board);
    }
}

/// The code is signed along with the rest.
#[test]
fn a_board_code_cannot_be_put_into_an_answer() {
    let (ask, key) = (ask(), RoomKey([3; 32]));
    let mut answer = answer(&ask, Kind::Here, "m2", 2);
    answer.said.board = Some(key.code(minute(2)));
    assert_eq!(judge(&answer, &ask, minute(2)), Err(AnswerFault::Signature));
}
