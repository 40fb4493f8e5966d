//! What a hub and a phone say to each other outside the log: the shop's bundle, joining, signing in, carrying a code.
//!
//! Plain JSON bodies, one type each, shared so that the two ends cannot disagree. They decide nothing: who may join
//! is the hub's business, what a phone does with a bundle is the app's. Fields may be added; a reader ignores those
//! that it does not know.

use serde::{Deserialize, Serialize};
use serde_json::Value;

use crate::ids::{BookId, DeviceId, PersonId, RoomId};
use crate::in_room::{Board, RoomKey};
use crate::json::{FromJson, Unfit, field_or_default, from_json};
use crate::members::Members;
use crate::pin::PinRecord;
use crate::rulebook::Rulebook;
use crate::sync::invite::InviteKind;
use crate::time::{Instant, MINUTE_MS};

/// A day without a change of the clocks, in milliseconds.
const DAY_MS: i64 = 24 * 60 * MINUTE_MS;

/// `GET /api/shop`: everything a phone must know of the shop to work without a network.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct ShopBundle {
    /// Differs whenever anything below but `hub_now` does; compared for equality alone.
    pub rev: String,
    /// Which rulebook this is.
    pub book: BookId,
    /// The rules.
    pub rulebook: Rulebook,
    /// What everybody is called; of this phone's own member, and of all for a steward, until when they are inducted and
    /// signed off on what.
    pub members: Members,
    /// Which device speaks for whom, as the faces say too: for apps that know no cards.
    pub devices: Vec<Device>,
    /// The hub's keys ([`crate::card::keys`]), first to last; none from a hub that knows no cards.
    pub keys: Vec<String>,
    /// This phone's card ([`crate::card::Card`]).
    pub card: Option<String>,
    /// The faces of all phones' cards ([`crate::card::face::Face`]), as their codes' texts.
    pub faces: Vec<String>,
    /// The phones that were taken off ([`crate::card::revoked::Revoked`]).
    pub revoked: Option<String>,
    /// Rooms with a wall board that shows a changing code, and what phones check the codes with.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub boards: Vec<Board>,
    /// What the figures of members who set some are checked against.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub pins: Vec<PinRecord>,
    /// The room whose board this device is: it shows the codes.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub hangs_in: Option<RoomId>,
    /// The shop's offsets from UTC, ascending, for two years ahead: phones need no time-zone database.
    pub utc_offsets: Vec<UtcOffset>,
    /// The hub's clock when it answered.
    pub hub_now: Instant,
}

/// A device that has joined.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct Device {
    /// Its id, which is its public key.
    pub dev: DeviceId,
    /// Whose it is.
    pub member: PersonId,
}

/// From `from` on, the shop's clocks show UTC plus `minutes`.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
pub struct UtcOffset {
    /// Since when; the first of a bundle lies in the past.
    pub from: Instant,
    /// Minutes east of UTC.
    pub minutes: i32,
}

from_json! {
    ShopBundle { rev, book, rulebook, members, devices, keys, card, faces, revoked, boards, pins, hangs_in, utc_offsets, hub_now }
    Device { dev, member }
    UtcOffset { from, minutes }
    JoinChoices { shop, members, invite }
    Choice { id, name }
}

impl ShopBundle {
    /// Whom a device speaks for.
    pub fn member_of(&self, dev: &DeviceId) -> Option<&PersonId> {
        self.devices.iter().find(|device| device.dev == *dev).map(|device| &device.member)
    }

    /// The key of the board that hangs in a room, if one does.
    pub fn board_in(&self, room: &RoomId) -> Option<&RoomKey> {
        self.boards.iter().find(|board| board.room == *room).map(|board| &board.key)
    }

    /// What a member's figures are checked against, if they set some.
    pub fn pin_of(&self, member: &PersonId) -> Option<&PinRecord> {
        self.pins.iter().find(|pin| pin.member == *member)
    }

