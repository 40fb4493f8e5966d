//! Somebody who has joined and lies: forgeries, repeats, words put into others' mouths, a second story, junk.
//!
//! Sees everything that the hub keeps and has every key but those of honest phones; with a copied key it is a twin. Each
//! lie says what the hub must make of it. Goes to the hub directly: a liar's network is good.

use ed25519_dalek::SigningKey;
use shared_core::card::Role;
use shared_core::entry::{Condition, Entry, Fact, Given, Place};
use shared_core::ids::{BookId, DeviceId, MachineId, PersonId, RoomId, SessionId};
use shared_core::log::chain::Head;
use shared_core::log::jws::{self, JWS_BYTES_MAX, Link};
use shared_core::sync::hub::ONE_BY_ONE_MAX;
use shared_core::sync::message::{MESSAGE_BYTES_MAX, PROTOCOL, SyncRequest, Why};
use shared_core::time::{Instant, Span};

use crate::chance::Chance;
use crate::store::Store;

/// So many lines are checked by one signature.
pub(crate) const VOUCHED: usize = ONE_BY_ONE_MAX + 1;

/// A lie and what must become of it.
#[derive(Clone, Debug)]
pub(crate) struct Lie {
    pub(crate) name: &'static str,
    pub(crate) message: String,
    pub(crate) fate: Fate,
}

#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Fate {
    /// Told as not counted, for that reason.
    Rejected(Why),
    /// Stored as the liar's own word, and nobody else's.
    TheirOwn,
    /// Stored; the line that is not signed counts until the hub proves it, is handed to nobody, and is set aside.
    Vouched,
    /// Kept already: nothing changes.
    Known,
    /// Kept already, and set aside: nothing changes, and that is told once more.
    Again,
    /// Not even a question.
    NoQuestion,
}

#[derive(Debug)]
pub(crate) struct Adversary {
    pub(crate) who: PersonId,
    pub(crate) dev: DeviceId,
    key: SigningKey,
    book: BookId,
}

impl Adversary {
    pub(crate) fn new(who: PersonId, key: SigningKey, book: BookId) -> Self {
        Self { who, dev: jws::device_of(&key.verifying_key()), key, book }
    }

    pub(crate) fn lie(&self, hub: &Store, is_steward: bool, now: Instant, chance: &mut Chance) -> Lie {
        let head = hub.head(&self.dev);
        let others: Vec<_> = hub.log.values().filter(|row| row.dev != self.dev && row.erased.is_none()).collect();
        let victim = (!others.is_empty()).then(|| *chance.pick(&others));
        let said = victim.and_then(|row| row.entry.clone());
        let session = said.as_ref().map_or_else(SessionId::outside, |entry| entry.session.clone());
        let fact = fact(chance, now);
        let own = Entry { at: now, session: session.clone(), who: self.who.clone(), fact };
        let own_line = hub.line(&self.dev, head.seq).filter(|row| row.erased.is_none()).map(|row| row.jws.clone());
        match chance.below(13) {
            0 if victim.is_some() => {
                let line = victim.map(|row| row.jws.clone()).unwrap_or_default();
                lie("a changed line", vec![changed(line, chance)], Fate::Rejected(Why::Damaged))
            }
            1 if victim.is_some() => {
                let line = victim.map(|row| row.jws.clone()).unwrap_or_default();
                lie("another phone's line", vec![line], Fate::Rejected(Why::OtherDevice))
            }
            2 => {
                let who = said.map_or_else(|| PersonId::from("marit"), |entry| entry.who);
                let words = Entry { who, ..own };
                lie("another's word", vec![self.sign(&words, &head)], Fate::Rejected(Why::OtherMember))
            }
            3 if head.seq > 1 => {
                let earlier = Head { seq: head.seq - 1, hash: "x".repeat(43) };
                lie("a second story", vec![self.sign(&own, &earlier)], Fate::Rejected(Why::Fork))
            }
            4 if head.seq > 0 => {
                let elsewhere = Head { seq: head.seq, hash: "y".repeat(43) };
                lie("a story from elsewhere", vec![self.sign(&own, &elsewhere)], Fate::Rejected(Why::Fork))
            }
            5 if head.seq > 0 => {
                let ahead = Head { seq: head.seq + 7, hash: head.hash };
                lie("a story with a hole", vec![self.sign(&own, &ahead)], Fate::Rejected(Why::Gap))
            }
            6 => {
                let long = "A".repeat(JWS_BYTES_MAX + 1);
                lie("a line too long", vec![long], Fate::Rejected(Why::Damaged))
            }
            8 if own_line.is_some() => {
                // However often: what is set aside is told each time, so only a line that counts is told of by nothing.
                let counts = hub.line(&self.dev, head.seq).is_some_and(|row| row.aside.is_none());
                let fate = if counts { Fate::Known } else { Fate::Again };
                lie("its own line again and again", own_line.into_iter().cycle().take(50).collect(), fate)
            }
            9 => {
                let line = "A".repeat(JWS_BYTES_MAX);
                let lines = MESSAGE_BYTES_MAX / JWS_BYTES_MAX + 1;
                lie("a question too long", vec![line; lines], Fate::NoQuestion)
            }
            10 => lie("a word that it did not sign, and vouches for", self.vouched(&own, &head), Fate::Vouched),
            11 => {
                let word = Fact::RoleGiven { person: self.who.clone(), role: Role::Steward };
                let given = Entry { fact: word, ..own };
                // Unless a steward has made them one.
                let fate = if is_steward { Fate::TheirOwn } else { Fate::Rejected(Why::NotAllowed) };
                lie("a role of one's own giving", vec![self.sign(&given, &head)], fate)
            }
            7 => Lie { name: "junk", message: junk(chance), fate: Fate::NoQuestion },
            _ => lie("into another's session", vec![self.sign(&own, &head)], Fate::TheirOwn),
        }
    }

