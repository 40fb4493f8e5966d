//! What the phone sends, what it makes of an answer, and how long it waits.

use crate::entry::Fact;
use crate::log::chain::Head;
use crate::log::testing::{Writer, minute, said};
use crate::sync::cursor::Cursor;
use crate::sync::message::{ENTRIES_MAX, ENTRY_BYTES_MAX, GoesOn, Rejected, Stretch, SyncAnswer, SyncRequest, Why};
use crate::sync::peer::{BACKOFF_MAX_MS, Phone, Story};
use crate::time::{Instant, Span};

fn head(seq: u64) -> Head {
    Head { seq, hash: format!("h{seq}") }
}

fn answered(phone: &mut Phone, seq: u64, rejected: Vec<Rejected>) {
    let mut answer = SyncAnswer::new(minute(0), head(seq), "r");
    answer.rejected = rejected;
    assert!(phone.receive(minute(0), answer, &head(900)).is_some());
}

fn sent(phone: &mut Phone, waiting: &[(u64, &str)]) -> usize {
    phone.generate(minute(0), waiting, &[]).expect("nothing is in flight").push.len()
}

#[test]
fn the_end_of_the_log_is_known_when_an_answer_went_to_it() {
    let mut phone = Phone::default();
    assert!(!phone.heard_all(), "nothing was heard");
    let ask = |phone: &mut Phone, more: bool| {
        phone.generate(minute(0), &[], &[]).expect("nothing is in flight");
        let answer = SyncAnswer { more, cursor: 7, ..SyncAnswer::new(minute(0), head(0), "r") };
        phone.receive(minute(0), answer, &head(0)).expect("an answer to its question");
        phone.heard_all()
    };
    assert!(!ask(&mut phone, true));
    assert!(ask(&mut phone, false));
    let kept = serde_json::to_string(&phone).expect("plain data");
    phone = serde_json::from_str(&kept).expect("reads what it wrote");
    assert!(phone.heard_all(), "across a restart");
    phone.is_stewards(true);
    assert!(!phone.heard_all(), "a new steward hears it from the start");
    assert!(ask(&mut phone, false));
}

#[test]
fn a_batch_is_bounded_in_number_and_in_bytes() {
    let many: Vec<_> = (1..=900).map(|seq| (seq, "line")).collect();
    assert_eq!(sent(&mut Phone::default(), &many), ENTRIES_MAX);
    let long = "x".repeat(10_000);
    let long: Vec<_> = (1..=900).map(|seq| (seq, long.as_str())).collect();
    assert_eq!(sent(&mut Phone::default(), &long), ENTRY_BYTES_MAX / 10_000);
    assert_eq!(sent(&mut Phone::default(), &[]), 0, "it asks for what others said");
}

#[test]
fn what_is_refused_is_tried_alone_until_it_gets_past() {
    let waiting: Vec<_> = (1..=9).map(|seq| (seq, "line")).collect();
    let mut phone = Phone::default();
    assert_eq!(sent(&mut phone, &waiting), 9);
    answered(&mut phone, 4, vec![Rejected { seq: 5, why: Why::Damaged }, Rejected { seq: 6, why: Why::Gap }]);
    assert_eq!(sent(&mut phone, &waiting), 1, "entry 5 alone");
    answered(&mut phone, 5, vec![]);
    assert_eq!(sent(&mut phone, &waiting), 4, "and the rest behind it");
}

#[test]
fn what_was_set_aside_holds_nothing_up() {
    let waiting: Vec<_> = (1..=9).map(|seq| (seq, "line")).collect();
    let mut phone = Phone::default();
    sent(&mut phone, &waiting);
    answered(&mut phone, 6, vec![Rejected { seq: 5, why: Why::OtherMember }]);
    assert_eq!(sent(&mut phone, &waiting), 3);
}

#[test]
fn the_clocks_are_compared_halfway() {
    let mut phone = Phone::default();
    sent(&mut phone, &[]);
    let answer = SyncAnswer::new(minute(10), head(0), "r");
    let received = phone.receive(minute(0) + Span::from_ms(500), answer.clone(), &head(0)).expect("in flight");
    assert_eq!((received.clock_offset.ms(), received.round_trip.ms()), (600_000 - 250, 500));
    assert!(received.shop_changed);
    assert_eq!(phone.receive(minute(9), answer, &head(0)), None, "nothing is in flight");
}

