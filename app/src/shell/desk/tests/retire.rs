//! What a phone drops: what is over and held by the hub, and what somebody wanted erased; never what is in force.

use shared_core::entry::{Entry, Fact};
use shared_core::log::chain::Head;
use shared_core::log::jws::Link;
use shared_core::sync::message::{Stretch, SyncAnswer, SyncRequest};

use super::*;
use crate::intent::Asked;
use crate::shell::desk::retire::over;
use crate::shell::journal::{Other, Standing};

const DAY: i64 = 24 * 60;

fn asked(phone: &Phone) -> Option<SyncRequest> {
    phone.errands.iter().find_map(|errand| match errand {
        Errand::Later(LaterErrand::Sync(request)) => Some((**request).clone()),
        _ => None,
    })
}

/// The hub holds all that the phone said so far, and hands it some lines.
fn answered(phone: &mut Phone, change: impl FnOnce(&mut SyncAnswer)) {
    let head = phone.journal.kept().head.unwrap_or_default();
    answered_from(phone, head, change);
}

fn answered_from(phone: &mut Phone, head: Head, change: impl FnOnce(&mut SyncAnswer)) {
    if asked(phone).is_none() {
        phone.ui(Ui::Sync);
    }
    let mut answer = SyncAnswer::new(phone.now.reading.wall, head, "1");
    change(&mut answer);
    phone.hub(Hub::Synced(Some(Ok(Box::new(answer)))));
}

/// An evening at the saw that is over; with a tag, if wanted.
fn evening(phone: &mut Phone, tag: Option<&str>) {
    phone.come_in();
    if let Some(problem) = tag {
        phone.act(Command::TagOut { machine: "saw".into(), problem: problem.into(), photo: None });
    }
    phone.act(Command::Leave);
}

fn kept(phone: &Phone) -> (Vec<u64>, usize) {
    let kept = phone.journal.kept();
    (kept.log.iter().map(|line| line.seq).collect(), kept.others.len())
}

#[test]
fn what_is_over_goes_once_the_hub_holds_it_and_what_is_in_force_stays() {
    let mut ben = Phone::joined(2);
    evening(&mut ben, Some("blade"));
    let of_ben = ben.journal.kept().log.into_iter().map(|line| line.jws).collect::<Vec<_>>();

    let mut ada = Phone::joined(1);
    evening(&mut ada, None);
    let said = ada.journal.kept().log.len() as u64;
    answered(&mut ada, |answer| answer.pull.clone_from(&of_ben));
    assert_eq!(kept(&ada), ((1..=said).collect(), of_ben.len()), "nothing is over");

    // Ninety days and some later, by the hub's clock; a line that waits goes nowhere.
    let mut ada = ada.reopened_after(91 * DAY);
    ada.come_in();
    let (own, others) = kept(&ada);
    let open: Vec<u64> = own.into_iter().filter(|seq| *seq > said).collect();
    assert_eq!(others, of_ben.len());
    let last = ada.journal.kept().log.into_iter().find(|line| line.seq == said).expect("it is kept");
    answered_from(&mut ada, Head { seq: said, hash: jws::hash(&last.jws) }, |_| {});
    assert_eq!(kept(&ada), (open.clone(), 1), "the tag alone is in force");
    assert_eq!(ada.desk.ledger.state().tags.len(), 1);
    assert!(ada.desk.ledger.my_session().is_some());

    // What went is not asked for as lost, and the chain goes on. That she came in while a question was in flight is asked at once.
    let request = asked(&ada).expect("a question");
    assert_eq!(request.lost, Vec::<u64>::new());
    ada.act(Command::Leave);
    let log = ada.journal.kept().log;
    assert_eq!(jws::open(&log[0].jws).expect("whole").seq, said + 1);
    let again = ada.reopened_after(1);
    assert_eq!(again.desk.ledger.state().tags.len(), 1);
}

#[test]
fn a_phone_whose_clock_is_years_ahead_drops_nothing() {
    let mut ada = Phone::joined(1);
    evening(&mut ada, None);
    let all = kept(&ada);
    let mut ada = ada.reopened_after(2_000 * DAY);
    let (head, hub_now) = (ada.journal.kept().head.expect("a head"), at(START));
    answered_from(&mut ada, head, |answer| answer.hub_now = hub_now);
    assert_eq!(kept(&ada), all);
}

