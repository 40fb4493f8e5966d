//! Every refusal, its reason and its next step: the page to read for tone.
//!
//! A refusal stops somebody from doing something, so it says why in one sentence and what to do next in another.
//! It never blames. The rule behind it, its numbers and its source are in `refusal/why.rs`. With
//! [`crate::plan::explain::words`] this is where shared-core holds words for people; an app in another language
//! translates by variant. See DESIGN.md section 4, "Machine start", for the order in which refusals are asked.

#[cfg(test)]
mod tests;
mod why;

use crate::ids::{ChoreId, MachineId, PersonId, RoomId, RoundId, StatementId};
use crate::time::Instant;

/// Why something cannot be done now.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Refusal {
    /// This person is not in the members file.
    NotAMember,
    /// Not inducted.
    NotInducted,
    /// The induction has lapsed.
    InductionExpired {
        /// When.
        on: Instant,
    },
    /// No such room in this shop.
    NoSuchRoom {
        /// Which was asked for.
        room: RoomId,
    },
    /// A session of this person is open.
    AlreadyIn {
        /// Where.
        room: String,
    },
    /// A statement has not been attested, or not in order.
    NotAttested {
        /// Which comes next.
        statement: StatementId,
        /// Its words.
        text: String,
    },
    /// The attestations are older than the shop allows.
    AttestationLapsed {
        /// Since when.
        on: Instant,
    },
    /// The out-by is not in the time that the shop allows.
    OutByOutOfRange {
        /// Not before.
        earliest: Instant,
        /// Not after.
        latest: Instant,
    },
    /// There is no session.
    NoSession,
    /// The session has left.
    HasLeft,
    /// The sweep has begun.
    Sweeping,
    /// No such machine in this shop.
    NoSuchMachine {
        /// Which was asked for.
        machine: MachineId,
    },
    /// The machine stands in another room.
    MachineElsewhere {
        /// Its name.
        machine: String,
        /// Where it stands.
        room: String,
    },
    /// The machine is tagged out.
    TaggedOut {
        /// Its name.
        machine: String,
        /// In whose words.
        problem: String,
        /// Since when.
        since: Instant,
    },
    /// Not signed off on this machine's training.
    NotSignedOff {
        /// The machine's name.
        machine: String,
        /// The training.
        training: String,
    },
    /// The sign-off has lapsed.
    SignOffExpired {
        /// The training.
        training: String,
        /// When.
        on: Instant,
    },
    /// The machine refuses this material.
    MaterialRefused {
        /// The machine's name.
        machine: String,
        /// The material.
        material: String,
    },
    /// The machine asks for a buddy and none covers it.
    NoBuddy {
        /// The machine's name.
        machine: String,
        /// How long a buddy's word holds.
        renew_minutes: u32,
    },
    /// Hot work would end too late for its fire watch.
    PastLastSpark {
        /// When the last spark was due.
        last_spark: Instant,
        /// How long the watch is.
        watch_minutes: u32,
    },
    /// The machine runs already.
    AlreadyRunning {
        /// Its name.
        machine: String,
    },
    /// The machine does not run.
    NotRunning {
        /// Its name.
        machine: String,
    },
    /// Nobody is their own buddy.
    OwnBuddy,
    /// The buddy is known to be in another room.
    BuddyElsewhere {
        /// Their name.
        buddy: String,
        /// Where they are.
        room: String,
    },
    /// The buddy covers as many as they may.
    BuddyFull {
        /// Their name.
        buddy: String,
        /// How many they may cover.
        covers: u32,
    },
    /// The buddy runs a machine that asks for a buddy.
    BuddyOperates {
        /// Their name.
        buddy: String,
    },
    /// This person is nobody's buddy here.
    NotABuddy {
        /// Who.
        buddy: PersonId,
    },
    /// The chore is none of this session's.
    NoSuchChore {
        /// Which was asked for.
        chore: ChoreId,
    },
    /// The chore is done already.
    ChoreDone {
        /// Which.
        chore: ChoreId,
    },
    /// A chore has to wait for another.
    ChoreWaits {
        /// The words of the chore that comes first.
        first: String,
    },
    /// No such round in this shop.
    NoSuchRound {
        /// Which was asked for.
        round: RoundId,
    },
    /// There is no fire watch to walk.
    NoWatch,
    /// A problem must be said in words.
    NoWords,
    /// The words are too long.
    TooLong {
        /// Characters at most.
        most: usize,
    },
    /// The machine is not tagged out.
    NotTagged {
        /// Its name.
        machine: String,
    },
    /// Only a steward may.
    StewardsAct,
    /// A crew is at least one person.
    NoCrew,
    /// The close-down cannot be planned: a chore needs more people than there are, or the rulebook is at fault.
    CannotPlan {
        /// What stands in the way, in words.
        why: String,
    },
}

