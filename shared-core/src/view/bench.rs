//! Bench: the session's times, its machines, its buddy.

pub use crate::buddy::Cover;
use crate::decide::start_machine;
use crate::entry::Given;
use crate::exposure::day::{Day, Left};
use crate::ids::{MachineId, PersonId, RoomId};
use crate::plan::Plan;
use crate::refusal::Refusal;
use crate::rulebook::Rulebook;
use crate::state::{Session, Tag};
use crate::time::{Instant, Span};
use crate::view::Viewer;
use crate::view::reach::{self, Timer};
use crate::{buddy, fire_watch, session_plan};

/// What Bench shows.
#[derive(Clone, Debug, PartialEq)]
pub struct BenchView {
    /// The room's name.
    pub room: String,
    /// When the session began.
    pub from: Instant,
    /// When the member must be out.
    pub out_by: Instant,
    /// The earliest and latest out-by that may be moved to.
    pub out_by_range: (Instant, Instant),
    /// The bells and the sweep, or why they cannot be planned.
    pub times: Result<Times, Refusal>,
    /// The machines of this room: what runs first, for its stop must be near; then what may be started, what lacks a
    /// buddy alone, and the rest; each in the rulebook's order.
    pub machines: Vec<MachineRow>,
    /// Buddies whose word still holds, longest first.
    pub buddies: Vec<BuddyRow>,
    /// Whether a machine in this room asks for a buddy.
    pub buddy_room: bool,
    /// When the attestations lapse.
    pub attested_until: Instant,
    /// The phone's own timer.
    pub timer: Timer,
    /// Whether the room's board may name the member when it rings for them.
    pub on_board: bool,
    /// When somebody else called everybody out of this room, if that was in this session and not long ago.
    pub clear_called: Option<Instant>,
}

/// The instants on the steel rule.
#[derive(Clone, Debug, PartialEq)]
pub struct Times {
    /// Finish the pass you are on.
    pub first_bell: Instant,
    /// Start to sweep.
    pub sweep_from: Instant,
    /// The latest moment for hot work, once there is hot work.
    pub last_spark: Option<Instant>,
    /// When one would be free, starting now.
    pub free_at: Option<Instant>,
    /// The fire watch, planned or running.
    pub watch: Option<(Instant, Instant)>,
    /// Minutes held back.
    pub reserve_minutes: i64,
    /// Whether the plan is proven the best.
    pub optimal: bool,
    /// When one would be free although out-by cannot be kept: hot work ended too late for its watch and the chores.
    pub late_until: Option<Instant>,
}

/// Whoever asks for more time gets these minutes at least.
pub const MORE_MINUTES_MIN: i64 = 5;

impl BenchView {
    /// From when on more time counts: from out-by, or from now where that is past.
    pub fn longer_from(&self, now: Instant) -> Instant {
        self.out_by.max(now)
    }

    /// Whether the rules let the member stay [`MORE_MINUTES_MIN`] longer at all.
    pub fn may_stay_longer(&self) -> bool {
        self.out_by_range.1 >= self.longer_from(self.out_by_range.0) + Span::from_minutes(MORE_MINUTES_MIN)
    }
}

impl Times {
    /// A plan's instants. Where the watch holds the only person and ends too late, the plan would put the sweep before
    /// the last spark; nobody is sent sweeping then, but after the watch, and is told that out-by cannot be kept.
    pub fn of(book: &Rulebook, plan: &Plan) -> Self {
        let past_spark = |(from, until): (Instant, Instant)| {
            let ended = plan.last_spark.is_none();
            (ended && book.fire_watch.exclusive && plan.sweep_from < from).then_some(until)
        };
        let after_watch = plan.watch.and_then(past_spark);
        let sweep_from = after_watch.unwrap_or(plan.sweep_from);
        let first_bell_minutes = i64::from(book.reserve.first_bell_minutes);
        Self {
            first_bell: after_watch.map_or(plan.first_bell, |until| until - Span::from_minutes(first_bell_minutes)),
            sweep_from,
            late_until: after_watch.and(plan.free_at),
            last_spark: plan.last_spark,
            free_at: plan.free_at,
            watch: plan.watch,
            reserve_minutes: plan.reserve_minutes,
            optimal: plan.optimal,
        }
    }
}

/// One machine.
#[derive(Clone, Debug, PartialEq)]
pub struct MachineRow {
    /// Its id.
    pub id: MachineId,
    /// Its name.
    pub name: String,
    /// Whether it asks for a buddy.
    pub buddy: bool,
    /// Whether it is hot work.
    pub hot_work: bool,
    /// Whether any foot can start it.
    pub pedal: bool,
    /// Stopped, running, or tagged out.
    pub standing: Standing,
    /// How long this viewer has left at it today before an action value: an estimate, never a measurement.
    pub left_today: Option<Left>,
}

/// How a machine stands for this session.
#[derive(Clone, Debug, PartialEq)]
pub enum Standing {
    /// It may be started after what the sheet asks.
    Ready(StartSheet),
    /// It may not, and why.
    Refused(Refusal),
    /// It runs under this session.
    Running {
        /// Since when.
        since: Instant,
        /// Until when a buddy covers it; `None` for a machine that asks for none.
        covered_until: Option<Cover>,
    },
}

/// What to confirm before a machine starts.
#[derive(Clone, Debug, PartialEq)]
pub struct StartSheet {
    /// Protection to wear.
    pub wear: Vec<String>,
    /// What must never be worn.
    pub never_wear: Vec<String>,
    /// What to check.
    pub start_checks: Vec<String>,
    /// Materials that it refuses.
    pub refuses: Vec<String>,
}