#[test]
fn what_others_had_erased_is_forgotten() {
    let mut ben = Phone::joined(2);
    evening(&mut ben, Some("blade"));
    let of_ben: Vec<_> = ben.journal.kept().log.into_iter().map(|line| line.jws).collect();
    let dev = ben.key.device_id().clone();
    let mut ada = Phone::joined(1);
    answered(&mut ada, |answer| answer.pull.clone_from(&of_ben));
    assert_eq!(ada.desk.ledger.state().sessions.len(), 1);
    ada.ui(Ui::Sync);
    assert_eq!(asked(&ada).expect("a question").forgot, 0);
    answered(&mut ada, |answer| {
        answer.forget = vec![Stretch { dev: dev.clone(), from: 1, to: 3 }, Stretch { dev: "x".into(), from: 9, to: 1 }];
        answer.forgot = 7;
    });
    assert_eq!(kept(&ada).1, of_ben.len() - 3);
    assert_eq!(ada.desk.ledger.state().sessions.len(), 0, "at once");
    assert_eq!(ada.desk.ledger.state().tags.len(), 1, "the tag was in force");
    ada.ui(Ui::Sync);
    assert_eq!(asked(&ada).expect("a question").forgot, 7);
}

#[test]
fn what_the_hub_erased_of_ones_own_goes_from_the_phone_as_well() {
    let mut ada = Phone::joined(1);
    evening(&mut ada, None);
    answered(&mut ada, |_| {});
    ada.come_in();
    let (own, _) = kept(&ada);
    let open = own.iter().filter(|seq| **seq > 4).copied().collect::<Vec<_>>();
    let log = ada.journal.kept().log;
    assert!(log.iter().take(4).all(|line| line.standing == Standing::Acked), "{log:?}");
    let asked = Asked { path: Asked::ERASE, body: "{}".into() };
    ada.hub(Hub::Answered(asked.clone(), Err(crate::shell::hub_link::LinkFault::Revoked)));
    assert_eq!(kept(&ada).0, own, "nothing was erased");
    ada.hub(Hub::Answered(asked, Ok(r#"{"erased":4,"stays":3}"#.into())));
    assert_eq!(kept(&ada).0, open);
    assert!(ada.desk.ledger.my_session().is_some());
}

/// What the hub keeps because it has not heard the leaving goes from nowhere; what another phone of this key said instead of
/// this one's lines is no reason to drop these.
#[test]
fn what_the_hub_may_not_hold_goes_from_no_phone() {
    let erased = || Asked { path: Asked::ERASE, body: "{}".into() };
    for (behind, goes) in [(0, true), (-1, false), (2, false)] {
        let mut ada = Phone::joined(1);
        evening(&mut ada, None);
        let log = ada.journal.kept().log;
        let seq = log.len() as u64;
        let at = log.get(log.len() - if behind < 0 { 2 } else { 1 }).expect("she said some lines");
        let head = Head { seq: seq.saturating_add_signed(behind), hash: jws::hash(&at.jws) };
        answered_from(&mut ada, head, |_| {});
        ada.hub(Hub::Answered(erased(), Ok(r#"{"erased":3,"stays":0}"#.into())));
        assert_eq!(kept(&ada).0.is_empty(), goes, "the hub's newest line of hers is {behind} from her own");
    }
}

/// A stay that was left on another phone of hers: its end does not go from here before its beginning can.
#[test]
fn no_half_of_a_stay_goes_before_the_other() {
    let mut ada = Phone::joined(1);
    ada.come_in();
    let mut loaded = ada.journal.kept();
    let begun = jws::open(&loaded.log[0].jws).expect("she signed it").entry;
    let left = Entry { at: begun.at + Span::from_minutes(60), fact: Fact::Left, ..begun };
    let other = TestKey::of(9);
    let link = Link { dev: other.device_id().clone(), seq: 1, prev: String::new(), book: "book".into() };
    loaded.others.push(Other { id: "other 1".into(), jws: jws::sign(&left, &link, &other.0.0).jws });
    let all = loaded.log.len() + 1;
    for (held, gone) in [(0, 0), (all - 2, 0), (all - 1, all)] {
        for (nth, line) in loaded.log.iter_mut().enumerate() {
            line.standing = if nth < held { Standing::Acked } else { Standing::Waiting };
        }
        let changes = over(&loaded, Instant::from_ms(i64::MAX), Instant::from_ms(0));
        assert_eq!(changes.len(), gone, "the hub holds {held} lines");
    }
}
