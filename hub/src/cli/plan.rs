//! `sweepbell plan SHOP.toml PLAN.json`: the reserve, the bells and the order of the close-down.
//!
//! Reads what is planned for, asks [`shared_core::plan`], and writes the contract's fields (DESIGN.md section 5), or
//! the reasons in the words that a phone shows too.

use std::path::PathBuf;

use clap::Args;
use serde::{Deserialize, Serialize};
use shared_core::estimate::History;
use shared_core::ids::{ChoreId, MachineId, RoomId};
use shared_core::ordered::Set;
use shared_core::plan::explain;
use shared_core::plan::{self, Bound, HotWork, Impossible, Request, Step, Use};
use shared_core::time::{Instant, MINUTE_MS, Span};
use shared_core::words::{EN, ES, NL, Words};

use super::{Failure, answer, read, read_rulebook, say};
use crate::offsets::clock;

/// Longest use that is planned for, in minutes: a week, as in a rulebook's longest session.
const USE_MINUTES_MAX: f64 = 10_080.0;

/// Say when to stop, and who does what when.
#[derive(Args, Debug)]
pub(super) struct Plan {
    /// The rulebook.
    #[arg(value_name = "SHOP.toml")]
    shop: PathBuf,
    /// What is planned for.
    #[arg(value_name = "PLAN.json")]
    planned_for: PathBuf,
    /// Instead of JSON, say in words why each time is what it is: the rule, the numbers that went in, the source.
    #[arg(long)]
    explain: bool,
    /// The language of `--explain`, for its own words and for the rulebook's where it has them.
    #[arg(long, requires = "explain", default_value = "en", value_parser = ["en", "es", "nl"])]
    language: String,
}

#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
struct Asked {
    room: RoomId,
    out_by: Instant,
    crew: u32,
    last_out: bool,
    hot_work: bool,
    uses: Vec<AskedUse>,
    #[serde(default)]
    hot_work_ended: Option<Instant>,
    #[serde(default)]
    now: Option<Instant>,
}

#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
struct AskedUse {
    machine: MachineId,
    minutes: f64,
}

#[derive(Debug, Serialize)]
struct Answer {
    out_by: Instant,
    sweep_from: Instant,
    first_bell: Instant,
    last_spark: Option<Instant>,
    free_at: Option<Instant>,
    reserve_minutes: i64,
    optimal: bool,
    /// How much later the sweep might start at most, if the plan is not known to be optimal.
    gap_minutes: i64,
    /// What holds the sweep back most, and how long that alone takes: the gap is counted from there.
    bound: Bound,
    bound_minutes: i64,
    steps: Vec<AnswerStep>,
}

#[derive(Debug, Serialize)]
struct AnswerStep {
    id: ChoreId,
    start: Instant,
    end: Instant,
    hands: u32,
}

impl Plan {
    /// Plans and tells.
    pub(super) fn run(self) -> Result<(), Failure> {
        let mut book = read_rulebook(&self.shop)?;
        book.speak(&self.language);
        let refused = |why: String| Failure::refused(&format!("{}:{why}", self.planned_for.display()));
        let asked: Asked = serde_json::from_str(&read(&self.planned_for)?)
            .map_err(|error| refused(format!("{}:{}: {error}", error.line(), error.column())))?;
        let uses = asked.uses.iter().map(Use::try_from).collect::<Result<Vec<_>, _>>().map_err(refused)?;
        let hot_work = match (asked.hot_work_ended, asked.hot_work) {
            (Some(ended), _) => HotWork::Ended(ended),
            (None, true) => HotWork::Coming,
            (None, false) => HotWork::None,
        };
        let (done, history) = (Set::new(), History::new());
        let request = Request {
            book: &book,
            room: &asked.room,
            out_by: asked.out_by,
            crew: asked.crew,
            last_out: asked.last_out,
            hot_work,
            uses: &uses,
            done: &done,
            now: asked.now,
            history: &history,
        };
        let impossible = |why: Impossible| refused(format!(" {why}"));
        if self.explain {
            let explained = explain::explain(&request).map_err(impossible)?;
            return say(&explained.text(&spoken(&self.language), &|at| clock(&book.shop.time_zone, at)));
        }
        answer(&Answer::from(plan::plan(&request).map_err(impossible)?))
    }
}

/// The words of a language that [`Plan`] takes.
fn spoken(language: &str) -> Words {
    let catalogue = match language {
        "es" => ES,
        "nl" => NL,
        _ => EN,
    };
    Words::read(catalogue).unwrap_or_else(Words::english)
}

impl TryFrom<&AskedUse> for Use {
    type Error = String;

    #[expect(clippy::cast_possible_truncation, reason = "a week of milliseconds fits")]
    fn try_from(asked: &AskedUse) -> Result<Self, String> {
        if !(0.0..=USE_MINUTES_MAX).contains(&asked.minutes) {
            return Err(format!(" the use of `{}` must last 0 to {USE_MINUTES_MAX} minutes", asked.machine));
        }
        #[expect(clippy::cast_precision_loss, reason = "a minute's milliseconds are exact")]
        let ms = (asked.minutes * MINUTE_MS as f64).round() as i64;
        Ok(Self { machine: asked.machine.clone(), used: Span::from_ms(ms) })
    }
}

impl From<plan::Plan> for Answer {
    fn from(plan: plan::Plan) -> Self {
        Self {
            out_by: plan.out_by,
            sweep_from: plan.sweep_from,
            first_bell: plan.first_bell,
            last_spark: plan.last_spark,
            free_at: plan.free_at,
            reserve_minutes: plan.reserve_minutes,
            optimal: plan.optimal,
            gap_minutes: plan.gap.minutes_up(),
            bound: plan.bound,
            bound_minutes: plan.bound_span.minutes_up(),
            steps: plan.steps.into_iter().map(AnswerStep::from).collect(),
        }
    }
}

impl From<Step> for AnswerStep {
    fn from(step: Step) -> Self {
        Self { id: step.id, start: step.start, end: step.end, hands: step.hands }
    }
}
