//! The words of a [`Why`]: short, in the member's terms, the same on a phone and in `sweepbell plan --explain`.
//!
//! Which words a rule or a number has; the words themselves are in `shared-core/words/en.ftl` and its translations, under `plan`.
//! How an instant is written is the caller's: a phone has the shop's clock, the command too. No fractions: spans are told
//! in minutes, rounded up.

use super::{Assumed, Explained, Mark, MinutesFrom, Number, Rule, Why};
use crate::ids::GearId;
use crate::plan::Bound;
use crate::time::{Instant, Span};
use crate::words::Words;
use crate::words::said::plan;

/// How an instant is written.
pub type Clock<'a> = &'a dyn Fn(Instant) -> String;

impl Mark {
    /// What it is called.
    pub fn name(self, words: &Words) -> &'static str {
        match self {
            Self::OutBy => plan::out_by(words),
            Self::SweepFrom => plan::sweep_from(words),
            Self::FirstBell => plan::first_bell(words),
            Self::LastSpark => plan::last_spark(words),
            Self::WatchUntil => plan::watch_until(words),
            Self::FreeAt => plan::free_at(words),
        }
    }
}

impl Rule {
    /// The rule, in a sentence.
    pub fn says(self, words: &Words) -> &'static str {
        match self {
            Self::Said => plan::rule_said(words),
            Self::ChoresFit => plan::rule_chores_fit(words),
            Self::Floor => plan::rule_floor(words),
            Self::BeforeSweep => plan::rule_before_sweep(words),
            Self::WatchAndChoresFit => plan::rule_watch_and_chores_fit(words),
            Self::SparkNotAfterSweep => plan::rule_spark_not_after_sweep(words),
            Self::WatchFromLastSpark => plan::rule_watch_from_last_spark(words),
            Self::WatchFromEnd => plan::rule_watch_from_end(words),
            Self::AllFromNow => plan::rule_all_from_now(words),
            Self::AfterWatch => plan::rule_after_watch(words),
        }
    }

    /// Where the rule is from.
    pub fn source(self, words: &Words) -> &'static str {
        match self {
            Self::Said => plan::source_said(words),
            Self::ChoresFit | Self::Floor | Self::AllFromNow => plan::source_chores(words),
            Self::BeforeSweep => plan::source_reserve(words),
            Self::WatchAndChoresFit
            | Self::SparkNotAfterSweep
            | Self::WatchFromLastSpark
            | Self::WatchFromEnd
            | Self::AfterWatch => plan::source_watch(words),
        }
    }
}

impl Number {
    /// What went in, in a line.
    pub fn says(&self, words: &Words, clock: Clock) -> String {
        match self {
            Self::Crew(crew) => plan::crew(words, i64::from(*crew)),
            Self::Chore { owner, text, minutes, hands, gear, from } => {
                let gear = gear.as_ref().map(|gear| plan::with_gear(words, gear.as_str())).unwrap_or_default();
                plan::chore(words, &from.says(words), &(together(words, *hands) + &gear), *minutes, owner, text)
            }
            Self::Learnt { enough_pct, prior_weight } => plan::learnt(words, *enough_pct, i64::from(*prior_weight)),
            Self::Order { span, gap: Span::ZERO } => plan::order_best(words, span.minutes_up()),
            Self::Order { span, gap } => plan::order_near(words, gap.minutes_up(), span.minutes_up()),
            Self::Bound { bound, span } => plan::bound(words, bound.says(words), span.minutes_up()),
            Self::FloorMinutes(minutes) => plan::floor_minutes(words, i64::from(*minutes)),
            Self::FirstBellMinutes(minutes) => plan::first_bell_minutes(words, i64::from(*minutes)),
            Self::WatchMinutes { minutes, exclusive: true } => plan::watch_exclusive(words, i64::from(*minutes)),
            Self::WatchMinutes { minutes, exclusive: false } => plan::watch_shared(words, i64::from(*minutes)),
            Self::HotWorkEnded(at) => plan::hot_work_ended(words, &clock(*at)),
            Self::NoLater(at) => plan::no_later(words, &clock(*at)),
            Self::Now(at) => plan::now(words, &clock(*at)),
        }
    }
}

fn together(words: &Words, hands: u32) -> String {
    match hands {
        0 => plan::by_itself(words).into(),
        1 => String::new(),
        hands => plan::together(words, i64::from(hands)),
    }
}

impl MinutesFrom {
    fn says(self, words: &Words) -> String {
        match self {
            Self::Rulebook => plan::from_book(words).into(),
            Self::Use(used) => plan::from_use(words, used.minutes_up()),
            Self::Cap(used) => plan::from_cap(words, used.minutes_up()),
            Self::Log { seen } => plan::from_log(words, i64::try_from(seen).unwrap_or(i64::MAX)),
        }
    }
}

impl Bound {
    /// What takes so long.
    pub fn says(self, words: &Words) -> &'static str {
        match self {
            Self::CriticalPath => plan::bound_critical_path(words),
            Self::Work => plan::bound_work(words),
            Self::Gear => plan::bound_gear(words),
            Self::Hands => plan::bound_hands(words),
            Self::Watch => plan::bound_watch(words),
        }
    }
}

impl Why {
    /// Every line of it: the time, the rule, what went in, the source.
    pub fn lines(&self, words: &Words, clock: Clock) -> Vec<String> {
        let time = plan::time(words, &clock(self.at), self.mark.name(words));
        let mut lines = vec![time, self.rule.says(words).into()];
        lines.extend(self.numbers.iter().map(|number| number.says(words, clock)));
        lines.push(plan::source(words, self.rule.source(words)));
        lines
    }
}

impl Assumed {
    /// What is taken for granted, in a line.
    pub fn says(&self, words: &Words) -> String {
        match self {
            Self::LastOut => plan::assumes_last_out(words).into(),
            Self::OthersSweep => plan::assumes_others_sweep(words).into(),
            Self::GearIsFree(gear) => {
                let gear: Vec<&str> = gear.iter().map(GearId::as_str).collect();
                plan::assumes_gear_is_free(words, &gear.join(", "))
            }
            Self::OneSweeps => plan::assumes_one_sweeps(words).into(),
            Self::RunUntilSweep => plan::assumes_run_until_sweep(words).into(),
        }
    }
}

impl Explained {
    /// Everything, a paragraph for each time and one for what is taken for granted.
    pub fn text(&self, words: &Words, clock: Clock) -> String {
        let mut paragraphs: Vec<String> = self.whys.iter().map(|why| why.lines(words, clock).join("\n  ")).collect();
        paragraphs.extend(self.assumed_text(words, "\n  "));
        paragraphs.join("\n\n")
    }

    /// What is taken for granted, if anything is, in lines that begin with `line`.
    pub fn assumed_text(&self, words: &Words, line: &str) -> Option<String> {
        let mut text = String::from(plan::assumed(words));
        for assumed in &self.assumed {
            text += line;
            text += &assumed.says(words);
        }
        (!self.assumed.is_empty()).then_some(text)
    }
}
