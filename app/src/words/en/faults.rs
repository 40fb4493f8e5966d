//! What went wrong with the phone, its storage or the network: what happened, what is safe, what to do.

use crate::shell::hub_link::LinkFault;
use crate::shell::journal::Fault;
use crate::shell::keys::KeyFault;
use crate::store::Notice;

/// A reason and a next step.
pub type Said = (String, String);

fn said(reason: impl Into<String>, next: impl Into<String>) -> Said {
    (reason.into(), next.into())
}

/// What a notice says.
pub fn notice(notice: &Notice) -> Said {
    match notice {
        Notice::Refused(refusal) => (refusal.reason(), refusal.next_step()),
        Notice::NotSaved(fault) => not_saved(fault),
        Notice::NotSigned(fault) => key(fault),
        Notice::KeptInSpare => said(
            "Kept, in the browser's small store: the large one does not answer.",
            "It counts. Reload when you have a hand free, so that it is moved over.",
        ),
        Notice::Declined(instead) => said(instead.clone(), ""),
        Notice::Unreadable(why) => said(why.reason(), why.next_step()),
        Notice::MachineScanned { name } => {
            said(format!("That code is on a machine: {name}."), "Start a session at the door, then start it on Bench.")
        }
        Notice::BadAnswer(fault) => said(fault.reason(), fault.next_step()),
        Notice::CodeTooLong => {
            said("This shop's names are too long for a code.", "Use the network, and tell the steward.")
        }
        Notice::BuddyHere { name } => said(format!("{name} is your buddy now."), ""),
        Notice::BuddyGone { name } => {
            said(format!("{name} is no longer your buddy."), "Stop what needs a buddy, or ask someone else.")
        }
        Notice::NoPhoto(_) => {
            said("The photo was not kept: there is no room for it.", "The chore can be ticked without one.")
        }
        Notice::Link(fault) => link(fault),
        Notice::SetAside { lines } => said(super::book::aside(*lines), super::book::ASIDE_NEXT),
        Notice::ClockJumped { seconds } => said(
            format!("The phone's clock jumped by {seconds} seconds."),
            "Your session's times stay as they were. It is noted in the log.",
        ),
        Notice::Forked => said(
            "The hub tells another story of this phone than the phone itself.",
            "Nothing is lost here. Tell the steward before you go on.",
        ),
    }
}

/// Nothing was written, so nothing counts.
fn not_saved(fault: &Fault) -> Said {
    match fault {
        Fault::Moved => said("Another tab was quicker, so this was not done.", "Look again, then press again."),
        Fault::Full => said(
            "The phone's storage is full, so this was not saved.",
            "What was saved is safe and your session goes on. Free some space, then press again.",
        ),
        Fault::Lost | Fault::Unavailable(_) => said(
            "The phone's storage does not answer, so this was not saved.",
            "What was saved is safe. Press again; if that does not help, reload.",
        ),
    }
}

/// The storage, when the app starts.
pub fn storage(fault: &Fault) -> String {
    fault.to_string()
}

/// The key.
pub fn key(fault: &KeyFault) -> Said {
    match fault {
        KeyFault::Storage(fault) => not_saved(fault),
        KeyFault::Broken(_) => said(super::gate::NO_KEY, super::gate::NO_KEY_NEXT),
    }
}

/// The hub, while the phone joins: this once it cannot do without.
pub fn link_at_gate(fault: &LinkFault) -> Said {
    match fault {
        LinkFault::Offline => said("The shop's hub does not answer.", super::gate::OFFLINE_NEXT),
        other => link(other),
    }
}

/// The hub.
pub fn link(fault: &LinkFault) -> Said {
    match fault {
        LinkFault::Offline => {
            said("No network, or no hub.", "Everything works without it. It is tried again by itself.")
        }
        LinkFault::NotJoined => said("The hub does not know this phone.", "Ask the steward for a join code."),
        LinkFault::TooMany { after_seconds } => {
            said("The hub asks for a pause.", format!("It is tried again in {after_seconds} s."))
        }
        LinkFault::Refused(problem) => said(problem.title.clone(), problem.detail.clone()),
        LinkFault::Newer => said("The hub is newer than this app.", "Reload while you are not in a session."),
        LinkFault::Key(fault) => key(fault),
    }
}
