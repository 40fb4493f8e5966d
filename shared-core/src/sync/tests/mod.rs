//! Tests of sync: the words, each half alone, and both halves over a bad network.

mod apart;
mod badly_connected;
mod hub;
mod message;
mod phone;

use crate::ids::PersonId;
use crate::log::chain::Head;
use crate::log::jws;
use crate::log::testing::{key, minute};
use crate::ordered::Map;
use crate::sync::hub::{Intake, Kept, Taken};
use crate::sync::message::{MessageFault, SyncAnswer, SyncRequest};

/// A hub that keeps one device's entries in memory.
#[derive(Default)]
struct Hub {
    stored: Vec<String>,
    aside: Vec<u64>,
    kept: Map<u64, Kept>,
    head: Head,
    /// What others said; a cursor is a number of lines.
    others: Vec<String>,
}

impl Hub {
    fn answer(&mut self, question: &str) -> Result<SyncAnswer, MessageFault> {
        let question = SyncRequest::read(question)?;
        let dev = jws::device_of(&key(1).verifying_key());
        let mut intake = Intake::new(dev, PersonId::from("m1"), self.head.clone(), self.kept.clone(), &question.lost);
        for line in &question.push {
            match intake.take(line) {
                Taken::Stored { signed, hash, .. } => {
                    self.stored.push(signed.jws);
                    self.kept.insert(signed.seq, Kept { hash, aside: None });
                }
                Taken::SetAside { seq, hash, why, .. } => {
                    self.aside.push(seq);
                    self.kept.insert(seq, Kept { hash, aside: Some(why) });
                }
                Taken::Duplicate { .. } | Taken::Refused { .. } => {}
            }
        }
        self.head = intake.head().clone();
        let mut answer = SyncAnswer::new(minute(0), self.head.clone(), "rev 1");
        answer.goes_on = Some(question.goes_on());
        answer.rejected = intake.rejected().to_vec();
        answer.pull = self.others.iter().skip(usize::try_from(question.since).expect("few")).cloned().collect();
        answer.cursor = u64::try_from(self.others.len()).expect("few");
        Ok(answer)
    }
}
