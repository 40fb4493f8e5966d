//! The words of a [`Why`]: short, in the member's terms, the same on a phone and in `sweepbell plan --explain`.
//!
//! Beside refusals the only words in shared-core, because what binds a person is told in the same words wherever they
//! ask. How an instant is written is the caller's: a phone has the shop's clock, the command too. No fractions: spans
//! are told in minutes, rounded up.

use super::{Assumed, Explained, Mark, MinutesFrom, Number, Rule, Why};
use crate::ids::GearId;
use crate::plan::Bound;
use crate::time::{Instant, Span};

/// Above what is taken for granted.
const ASSUMED: &str = "Taken for granted:";

/// How an instant is written.
pub type Clock<'a> = &'a dyn Fn(Instant) -> String;

impl Mark {
    /// What it is called.
    pub fn name(self) -> &'static str {
        match self {
            Self::OutBy => "Out by",
            Self::SweepFrom => "Sweep from",
            Self::FirstBell => "First bell",
            Self::LastSpark => "Last spark",
            Self::WatchUntil => "Watch until",
            Self::FreeAt => "Free at",
        }
    }
}

impl Rule {
    /// The rule, in a sentence.
    pub fn says(self) -> &'static str {
        match self {
            Self::Said => "You said so. You can move it.",
            Self::ChoresFit => "Started then, the chores are done by out-by.",
            Self::Floor => "The chores need no more than the shop holds back.",
            Self::BeforeSweep => "Time to finish the pass you are on.",
            Self::WatchAndChoresFit => "A spark then leaves time for the fire watch and every chore.",
            Self::SparkNotAfterSweep => "No spark once the sweep begins.",
            Self::WatchFromLastSpark => "It begins at the last spark.",
            Self::WatchFromEnd => "It began when hot work ended. A new spark starts it again.",
            Self::AllFromNow => "If you start to sweep now; never before a fire watch is over.",
            Self::AfterWatch => "Hot work ended late: first the watch, then the sweep. Out-by cannot be kept.",
        }
    }

    /// Where the rule is from.
    pub fn source(self) -> &'static str {
        match self {
            Self::Said => "what you said",
            Self::ChoresFit | Self::Floor | Self::AllFromNow => "the rulebook's chores and reserve",
            Self::BeforeSweep => "the rulebook's reserve",
            Self::WatchAndChoresFit
            | Self::SparkNotAfterSweep
            | Self::WatchFromLastSpark
            | Self::WatchFromEnd
            | Self::AfterWatch => {
                "the rulebook's fire watch; 29 CFR 1910.252(a)(2)(iii)(B): half an hour or more, and local codes"
            }
        }
    }
}

impl Number {
    /// What went in, in a line.
    pub fn says(&self, clock: Clock) -> String {
        match self {
            Self::Crew(1) => "One person sweeps.".into(),
            Self::Crew(crew) => format!("{crew} people sweep."),
            Self::Chore { owner, text, minutes, hands, gear, from } => {
                let gear = gear.as_ref().map(|gear| format!(", with {gear}")).unwrap_or_default();
                format!("{minutes} min{}{gear}. {owner}: {text} ({})", together(*hands), from.says())
            }
            Self::Learnt { enough_pct, prior_weight } => {
                format!(
                    "What was seen is enough {enough_pct} times in 100; the rulebook's minutes count {prior_weight} times."
                )
            }
            Self::Order { span, gap: Span::ZERO } => format!("In all {} min; no order is shorter.", span.minutes_up()),
            Self::Order { span, gap } => {
                format!("In all {} min; at most {} min too long.", span.minutes_up(), gap.minutes_up())
            }
            Self::Bound { bound, span } => format!("{}: {} min.", bound.says(), span.minutes_up()),
            Self::FloorMinutes(minutes) => format!("Never less than {minutes} min are held back."),
            Self::FirstBellMinutes(minutes) => format!("{minutes} min before the sweep."),
            Self::WatchMinutes { minutes, exclusive: true } => format!("The watch takes one person {minutes} min."),
            Self::WatchMinutes { minutes, exclusive: false } => {
                format!("The watch takes {minutes} min, and who watches may sweep meanwhile.")
            }
            Self::HotWorkEnded(at) => format!("Hot work ended at {}.", clock(*at)),
            Self::NoLater(at) => format!("{} at the latest: no session is longer.", clock(*at)),
            Self::Now(at) => format!("Reckoned from {}.", clock(*at)),
        }
    }
}

fn together(hands: u32) -> String {
    match hands {
        0 => ", by itself".into(),
        1 => String::new(),
        hands => format!(", {hands} people together"),
    }
}

impl MinutesFrom {
    fn says(self) -> String {
        match self {
            Self::Rulebook => "rulebook".into(),
            Self::Use(used) => format!("rulebook, for {} min of use", used.minutes_up()),
            Self::Cap(used) => format!("rulebook's most, for {} min of use", used.minutes_up()),
            Self::Log { seen: 1 } => "seen once".into(),
            Self::Log { seen } => format!("seen {seen} times"),
        }
    }
}

impl Bound {
    /// What takes so long.
    pub fn says(self) -> &'static str {
        match self {
            Self::CriticalPath => "Chores that wait for each other alone",
            Self::Work => "All the work, shared among those free",
            Self::Gear => "Chores that want the same gear alone",
            Self::Hands => "Chores of many hands, which get in each other's way",
            Self::Watch => "The fire watch alone",
        }
    }
}

impl Why {
    /// Every line of it: the time, the rule, what went in, the source.
    pub fn lines(&self, clock: Clock) -> Vec<String> {
        let mut lines = vec![format!("{}: {}", self.mark.name(), clock(self.at)), self.rule.says().into()];
        lines.extend(self.numbers.iter().map(|number| number.says(clock)));
        lines.push(format!("Source: {}.", self.rule.source()));
        lines
    }
}

impl Assumed {
    /// What is taken for granted, in a line.
    pub fn says(&self) -> String {
        match self {
            Self::LastOut => "Nobody else is known in the room, so its last chores are yours.".into(),
            Self::OthersSweep => "Others are known in the room, so its last chores are theirs.".into(),
            Self::GearIsFree(gear) => {
                let gear: Vec<&str> = gear.iter().map(GearId::as_str).collect();
                format!("Gear is free for you when you need it: {}.", gear.join(", "))
            }
            Self::OneSweeps => "You sweep alone; more of you are counted when you start the sweep.".into(),
            Self::RunUntilSweep => "Machines that still run go on until the sweep.".into(),
        }
    }
}

impl Explained {
    /// Everything, a paragraph for each time and one for what is taken for granted.
    pub fn text(&self, clock: Clock) -> String {
        let mut paragraphs: Vec<String> = self.whys.iter().map(|why| why.lines(clock).join("\n  ")).collect();
        paragraphs.extend(self.assumed_text("\n  "));
        paragraphs.join("\n\n")
    }

    /// What is taken for granted, if anything is, in lines that begin with `line`.
    pub fn assumed_text(&self, line: &str) -> Option<String> {
        let mut text = String::from(ASSUMED);
        for assumed in &self.assumed {
            text += line;
            text += &assumed.says();
        }
        (!self.assumed.is_empty()).then_some(text)
    }
}
