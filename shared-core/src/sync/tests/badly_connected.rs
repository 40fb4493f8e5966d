//! Messages are lost, repeated, late and cut short; the hub ends with exactly the phone's entries, in order, and the phone
//! with all that others said.

use proptest::prelude::*;

use super::Hub;
use crate::entry::Fact;
use crate::log::chain::{Head, verify_log};
use crate::log::testing::{Writer, minute, said};
use crate::ordered::Set;
use crate::sync::message::{SyncAnswer, Why};
use crate::sync::peer::{Phone, Story};

/// What happens next.
#[derive(Clone, Debug)]
enum Event {
    /// The phone signs this many entries.
    Sign(u8),
    /// Somebody else says something.
    Others,
    /// The phone asks, and all goes well.
    Deliver,
    /// The question never arrives.
    LoseQuestion,
    /// The hub hears, the phone never learns.
    LoseAnswer,
    /// The question is cut short to this share of 255.
    CutQuestion(u8),
    /// The answer is cut short.
    CutAnswer(u8),
    /// The hub hears the question twice; the phone hears both answers.
    Twice,
    /// An old question arrives again, now, and its answer reaches the phone before the true one.
    Late(u8),
    /// The phone starts anew and remembers nothing of the conversation, nor what it heard.
    Forget,
    /// The network comes back.
    Online,
    /// The phone's storage spoils one of its entries, which it declares lost from then on.
    Spoil(u8),
}

fn any_event() -> impl Strategy<Value = Event> {
    prop_oneof![
        3 => (1_u8..5).prop_map(Event::Sign),
        2 => Just(Event::Others),
        2 => Just(Event::Deliver),
        1 => Just(Event::LoseQuestion),
        2 => Just(Event::LoseAnswer),
        1 => any::<u8>().prop_map(Event::CutQuestion),
        1 => any::<u8>().prop_map(Event::CutAnswer),
        1 => Just(Event::Twice),
        2 => any::<u8>().prop_map(Event::Late),
        1 => Just(Event::Forget),
        1 => Just(Event::Online),
        1 => (0_u8..12).prop_map(Event::Spoil),
    ]
}

struct World {
    writer: Writer,
    log: Vec<String>,
    phone: Phone,
    hub: Hub,
    questions: Vec<String>,
    spoilt: Set<u64>,
    heard: Set<String>,
}

impl World {
    fn new() -> Self {
        let (phone, hub, spoilt, heard) = (Phone::default(), Hub::default(), Set::new(), Set::new());
        Self { writer: Writer::new(1), log: Vec::new(), phone, hub, questions: Vec::new(), spoilt, heard }
    }

    fn sign(&mut self, count: u8) {
        for _ in 0..count {
            let minutes = i64::try_from(self.log.len()).expect("few");
            self.log.push(self.writer.write(&said("m1", minutes, Fact::WatchRound)).jws);
        }
    }

    fn ask(&mut self) -> String {
        let whole = |(seq, _): &(u64, _)| !self.spoilt.contains(seq);
        let waiting: Vec<_> = (1..).zip(&self.log).filter(whole).map(|(seq, line)| (seq, line.as_str())).collect();
        let lost: Vec<_> = self.spoilt.iter().copied().collect();
        let question = self.phone.generate(minute(0), &waiting, &lost).expect("nothing is in flight").write();
        self.questions.push(question.clone());
        question
    }

    fn hear(&mut self, answer: &str) {
        match SyncAnswer::read(answer) {
            Ok(answer) => {
                let own = self.writer.head.clone();
                let received = self.phone.receive(minute(1), answer, &own);
                let Some(received) = received else { return };
                assert_eq!(received.story, Story::Same);
                self.heard.extend(received.pulled);
                // An old question may bring what was declared lost since; nothing else is ever turned away.
                assert!(
                    received.rejected.iter().all(|entry| entry.why == Why::DeclaredLost),
                    "{:?}",
                    received.rejected
                );
            }
            Err(_) => drop(self.phone.failed(7)),
        }
    }

