//! Figures of one's own, for a buddy who has no phone with them: typed on the operator's phone, checked there.
//!
//! Phones work without a network, so what the figures are checked against lies on every joined phone: a slow digest (PBKDF2,
//! RFC 8018 section 5.2, with HMAC-SHA-256) under a salt. Six figures are a million tries, and whoever takes a phone's
//! storage apart can make them in hours; so a word given like this is marked as such wherever it is shown, and what it
//! is worth is for the shop to say. What is slow is reckoned outside: nothing here derives a key, reads a clock or keeps
//! the figures.

use serde::{Deserialize, Serialize};

use crate::base64url;
use crate::ids::PersonId;
use crate::time::{Instant, Span};

/// How many figures.
pub const DIGITS: usize = 6;
/// Rounds of the digest: the OWASP password storage cheat sheet's figure for PBKDF2 with HMAC-SHA-256 (from memory).
pub const ROUNDS: u32 = 600_000;
/// No record asks a phone for more rounds than this: a few seconds of an old one.
pub const ROUNDS_MAX: u32 = 2_000_000;
/// Bytes of salt: RFC 8018 section 4.1 asks for 8 or more, NIST SP 800-132 section 5.1 for 16.
pub const SALT_BYTES: usize = 16;
/// Bytes of the digest.
pub const CHECK_BYTES: usize = 32;
/// So many wrong tries, and the phone takes none for [`REST`].
pub const TRIES: usize = 5;
/// How long a phone rests then.
pub const REST: Span = Span::from_minutes(10);

/// What a member's figures are checked against.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct PinRecord {
    /// Whose.
    pub member: PersonId,
    /// The salt, base64url.
    pub salt: String,
    /// Rounds.
    pub rounds: u32,
    /// The digest of the figures, base64url.
    pub check: String,
}

/// `POST /api/pin`: these figures are mine from now on.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct PinSet {
    /// The salt, base64url.
    pub salt: String,
    /// Rounds.
    #[serde(deserialize_with = "crate::json::whole_number")]
    pub rounds: u32,
    /// The digest, base64url.
    pub check: String,
}

crate::json::from_json! { PinRecord { member, salt, rounds, check } }

/// Why figures cannot be somebody's.
#[derive(Clone, Copy, Debug, PartialEq, Eq, thiserror::Error)]
pub enum PinFault {
    /// They are not six figures.
    #[error("not six figures")]
    NotSixFigures,
    /// Anybody would try them first: all alike, or counting up or down.
    #[error("too easily guessed")]
    Guessable,
}

/// The figures as they are digested, or why they will not do.
pub fn chosen(text: &str) -> Result<String, PinFault> {
    let figures = typed(text).ok_or(PinFault::NotSixFigures)?;
    let step = |pair: &[u8]| i16::from(pair[1]) - i16::from(pair[0]);
    let mut steps = figures.as_bytes().windows(2).map(step);
    let first = steps.next().unwrap_or_default();
    if matches!(first, -1..=1) && steps.all(|step| step == first) {
        return Err(PinFault::Guessable);
    }
    Ok(figures)
}

/// The figures of a text, spaces left out; nothing if they are not six.
pub fn typed(text: &str) -> Option<String> {
    let figures: String = text.chars().filter(|c| !c.is_whitespace()).collect();
    let right = figures.len() == DIGITS && figures.bytes().all(|byte| byte.is_ascii_digit());
    right.then_some(figures)
}

impl PinSet {
    /// What a phone reckoned of a member's figures.
    pub fn new(salt: &[u8; SALT_BYTES], check: &[u8; CHECK_BYTES]) -> Self {
        Self { salt: base64url::encode(salt), rounds: ROUNDS, check: base64url::encode(check) }
    }

    /// Whether a hub may keep it: of the right lengths, and slow enough but not too slow for a phone.
    pub fn is_fit(&self) -> bool {
        let bytes = |text: &str| base64url::decode(text).map(|bytes| bytes.len());
        let fits = bytes(&self.salt) == Some(SALT_BYTES) && bytes(&self.check) == Some(CHECK_BYTES);
        fits && (ROUNDS..=ROUNDS_MAX).contains(&self.rounds)
    }

    /// The record of a member.
    pub fn of(self, member: PersonId) -> PinRecord {
        PinRecord { member, salt: self.salt, rounds: self.rounds, check: self.check }
    }
}

impl PinRecord {
    /// What the figures are to be digested with: salt and rounds; nothing for a record that no phone made.
    pub fn recipe(&self) -> Option<(Vec<u8>, u32)> {
        let salt = base64url::decode(&self.salt)?;
        (1..=ROUNDS_MAX).contains(&self.rounds).then_some((salt, self.rounds))
    }