    /// Minutes east of UTC that the shop's clocks show at `at`; the first offset known before that, 0 without any.
    pub fn utc_offset_minutes(&self, at: Instant) -> i32 {
        offset_minutes(&self.utc_offsets, at)
    }
}

/// The last of some offsets that has begun at `at`; the first of them before that, 0 without any.
pub fn offset_minutes(offsets: &[UtcOffset], at: Instant) -> i32 {
    let begun = offsets.iter().rev().find(|offset| offset.from <= at);
    begun.or(offsets.first()).map_or(0, |offset| offset.minutes)
}

/// When the day that holds `at` began: the last local midnight, by the offset that held then. Where clocks are put
/// forward at midnight itself, the day begins with the first minute that there is.
pub fn day_from(offsets: &[UtcOffset], at: Instant) -> Instant {
    let now = offset_minutes(offsets, at);
    let local_midnight_ms = (at.ms() + offset_ms(now)).div_euclid(DAY_MS) * DAY_MS;
    let by = |minutes: i32| Instant::from_ms(local_midnight_ms - offset_ms(minutes));
    let then = offset_minutes(offsets, by(now));
    if offset_minutes(offsets, by(then)) == then {
        return by(then);
    }
    offsets.iter().rev().map(|offset| offset.from).find(|from| *from <= at).unwrap_or(by(then))
}

fn offset_ms(minutes: i32) -> i64 {
    i64::from(minutes) * MINUTE_MS
}

/// `POST /api/join/check`: is this code good, and who can be joined with it?
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct JoinCheck {
    /// The code, as it was typed or scanned.
    pub code: String,
}

/// The answer to [`JoinCheck`].
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct JoinChoices {
    /// The shop's name.
    pub shop: String,
    /// Who there is to be: one, unless it is the demo shop's code.
    pub members: Vec<Choice>,
    /// What a one-time code is for; nothing of the demo shop's.
    pub invite: Option<InviteKind>,
}

/// One member, as little of them as choosing needs.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct Choice {
    /// Their id.
    pub id: PersonId,
    /// What they are called.
    pub name: String,
}

/// `POST /api/join`: this device speaks for that member from now on. Answered with 204 and a session.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct Join {
    /// The code.
    pub code: String,
    /// Whom the device speaks for.
    pub member: PersonId,
    /// The device.
    pub dev: DeviceId,
    /// Its Ed25519 signature over [`join_bytes`], base64url without padding.
    pub signature: String,
}

/// What a device signs to join.
pub fn join_bytes(code: &str, member: &PersonId) -> Vec<u8> {
    format!("sweepbell join v1\n{code}\n{member}").into_bytes()
}

/// `POST /api/session/challenge`: something fresh to sign, please.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct ChallengeAsked {
    /// Who asks.
    pub dev: DeviceId,
}

/// The answer to [`ChallengeAsked`].
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct Challenge {
    /// Good once, and soon stale.
    pub challenge: String,
}

/// `POST /api/session`: the challenge, signed. Answered with 204 and a session cookie.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct SessionAsked {
    /// Who signs in.
    pub dev: DeviceId,
    /// The challenge it was given.
    pub challenge: String,
    /// Its Ed25519 signature over [`session_bytes`], base64url without padding.
    pub signature: String,
}

/// What a device signs to begin a session with the hub.
pub fn session_bytes(challenge: &str) -> Vec<u8> {
    format!("sweepbell session v1\n{challenge}").into_bytes()
}

/// `POST /api/carry`: hand this code to a member's phones, as if they had scanned it. The hub does not read it.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct Carry {
    /// For whom.
    pub to: PersonId,
    /// The code's text.
    pub text: String,
}

/// `POST /api/boards`: this device hangs as the board of that room, or nowhere.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct Hung {
    /// Which device.
    pub dev: DeviceId,
    /// In which room; nowhere if none.
    pub room: Option<RoomId>,
}

