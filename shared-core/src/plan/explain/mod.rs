//! Why a time is what it is: the rule, the numbers that went in, and the source, as data.
//!
//! One [`Why`] for each time on the steel rule, and what the plan takes for granted. Nothing is solved twice in another way here: what is told was read from
//! the very request and plan that gave the time. The words are in [`words`] and are the same on a phone and in
//! `sweepbell plan --explain`. Knows no screen and no clock: how an instant is written is the caller's.

pub mod words;

use super::gather::{self, Gathered};
use super::{Bound, HotWork, Impossible, Plan, Request, steps};
use crate::chores::{self, DueChore};
use crate::estimate;
use crate::ids::GearId;
use crate::rulebook::{Chore, Rulebook, When};
use crate::time::{Instant, MINUTE_MS, Span};

/// A plan, why each of its times is what it is, and what was taken for granted.
#[derive(Clone, Debug, PartialEq)]
pub struct Explained {
    /// The plan.
    pub plan: Plan,
    /// Its times, in the order of [`Mark`].
    pub whys: Vec<Why>,
    /// What it assumes.
    pub assumed: Vec<Assumed>,
}

/// What a plan takes for granted, because a phone knows its own session and not what others mean to do.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Assumed {
    /// Nobody else is known to be in the room: the room's last chores are this session's.
    LastOut,
    /// Others are known to be in the room: its last chores are theirs.
    OthersSweep,
    /// No other session holds the gear when it is needed here.
    GearIsFree(Vec<GearId>),
    /// One person sweeps; more, once the sweep starts and they are counted.
    OneSweeps,
    /// Machines that still run go on until the sweep.
    RunUntilSweep,
}

/// A time on the steel rule.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Mark {
    /// When the room must have been left.
    OutBy,
    /// When the sweep must start.
    SweepFrom,
    /// When to be told that it is near.
    FirstBell,
    /// The latest moment for hot work.
    LastSpark,
    /// The end of the fire watch.
    WatchUntil,
    /// The earliest finish if everybody starts now.
    FreeAt,
}

/// One time and what it follows from.
#[derive(Clone, Debug, PartialEq)]
pub struct Why {
    /// Which time.
    pub mark: Mark,
    /// When that is.
    pub at: Instant,
    /// What it follows from.
    pub rule: Rule,
    /// What went in, in the order in which it is told.
    pub numbers: Vec<Number>,
}

/// The rule that gives a time; each has its words and its source in [`words`].
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Rule {
    /// The member said so.
    Said,
    /// The chores, in their shortest order, end at out-by.
    ChoresFit,
    /// The chores take no longer than the shop's floor, so the floor counts.
    Floor,
    /// So long before the sweep.
    BeforeSweep,
    /// The watch and the chores end at out-by.
    WatchAndChoresFit,
    /// No spark once the sweep begins.
    SparkNotAfterSweep,
    /// The watch begins at the last spark.
    WatchFromLastSpark,
    /// The watch began when hot work ended.
    WatchFromEnd,
    /// The chores left, started now, and the watch.
    AllFromNow,
    /// Hot work ended too late: the watch comes first, then the sweep, and out-by cannot be kept.
    AfterWatch,
}

/// One thing that went in.
#[derive(Clone, Debug, PartialEq)]
pub enum Number {
    /// How many people close down.
    Crew(u32),
    /// A chore that is left.
    Chore {
        /// Whose it is: a machine's or the room's name.
        owner: String,
        /// What to do.
        text: String,
        /// How long it takes.
        minutes: i64,
        /// How many people it takes; 0 is unattended.
        hands: u32,
        /// What it occupies.
        gear: Option<GearId>,
        /// Where the minutes are from.
        from: MinutesFrom,
    },
    /// What is made of the times that chores were seen to take.
    Learnt {
        /// The share of evenings that they should be enough for, in percent.
        enough_pct: i64,
        /// How many times over the rulebook's minutes count among them.
        prior_weight: u32,
    },
    /// The best order of all that is found, and how much shorter one might be at most.
    Order {
        /// From its start to its end.
        span: Span,
        /// Zero if none is shorter.
        gap: Span,
    },
    /// No order is shorter than this.
    Bound {
        /// For what reason.
        bound: Bound,
        /// How long.
        span: Span,
    },
    /// The shop holds back so many minutes at least.
    FloorMinutes(u32),
    /// The first bell rings so many minutes before the sweep.
    FirstBellMinutes(u32),
    /// How long the fire watch is.
    WatchMinutes {
        /// So long.
        minutes: u32,
        /// Whether it holds one person for all of it.
        exclusive: bool,
    },
    /// When hot work ended.
    HotWorkEnded(Instant),
    /// No later out-by is allowed.
    NoLater(Instant),
    /// From when it is reckoned.
    Now(Instant),
}

/// Where a chore's minutes are from.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum MinutesFrom {
    /// The rulebook names them.
    Rulebook,
    /// The rulebook's formula for so much use.
    Use(Span),
    /// As above, and the rulebook's cap.
    Cap(Span),
    /// How long it took, together with what the rulebook says.
    Log {
        /// How many times it was seen.
        seen: usize,
    },
}

