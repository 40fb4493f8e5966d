//! What one process of the hub tells the others when a change is committed, so that live streams everywhere are nudged.
//!
//! News carry no entry and may be lost: whoever missed some asks the database, which alone is the truth.

use serde::{Deserialize, Serialize};
use shared_core::ids::{DeviceId, PersonId};

/// Something that was committed.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(tag = "news", rename_all = "snake_case")]
pub(crate) enum News {
    /// The log has grown.
    Log {
        /// By whose entries.
        by: DeviceId,
        /// Up to which cursor.
        cursor: u64,
    },
    /// The log is handed out further: what waited to be proved is.
    Proved {
        /// Up to which place.
        cursor: u64,
    },
    /// A picture of a tag is here.
    Picture,
    /// A code for a member.
    Carry {
        /// Whom it is for.
        to: PersonId,
        /// Whom it is from.
        from: PersonId,
        /// Its text.
        text: String,
    },
    /// A device joined or was taken off, or the hub has a new key.
    Joined,
    /// Some news were lost, or are of a newer release; anything may have happened.
    #[serde(other)]
    Missed,
}

/// News that wait for one process to hear them; past this it is told that it missed some.
pub(super) const WAITING_MAX: usize = 1024;

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn news_fit_a_notification_and_those_of_a_newer_hub_are_missed() {
        let longest = News::Carry { to: "bo".into(), from: "ada".into(), text: "\u{1}".repeat(512) };
        let text = serde_json::to_string(&longest).expect("JSON");
        // PostgreSQL's documentation of NOTIFY: shorter than 8000 bytes.
        assert!(text.len() < 7_000, "{} bytes", text.len());
        assert_eq!(serde_json::from_str::<News>(&text).expect("news"), longest);
        let newer: News = serde_json::from_str(r#"{"news":"weather"}"#).expect("news");
        assert_eq!(newer, News::Missed);
    }
}
