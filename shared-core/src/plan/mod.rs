//! The reserve and the backward schedule: how late the sweep may start, how late the last spark may fly.
//!
//! Solved exactly up to 12 chores; past that a heuristic whose gap to a lower bound is reported, never hidden. What
//! cannot be planned at all is a refusal that names the chore. See DESIGN.md section 4, "Reserve and last spark".
//!
//! Reads no clock and keeps nothing between calls: the same request gives the same plan on every device. Works in
//! milliseconds, because neither now nor the end of hot work falls on a minute.

mod bound;
mod exact;
pub mod explain;
mod gather;
mod heuristic;
mod model;
mod solve;
mod steps;
#[cfg(test)]
pub(crate) mod tests;

use serde::Serialize;

pub use self::bound::Bound;
use crate::estimate::Observed;
use crate::ids::{ChoreId, GearId, MachineId, RoomId};
use crate::ordered::Set;
use crate::rulebook::Rulebook;
use crate::time::{Instant, Span};

/// What a plan is asked for.
#[derive(Clone, Debug)]
pub struct Request<'a> {
    /// The shop's rules.
    pub book: &'a Rulebook,
    /// The room that is left.
    pub room: &'a RoomId,
    /// When it must have been left.
    pub out_by: Instant,
    /// How many people close down, 1 or more; past 1000 they count as 1000.
    pub crew: u32,
    /// Whether the room is then empty.
    pub last_out: bool,
    /// Whether there was or will be hot work.
    pub hot_work: HotWork,
    /// The machines started, in the order of first start.
    pub uses: &'a [Use],
    /// The chores done already.
    pub done: &'a Set<ChoreId>,
    /// What time it is, if it should be said when everybody is free.
    pub now: Option<Instant>,
    /// What was observed of chores.
    pub history: &'a dyn Observed,
}

/// Hot work of the session.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum HotWork {
    /// None.
    None,
    /// There may be a spark yet.
    Coming,
    /// The last one was at this moment.
    Ended(Instant),
}

/// How long a machine was used. The same machine twice adds up.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Use {
    /// Which.
    pub machine: MachineId,
    /// For how long, 0 or more.
    pub used: Span,
}

/// When to stop, and who does what when.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct Plan {
    /// When the room must have been left.
    pub out_by: Instant,
    /// When the sweep must start.
    pub sweep_from: Instant,
    /// When to be told that it is near.
    pub first_bell: Instant,
    /// The latest moment for hot work; none if there is none to come.
    pub last_spark: Option<Instant>,
    /// The earliest finish if everybody starts now; none if now was not said.
    pub free_at: Option<Instant>,
    /// From `sweep_from` to `out_by` in minutes, rounded up.
    pub reserve_minutes: i64,
    /// Whether nothing in this plan could be later (or, for `free_at`, earlier).
    pub optimal: bool,
    /// How much might be won at most; zero if optimal.
    pub gap: Span,
    /// What holds the sweep back most.
    pub bound: Bound,
    /// How long that alone takes: the sweep is no shorter.
    pub bound_span: Span,
    /// How many nodes the proof looked at: the same on every machine.
    pub nodes: u64,
    /// The fire watch, if there is one.
    pub watch: Option<(Instant, Instant)>,
    /// The chores left, in the order of their starts.
    pub steps: Vec<Step>,
    /// The same chores as they would be done if everybody starts now; empty if now was not said.
    pub from_now: Vec<Step>,
}

/// One chore with its place in the plan.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct Step {
    /// Which.
    pub id: ChoreId,
    /// What to do.
    pub text: String,
    /// When to start it.
    pub start: Instant,
    /// When it is finished.
    pub end: Instant,
    /// How many people it takes; 0 is unattended.
    pub hands: u32,
}

/// Why there is no plan.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
pub enum Impossible {
    /// The room is not in the rulebook.
    #[error("there is no room `{room}` in the rulebook")]
    UnknownRoom {
        /// Which.
        room: RoomId,
    },
    /// A machine is not in the rulebook.
    #[error("there is no machine `{machine}` in the rulebook")]
    UnknownMachine {
        /// Which.
        machine: MachineId,
    },
    /// Nobody closes down.
    #[error("nobody is there to close down: the crew is 0")]
    NoCrew,
    /// A chore needs more people at once than there are.
    #[error("`{chore}` takes {hands} people at once, and there are {crew}")]
    TooFewPeople {
        /// Which.
        chore: ChoreId,
        /// How many it needs.
        hands: u32,
        /// How many there are.
        crew: u32,
    },
    /// A chore needs gear that the shop does not have.
    #[error("`{chore}` needs `{gear}`, and the shop has none")]
    NoGear {
        /// Which chore.
        chore: ChoreId,
        /// Which gear.
        gear: GearId,
    },
    /// Chores wait for each other in a ring.
    #[error("`{chore}` waits, by way of other chores, for itself")]
    Cycle {
        /// One of them.
        chore: ChoreId,
    },
}

/// The plan that a request asks for.
pub fn plan(request: &Request) -> Result<Plan, Impossible> {
    gather::gather(request).map(|gathered| steps::plan(request, &gathered))
}

/// A last spark that no plan of the request is earlier than: the watch, then every chore one after the other, or the
/// floor if that is longer. Costs no solving; what is well before it needs no plan to be told so.
pub fn last_spark_at_worst(request: &Request) -> Result<Instant, Impossible> {
    let gathered = gather::gather(request)?;
    let chores_ms: i64 = gathered.problem.tasks.iter().map(|task| task.length_ms).sum();
    let watch = Span::from_minutes(i64::from(request.book.fire_watch.minutes));
    let floor = Span::from_minutes(i64::from(request.book.reserve.floor_minutes));
    Ok(request.out_by - (watch + Span::from_ms(chores_ms)).max(floor))
}