#[test]
fn another_story_at_the_hub_is_seen() {
    for (own, theirs, story) in [
        (head(4), head(4), Story::Same),
        (head(4), head(2), Story::Same),
        (head(4), head(5), Story::Forked),
        (head(4), Head { seq: 4, hash: "else".to_owned() }, Story::Forked),
    ] {
        let mut phone = Phone::default();
        sent(&mut phone, &[]);
        let answer = SyncAnswer::new(minute(0), theirs.clone(), "r");
        assert_eq!(phone.receive(minute(0), answer, &own).map(|received| received.story), Some(story), "{theirs:?}");
    }
}

/// Full jitter: anything up to a bound of 1 s, 2 s, 4 s, ... 5 min.
#[test]
fn waits_double_up_to_five_minutes() {
    let mut phone = Phone::default();
    let bounds: Vec<i64> = (0..12).map(|_| phone.failed(u32::MAX).ms() + 1).collect();
    let doubled = [1_000, 2_000, 4_000, 8_000, 16_000, 32_000, 64_000, 128_000, 256_000];
    assert_eq!(bounds[..9], doubled);
    assert_eq!(bounds[9..], [BACKOFF_MAX_MS; 3]);
    assert_eq!(phone.failed(0), Span::ZERO);
    assert_eq!(phone.failed(1 << 31).ms(), BACKOFF_MAX_MS / 2);
    phone.online();
    assert_eq!(phone.failed(u32::MAX).ms(), 999);
}

/// What is kept across a restart is the cursor; a question in flight is not.
#[test]
fn a_restart_asks_again() {
    let mut phone = Phone::default();
    sent(&mut phone, &[(1, "line")]);
    let kept = serde_json::to_string(&phone).expect("plain data");
    let mut phone: Phone = serde_json::from_str(&kept).expect("plain data");
    assert!(!phone.is_asking());
    let mut answer = SyncAnswer::new(Instant::from_ms(0), head(1), "r");
    answer.cursor = 41;
    assert_eq!(sent(&mut phone, &[(1, "line")]), 1);
    phone.receive(minute(0), answer, &head(1)).expect("in flight");
    assert_eq!(
        phone.generate(minute(0), &[(1, "line")], &[1, 2]).map(|ask| (ask.push.len(), ask.since, ask.lost)),
        Some((0, 41, vec![2]))
    );
}

/// A line that the hub keeps and found unsigned later holds up nothing; one that it has no place for does.
#[test]
fn what_is_kept_blocks_nothing() {
    for (seq, why, sent_next) in [(2, Why::Damaged, 2), (4, Why::Damaged, 2), (5, Why::Damaged, 1), (3, Why::Fork, 1)] {
        let mut phone = Phone::default();
        sent(&mut phone, &[]);
        let mut answer = SyncAnswer::new(minute(0), head(4), "r");
        answer.rejected = vec![Rejected { seq, why }];
        phone.receive(minute(0), answer, &head(6)).expect("in flight");
        assert_eq!(sent(&mut phone, &[(5, "five"), (6, "six")]), sent_next, "{seq} {why:?}");
    }
}