/// A buddy whose word holds.
#[derive(Clone, Debug, PartialEq)]
pub struct BuddyRow {
    /// Who.
    pub who: PersonId,
    /// Their name.
    pub name: String,
    /// Until when.
    pub until: Instant,
    /// For one machine alone.
    pub machine: Option<MachineId>,
    /// Whether their signed answer is kept with it.
    pub signed: bool,
    /// What shows that they are in the room.
    pub given: Given,
}

/// A tag, with the machine's name.
#[derive(Clone, Debug, PartialEq)]
pub struct TagRow {
    /// Which machine.
    pub machine: MachineId,
    /// Its name.
    pub name: String,
    /// The tag.
    pub tag: Tag,
}

/// What Bench shows to this viewer; `None` without an open session.
pub fn bench(viewer: &Viewer) -> Option<BenchView> {
    let session = viewer.open_session()?;
    let times = session_plan::plan_of(viewer, session).map(|plan| Times::of(viewer.book, &plan));
    let day = Day::of(viewer);
    let rows = viewer.book.machines_in(&session.room).map(|machine| MachineRow {
        id: machine.id.clone(),
        name: machine.name.clone(),
        buddy: machine.buddy,
        hot_work: machine.hot_work,
        pedal: machine.pedal,
        standing: standing(viewer, session, &machine.id),
        left_today: day.left(machine, viewer.now),
    });
    let mut machines: Vec<MachineRow> = rows.collect();
    machines.sort_by_key(|row| nearness(&row.standing));
    Some(BenchView {
        room: super::door::room_name(viewer, &session.room),
        from: session.from,
        out_by: session.out_by,
        out_by_range: crate::decide::arrive::out_by_range_of(viewer.book, session, viewer.now),
        on_board: session.on_board,
        clear_called: clear_called(viewer, &session.room)
            .filter(|(at, by)| *at >= session.from && *by != viewer.me)
            .map(|(at, _)| at),
        timer: reach::timer(session, times.as_ref().ok(), viewer.now),
        times,
        machines,
        buddies: buddies(viewer, session),
        buddy_room: viewer.book.machines_in(&session.room).any(|machine| machine.buddy),
        attested_until: crate::attestation::holds_until(viewer.book, session),
    })
}

fn nearness(standing: &Standing) -> u8 {
    match standing {
        Standing::Running { .. } => 0,
        Standing::Ready(_) => 1,
        Standing::Refused(Refusal::NoBuddy { .. }) => 2,
        Standing::Refused(_) => 3,
    }
}

fn standing(viewer: &Viewer, session: &Session, id: &MachineId) -> Standing {
    if let Some(use_) = session.running(id) {
        let asks = viewer.book.machine(id).is_some_and(|machine| machine.buddy);
        let covered_until = asks.then(|| buddy::cover_now(viewer.book, viewer.state, session, id, viewer.now));
        return Standing::Running { since: use_.from, covered_until };
    }
    match start_machine::may_start(viewer, session, id, None) {
        Ok(machine) => Standing::Ready(StartSheet {
            wear: machine.wear.clone(),
            never_wear: machine.never_wear.clone(),
            start_checks: machine.start_checks.clone(),
            refuses: machine.refuses.clone(),
        }),
        Err(refusal) => Standing::Refused(refusal),
    }
}

fn buddies(viewer: &Viewer, session: &Session) -> Vec<BuddyRow> {
    let mut rows: Vec<BuddyRow> = buddy::standing(viewer.book, viewer.state, session, viewer.now)
        .into_iter()
        .map(|(confirmation, until)| BuddyRow {
            who: confirmation.buddy.clone(),
            name: viewer.members.name(&confirmation.buddy).to_owned(),
            until,
            machine: confirmation.machine.clone(),
            signed: confirmation.signed,
            given: confirmation.given,
        })
        .collect();
    rows.sort_by(|a, b| b.until.cmp(&a.until).then_with(|| a.who.cmp(&b.who)));
    rows.dedup_by(|later, first| later.who == first.who && later.machine == first.machine);
    rows
}

/// The times as they would be with another out-by; `None` where there is no session or no plan.
pub fn times_if(viewer: &Viewer, out_by: Instant) -> Option<Times> {
    let plan = session_plan::plan_if(viewer, viewer.open_session()?, out_by).ok()?;
    Some(Times::of(viewer.book, &plan))
}

/// A phone that has not heard of the shop for longer says that it could not know of a tag.
const NEWS_OLD: Span = Span::from_minutes(60);

/// Whether what was last heard then is old: a machine may have been tagged out since.
pub fn news_is_old(heard: Instant, now: Instant) -> bool {
    now - heard >= NEWS_OLD
}

/// After this a call to clear a room is history: whoever hears of it then would be sent out of a room that others are back in.
pub const CLEAR_STANDS: Span = Span::from_minutes(15);

/// When everybody was called out of a room, and by whom, while that stands.
pub fn clear_called<'a>(viewer: &Viewer<'a>, room: &RoomId) -> Option<(Instant, &'a PersonId)> {
    let (at, by) = viewer.state.clear_calls.get(room)?;
    (viewer.now - *at < CLEAR_STANDS).then_some((*at, by))
}

/// The fire watch of this viewer's session, if one is needed.
pub fn watch(viewer: &Viewer) -> Option<fire_watch::Watch> {
    fire_watch::watch(viewer.book, viewer.open_session()?, viewer.now)
}
