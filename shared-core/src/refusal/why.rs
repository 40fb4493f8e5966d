//! Why a refusal is one: the rule behind it, the numbers that went in, and where the rule is from.
//!
//! Told on demand, under the reason and the next step, and short: every phone downloads it. A source is a key of the
//! shop's rulebook, the members list, a published clause that bears the rule out (no number is taken from it), a rule
//! that Sweepbell keeps to everywhere, or common practice without a source. Holds no clock: how an instant is written is
//! the caller's.

use super::Refusal;
use crate::plan::explain::Rule;
use crate::plan::explain::words::Clock;

/// A rule that no shop sets: Sweepbell keeps to it everywhere.
const OURS: &str = "Sweepbell's own rule";
const BOOK: &str = "rulebook";
const MEMBERS: &str = "members list";
const PRACTICE: &str = "common practice, no source";

impl Refusal {
    /// The rule, what went in if that is a number, the source: a line each. No name that somebody chose is in it.
    pub fn why(&self, clock: Clock) -> String {
        let (rule, source) = self.rule();
        [rule, &self.number(clock), "Source: ", source, "."].concat()
    }

    /// The rule in a sentence, and where it is from.
    pub fn rule(&self) -> (&'static str, &'static str) {
        match self {
            Self::NotAMember => ("Sessions are for members.", MEMBERS),
            Self::NotInducted => ("First comes the walk of the room.", PRACTICE),
            Self::InductionExpired { .. } => ("An induction holds until a date.", MEMBERS),
            Self::NoSuchRoom { .. }
            | Self::NoSuchMachine { .. }
            | Self::NoSuchChore { .. }
            | Self::NoSuchRound { .. } => ("Only what is written there counts.", BOOK),
            Self::AlreadyIn { .. } => ("Nobody is in two places.", OURS),
            Self::NotAttested { .. } => ("First every statement, one by one, in order.", "rulebook, statement"),
            Self::AttestationLapsed { .. } => ("It holds for one session.", "rulebook, session_hours_max"),
            Self::OutByOutOfRange { .. } => ("Not too soon to sweep, not too late.", "rulebook, session_hours_max"),
            Self::NoSession | Self::HasLeft => ("Only in a session.", OURS),
            Self::Sweeping => ("The sweep is planned for what ran before it.", OURS),
            Self::MachineElsewhere { .. } => ("A session is for one room.", "rulebook, machine.room"),
            Self::TaggedOut { .. } => ("A tag stays until the hazard is gone.", "29 CFR 1910.145(f)"),
            Self::NotSignedOff { .. } | Self::SignOffExpired { .. } => {
                ("A sign-off on its training, until a date.", "rulebook, machine.training; members list")
            }
            Self::MaterialRefused { .. } => ("It harms the machine, or you.", "rulebook, machine.refuses"),
            Self::NoBuddy { .. } => (
                "Somebody in the room has to be there for you all the while.",
                "rulebook, machine.buddy, renew_minutes; 29 CFR 1915.84 names no minutes",
            ),
            Self::PastLastSpark { .. } => {
                ("After a spark come the watch and every chore.", Rule::WatchAndChoresFit.source())
            }
            Self::AlreadyRunning { .. } | Self::NotRunning { .. } | Self::NotTagged { .. } | Self::ChoreDone { .. } => {
                ("It is so already.", OURS)
            }
            Self::OwnBuddy => ("A buddy helps when you cannot.", PRACTICE),
            Self::BuddyElsewhere { .. } => ("A buddy can see and hear you.", PRACTICE),
            Self::BuddyFull { .. } => ("A buddy has eyes for only so many.", "rulebook, buddy.covers"),
            Self::BuddyOperates { .. } => ("Who needs a buddy has no eyes for you.", "rulebook, buddy_may_operate"),
            Self::NotABuddy { .. } => ("Only a word that was given can be taken back.", OURS),
            Self::ChoreWaits { .. } => ("Some chores undo others.", "rulebook, chore.after"),
            Self::NoWatch => ("A watch follows hot work.", "rulebook, fire_watch"),
            Self::NoWords | Self::TooLong { .. } => ("Whoever reads it has only your words.", OURS),
            Self::StewardsAct => ("A steward answers for the room.", MEMBERS),
            Self::NoCrew | Self::CannotPlan { .. } => ("A chore has its hands and its turn.", "rulebook, chore"),
        }
    }

    /// A line break, and what went in before the next where that is a number.
    fn number(&self, clock: Clock) -> String {
        let number = match self {
            Self::InductionExpired { on } | Self::AttestationLapsed { on } | Self::SignOffExpired { on, .. } => {
                format!("Until {}.", clock(*on))
            }
            Self::OutByOutOfRange { earliest, latest } => {
                format!("{} to {}.", clock(*earliest), clock(*latest))
            }
            Self::TaggedOut { since, .. } => format!("Since {}.", clock(*since)),
            Self::NoBuddy { renew_minutes: minutes, .. } => format!("A word holds {minutes} min."),
            Self::PastLastSpark { last_spark, watch_minutes } => {
                format!("Last spark {}, watch {watch_minutes} min.", clock(*last_spark))
            }
            Self::BuddyFull { covers: most, .. } => format!("{most} at most."),
            Self::TooLong { most } => format!("{most} characters at most."),
            _ => return "\n".into(),
        };
        ["\n", &number, "\n"].concat()
    }
}
