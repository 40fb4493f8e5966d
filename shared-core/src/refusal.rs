//! Every refusal, its reason and its next step: the page to read for tone.
//!
//! A refusal stops somebody from doing something, so it says why in one sentence and what to do next in another.
//! It never blames. The rule behind it, its numbers and its source are in `refusal/why.rs`. The words themselves are in
//! `shared-core/words/en.ftl` and its translations, under `refusal`; here each variant only finds its own. See DESIGN.md section 4,
//! "Machine start", for the order in which refusals are asked.

#[cfg(test)]
mod tests;
mod why;

use crate::ids::{ChoreId, MachineId, PersonId, RoomId, RoundId, StatementId};
use crate::plan::Impossible;
use crate::time::Instant;
use crate::words::Words;
use crate::words::said::refusal;

/// Why something cannot be done now.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Refusal {
    /// This person is not in the members file.
    NotAMember,
    /// Not inducted.
    NotInducted,
    /// The phone has not met its hub for so long that its card ran out.
    CardExpired {
        /// When.
        on: Instant,
    },
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
    /// Signed off, and not used for longer than the training allows.
    SignOffStale {
        /// The training.
        training: String,
        /// So many days at most.
        within_days: u32,
        /// When it was last used or signed off, if that is known.
        last: Option<Instant>,
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
    /// Nobody says that the machine is mended.
    NotMended {
        /// Its name.
        machine: String,
    },
    /// Whoever mended a machine does not check it as well.
    SecondPerson {
        /// Its name.
        machine: String,
    },
    /// Only a steward may.
    StewardsAct,
    /// This person does not sign others off on that.
    NotASigner {
        /// The training.
        training: String,
    },
    /// Nobody signs themself off.
    OwnSignOff,
    /// Nobody else looks after the shop.
    LastSteward,
    /// Nobody of that id is in the members list.
    NoSuchMember {
        /// Who was named.
        person: PersonId,
    },
    /// No machine asks for that training.
    NoSuchTraining {
        /// Which was asked for.
        training: String,
    },
    /// The walk has no such stop.
    NoSuchStop,
    /// A stop's question has another answer.
    OtherAnswer {
        /// Why.
        because: String,
    },
    /// A crew is at least one person.
    NoCrew,
    /// The close-down cannot be planned: a chore needs more people than there are, or the rulebook is at fault.
    CannotPlan {
        /// What stands in the way.
        why: Impossible,
    },
}

impl Refusal {
    /// Why, in one sentence.
    pub fn reason(&self, words: &Words) -> String {
        match self {
            Self::NotAMember => refusal::not_a_member(words).into(),
            Self::NotInducted => refusal::not_inducted(words).into(),
            Self::CardExpired { .. } => refusal::card_expired(words).into(),
            Self::InductionExpired { .. } => refusal::induction_expired(words).into(),
            Self::NoSuchRoom { room } => refusal::no_such_room(words, room.as_str()),
            Self::AlreadyIn { room } => refusal::already_in(words, room),
            Self::NotAttested { text, .. } => refusal::not_attested(words, text),
            Self::AttestationLapsed { .. } => refusal::attestation_lapsed(words).into(),
            Self::OutByOutOfRange { .. } => refusal::out_by_out_of_range(words).into(),
            Self::NoSession => refusal::no_session(words).into(),
            Self::HasLeft => refusal::has_left(words).into(),
            Self::Sweeping => refusal::sweeping(words).into(),
            Self::NoSuchMachine { machine } => refusal::no_such_machine(words, machine.as_str()),
            Self::MachineElsewhere { machine, room } => refusal::machine_elsewhere(words, machine, room),
            Self::TaggedOut { machine, problem, .. } => refusal::tagged_out(words, machine, problem),
            Self::NotSignedOff { machine, .. } => refusal::not_signed_off(words, machine),
            Self::SignOffExpired { training, .. } => refusal::sign_off_expired(words, training),
            Self::SignOffStale { training, within_days, .. } => {
                refusal::sign_off_stale(words, i64::from(*within_days), training)
            }
            Self::MaterialRefused { machine, material } => refusal::material_refused(words, machine, material),
            Self::NoBuddy { machine, .. } => refusal::no_buddy(words, machine),
            Self::PastLastSpark { watch_minutes, .. } => refusal::past_last_spark(words, i64::from(*watch_minutes)),
            Self::AlreadyRunning { machine } => refusal::already_running(words, machine),
            Self::NotRunning { machine } => refusal::not_running(words, machine),
            Self::OwnBuddy => refusal::own_buddy(words).into(),
            Self::BuddyElsewhere { buddy, room } => refusal::buddy_elsewhere(words, buddy, room),
            Self::BuddyFull { buddy, covers: 1 } => refusal::buddy_full_one(words, buddy),
            Self::BuddyFull { buddy, covers } => refusal::buddy_full(words, buddy, i64::from(*covers)),
            Self::BuddyOperates { buddy } => refusal::buddy_operates(words, buddy),
            Self::NotABuddy { .. } => refusal::not_a_buddy(words).into(),
            Self::NoSuchChore { .. } => refusal::no_such_chore(words).into(),
            Self::ChoreDone { .. } => refusal::chore_done(words).into(),
            Self::ChoreWaits { first } => refusal::chore_waits(words, first),
            Self::NoSuchRound { round } => refusal::no_such_round(words, round.as_str()),
            Self::NoWatch => refusal::no_watch(words).into(),
            Self::NoWords => refusal::no_words(words).into(),
            Self::TooLong { .. } => refusal::too_long(words).into(),
            Self::NotTagged { machine } => refusal::not_tagged(words, machine),
            Self::NotMended { machine } => refusal::not_mended(words, machine),
            Self::SecondPerson { machine } => refusal::second_person(words, machine),
            Self::StewardsAct => refusal::stewards_act(words).into(),
            Self::NotASigner { training } => refusal::not_a_signer(words, training),
            Self::OwnSignOff => refusal::own_sign_off(words).into(),
            Self::LastSteward => refusal::last_steward(words).into(),
            Self::NoSuchMember { person } => refusal::no_such_member(words, person.as_str()),
            Self::NoSuchTraining { training } => refusal::no_such_training(words, training),
            Self::NoSuchStop => refusal::no_such_stop(words).into(),
            Self::OtherAnswer { because } => refusal::other_answer(words, because),
            Self::NoCrew => refusal::no_crew(words).into(),
            Self::CannotPlan { why } => refusal::cannot_plan(words, &impossible(words, why)),
        }
    }

