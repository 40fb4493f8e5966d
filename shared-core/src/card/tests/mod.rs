//! Cards, faces, keys and lists: what is believed, and each reason why something is not.

mod faces;
mod keys;
mod lists;
mod signed;

use ed25519_dalek::SigningKey;

use super::keys::{self as hub_keys, Keys};
use super::revoked::{Revoked, TakenOff};
use super::{Card, Trust};
use crate::ids::DeviceId;
use crate::log::jws;
use crate::log::testing::key;
use crate::members::Member;
use crate::ordered::Map;
use crate::time::{Instant, Span};

/// So many days after the tests' zero.
fn day(days: i64) -> Instant {
    Instant::from_ms(1_777_000_000_000) + Span::from_minutes(days * 24 * 60)
}

/// A phone, by its number.
fn phone(number: u8) -> DeviceId {
    jws::device_of(&key(number).verifying_key())
}

fn ada() -> Member {
    Member {
        id: "ada".into(),
        name: "Ada Lovelock".into(),
        inducted_until: Some(day(400)),
        signed_off: Map::from([("lathe".into(), day(300)), ("mill".into(), day(-3))]),
        steward: true,
        signer: false,
        ..Member::default()
    }
}

/// The card of Ada's phone 1, made on day 0.
fn card() -> Card {
    Card::of(&ada(), phone(1), 7, day(0))
}

/// A hub that changed its key: 101 until day 40, then 102 from day 10 on.
fn rotated() -> (SigningKey, SigningKey, Vec<String>) {
    let (old, new) = (key(101), key(102));
    let statements = vec![hub_keys::first(&old, day(-100)), hub_keys::next(&old, &new, day(10), day(40))];
    (old, new, statements)
}

fn taken_off(number: u64, issued: Instant, devices: &[u8]) -> Revoked {
    let devices = devices.iter().map(|dev| TakenOff { dev: phone(*dev), since: issued }).collect();
    Revoked { number, issued, devices }
}

/// What a phone believes that met the hub after the change, with these phones taken off.
fn trust(devices: &[u8]) -> Trust {
    let (_, new, statements) = rotated();
    let list = taken_off(3, day(12), devices).seal(&new);
    Trust::read(&statements, &list).expect("the hub's own words")
}