    /// More lines than are checked one by one, of which one bears no signature; the last vouches for it.
    fn vouched(&self, own: &Entry, head: &Head) -> Vec<String> {
        let round = Entry { fact: Fact::WatchRound, ..own.clone() };
        let mut after = head.clone();
        let mut lines = Vec::new();
        for nth in 0..=VOUCHED {
            let entry = if nth == VOUCHED / 2 { own } else { &round };
            let mut line = self.sign(entry, &after);
            if nth == VOUCHED / 2 {
                let (input, _) = line.rsplit_once('.').expect("three parts");
                line = jws::assemble(input, [7; 64]);
            }
            after = Head { seq: after.seq + 1, hash: jws::hash(&line) };
            lines.push(line);
        }
        lines
    }

    /// The next line, after what the hub has of this key.
    pub(crate) fn sign(&self, entry: &Entry, after: &Head) -> String {
        sign(&self.key, &self.book, entry, after)
    }
}

/// A line of any key.
pub(crate) fn sign(key: &SigningKey, book: &BookId, entry: &Entry, after: &Head) -> String {
    let dev = jws::device_of(&key.verifying_key());
    let link = Link { dev, seq: after.seq + 1, prev: after.hash.clone(), book: book.clone() };
    jws::sign(entry, &link, key).jws
}

/// A question that brings lines.
pub(crate) fn question(push: Vec<String>) -> String {
    SyncRequest { protocol: PROTOCOL, push, lost: Vec::new(), since: 0, forgot: 0, heard_to: 0, apart: false }.write()
}

fn lie(name: &'static str, push: Vec<String>, fate: Fate) -> Lie {
    Lie { name, message: question(push), fate }
}

/// Facts that would hurt if they counted for somebody else's session.
fn fact(chance: &mut Chance, now: Instant) -> Fact {
    let room = RoomId::from("forge");
    let machine = MachineId::from("welding");
    let out_by = now + Span::from_minutes(500);
    match chance.below(8) {
        0 => Fact::Left,
        1 => Fact::BuddyConfirmed {
            buddy: PersonId::from(*chance.pick(&["wout", "joris"])),
            machine: None,
            proof: None,
            given: Given::OnTheirWord,
        },
        2 => Fact::MachineStopped { machine },
        3 => Fact::OutByMoved { out_by },
        4 => Fact::Entered { room, out_by },
        5 => Fact::SweepStarted { crew: 1 },
        6 => Fact::MachineStarted { machine, material: None },
        _ => Fact::Found { place: Place::Room(room), condition: Condition::Mess, note: None },
    }
}

fn changed(mut line: String, chance: &mut Chance) -> String {
    let at = chance.below(line.len());
    line.replace_range(at..=at, if line[at..].starts_with('Q') { "R" } else { "Q" });
    line
}

fn junk(chance: &mut Chance) -> String {
    match chance.below(5) {
        0 => String::new(),
        1 => "[".repeat(100_000),
        2 => "{\"protocol\":1,\"push\":[{}]}".to_owned(),
        3 => "A".repeat(1_000_000),
        _ => format!("{{\"protocol\":{}}}", chance.range(2, 9)),
    }
}
