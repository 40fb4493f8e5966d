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
    /// Ask the hub, or listen to it.
    Hub(ToHub),
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
    /// Ask for a picture, for an act to be done with.
    Photograph(Command),
    /// Ask the browser to keep the log, and keep room back for it.
    Stay,
    /// Ask to be woken once there is a network.
    WakeForSync,
    /// Let the new version take over.
    TakeOver,
}

/// What the hub is asked. What asks it is of the later part (`shell::to_hub`).
#[derive(Clone, Debug, PartialEq)]
pub enum ToHub {
    /// An exchange of the log.
    Sync(Box<SyncRequest>),
    /// The shop's bundle.
    Shop,
    /// To say by itself what happens.
    Listen,
    /// What stands behind a join code.
    CheckJoin(String),
    /// To join as somebody.
    Join {
        /// The code.
        code: String,
        /// Who.
        member: PersonId,
    },
    /// To hand a code over.
    Carry(Carry),
    /// To let these be this member's figures: it is told their digest alone.
    SetPin(String),
    /// What a screen wants to know, or to have done.
    Screen(Asked),
    /// To take pictures that it has not got.
    Pictures,
}
