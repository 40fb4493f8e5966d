//! A line of the log, in words.

use shared_core::entry::{Condition, Fact};

/// What happened, with the name of what it is about.
pub fn line(fact: &Fact, about: Option<&str>) -> String {
    let about = about.unwrap_or("?");
    match fact {
        Fact::Entered { .. } => format!("Came in: {about}"),
        Fact::Attested { .. } => format!("Confirmed: {about}"),
        Fact::MachineStarted { material: Some(material), .. } => format!("Started: {about}, for {material}"),
        Fact::MachineStarted { material: None, .. } => format!("Started: {about}"),
        Fact::MachineStopped { .. } => format!("Stopped: {about}"),
        Fact::BuddyConfirmed { .. } => format!("{about} is buddy"),
        Fact::BuddyLeft { .. } => format!("{about} is no longer buddy"),
        Fact::OutByMoved { .. } => "Moved the out-by".into(),
        Fact::SweepStarted { crew: 1 } => "Started the sweep, alone".into(),
        Fact::SweepStarted { crew } => format!("Started the sweep, {crew} people"),
        Fact::ChoreDone { photo: Some(_), .. } => format!("Done, with a photo: {about}"),
        Fact::ChoreDone { photo: None, .. } => format!("Done: {about}"),
        Fact::RoundDone { .. } => format!("Round: {about}"),
        Fact::WatchRound => "Walked the hot-work place".into(),
        Fact::Found { condition: Condition::Clean, .. } => format!("Found clean: {about}"),
        Fact::Found { condition: Condition::Mess, note, .. } => with_note("Found a mess", about, note.as_deref()),
        Fact::TaggedOut { problem, .. } => format!("Tagged out: {about}. {problem}"),
        Fact::TagCleared { .. } => format!("Tag taken off: {about}"),
        Fact::Incident { note } => format!("Told the steward: {note}"),
        Fact::ClockJumped { seconds } => format!("The phone's clock jumped by {seconds} s"),
        Fact::Left => "Left".into(),
        Fact::Unrecognised { what } => format!("Something a newer app wrote: {what}"),
    }
}

fn with_note(what: &str, about: &str, note: Option<&str>) -> String {
    note.map_or_else(|| format!("{what}: {about}"), |note| format!("{what}: {about}. {note}"))
}
