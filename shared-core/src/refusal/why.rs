//! Why a refusal is one: the rule behind it, the numbers that went in, and where the rule is from.
//!
//! Told on demand, under the reason and the next step, and short: every phone downloads it. A source is a key of the
//! shop's rulebook, the members list, a published clause that bears the rule out (no number is taken from it), a rule
//! that Sweepbell keeps to everywhere, or common practice without a source. Holds no clock: how an instant is written is
//! the caller's. The words are in `shared-core/words/en.ftl` and its translations, under `because`.

use super::{Refusal, count};
use crate::plan::explain::Rule;
use crate::plan::explain::words::Clock;
use crate::words::Words;
use crate::words::said::because;

/// Where a rule is from.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Source {
    /// No shop sets it: Sweepbell keeps to it everywhere.
    Ours,
    /// Common practice, without a source.
    Practice,
    /// The members list.
    Members,
    /// The rulebook as a whole.
    Book,
    /// A key of it.
    Key(&'static str),
    /// A key of it, and the members list.
    KeyAndMembers(&'static str),
    /// Keys of it, and a clause that asks for a buddy without naming minutes.
    BuddyKeys(&'static str),
    /// A published clause.
    Clause(&'static str),
    /// That of a rule of times.
    Times(Rule),
}

impl Source {
    fn says(self, words: &Words) -> String {
        match self {
            Self::Ours => because::ours(words).into(),
            Self::Practice => because::practice(words).into(),
            Self::Members => because::members(words).into(),
            Self::Book => because::book(words).into(),
            Self::Key(key) => because::book_key(words, key),
            Self::KeyAndMembers(key) => because::book_and_members(words, key),
            Self::BuddyKeys(keys) => because::buddy_source(words, keys),
            Self::Clause(clause) => clause.into(),
            Self::Times(rule) => rule.source(words).into(),
        }
    }
}

impl Refusal {
    /// The rule, what went in if that is a number, the source: a line each. No name that somebody chose is in it.
    pub fn why(&self, words: &Words, clock: Clock) -> String {
        let (rule, source) = self.rule(words);
        let source = because::source(words, &source.says(words));
        match self.number(words, clock) {
            Some(number) => [rule, &number, &source].join("\n"),
            None => [rule, &source].join("\n"),
        }
    }

    /// The rule in a sentence, and where it is from.
    fn rule(&self, words: &Words) -> (&'static str, Source) {
        use Source::{Book, BuddyKeys, Clause, Key, KeyAndMembers, Members, Ours, Practice, Times};
        match self {
            Self::NotAMember => (because::not_a_member(words), Members),
            Self::NotInducted => (because::not_inducted(words), Practice),
            Self::CardExpired { .. } => (because::card_expired(words), Ours),
            Self::InductionExpired { .. } => (because::induction_expired(words), Members),
            Self::NoSuchRoom { .. }
            | Self::NoSuchMachine { .. }
            | Self::NoSuchChore { .. }
            | Self::NoSuchRound { .. }
            | Self::NoSuchTraining { .. }
            | Self::NoSuchStop => (because::no_such_room(words), Book),
            Self::AlreadyIn { .. } => (because::already_in(words), Ours),
            Self::NotAttested { .. } => (because::not_attested(words), Key("statement")),
            Self::AttestationLapsed { .. } => (because::attestation_lapsed(words), Key("session_hours_max")),
            Self::OutByOutOfRange { .. } => (because::out_by_out_of_range(words), Key("session_hours_max")),
            Self::NoSession | Self::HasLeft => (because::no_session(words), Ours),
            Self::Sweeping => (because::sweeping(words), Ours),
            Self::MachineElsewhere { .. } => (because::machine_elsewhere(words), Key("machine.room")),
            Self::TaggedOut { .. } | Self::NotMended { .. } => {
                (because::tagged_out(words), Clause("29 CFR 1910.145(f)"))
            }
            Self::NotSignedOff { .. } | Self::SignOffExpired { .. } => {
                (because::not_signed_off(words), KeyAndMembers("machine.training"))
            }
            Self::SignOffStale { .. } => (because::sign_off_stale(words), Key("training.use_within_days")),
            Self::MaterialRefused { .. } => (because::material_refused(words), Key("machine.refuses")),
            Self::NoBuddy { .. } => (because::no_buddy(words), BuddyKeys("machine.buddy, renew_minutes")),
            Self::PastLastSpark { .. } => (because::past_last_spark(words), Times(Rule::WatchAndChoresFit)),
            Self::AlreadyRunning { .. } | Self::NotRunning { .. } | Self::NotTagged { .. } | Self::ChoreDone { .. } => {
                (because::already_running(words), Ours)
            }
            Self::OwnBuddy => (because::own_buddy(words), Practice),
            Self::BuddyElsewhere { .. } => (because::buddy_elsewhere(words), Practice),
            Self::BuddyFull { .. } => (because::buddy_full(words), Key("buddy.covers")),
            Self::BuddyOperates { .. } => (because::buddy_operates(words), Key("buddy_may_operate")),
            Self::NotABuddy { .. } => (because::not_a_buddy(words), Ours),
            Self::ChoreWaits { .. } => (because::chore_waits(words), Key("chore.after")),
            Self::NoWatch => (because::no_watch(words), Key("fire_watch")),
            Self::NoWords | Self::TooLong { .. } => (because::no_words(words), Ours),
            Self::SecondPerson { .. } => (because::second_person(words), Clause("29 CFR 1910.147(e)")),
            Self::StewardsAct => (because::stewards_act(words), Members),
            Self::NotASigner { .. } => (because::not_a_signer(words), KeyAndMembers("training.signers")),
            Self::OwnSignOff => (because::own_sign_off(words), Ours),
            Self::LastSteward => (because::last_steward(words), Ours),
            Self::NoSuchMember { .. } => (because::no_such_room(words), Members),
            Self::OtherAnswer { .. } => (because::other_answer(words), Key("stop.right")),
            Self::NoCrew | Self::CannotPlan { .. } => (because::no_crew(words), Key("chore")),
        }
    }

    /// What went in, where that is a number.
    fn number(&self, words: &Words, clock: Clock) -> Option<String> {
        Some(match self {
            Self::CardExpired { on }
            | Self::InductionExpired { on }
            | Self::AttestationLapsed { on }
            | Self::SignOffExpired { on, .. } => because::until(words, &clock(*on)),
            Self::OutByOutOfRange { earliest, latest } => because::between(words, &clock(*earliest), &clock(*latest)),
            Self::TaggedOut { since, .. } => because::since(words, &clock(*since)),
            Self::NoBuddy { renew_minutes: minutes, .. } => because::word_holds(words, i64::from(*minutes)),
            Self::PastLastSpark { last_spark, watch_minutes } => {
                because::last_spark(words, &clock(*last_spark), i64::from(*watch_minutes))
            }
            Self::BuddyFull { covers: most, .. } => because::at_most(words, i64::from(*most)),
            Self::SignOffStale { within_days, last: Some(last), .. } => {
                because::last_use(words, &clock(*last), i64::from(*within_days))
            }
            Self::SignOffStale { within_days, last: None, .. } => because::no_use_known(words, i64::from(*within_days)),
            Self::TooLong { most } => because::characters(words, count(*most)),
            _ => return None,
        })
    }
}
