//! How the log reaches the hub, and what others said comes back.
//!
//! Sans-IO: both ends are values that eat and emit messages, so that a simulator runs the very code that ships.
//! The phone's half is [`peer::Phone`], the hub's [`hub::Intake`]; the words are in [`message`], where a phone goes on to
//! pull in [`cursor`], how lines are smallest on the wire in [`apart`], and what is said outside the log in [`shop`]. Any message may be lost, repeated, late or cut short: the hub's head says where to
//! go on, what is sent twice is known by its hash, and an answer says from where it goes on. The dialogue, in full:
//!
//! ```
//! use ed25519_dalek::SigningKey;
//! use shared_core::entry::{Entry, Fact};
//! use shared_core::log::{chain::Head, jws};
//! use shared_core::ordered::Map;
//! use shared_core::sync::hub::{Intake, Taken};
//! use shared_core::sync::message::{SyncAnswer, SyncRequest};
//! use shared_core::sync::peer::Phone;
//! use shared_core::time::Instant;
//!
//! // A phone signed its first entry. It is durable before anybody hears of it.
//! let key = SigningKey::from_bytes(&[1; 32]);
//! let dev = jws::device_of(&key.verifying_key());
//! let link = jws::Link { dev: dev.clone(), seq: 1, prev: String::new(), book: "book".into() };
//! let left = Entry { at: Instant::from_ms(0), session: "s1".into(), who: "m1".into(), fact: Fact::Left };
//! let line = jws::sign(&left, &link, &key).jws;
//! let own = Head { seq: 1, hash: jws::hash(&line) };
//!
//! // The phone asks. While a question is in flight there is no second one.
//! let mut phone = Phone::default();
//! let question = phone.generate(Instant::from_ms(1_000), &[(1, &line)], &[]).expect("nothing is in flight");
//! assert!(phone.generate(Instant::from_ms(1_001), &[(1, &line)], &[]).is_none());
//!
//! // The hub takes the entries in order, writes down what it is told, and answers with its head.
//! let question = SyncRequest::read(&question.write()).expect("it arrived whole");
//! let mut intake = Intake::new(dev, "m1".into(), Head::default(), Map::new(), &question.lost);
//! for line in &question.push {
//!     assert!(matches!(intake.take(line), Taken::Stored { .. }));
//!     assert!(matches!(intake.take(line), Taken::Duplicate { seq: 1 }), "twice does no harm");
//! }
//! let answer = SyncAnswer::new(Instant::from_ms(61_500), intake.head().clone(), "rev 1");
//!
//! // The phone learns how far the hub is, and by how much their clocks differ.
//! let answer = SyncAnswer::read(&answer.write()).expect("it arrived whole");
//! let received = phone.receive(Instant::from_ms(2_000), answer, &own).expect("a question was in flight");
//! assert_eq!((received.acked_to, received.clock_offset.ms(), received.shop_changed), (1, 60_000, true));
//! assert!(!received.more);
//! ```

pub mod apart;
pub mod cursor;
pub mod hub;
pub mod invite;
pub mod message;
pub mod mine;
pub mod peer;
pub mod push;
pub mod rules;
pub mod shop;

#[cfg(test)]
mod tests;