    /// What to do next, in one sentence.
    pub fn next_step(&self, words: &Words) -> String {
        match self {
            Self::NotAMember => refusal::next_not_a_member(words).into(),
            Self::NotInducted => refusal::next_not_inducted(words).into(),
            Self::CardExpired { .. } => refusal::next_card_expired(words).into(),
            Self::InductionExpired { .. } => refusal::next_induction_expired(words).into(),
            Self::NoSuchRoom { .. } => refusal::next_no_such_room(words).into(),
            Self::AlreadyIn { .. } => refusal::next_already_in(words).into(),
            Self::NotAttested { .. } => refusal::next_not_attested(words).into(),
            Self::AttestationLapsed { .. } => refusal::next_attestation_lapsed(words).into(),
            Self::OutByOutOfRange { .. } => refusal::next_out_by_out_of_range(words).into(),
            Self::NoSession => refusal::next_no_session(words).into(),
            Self::HasLeft => refusal::next_has_left(words).into(),
            Self::Sweeping => refusal::next_sweeping(words).into(),
            Self::NoSuchMachine { .. } => refusal::next_no_such_machine(words).into(),
            Self::MachineElsewhere { room, .. } => refusal::next_machine_elsewhere(words, room),
            Self::TaggedOut { .. } => refusal::next_tagged_out(words).into(),
            Self::NotSignedOff { training, .. } => refusal::next_not_signed_off(words, training),
            Self::SignOffExpired { .. } => refusal::next_sign_off_expired(words).into(),
            Self::SignOffStale { .. } => refusal::next_sign_off_stale(words).into(),
            Self::MaterialRefused { .. } => refusal::next_material_refused(words).into(),
            Self::NoBuddy { .. } => refusal::next_no_buddy(words).into(),
            Self::PastLastSpark { .. } => refusal::next_past_last_spark(words).into(),
            Self::AlreadyRunning { .. } | Self::NotRunning { .. } | Self::ChoreDone { .. } => {
                refusal::next_already_running(words).into()
            }
            Self::OwnBuddy | Self::BuddyFull { .. } | Self::BuddyOperates { .. } => {
                refusal::next_own_buddy(words).into()
            }
            Self::BuddyElsewhere { .. } => refusal::next_buddy_elsewhere(words).into(),
            Self::NotABuddy { .. } => refusal::next_not_a_buddy(words).into(),
            Self::NoSuchChore { .. } => refusal::next_no_such_chore(words).into(),
            Self::ChoreWaits { .. } => refusal::next_chore_waits(words).into(),
            Self::NoSuchRound { .. } => refusal::next_no_such_round(words).into(),
            Self::NoWatch => refusal::next_no_watch(words).into(),
            Self::NoWords => refusal::next_no_words(words).into(),
            Self::TooLong { most } => refusal::next_too_long(words, count(*most)),
            Self::NotTagged { .. } => refusal::next_not_tagged(words).into(),
            Self::NotMended { .. } => refusal::next_not_mended(words).into(),
            Self::SecondPerson { .. } => refusal::next_second_person(words).into(),
            Self::StewardsAct => refusal::next_stewards_act(words).into(),
            Self::NotASigner { .. } => refusal::next_not_a_signer(words).into(),
            Self::OwnSignOff => refusal::next_own_sign_off(words).into(),
            Self::LastSteward => refusal::next_last_steward(words).into(),
            Self::NoSuchMember { .. } => refusal::next_no_such_member(words).into(),
            Self::NoSuchTraining { .. } => refusal::next_no_such_training(words).into(),
            Self::NoSuchStop => refusal::next_no_such_stop(words).into(),
            Self::OtherAnswer { .. } => refusal::next_other_answer(words).into(),
            Self::NoCrew => refusal::next_no_crew(words).into(),
            Self::CannotPlan { .. } => refusal::next_cannot_plan(words).into(),
        }
    }
}

/// What stands in the way of a plan.
fn impossible(words: &Words, why: &Impossible) -> String {
    match why {
        Impossible::UnknownRoom { room } => refusal::impossible_unknown_room(words, room.as_str()),
        Impossible::UnknownMachine { machine } => refusal::impossible_unknown_machine(words, machine.as_str()),
        Impossible::NoCrew => refusal::impossible_no_crew(words).into(),
        Impossible::TooFewPeople { chore, hands, crew } => {
            refusal::impossible_too_few_people(words, chore.as_str(), i64::from(*crew), i64::from(*hands))
        }
        Impossible::NoGear { chore, gear } => refusal::impossible_no_gear(words, chore.as_str(), gear.as_str()),
        Impossible::Cycle { chore } => refusal::impossible_cycle(words, chore.as_str()),
    }
}

/// A count, as words take it.
fn count(of: usize) -> i64 {
    i64::try_from(of).unwrap_or(i64::MAX)
}
