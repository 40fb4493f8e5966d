//! Calls: what a hub says to phones that nobody looks at. Whom, when, how often, and when no more.
//!
//! Asked of the log at every wake-up, like the bells of a phone ([`crate::bell`]), and of what was said already, so that
//! nothing is said twice and nothing that is over is said at all. The bells are those of [`Times`], by the same plan. What
//! nobody answers goes to people: a sweep bell to the buddy and to others in the room, a last bell to the stewards. See
//! DESIGN.md section 4 for the bells. The minutes below are common practice, no source, but for [`SAID_AT_MINUTES`]: field
//! data on push to sleeping phones ask for two minutes of slack and for repeats.
//!
//! Never says anything of a session that has left, save that its fire watch was cut short. Sends nothing, and knows
//! neither phones nor networks: who listens on what is the hub's business.

mod set;
#[cfg(test)]
mod tests;

use serde::Serialize;

use crate::ids::{PersonId, SessionId};
use crate::members::Members;
use crate::ordered::Set;
use crate::rulebook::Rulebook;
use crate::state::State;
use crate::time::{Instant, Span};

use self::set::{Line, lines};

/// A bell that has to be answered is said at its instant, and again while it is not.
pub const SAID_AT_MINUTES: &[i64] = &[0, 2, 5];
/// After this a sweep bell that nobody answered goes to the buddy and to others in the room, a last bell to the stewards.
pub const PEOPLE_AFTER_MINUTES: i64 = 3;
/// A session that is open this long past out-by is told to the stewards.
pub const LONG_PAST_MINUTES: i64 = 30;

/// What is said.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum What {
    /// To the member: finish the pass you are on.
    FirstBell,
    /// To the member: start to sweep now.
    SweepBell,
    /// To the member: hot work must end now.
    LastSpark,
    /// To the member: the fire watch is over.
    WatchOver,
    /// To the member: you are past out-by.
    LastBell,
    /// To the buddy and others in the room: somebody did not answer the sweep bell.
    NotSweeping,
    /// To stewards: somebody did not answer the last bell.
    NotOut,
    /// To stewards: a session is open long past its out-by.
    LongPast,
    /// To stewards: somebody left before the fire watch was over.
    WatchCutShort,
    /// To everybody in a room but who called: out.
    Clear,
}

impl What {
    /// All of them, in the order of an evening.
    pub const ALL: [Self; 10] = [
        Self::FirstBell,
        Self::SweepBell,
        Self::LastSpark,
        Self::WatchOver,
        Self::LastBell,
        Self::NotSweeping,
        Self::NotOut,
        Self::LongPast,
        Self::WatchCutShort,
        Self::Clear,
    ];

    /// Its name on the wire and in a store.
    pub const fn name(self) -> &'static str {
        match self {
            Self::FirstBell => "first_bell",
            Self::SweepBell => "sweep_bell",
            Self::LastSpark => "last_spark",
            Self::WatchOver => "watch_over",
            Self::LastBell => "last_bell",
            Self::NotSweeping => "not_sweeping",
            Self::NotOut => "not_out",
            Self::LongPast => "long_past",
            Self::WatchCutShort => "watch_cut_short",
            Self::Clear => "clear",
        }
    }

    /// The one of that name.
    pub fn of_name(name: &str) -> Option<Self> {
        Self::ALL.into_iter().find(|what| what.name() == name)
    }

    /// Calls about one session with the same subject take each other's place, on the way and on the phone.
    pub const fn subject(self) -> &'static str {
        match self {
            Self::FirstBell | Self::SweepBell | Self::LastBell => "evening",
            Self::LastSpark | Self::WatchOver => "fire",
            Self::NotSweeping => "help",
            Self::NotOut | Self::LongPast => "open",
            Self::WatchCutShort => "embers",
            Self::Clear => "clear",
        }
    }
}

/// Something that was said: each of these once, whoever sends.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub struct Said {
    /// About which session.
    pub session: SessionId,
    /// What.
    pub what: What,
    /// Of which instant.
    pub at: Instant,
    /// Which saying of it, from 0.
    pub nth: u32,
    /// What the session's out-by was then: whoever moves it has answered.
    pub out_by: Instant,
}

/// Something to say now.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Call {
    /// What makes it one of its kind.
    pub said: Said,
    /// To whom; at least one.
    pub to: Set<PersonId>,
    /// By how much it is late.
    pub late: Span,
    /// From then on it is of no use.
    pub until: Instant,
}

/// What is to be said now, and when to ask again if nothing is heard until then.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Calls {
    /// Now, in the sessions' order.
    pub due: Vec<Call>,
    /// The next instant at which something will be.
    pub next: Option<Instant>,
}

/// What is to be said at `now`, with `said` before. Of several sayings that were missed, the last speaks for all.
pub fn calls(book: &Rulebook, members: &Members, state: &State, said: &Set<Said>, now: Instant) -> Calls {
    let mut calls = Calls::default();
    for session in state.sessions.values() {
        let before: Vec<&Said> = said.iter().filter(|said| said.session == session.id).collect();
        for line in lines(book, members, state, session, &before, now) {
            let said =
                |nth| Said { session: session.id.clone(), what: line.what, at: line.at, nth, out_by: session.out_by };
            let Due { now: due, next } = due(&line, &before, now);
            calls.due.extend(due.map(|(nth, late)| Call {
                said: said(nth),
                to: line.to.clone(),
                late,
                until: line.until,
            }));
            calls.next = calls.next.into_iter().chain(next).min();
        }
    }
    calls
}

struct Due {
    /// Which saying is due, and by how much it is late.
    now: Option<(u32, Span)>,
    next: Option<Instant>,
}

fn due(line: &Line, before: &[&Said], now: Instant) -> Due {
    let of_line = before.iter().filter(|said| said.what == line.what && said.at == line.at);
    let said = of_line.map(|said| said.nth).max();
    let mut due = Due { now: None, next: None };
    for (nth, minutes) in (0_u32..).zip(line.said_at_minutes) {
        let at = line.at + Span::from_minutes(*minutes);
        if at >= line.until || said.is_some_and(|said| nth <= said) {
            continue;
        }
        if at > now {
            due.next = Some(at);
            break;
        }
        due.now = (now < line.until).then_some((nth, now - at));
    }
    due
}
