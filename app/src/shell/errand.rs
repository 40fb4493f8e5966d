//! What the loop wants done outside: a closed list, handed out after each intention.
//!
//! The desk decides and writes; an errand only touches the world. A new one does not compile until it is run
//! (`shell::run`).

use shared_core::command::Command;
use shared_core::ids::PersonId;
use shared_core::sync::message::SyncRequest;
use shared_core::sync::shop::Carry;

use super::bell::Strength;
use super::prefs::{Running, Theme};
use crate::intent::Asked;
use crate::store::Ringing;

/// One thing to do outside.
#[derive(Clone, Debug, PartialEq)]
pub enum Errand {
    /// What the later part runs.
    Later(LaterErrand),
    /// Make the bell heard.
    Ring(Strength),
    /// Show the bell as a notice of the phone's own.
    ShowNotice(Ringing),
    /// Take that notice away.
    CloseNotice,
    /// Ask whether notices may be shown.
    AskForNotices,
    /// Keep the screen lit, or no longer.
    KeepLit(bool),
    /// Tell the other tabs that the log has grown.
    TellTabs,
    /// Renew the copy of the running session, or take it away.
    KeepRunning(Option<Running>),
    /// Keep the theme.
    KeepTheme(Theme),
    /// Keep the language, and load the page anew in it.
    Speak(&'static str),
    /// Never show the first pages again.
    KeepWelcomed,
    /// Ask the browser to keep the log, and keep room back for it.
    Stay,
    /// Ask to be woken once there is a network.
    WakeForSync,
    /// Let the new version take over.
    TakeOver,
}

/// What the later part runs (`shell::act_later`): whatever needs a network, and what is begun on a sheet of its own.
#[derive(Clone, Debug, PartialEq)]
pub enum LaterErrand {
    /// Exchange the log with the hub.
    Sync(Box<SyncRequest>),
    /// Fetch the shop's bundle.
    Shop,
    /// Listen to the hub.
    Listen,
    /// See what stands behind a join code.
    CheckJoin(String),
    /// Join as somebody.
    Join {
        /// The code.
        code: String,
        /// Who.
        member: PersonId,
    },
    /// Hand a code over.
    Carry(Carry),
    /// Let these be this member's figures: the hub is told their digest alone.
    SetPin(String),
    /// Ask the hub for a screen.
    Screen(Asked),
    /// Hand over pictures that the hub has not got.
    Pictures,
    /// Reckon the digest of somebody's figures, which is slow on purpose.
    Digest {
        /// Whose.
        who: PersonId,
        /// The figures.
        figures: String,
        /// What they are digested with.
        salt: Vec<u8>,
        /// How often.
        rounds: u32,
    },
    /// Ask for a picture, for an act to be done with.
    Photograph(Command),
}