impl Refusal {
    /// Why, in one sentence.
    pub fn reason(&self) -> String {
        match self {
            Self::NotAMember => "This phone's person is not in the members list.".into(),
            Self::NotInducted => "Your induction is not on record yet.".into(),
            Self::InductionExpired { .. } => "Your induction has lapsed.".into(),
            Self::NoSuchRoom { room } => format!("This shop has no room called {room}."),
            Self::AlreadyIn { room } => format!("You are already in: {room}."),
            Self::NotAttested { text, .. } => format!("Still to confirm: {text}"),
            Self::AttestationLapsed { .. } => "What you confirmed at the door has lapsed; it was long ago.".into(),
            Self::OutByOutOfRange { .. } => "That is not a time at which this session can end.".into(),
            Self::NoSession => "You have no session.".into(),
            Self::HasLeft => "This session has ended.".into(),
            Self::Sweeping => "You are sweeping; machines stay off now.".into(),
            Self::NoSuchMachine { machine } => format!("This shop has no machine called {machine}."),
            Self::MachineElsewhere { machine, room } => format!("{machine} stands in another room: {room}."),
            Self::TaggedOut { machine, problem, .. } => format!("{machine} is tagged out: {problem}."),
            Self::NotSignedOff { machine, .. } => format!("You are not signed off on {machine} yet."),
            Self::SignOffExpired { training, .. } => format!("Your sign-off for {training} has lapsed."),
            Self::MaterialRefused { machine, material } => format!("{machine} must not work {material}."),
            Self::NoBuddy { machine, .. } => format!("{machine} asks for a buddy, and nobody has confirmed."),
            Self::PastLastSpark { watch_minutes, .. } => {
                format!("It is past last spark: a fire watch of {watch_minutes} minutes would not be over in time.")
            }
            Self::AlreadyRunning { machine } => format!("{machine} is already running."),
            Self::NotRunning { machine } => format!("{machine} is not running."),
            Self::OwnBuddy => "Nobody can be their own buddy.".into(),
            Self::BuddyElsewhere { buddy, room } => format!("{buddy} is signed in elsewhere: {room}."),
            Self::BuddyFull { buddy, covers: 1 } => format!("{buddy} is somebody else's buddy now."),
            Self::BuddyFull { buddy, covers } => format!("{buddy} is already buddy to {covers} people."),
            Self::BuddyOperates { buddy } => format!("{buddy} is running a machine that asks for a buddy."),
            Self::NotABuddy { .. } => "They are not your buddy now.".into(),
            Self::NoSuchChore { .. } => "That chore is not one of this session's.".into(),
            Self::ChoreDone { .. } => "That chore is done already.".into(),
            Self::ChoreWaits { first } => format!("Something comes first: {first}"),
            Self::NoSuchRound { round } => format!("This shop has no round called {round}."),
            Self::NoWatch => "No fire watch is running.".into(),
            Self::NoWords => "Nothing was written.".into(),
            Self::TooLong { .. } => "That is too long to keep.".into(),
            Self::NotTagged { machine } => format!("{machine} is not tagged out."),
            Self::StewardsAct => "Only a steward can do this.".into(),
            Self::NoCrew => "At least one person sweeps.".into(),
            Self::CannotPlan { why } => format!("The sweep cannot be planned: {why}."),
        }
    }

    /// What to do next, in one sentence.
    pub fn next_step(&self) -> String {
        match self {
            Self::NotAMember => "Ask a steward to add you, then try again.".into(),
            Self::NotInducted => "Ask a steward for the walk of the room; it takes about half an hour.".into(),
            Self::InductionExpired { .. } => "Ask a steward for a refresher.".into(),
            Self::NoSuchRoom { .. } => "Scan the code at the door again.".into(),
            Self::AlreadyIn { .. } => "Go to Bench, or leave that session first.".into(),
            Self::NotAttested { .. } => "Confirm it, or come back another day.".into(),
            Self::AttestationLapsed { .. } => "Leave, rest, and start a new session at the door.".into(),
            Self::OutByOutOfRange { .. } => "Pick a time between the two ends shown.".into(),
            Self::NoSession => "Scan the code at the door first.".into(),
            Self::HasLeft => "Scan the code at the door to start again.".into(),
            Self::Sweeping => "Finish the chores; start a new session if you need the machine.".into(),
            Self::NoSuchMachine { .. } => "Pick a machine from the list.".into(),
            Self::MachineElsewhere { room, .. } => format!("Start a session in that room: {room}."),
            Self::TaggedOut { .. } => "Use another machine. A steward takes the tag off when it is mended.".into(),
            Self::NotSignedOff { training, .. } => format!("Ask for a sign-off: {training}."),
            Self::SignOffExpired { .. } => "Ask for a refresher before you use it.".into(),
            Self::MaterialRefused { .. } => "Use a machine meant for that material.".into(),
            Self::NoBuddy { .. } => "Ask someone in the room to scan your code.".into(),
            Self::PastLastSpark { .. } => "Do cold work now, or move your out-by if you can stay longer.".into(),
            Self::AlreadyRunning { .. } | Self::NotRunning { .. } | Self::ChoreDone { .. } => {
                "Nothing needs doing.".into()
            }
            Self::OwnBuddy | Self::BuddyFull { .. } | Self::BuddyOperates { .. } => {
                "Ask someone else in the room.".into()
            }
            Self::BuddyElsewhere { .. } => "Ask someone who is in this room.".into(),
            Self::NotABuddy { .. } => "Show your code if you need a buddy.".into(),
            Self::NoSuchChore { .. } => "Pick a chore from the list.".into(),
            Self::ChoreWaits { .. } => "Do that one first.".into(),
            Self::NoSuchRound { .. } => "Pick a round from the list.".into(),
            Self::NoWatch => "Carry on.".into(),
            Self::NoWords => "Say in a few words what is wrong.".into(),
            Self::TooLong { most } => format!("Say it in {most} characters or fewer."),
            Self::NotTagged { .. } => "It can be used.".into(),
            Self::StewardsAct => "Ask a steward.".into(),
            Self::NoCrew => "Say how many of you sweep.".into(),
            Self::CannotPlan { .. } => "Start sweeping early, and tell the steward what this says.".into(),
        }
    }
}