    /// Whether this is the digest of the member's figures; takes as long when it is not.
    pub fn is(&self, digest: &[u8]) -> bool {
        let Some(check) = base64url::decode(&self.check) else { return false };
        let differing = check.iter().zip(digest).fold(0, |seen, (a, b)| seen | (a ^ b));
        check.len() == CHECK_BYTES && digest.len() == CHECK_BYTES && differing == 0
    }
}

/// Wrong tries on one phone, by anybody for anybody.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Tries(Vec<Instant>);

impl Tries {
    /// When the next try may be made, if not now.
    pub fn rests_until(&self, now: Instant) -> Option<Instant> {
        let last = *self.0.get(TRIES - 1)?;
        // A clock that was set back gives nobody more tries, and locks nobody out for longer than the rest.
        let until = (last + REST).min(now + REST);
        (until > now).then_some(until)
    }

    /// Another wrong one. One that was being reckoned when the phone began to rest is one more of the same rest.
    pub fn wrong(&mut self, now: Instant) {
        if self.rests_until(now).is_some() {
            return;
        }
        if self.0.len() >= TRIES {
            self.0.clear();
        }
        self.0.push(now);
    }

    /// A right one: what was wrong before it was a slip.
    pub fn right(&mut self) {
        self.0.clear();
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::testing::at;

    #[test]
    fn six_figures_that_are_not_the_first_to_be_tried() {
        for (text, wanted) in [
            ("204817", Ok("204817")),
            (" 204 817", Ok("204817")),
            ("000001", Ok("000001")),
            ("135790", Ok("135790")),
            ("000000", Err(PinFault::Guessable)),
            ("777777", Err(PinFault::Guessable)),
            ("123456", Err(PinFault::Guessable)),
            ("987654", Err(PinFault::Guessable)),
            ("20481", Err(PinFault::NotSixFigures)),
            ("2048170", Err(PinFault::NotSixFigures)),
            ("20481a", Err(PinFault::NotSixFigures)),
            ("", Err(PinFault::NotSixFigures)),
        ] {
            assert_eq!(chosen(text).as_deref(), wanted.as_ref().map(|text| *text), "{text}");
        }
    }

    #[test]
    fn only_the_digest_of_the_figures_opens() {
        let record = PinSet::new(&[1; SALT_BYTES], &[9; CHECK_BYTES]).of("ilse".into());
        assert_eq!(record.recipe(), Some((vec![1; SALT_BYTES], ROUNDS)));
        let mut near = [9; CHECK_BYTES];
        near[31] ^= 1;
        for (digest, opens) in [(&[9; CHECK_BYTES][..], true), (&near, false), (&[9; 31], false), (&[], false)] {
            assert_eq!(record.is(digest), opens, "{digest:?}");
        }
        let empty = PinRecord { check: String::new(), ..record.clone() };
        assert!(!empty.is(&[]), "an empty check opens for nothing");
        let endless = PinRecord { rounds: u32::MAX, ..record };
        assert_eq!(endless.recipe(), None, "no phone is made to reckon for ever");
    }

    #[test]
    fn a_hub_keeps_what_a_phone_can_reckon_with() {
        let good = PinSet::new(&[1; SALT_BYTES], &[2; CHECK_BYTES]);
        assert!(good.is_fit());
        let short = PinSet { salt: "AAAA".to_owned(), ..good.clone() };
        let quick = PinSet { rounds: 1, ..good.clone() };
        let slow = PinSet { rounds: ROUNDS_MAX + 1, ..good.clone() };
        let text = PinSet { check: "not base64!".to_owned(), ..good };
        assert!([short, quick, slow, text].iter().all(|unfit| !unfit.is_fit()));
    }

    #[test]
    fn after_five_wrong_tries_the_phone_rests() {
        let mut tries = Tries::default();
        for minute in 0..5 {
            assert_eq!(tries.rests_until(at(minute)), None, "{minute}");
            tries.wrong(at(minute));
        }
        assert_eq!(tries.rests_until(at(4)), Some(at(14)));
        tries.wrong(at(5));
        assert_eq!(tries.rests_until(at(6)), Some(at(14)), "one that was under way ends no rest");
        assert_eq!(tries.rests_until(at(-600)), Some(at(-590)), "the clock was set back");
        assert_eq!(tries.rests_until(at(14)), None);
        tries.wrong(at(14));
        assert_eq!(tries.rests_until(at(15)), None, "five more");
        tries.right();
        assert_eq!(tries, Tries::default());
    }
}
