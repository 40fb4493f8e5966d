//! What went wrong with the phone, its storage or the network: what happened, what is safe, what to do.

use shared_core::pin::PinFault;
use shared_core::sync::message::Why;

use super::chosen;
use super::said::{book, faults as said, gate};
use crate::shell::hub_link::LinkFault;
use crate::shell::journal::Fault;
use crate::shell::keys::KeyFault;
use crate::shell::photo::PhotoFault;
use crate::store::{Notice, Pin};

/// A reason and a next step.
pub type Said = (String, String);

fn both(reason: impl Into<String>, next: impl Into<String>) -> Said {
    (reason.into(), next.into())
}

/// What a notice says.
pub fn notice(notice: &Notice) -> Said {
    match notice {
        Notice::Refused(refusal) => (refusal.reason(chosen()), refusal.next_step(chosen())),
        Notice::NotSaved(fault) => not_saved(fault),
        Notice::NotSigned(fault) => key(fault),
        Notice::KeptInSpare => both(said::spare(), said::spare_next()),
        Notice::Declined(instead) => both(instead.clone(), ""),
        Notice::Unreadable(why) => both(why.reason(chosen()), why.next_step(chosen())),
        Notice::MachineScanned { name } => both(said::machine_code(name), said::machine_code_next()),
        Notice::BadAnswer(fault) => both(fault.reason(chosen()), fault.next_step(chosen())),
        Notice::Pin(pin) => of_pin(*pin),
        Notice::CodeTooLong => both(said::code_too_long(), said::code_too_long_next()),
        Notice::BuddyHere { name } => both(said::buddy_here(name), ""),
        Notice::CardSeen { name } => both(said::card_seen(name), said::card_seen_next()),
        Notice::BadCard => both(said::bad_card(), said::bad_card_next()),
        Notice::WordTaken => both(said::word_taken(), said::word_taken_next()),
        Notice::WordBack => both(said::word_back(), said::word_back_next()),
        Notice::OthersWord => both(said::others_word(), said::others_word_next()),
        Notice::BuddyGone { name } => both(said::buddy_gone(name), said::buddy_gone_next()),
        Notice::NoPhoto(fault) => no_photo(fault),
        Notice::Link(fault) => link(fault),
        Notice::SetAside { lines } => both(book::aside(i64::from(*lines)), book::aside_next()),
        Notice::ClockJumped { seconds } => both(said::clock_jumped(*seconds), said::clock_jumped_next()),
        Notice::Forked => both(said::forked(), said::forked_next()),
    }
}

/// Figures that were typed.
fn of_pin(pin: Pin) -> Said {
    match pin {
        Pin::Fault(PinFault::NotSixFigures) => both(said::six_figures(), ""),
        Pin::Fault(PinFault::Guessable) => both(said::pin_guessable(), said::pin_guessable_next()),
        Pin::Wrong => both(said::pin_wrong(), said::pin_wrong_next()),
        Pin::Rests { minutes } => both(said::pin_rests(), said::pin_rests_next(minutes)),
        Pin::Unknown => both(said::pin_unknown(), said::pin_unknown_next()),
        Pin::Kept => both(said::pin_kept(), ""),
    }
}

/// There is no picture.
fn no_photo(fault: &PhotoFault) -> Said {
    let mut said = both(said::no_photo(), said::no_photo_next());
    if let PhotoFault::Storage(fault) = fault {
        said.0 = not_saved(fault).0;
    }
    said
}

/// Nothing was written, so nothing counts.
fn not_saved(fault: &Fault) -> Said {
    match fault {
        Fault::Moved => both(said::other_tab(), said::other_tab_next()),
        Fault::Full => both(said::full(), said::full_next()),
        Fault::Lost | Fault::Unavailable(_) => both(said::lost(), said::lost_next()),
    }
}

/// The storage, when the app starts: for the steward, so as the browser says it.
pub fn storage(fault: &Fault) -> String {
    fault.to_string()
}

/// The key.
pub fn key(fault: &KeyFault) -> Said {
    match fault {
        KeyFault::Storage(fault) => not_saved(fault),
        KeyFault::Broken(_) => both(gate::no_key(), gate::no_key_next()),
    }
}

/// Why the hub did not take a line. A journal of an older app has it in words, which stay as they are.
pub fn not_taken(why: &str) -> String {
    match Why::named(why) {
        Some(why) => [why.reason(chosen()), why.next_step(chosen())].join(" "),
        None => why.to_owned(),
    }
}

/// The hub, while the phone joins: this once it cannot do without.
pub fn link_at_gate(fault: &LinkFault) -> Said {
    match fault {
        LinkFault::Offline => both(said::no_hub(), gate::offline_next()),
        other => link(other),
    }
}

/// The hub.
pub fn link(fault: &LinkFault) -> Said {
    match fault {
        LinkFault::Offline => both(said::offline(), said::offline_next()),
        LinkFault::NotJoined => both(said::not_joined(), said::not_joined_next()),
        LinkFault::Revoked => both(said::revoked(), said::revoked_next()),
        LinkFault::OtherHub => both(said::other_hub(), said::other_hub_next()),
        LinkFault::TooMany { after_seconds } => both(said::pause(), said::pause_next(i64::from(*after_seconds))),
        // What a member can meet has words here; the rest is for the steward, in the hub's own.
        LinkFault::Refused(problem) => match problem.kind.as_str() {
            "/problems/wrong-code" => both(said::wrong_code(), said::wrong_code_next()),
            "/problems/invite-used" => both(said::invite_used(), said::invite_used_next()),
            "/problems/invite-over" => both(said::invite_over(), said::invite_over_next()),
            "/problems/unknown-member" => both(said::unknown_member(), said::unknown_member_next()),
            "/problems/joined-for-another" => both(said::joined_for_another(), said::joined_for_another_next()),
            "/problems/fault" => both(said::hub_failed(), said::hub_failed_next()),
            _ if problem.title.is_empty() => both(said::hub_answered(i64::from(problem.status)), ""),
            _ => both(problem.title.clone(), problem.detail.clone()),
        },
        LinkFault::Newer => both(said::newer_hub(), said::newer_hub_next()),
        LinkFault::Key(fault) => key(fault),
    }
}