/// The plan that a request asks for, with its reasons.
pub fn explain(request: &Request) -> Result<Explained, Impossible> {
    let gathered = gather::gather(request)?;
    let plan = steps::plan(request, &gathered);
    let mut whys = vec![
        Why { mark: Mark::OutBy, at: plan.out_by, rule: Rule::Said, numbers: vec![] },
        sweep_from(request, &gathered, &plan),
        Why {
            mark: Mark::FirstBell,
            at: plan.first_bell,
            rule: Rule::BeforeSweep,
            numbers: vec![Number::FirstBellMinutes(request.book.reserve.first_bell_minutes)],
        },
    ];
    whys.extend(plan.last_spark.map(|at| last_spark(request.book, &plan, at)));
    whys.extend(plan.watch.map(|(from, until)| watch_until(request, from, until)));
    if let (Some(at), Some(now)) = (plan.free_at, request.now) {
        let numbers = vec![Number::Now(now), order(at - now, &plan)];
        whys.push(Why { mark: Mark::FreeAt, at, rule: Rule::AllFromNow, numbers });
    }
    Ok(Explained { assumed: assumed(request, &gathered), plan, whys })
}

fn last_spark(book: &Rulebook, plan: &Plan, at: Instant) -> Why {
    let mut numbers = vec![watch_minutes(book)];
    let rule = if at == plan.sweep_from {
        numbers.push(Number::FloorMinutes(book.reserve.floor_minutes));
        Rule::SparkNotAfterSweep
    } else {
        numbers.push(order(plan.out_by - at, plan));
        Rule::WatchAndChoresFit
    };
    Why { mark: Mark::LastSpark, at, rule, numbers }
}

fn watch_until(request: &Request, from: Instant, at: Instant) -> Why {
    let mut numbers = vec![watch_minutes(request.book)];
    let ended = matches!(request.hot_work, HotWork::Ended(_));
    numbers.extend(ended.then_some(Number::HotWorkEnded(from)));
    let rule = if ended { Rule::WatchFromEnd } else { Rule::WatchFromLastSpark };
    Why { mark: Mark::WatchUntil, at, rule, numbers }
}

/// What a request alone takes for granted.
fn assumed(request: &Request, gathered: &Gathered) -> Vec<Assumed> {
    let mut assumed = Vec::new();
    let room = request.book.room(request.room);
    if room.is_some_and(|room| room.chores.iter().any(|chore| chore.when == When::LastOut)) {
        assumed.push(if request.last_out { Assumed::LastOut } else { Assumed::OthersSweep });
    }
    let mut gear: Vec<GearId> = Vec::new();
    for wanted in gathered.due.iter().filter_map(|due| due.chore.gear.as_ref()) {
        if !gear.contains(wanted) {
            gear.push(wanted.clone());
        }
    }
    if !gear.is_empty() {
        assumed.push(Assumed::GearIsFree(gear));
    }
    assumed
}

fn sweep_from(request: &Request, gathered: &Gathered, plan: &Plan) -> Why {
    let reserve = plan.out_by - plan.sweep_from;
    let floor_minutes = request.book.reserve.floor_minutes;
    let floor = Span::from_minutes(i64::from(floor_minutes));
    let mut numbers = vec![Number::Crew(request.crew)];
    numbers.extend(gathered.due.iter().zip(&gathered.problem.tasks).map(|(due, task)| Number::Chore {
        owner: owner(request, due),
        text: due.chore.text.clone(),
        minutes: task.length_ms / MINUTE_MS,
        hands: due.chore.hands,
        gear: due.chore.gear.clone(),
        from: minutes_from(request, due),
    }));
    if numbers.iter().any(|number| matches!(number, Number::Chore { from: MinutesFrom::Log { .. }, .. })) {
        numbers.push(learnt(request.book));
    }
    let rule = if reserve > floor {
        numbers.push(order(reserve, plan));
        numbers.push(Number::Bound { bound: plan.bound, span: plan.bound_span });
        Rule::ChoresFit
    } else {
        Rule::Floor
    };
    numbers.push(Number::FloorMinutes(floor_minutes));
    Why { mark: Mark::SweepFrom, at: plan.sweep_from, rule, numbers }
}

fn order(span: Span, plan: &Plan) -> Number {
    Number::Order { span, gap: plan.gap }
}

#[expect(clippy::cast_possible_truncation, reason = "a share of one")]
fn learnt(book: &Rulebook) -> Number {
    let enough_pct = libm::round(book.reserve.quantile * 100.0) as i64;
    Number::Learnt { enough_pct, prior_weight: book.reserve.prior_weight }
}

fn watch_minutes(book: &Rulebook) -> Number {
    Number::WatchMinutes { minutes: book.fire_watch.minutes, exclusive: book.fire_watch.exclusive }
}

fn owner(request: &Request, due: &DueChore) -> String {
    let room = || request.book.room(request.room).map_or_else(String::new, |room| room.name.clone());
    due.machine.map_or_else(room, |machine| request.book.machine_name(machine))
}

fn minutes_from(request: &Request, due: &DueChore) -> MinutesFrom {
    let seen = estimate::believable(&request.history.minutes_of(&due.id)).count();
    if seen > 0 {
        return MinutesFrom::Log { seen };
    }
    let used = due.machine.map_or(Span::ZERO, |machine| {
        request.uses.iter().filter(|one| one.machine == *machine).map(|one| one.used).sum()
    });
    if due.chore.per_hour_milli == 0 {
        return MinutesFrom::Rulebook;
    }
    let uncapped = chores::minutes(&Chore { cap_milli: None, ..due.chore.clone() }, used);
    if uncapped > chores::minutes(due.chore, used) { MinutesFrom::Cap(used) } else { MinutesFrom::Use(used) }
}