/// The `carry` event of `GET /api/live`.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct Carried {
    /// Who handed it over.
    pub from: PersonId,
    /// The code's text.
    pub text: String,
}

/// A refusal of the hub, per RFC 9457.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize)]
pub struct Problem {
    /// Which kind: a URI reference whose last segment is stable, `about:blank` for none.
    #[serde(rename = "type")]
    pub kind: String,
    /// What it is, in a few words.
    pub title: String,
    /// The HTTP status again.
    pub status: u16,
    /// What happened this time, and what to do.
    pub detail: String,
}

from_json! {
    Carried { from, text }
    Challenge { challenge }
}

impl FromJson for Problem {
    fn from_json(value: &Value) -> Result<Self, Unfit> {
        let status: u32 = field_or_default(value, "status")?;
        Ok(Self {
            kind: field_or_default(value, "type")?,
            title: field_or_default(value, "title")?,
            status: u16::try_from(status).map_err(|_| Unfit("a status"))?,
            detail: field_or_default(value, "detail")?,
        })
    }
}

crate::json::read_as_json!(Problem);

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_offset_is_the_last_that_has_begun() {
        let at = |text: &str| Instant::parse(text).expect(text);
        let offsets = [("2026-01-01T00:00:00Z", 60), ("2026-03-29T01:00:00Z", 120), ("2026-10-25T01:00:00Z", 60)];
        let bundle = bundle(offsets.map(|(from, minutes)| UtcOffset { from: at(from), minutes }).to_vec());
        for (when, minutes) in [
            ("2025-12-31T00:00:00Z", 60),
            ("2026-03-29T00:59:59Z", 60),
            ("2026-03-29T01:00:00Z", 120),
            ("2026-10-25T01:00:00Z", 60),
            ("2031-01-01T00:00:00Z", 60),
        ] {
            assert_eq!(bundle.utc_offset_minutes(at(when)), minutes, "{when}");
        }
        assert_eq!(self::bundle(Vec::new()).utc_offset_minutes(at("2026-01-01T00:00:00Z")), 0);
    }

    #[test]
    fn a_bundle_survives_the_wire_and_unknown_fields() {
        let sent = bundle(vec![UtcOffset { from: Instant::from_ms(0), minutes: -210 }]);
        let mut json = serde_json::to_value(&sent).expect("plain data");
        json["later"] = serde_json::json!({ "more": true });
        assert_eq!(serde_json::from_value::<ShopBundle>(json).expect("fields may be added"), sent);
        assert_eq!(sent.member_of(&"dev".into()), Some(&"ada".into()));
        assert_eq!(sent.member_of(&"other".into()), None);
    }

    fn bundle(utc_offsets: Vec<UtcOffset>) -> ShopBundle {
        let rulebook = serde_json::json!({
            "shop": { "name": "Canal Yard", "time_zone": "Etc/UTC", "session_hours_max": 12 },
            "reserve": { "floor_minutes": 10, "first_bell_minutes": 10, "quantile": 0.8, "prior_weight": 5 },
            "buddy": { "renew_minutes": 15, "covers": 1, "may_operate": false },
            "fire_watch": { "minutes": 30, "exclusive": true },
            "statements": [], "gear": [], "rooms": [], "machines": [], "rounds": [], "stops": []
        });
        ShopBundle {
            rev: "1".into(),
            book: "book".into(),
            rulebook: serde_json::from_value(rulebook).expect("a whole rulebook"),
            members: Members::default(),
            devices: vec![Device { dev: "dev".into(), member: "ada".into() }],
            keys: vec!["key".into()],
            card: Some("card".into()),
            faces: vec!["face".into()],
            boards: vec![Board { room: "forge".into(), key: RoomKey([1; 32]) }],
            pins: vec![crate::pin::PinSet::new(&[1; 16], &[2; 32]).of("ada".into())],
            hangs_in: Some("forge".into()),
            revoked: Some("list".into()),
            utc_offsets,
            hub_now: Instant::from_ms(1_000),
        }
    }
}