/// A page dies with what it had not kept yet, and the next one asks from further back. A late answer to the dead page's
/// question would move the cursor past what neither has.
#[test]
fn an_answer_that_goes_on_from_elsewhere_is_no_answer() {
    let answer = |since, forgot, cursor| {
        let mut answer = SyncAnswer::new(minute(0), head(0), "r");
        (answer.goes_on, answer.cursor) = (Some(GoesOn { since, forgot }), cursor);
        answer
    };
    let mut phone: Phone = serde_json::from_str(r#"{"since":41,"forgot":3}"#).expect("as it was kept");
    sent(&mut phone, &[]);
    for (since, forgot) in [(50, 3), (0, 3), (41, 4), (41, 0)] {
        assert_eq!(phone.receive(minute(0), answer(since, forgot, 60), &head(0)), None, "{since} {forgot}");
        assert!(phone.is_asking(), "its own answer may still come");
    }
    assert!(phone.receive(minute(0), answer(41, 3, 45), &head(0)).is_some());
    assert_eq!(phone.generate(minute(0), &[], &[]).map(|ask| ask.since), Some(45));
}

#[test]
fn who_becomes_a_steward_asks_once_more_from_the_start() {
    let mut phone = Phone::default();
    let goes_on_at = |phone: &mut Phone, cursor: u64| {
        let asked = phone.generate(minute(0), &[], &[]).expect("nothing is in flight").since;
        let answer = SyncAnswer { cursor, ..SyncAnswer::new(minute(0), head(0), "r") };
        assert!(phone.receive(minute(0), answer, &head(0)).is_some());
        asked
    };
    assert_eq!(goes_on_at(&mut phone, 7), 0);
    phone.is_stewards(false);
    assert_eq!(goes_on_at(&mut phone, 8), 7);
    phone.is_stewards(true);
    assert_eq!(goes_on_at(&mut phone, 9), 0);
    phone.is_stewards(true);
    assert_eq!(goes_on_at(&mut phone, 9), 9, "once");
    // Across a restart too; and never while a question is in flight, whose answer goes on from where it was asked.
    let mut kept: Phone = serde_json::from_str(&serde_json::to_string(&phone).expect("plain data")).expect("its own");
    kept.is_stewards(true);
    assert_eq!(goes_on_at(&mut kept, 10), 9);
    kept.is_stewards(false);
    assert!(kept.generate(minute(0), &[], &[]).is_some());
    kept.is_stewards(true);
    assert!(
        kept.receive(minute(0), SyncAnswer { cursor: 11, ..SyncAnswer::new(minute(0), head(0), "r") }, &head(0))
            .is_some()
    );
    assert_eq!(goes_on_at(&mut kept, 12), 11);
}

/// Each answer with its cursor and whether there is more; each question with where it asks from and what it knows.
#[test]
fn whoever_asks_once_more_tells_what_they_know_until_all_is_heard_again() {
    let mut phone = Phone::default();
    let in_another_life = Cursor { life: 3, place: 20 }.number();
    for (becomes, (since, knows_to), (cursor, more)) in [
        (None, (0, 0), (7, false)),
        (None, (7, 7), (9, false)),
        (Some(true), (0, 9), (4, true)),
        (None, (4, 9), (8, true)),
        // Somebody who is a steward, is none, and is one again.
        (Some(false), (8, 9), (9, true)),
        (Some(true), (0, 9), (12, false)),
        (None, (12, 12), (12, false)),
        // Behind what it knew there is nothing that it knows, though more is to come.
        (Some(false), (12, 12), (12, false)),
        (Some(true), (0, 12), (5, true)),
        (None, (5, 12), (14, true)),
        (None, (14, 14), (15, false)),
        // Once the hub was put back, that cannot be told from the places.
        (Some(false), (15, 15), (15, false)),
        (Some(true), (0, 15), (in_another_life, true)),
        (None, (in_another_life, 15), (in_another_life, false)),
    ] {
        if let Some(steward) = becomes {
            phone.is_stewards(steward);
        }
        // What is kept says it too.
        phone = serde_json::from_str(&serde_json::to_string(&phone).expect("plain data")).expect("its own");
        let asked = phone.generate(minute(0), &[], &[]).expect("nothing is in flight");
        let read = SyncRequest::read(&asked.write()).expect("what it wrote");
        assert_eq!((read.since, read.knows_to()), (since, knows_to), "{cursor}");
        let answer = SyncAnswer { cursor, more, ..SyncAnswer::new(minute(0), head(0), "r") };
        assert!(phone.receive(minute(0), answer, &head(0)).is_some());
    }
}

/// The hub may erase a line between handing it out and saying that it is to be forgotten.
#[test]
fn what_comes_with_the_word_to_forget_it_is_not_taken_up() {
    let mut writer = Writer::new(2);
    let dev = writer.link().dev;
    let lines: Vec<String> = (0..4).map(|nth| writer.write(&said("m2", nth, Fact::WatchRound)).jws).collect();
    for (dev, from, to, taken) in
        [(dev.clone(), 2, 3, vec![0, 3]), (dev, 4, 9, vec![0, 1, 2]), ("another".into(), 1, 4, vec![0, 1, 2, 3])]
    {
        let mut phone = Phone::default();
        sent(&mut phone, &[]);
        let mut answer = SyncAnswer::new(minute(0), head(0), "r");
        (answer.pull, answer.forget) = (lines.clone(), vec![Stretch { dev, from, to }]);
        let pulled = phone.receive(minute(0), answer, &head(0)).expect("in flight").pulled;
        let taken: Vec<String> = taken.into_iter().map(|nth: usize| lines[nth].clone()).collect();
        assert_eq!(pulled, taken, "{from} to {to}");
    }
}