    fn happen(&mut self, event: &Event) {
        match event {
            Event::Sign(count) => return self.sign(*count),
            Event::Online => return self.phone.online(),
            Event::Forget => {
                self.phone = Phone::default();
                self.heard.clear();
                return;
            }
            Event::Others => return self.hub.others.push(format!("line {}", self.hub.others.len())),
            Event::Spoil(which) => {
                let seq = 1 + u64::from(*which);
                self.spoilt.extend((seq <= self.writer.head.seq).then_some(seq));
                return;
            }
            _ => {}
        }
        let question = self.ask();
        let cut = |text: &str, share: u8| text[..text.len() * usize::from(share) / 256].to_owned();
        match event {
            Event::LoseQuestion => drop(self.phone.failed(7)),
            Event::CutQuestion(share) => {
                assert!(self.hub.answer(&cut(&question, *share)).is_err(), "a part of a question is no question");
                self.phone.failed(7);
            }
            Event::LoseAnswer => {
                self.answer(&question);
                self.phone.failed(7);
            }
            Event::CutAnswer(share) => {
                let answer = self.answer(&question);
                self.hear(&cut(&answer, *share));
            }
            Event::Twice => {
                let (first, second) = (self.answer(&question), self.answer(&question));
                self.hear(&second);
                self.hear(&first);
            }
            Event::Late(which) => {
                let old = self.questions[usize::from(*which) % self.questions.len()].clone();
                let (late, answer) = (self.answer(&old), self.answer(&question));
                self.hear(&late);
                self.hear(&answer);
            }
            _ => {
                let answer = self.answer(&question);
                self.hear(&answer);
            }
        }
    }

    /// Whether the hub's entries are the phone's, each once and in order, possibly without some.
    fn is_in_order(&self) -> bool {
        let mut log = self.log.iter();
        self.hub.stored.iter().all(|stored| log.any(|line| line == stored))
    }

    fn answer(&mut self, question: &str) -> String {
        self.hub.answer(question).expect("a whole question").write()
    }
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(96))]

    #[test]
    fn the_hub_ends_with_exactly_the_phones_entries(events in proptest::collection::vec(any_event(), 0..24)) {
        let mut world = World::new();
        for event in &events {
            world.happen(event);
            prop_assert!(world.is_in_order(), "at every moment the hub has entries of the phone's, in order");
        }
        world.sign(1);
        for _ in 0..3 {
            world.happen(&Event::Deliver);
        }
        prop_assert!(world.is_in_order());
        for (seq, line) in (1..).zip(&world.log) {
            prop_assert!(world.hub.stored.contains(line) || world.spoilt.contains(&seq), "entry {seq}");
        }
        prop_assert_eq!(world.phone.acked(), world.writer.head.seq);
        prop_assert_eq!(&world.heard, &world.hub.others.iter().cloned().collect());
        if world.spoilt.is_empty() {
            prop_assert_eq!(&world.hub.stored, &world.log);
            prop_assert_eq!(verify_log(&world.hub.stored.join("\n")).problems, vec![]);
        }
    }
}

/// Yesterday's copy of the hub knows less than it once acknowledged.
#[test]
fn a_hub_put_back_to_an_older_copy_is_filled_again() {
    let mut world = World::new();
    world.sign(9);
    world.happen(&Event::Deliver);
    world.hub = Hub::default();
    world.sign(2);
    let question = world.ask();
    let answer = world.hub.answer(&question).expect("a whole question");
    let received = world.phone.receive(minute(1), answer, &world.writer.head).expect("it is in flight");
    assert!(received.more && received.acked_to == 0, "ask again at once");
    world.happen(&Event::Deliver);
    assert_eq!(world.hub.stored, world.log);
}

/// Two hundred entries a message; the phone goes on at once while there are more.
#[test]
fn a_long_log_goes_in_batches() {
    let mut world = World::new();
    world.sign(250);
    world.sign(200);
    let mut rounds = 0;
    loop {
        let question = world.ask();
        let answer = world.hub.answer(&question).expect("a whole question");
        rounds += 1;
        if !world.phone.receive(minute(1), answer, &world.writer.head).expect("it is in flight").more {
            break;
        }
    }
    assert_eq!((rounds, world.hub.stored.len()), (3, 450));
    assert_eq!(world.hub.head, Head { ..world.writer.head.clone() });
}
