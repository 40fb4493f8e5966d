//! The tally: a start that folds only what came since ends where one that folds everything does, and nothing else ever counts.

use shared_core::entry::{Entry, Fact};
use shared_core::log::chain::Head;
use shared_core::log::jws::{Link, sign};
use shared_core::state::State;

use super::*;
use crate::shell::desk::ledger::Ledger;
use crate::shell::desk::tally::WORTH_IT;
use crate::shell::journal::{Aside, Change, Fault, Journal as _, Line, Other, Shelf, Standing};

/// Somebody else's phone, which says something each minute.
struct Teller {
    key: TestKey,
    head: Head,
}

impl Teller {
    fn new() -> Self {
        Self { key: TestKey::of(2), head: Head::default() }
    }

    fn says(&mut self, fact: Fact) -> Change {
        let seq = self.head.seq + 1;
        let at = at(START) + Span::from_minutes(i64::try_from(seq).expect("few") - 5_000);
        let entry = Entry { at, session: format!("s{}", seq / 10).as_str().into(), who: "ben".into(), fact };
        let link = Link { dev: self.key.device_id().clone(), seq, prev: self.head.hash.clone(), book: "book".into() };
        let signed = sign(&entry, &link, &self.key.0.0);
        self.head = Head { seq, hash: jws::hash(&signed.jws) };
        Change::Other(Other { id: format!("{} {seq:016}", self.key.device_id()), jws: signed.jws })
    }

    /// Ten lines an evening: in, eight starts and stops, out.
    fn evenings(&mut self, lines: u64) -> Vec<Change> {
        let fact = |nth: u64| match nth % 10 {
            0 => Fact::Entered { room: "forge".into(), out_by: at(START) },
            9 => Fact::Left,
            odd if odd % 2 == 1 => Fact::MachineStarted { machine: "saw".into(), material: None },
            _ => Fact::MachineStopped { machine: "saw".into() },
        };
        (0..lines).map(|_| self.says(fact(self.head.seq + 1))).collect()
    }
}

/// What is known from the whole log, without any tally.
fn folded(phone: &Phone) -> State {
    let lone = phone.journal.clone();
    let kept = lone.kept();
    let mut state = State::default();
    for jws in kept.log.iter().map(|line| &line.jws).chain(kept.others.iter().map(|other| &other.jws)) {
        shared_core::state::fold(&mut state, &jws::read(jws).expect("it was signed").entry);
    }
    state
}

fn known(phone: &Phone) -> State {
    let (ledger, _) = done(Ledger::load(&phone.journal, phone.key.device_id())).expect("memory");
    ledger.state().clone()
}

/// A phone with an evening of its own and so many lines of another's, which were proved; and the other.
fn with(lines: u64) -> (Phone, Teller) {
    let mut ada = Phone::joined(1);
    ada.come_in();
    let mut ben = Teller::new();
    done(ada.journal.change(&ben.evenings(lines))).expect("memory");
    let mut ada = ada.reopened_after(1);
    ada.send(Intent::Phone(Told::Proved));
    (ada, ben)
}

#[test]
fn a_start_from_a_tally_is_a_start_from_all_lines() {
    let (ada, mut ben) = with(WORTH_IT + 7);
    assert_eq!((ada.journal.tally().is_some(), ada.journal.fresh()), (true, 0));
    assert_eq!(known(&ada), folded(&ada));

    // What comes since is folded on top, whosever it is.
    done(ada.journal.change(&ben.evenings(25))).expect("memory");
    let mut ada = ada.reopened_after(1);
    ada.act(start("saw"));
    assert_eq!(ada.journal.fresh(), 25);
    let (before, whole) = (ada.shown().clone(), folded(&ada));
    let ada = ada.reopened_after(0);
    assert_eq!(known(&ada), whole);
    assert_eq!((&ada.shown().bench, &ada.shown().room), (&before.bench, &before.room));
}

#[test]
fn where_little_was_heard_there_is_none() {
    let (ada, _) = with(WORTH_IT / 2);
    assert_eq!(ada.journal.tally(), None);
}

#[test]
fn with_a_tally_little_is_proved_again_and_the_next_is_made_when_enough_came() {
    let (mut ada, mut ben) = with(WORTH_IT);
    let first = ada.journal.tally();
    ada.send(Intent::Phone(Told::Proved));
    assert_eq!(ada.journal.tally(), first, "nothing came since");
    done(ada.journal.change(&ben.evenings(WORTH_IT))).expect("memory");
    let mut ada = ada.reopened_after(0);
    assert_eq!(ada.journal.tally(), first, "not before they are proved");
    ada.send(Intent::Phone(Told::Proved));
    assert_ne!(ada.journal.tally(), first);
    assert_eq!(ada.journal.fresh(), 0);
    assert_eq!(known(&ada), folded(&ada));
}

