//! The changing code of a room's wall board: who can read it off the board is in the room.
//!
//! A time-based one-time password (RFC 6238) with HMAC-SHA-256 over [`STEP_SECONDS`]: the board shows it, a buddy puts it
//! into their answer, and the operator's phone finds it right or not without a network, because every joined phone keeps
//! the room's key. So it tells people in the room from people elsewhere who mean well; it does not stop somebody who
//! takes their own phone's storage apart. The app shows codes on boards alone.
//!
//! Reads no clock. A code that is not right is never counted as right, whatever the phone's clock says.

use hmac::{Mac, SimpleHmac};
use sha2::Sha256;

use crate::base64url;
use crate::ids::RoomId;
use crate::json::{FromJson, Unfit};
use crate::time::Instant;
use serde::{Serialize, Serializer};
use serde_json::Value;

/// A code is shown for so many seconds: the default of RFC 6238 section 5.2.
pub const STEP_SECONDS: i64 = 30;
/// How many figures a code has.
pub const DIGITS: u32 = 6;
/// A code is taken for so many steps after its own: reading, typing, and showing the answer back take a minute.
const STEPS_LATE: i64 = 3;
/// And before it: the board's clock may be ahead of the phone's.
const STEPS_EARLY: i64 = 1;

/// A room's key: 32 bytes of entropy, as long as the digest (RFC 6238 section 5.1).
#[derive(Clone, Copy, PartialEq, Eq)]
pub struct RoomKey(pub [u8; 32]);

/// A key is not for logs.
impl std::fmt::Debug for RoomKey {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        f.write_str("RoomKey(..)")
    }
}

impl Serialize for RoomKey {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        serializer.serialize_str(&base64url::encode(&self.0))
    }
}

impl FromJson for RoomKey {
    fn from_json(value: &Value) -> Result<Self, Unfit> {
        let bytes = value.as_str().and_then(base64url::decode);
        bytes.and_then(|bytes| bytes.try_into().ok()).map(Self).ok_or(Unfit("a key"))
    }
}

/// The board of one room.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct Board {
    /// Where it hangs.
    pub room: RoomId,
    /// What its codes are made with.
    pub key: RoomKey,
}

crate::json::from_json! { Board { room, key } }

impl RoomKey {
    /// The code that the board shows at `at`: a whole number below a million, shown with leading noughts.
    pub fn code(&self, at: Instant) -> u32 {
        one_time_password(&self.0, step(at), DIGITS)
    }

    /// Whether the board showed `code` at `at`, or so shortly before or after that a person and two clocks may be why.
    pub fn showed(&self, code: u32, at: Instant) -> bool {
        let now = step(at);
        (now - STEPS_LATE..=now + STEPS_EARLY).any(|step| one_time_password(&self.0, step, DIGITS) == code)
    }
}

/// When the code that is shown at `at` makes way for the next.
pub fn changes_at(at: Instant) -> Instant {
    Instant::from_ms((step(at) + 1) * STEP_SECONDS * 1_000)
}

/// A code as it is read and typed: six figures, in two groups of three on the board.
pub fn typed(text: &str) -> Option<u32> {
    let figures: String = text.chars().filter(|c| !c.is_whitespace()).collect();
    let right = figures.len() == DIGITS as usize && figures.bytes().all(|byte| byte.is_ascii_digit());
    if right { figures.parse().ok() } else { None }
}

/// As the board shows it: `012 345`.
pub fn shown(code: u32) -> String {
    format!("{:03} {:03}", code / 1_000, code % 1_000)
}

fn step(at: Instant) -> i64 {
    at.ms().div_euclid(STEP_SECONDS * 1_000)
}

/// RFC 4226 section 5.3 over the step's number, with the digest of RFC 6238 section 1.2.
fn one_time_password(key: &[u8], step: i64, digits: u32) -> u32 {
    // A key of any length is a key: RFC 2104 section 3.
    let Ok(mut mac) = SimpleHmac::<Sha256>::new_from_slice(key) else { unreachable!("HMAC takes every key") };
    mac.update(&step.to_be_bytes());
    let digest = mac.finalize().into_bytes();
    let offset = usize::from(digest[31] & 0x0f);
    let four = [digest[offset] & 0x7f, digest[offset + 1], digest[offset + 2], digest[offset + 3]];
    u32::from_be_bytes(four) % 10_u32.pow(digits)
}

#[cfg(test)]
mod tests {
    use super::*;

    fn at(seconds: i64) -> Instant {
        Instant::from_ms(seconds * 1_000)
    }

    /// RFC 6238 appendix B, the rows of SHA-256 (its key is the ASCII of these 32 figures), eight figures each.
    #[test]
    fn the_published_vectors() {
        let key = b"12345678901234567890123456789012";
        for (seconds, password) in [
            (59, 46_119_246),
            (1_111_111_109, 68_084_774),
            (1_111_111_111, 67_062_674),
            (1_234_567_890, 91_819_424),
            (2_000_000_000, 90_698_825),
            (20_000_000_000, 77_737_706),
        ] {
            assert_eq!(one_time_password(key, step(at(seconds)), 8), password, "{seconds}");
            // Fewer figures are the last ones (RFC 4226 section 5.3, step 3).
            assert_eq!(RoomKey(*key).code(at(seconds)), password % 1_000_000, "{seconds}");
        }
    }

    #[test]
    fn a_code_is_taken_while_a_person_may_be_typing_it() {
        let key = RoomKey([7; 32]);
        let code = key.code(at(3_000));
        for (seconds, taken) in
            [(2_969, false), (2_970, true), (3_000, true), (3_029, true), (3_119, true), (3_120, false), (9_000, false)]
        {
            assert_eq!(key.showed(code, at(seconds)), taken, "{seconds}");
        }
        assert!(!RoomKey([8; 32]).showed(code, at(3_000)), "another room's board");
        assert_eq!((changes_at(at(3_000)), changes_at(at(3_029))), (at(3_030), at(3_030)));
    }

    #[test]
    fn six_figures_however_they_are_spaced() {
        for (text, code) in [
            ("012345", Some(12_345)),
            (" 012 345 ", Some(12_345)),
            ("999999", Some(999_999)),
            ("12345", None),
            ("1234567", None),
            ("12345a", None),
            ("+12345", None),
            ("", None),
        ] {
            assert_eq!(typed(text), code, "{text}");
        }
        assert_eq!(shown(12_345), "012 345");
    }
}
