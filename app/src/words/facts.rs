//! A line of the log, in words.

use shared_core::entry::{Condition, Fact, Matter, Step, Undone};
use shared_core::time::Instant;

use super::said::{bell, facts as said, matter, step as steps};

/// What happened, with the name of what it is about.
pub fn line(fact: &Fact, about: Option<&str>) -> String {
    let about = about.unwrap_or("?");
    match fact {
        Fact::Entered { .. } => said::entered(about),
        Fact::Attested { .. } => said::attested(about),
        Fact::MachineStarted { material: Some(material), .. } => said::started_for(about, material),
        Fact::MachineStarted { material: None, .. } => said::started(about),
        Fact::MachineStopped { .. } => said::stopped(about),
        Fact::BuddyConfirmed { given, .. } => [said::buddy(about).as_str(), super::buddy::given(*given)].join(", "),
        Fact::BuddyLeft { .. } => said::buddy_left(about),
        Fact::OutByMoved { .. } => said::out_by_moved().into(),
        Fact::SweepStarted { crew } => said::sweep_started(i64::from(*crew)),
        Fact::ChoreDone { photo: Some(_), .. } => said::done_photo(about),
        Fact::ChoreDone { photo: None, .. } => said::done(about),
        Fact::RoundDone { .. } => said::round(about),
        Fact::WatchRound => said::watch().into(),
        Fact::Found { condition: Condition::Clean, .. } => said::clean(about),
        Fact::Found { condition: Condition::Mess, note: Some(note), .. } => said::mess_note(about, note),
        Fact::Found { condition: Condition::Mess, note: None, .. } => said::mess(about),
        Fact::TaggedOut { problem, .. } => said::tagged(about, problem),
        Fact::TagCleared { .. } => said::tag_cleared(about),
        Fact::Incident { note, .. } => said::incident(note),
        Fact::Noted { of, step, note } => {
            let about = match of.matter {
                Matter::Tag(_) => about,
                Matter::Found => matter::found(),
                Matter::Incident => matter::incident(),
                Matter::Session => matter::session(),
            };
            match note {
                Some(note) => said::noted_words(about, note, &self::step(*step)),
                None => said::noted(about, &self::step(*step)),
            }
        }
        Fact::ClockJumped { seconds } => said::clock(*seconds),
        Fact::ClearCalled { .. } => said::clear(about),
        Fact::TimerSet { .. } => said::timer().into(),
        Fact::BellHeard => said::bell_heard().into(),
        Fact::BoardName { may: true } => said::on_board().into(),
        Fact::BoardName { may: false } => said::not_on_board().into(),
        Fact::SweepUndone { why } => said::undone(undone(*why)),
        Fact::Walked { .. } => said::walked(about),
        Fact::WalkDone { .. } => said::walk_done().into(),
        Fact::Inducted { until: Some(_), .. } => said::inducted(about),
        Fact::Inducted { until: None, .. } => said::induction_back(about),
        Fact::SignedOff { until: Some(_), .. } => said::signed_off(about),
        Fact::SignedOff { until: None, .. } => said::sign_off_back(about),
        Fact::RoleGiven { .. } => said::role(about),
        Fact::RulesPublished { number, note: None, .. } => said::rules(i64::from(*number)),
        Fact::RulesPublished { number, note: Some(note), .. } => said::rules_why(note, i64::from(*number)),
        Fact::Left => said::left().into(),
        Fact::Unrecognised { what } => said::newer(what),
    }
}

/// Why the sweep was not done.
pub fn undone(why: Undone) -> &'static str {
    match why {
        Undone::NotTicked => said::undone_not_ticked(),
        Undone::OthersSweep => said::undone_others_sweep(),
        Undone::HadToGo => said::undone_had_to_go(),
        Undone::Unsaid => said::undone_unsaid(),
    }
}

/// What happened with what an earlier line says.
pub fn step(step: Step) -> String {
    let plain = match step {
        Step::WaitsForPart { until: Some(until) } => return steps::waits_until(&day(until)),
        Step::Remarked => steps::remarked(),
        Step::WaitsForPart { until: None } => steps::waits(),
        Step::Mended => steps::mended(),
        Step::Checked => steps::checked(),
        Step::Asked => steps::asked(),
        Step::Changed => steps::changed(),
        Step::SeenTo => steps::seen_to(),
    };
    plain.to_owned()
}

/// A date, as the log writes it: `2026-05-04`.
pub fn day(at: Instant) -> String {
    const DATE_CHARS: usize = 10;
    let mut text = at.to_string();
    text.truncate(DATE_CHARS);
    text
}

/// The same as an answer of whoever has left.
pub fn why_left(why: Undone) -> &'static str {
    match why {
        Undone::NotTicked => bell::left_not_ticked(),
        Undone::OthersSweep => bell::left_others_sweep(),
        Undone::HadToGo => bell::left_had_to_go(),
        Undone::Unsaid => bell::left_unsaid(),
    }
}