/// A line that goes takes the tally along.
#[test]
fn a_tally_goes_with_any_line_that_it_stands_for() {
    let id = |seq: u64| format!("{} {seq:016}", TestKey::of(2).device_id());
    let aside = || Aside { id: id(3), jws: String::new(), why: "spoilt".into() };
    let changes: [(&str, Change); 4] = [
        ("another's, over or erased", Change::OtherGone(id(3))),
        ("another's, spoilt", Change::OtherAside(aside())),
        ("one's own, over", Change::LineGone(2)),
        ("one's own, spoilt", Change::LineAside { seq: 2, aside: aside() }),
    ];
    for (what, change) in changes {
        let (ada, _) = with(WORTH_IT);
        done(ada.journal.change(&[change])).expect("memory");
        assert_eq!(ada.journal.tally(), None, "{what}");
        let mut ada = ada.reopened_after(0);
        assert_eq!(known(&ada), folded(&ada), "{what}");
        ada.send(Intent::Phone(Told::Proved));
        assert!(ada.journal.tally().is_some(), "{what}: it is made anew");
        assert_eq!(known(&ada), folded(&ada), "{what}");
    }
    // What the hub would not take may be folded no longer.
    let (ada, _) = with(WORTH_IT);
    let line = ada.journal.kept().log.pop().expect("she said something");
    let refused = Line { standing: Standing::Rejected { why: "no".into() }, ..line };
    done(ada.journal.change(&[Change::Line(refused)])).expect("memory");
    assert_eq!(ada.journal.tally(), None);
}

/// Not made by these rules on this phone, torn, or with nobody here to read it: then all lines are read.
#[test]
fn what_is_no_tally_of_this_phone_counts_for_nothing() {
    let (ada, _) = with(WORTH_IT);
    let tally = ada.journal.tally().expect("it was made");
    let changed = |place: usize| {
        let mut tally = tally.clone();
        tally[place] ^= 1;
        tally
    };
    let whole = folded(&ada);
    let longer = [&tally[..], &[0]].concat();
    // A length of four bytes stands before the rules' digest of 43, and before the phone's of 43.
    for other in [changed(4), changed(46), changed(51), tally[..tally.len() - 1].to_vec(), longer, Vec::new()] {
        ada.journal.set_tally(other);
        assert_eq!(known(&ada), whole);
        assert_eq!(ada.journal.tally(), None);
        assert_ne!(done(ada.journal.others_after(Shelf::Others, "")), Ok(Vec::new()), "its lines are proved again");
    }
    ada.journal.set_tally(tally);
    ada.journal.stay_alone();
    assert_eq!(known(&ada), whole);
    assert!(ada.journal.tally().is_some(), "whoever can read it may come yet");
}

/// Another tab wrote meanwhile: what is kept then would stand for lines that it does not know, or that are gone.
#[test]
fn a_tally_is_kept_only_of_all_lines() {
    let id = |seq: u64| format!("{} {seq:016}", TestKey::of(2).device_id());
    let mut ben = Teller::new();
    let evenings = ben.evenings(WORTH_IT);
    let (one_more, another) = (ben.says(Fact::Left), ben.says(Fact::Left));
    let meanwhile = [
        ("a line came", vec![one_more.clone()]),
        ("a line went", vec![Change::OtherGone(id(3))]),
        ("one went and two came", vec![Change::OtherGone(id(3)), one_more, another]),
    ];
    for (what, changes) in meanwhile {
        let ada = Phone::joined(1);
        done(ada.journal.change(&evenings)).expect("memory");
        let mut ada = ada.reopened_after(0);
        done(ada.journal.change(&changes)).expect("memory");
        ada.send(Intent::Phone(Told::Proved));
        assert_eq!(ada.journal.tally(), None, "{what}");
        assert_eq!(known(&ada), folded(&ada), "{what}");
    }
    // Her own acts, in another tab.
    let ada = Phone::joined(1);
    done(ada.journal.change(&evenings)).expect("memory");
    let mut ada = ada.reopened_after(0);
    Phone::open(ada.key.clone(), ada.journal.clone(), ada.now.reading.wall).come_in();
    ada.send(Intent::Phone(Told::Proved));
    assert_eq!(ada.journal.tally(), None);
}

#[test]
fn a_full_phone_keeps_none_and_goes_on() {
    let ada = Phone::joined(1);
    done(ada.journal.change(&Teller::new().evenings(WORTH_IT))).expect("memory");
    let mut ada = ada.reopened_after(0);
    ada.journal.fail_next(Fault::Full);
    let shown = ada.send(Intent::Phone(Told::Proved));
    assert_eq!(shown.notice, None);
    assert_eq!(ada.journal.tally(), None);
    ada.send(Intent::Phone(Told::Proved));
    assert!(ada.journal.tally().is_some());
}
