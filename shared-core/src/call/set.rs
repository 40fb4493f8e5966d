//! Everything that is to be said of one session, said already or not: one line each.

use super::{LONG_PAST_MINUTES, PEOPLE_AFTER_MINUTES, SAID_AT_MINUTES, Said, What};
use crate::fire_watch::{self, WatchStage};
use crate::ids::PersonId;
use crate::members::Members;
use crate::ordered::Set;
use crate::rulebook::Rulebook;
use crate::state::{Session, State};
use crate::time::{Instant, Span};
use crate::view::bench::{CLEAR_STANDS, Times, clear_called};
use crate::viewer::Viewer;
use crate::{buddy, roster, session_plan};

const ONCE: &[i64] = &[0];
/// What nothing else ends is of use for this long.
const USE_MINUTES: i64 = 10;
/// A member who is past out-by is told so for this long.
const LAST_BELL_USE_MINUTES: i64 = 60;
/// The stewards are told of a session that stays open up to this long past out-by, by a hub that was down, say.
const LONG_PAST_USE_MINUTES: i64 = 240;

/// Something to say of one session.
pub(super) struct Line {
    pub(super) what: What,
    /// The instant that it is about.
    pub(super) at: Instant,
    /// When it is said: minutes after that, ascending.
    pub(super) said_at_minutes: &'static [i64],
    /// From then on it is of no use.
    pub(super) until: Instant,
    pub(super) to: Set<PersonId>,
}

/// All lines of a session that somebody could be told.
pub(super) fn lines(
    book: &Rulebook,
    members: &Members,
    state: &State,
    session: &Session,
    before: &[&Said],
    now: Instant,
) -> Vec<Line> {
    let viewer =
        Viewer { book, members, state, me: &session.who, session: Some(&session.id), now, day_from: session.from };
    let mut lines = match session.left() {
        Some(left) => cut_short(&viewer, session, left).into_iter().collect(),
        // Nothing of it is of use any more: no plan is solved for who forgot to leave last week.
        None if now >= session.out_by + minutes(LONG_PAST_USE_MINUTES) => Vec::new(),
        None => {
            let mut lines = Vec::new();
            lines.extend(cleared(&viewer, session));
            at_work(&viewer, session, before, &mut lines);
            to_the_end(&viewer, session, &mut lines);
            lines
        }
    };
    lines.retain(|line| !line.to.is_empty());
    lines
}

/// First bell, last spark and sweep bell, until the sweep begins.
fn at_work(viewer: &Viewer, session: &Session, before: &[&Said], lines: &mut Vec<Line>) {
    let Ok(plan) = session_plan::plan_of(viewer, session) else { return };
    if session.sweep().is_some() {
        return;
    }
    let (times, me) = (Times::of(viewer.book, &plan), own(session));
    let line = |what, at, said_at_minutes, until: Instant, to| Line { what, at, said_at_minutes, until, to };
    // No bell was set before the session began; whoever comes for minutes needs no first one.
    let rung = |what, at: Instant| stands_for(session, before, what, at.max(session.from));
    if let Some(at) = rung(What::FirstBell, times.first_bell).filter(|_| times.first_bell >= session.from) {
        lines.push(line(What::FirstBell, at, ONCE, times.sweep_from, me.clone()));
    }
    let heard = |at: &Instant| session.heard.is_some_and(|heard| heard >= *at);
    if let Some(at) = times.last_spark.and_then(|at| rung(What::LastSpark, at)).filter(|at| !heard(at)) {
        let until = times.sweep_from.max(at + minutes(USE_MINUTES));
        lines.push(line(What::LastSpark, at, SAID_AT_MINUTES, until, me.clone()));
    }
    if let Some(at) = rung(What::SweepBell, times.sweep_from) {
        // Where a fire watch holds the only person past out-by, the sweep bell comes after the last one.
        let until = if at < session.out_by { session.out_by } else { at + minutes(USE_MINUTES) };
        lines.push(line(What::SweepBell, at, SAID_AT_MINUTES, until, me));
        lines.push(line(What::NotSweeping, at, &[PEOPLE_AFTER_MINUTES], until, near(viewer, session, at)));
    }
}

/// What holds until the member has left, sweeping or not.
fn to_the_end(viewer: &Viewer, session: &Session, lines: &mut Vec<Line>) {
    let (out_by, me) = (session.out_by, own(session));
    let stage = fire_watch::watch(viewer.book, session, viewer.now).map(|watch| watch.stage);
    if let Some(WatchStage::Watching { until: at, .. } | WatchStage::Over { at }) = stage {
        let until = at + minutes(USE_MINUTES);
        lines.push(Line { what: What::WatchOver, at, said_at_minutes: ONCE, until, to: me.clone() });
    }
    // Whoever did anything since has the phone in hand, where the bell lies over everything.
    if !acted_since(session, out_by) {
        let until = out_by + minutes(LAST_BELL_USE_MINUTES);
        lines.push(Line { what: What::LastBell, at: out_by, said_at_minutes: SAID_AT_MINUTES, until, to: me });
        let (what, until) = (What::NotOut, out_by + minutes(LONG_PAST_MINUTES));
        let to = stewards(viewer, session);
        lines.push(Line { what, at: out_by, said_at_minutes: &[PEOPLE_AFTER_MINUTES], until, to });
    }
    let (what, until) = (What::LongPast, out_by + minutes(LONG_PAST_USE_MINUTES));
    let to = stewards(viewer, session);
    lines.push(Line { what, at: out_by, said_at_minutes: &[LONG_PAST_MINUTES], until, to });
}

/// Everybody was called out of the session's room, while it stands; whoever called knows.
fn cleared(viewer: &Viewer, session: &Session) -> Option<Line> {
    let (at, by) = clear_called(viewer, &session.room)?;
    let until = at + CLEAR_STANDS;
    let line = Line { what: What::Clear, at, said_at_minutes: SAID_AT_MINUTES, until, to: own(session) };
    (at >= session.from && *by != session.who).then_some(line)
}

/// The fire watch of a session that left before it was over; told for as long as embers may glow.
fn cut_short(viewer: &Viewer, session: &Session, left: Instant) -> Option<Line> {
    let kept = fire_watch::kept(viewer.book, session).filter(|kept| kept.cut_short_minutes > 0)?;
    let (what, until, to) = (What::WatchCutShort, kept.needed_until, stewards(viewer, session));
    Some(Line { what, at: left, said_at_minutes: ONCE, until, to })
}

/// The instant that a bell is about. One that was said already and is now set to an earlier instant stands: the plan
/// moved under it, as it does when a machine stops, and nobody has answered. If its member moved out-by, that was the
/// answer, and nothing more is said of the earlier instant.
fn stands_for(session: &Session, before: &[&Said], what: What, at: Instant) -> Option<Instant> {
    let rung = before.iter().filter(|said| said.what == what).max_by_key(|said| said.at);
    match rung {
        Some(rung) if rung.at > at => (rung.out_by == session.out_by).then_some(rung.at),
        _ => Some(at),
    }
}

/// Whether the member did anything after `at`. That the phone's clock jumped is nobody's act.
fn acted_since(session: &Session, at: Instant) -> bool {
    let uses = session.uses.iter().flat_map(|use_| [Some(use_.from), use_.to]).flatten();
    let chores = session.chores.values().map(|done| done.at);
    let words = session.confirmations.iter().map(|word| word.at);
    let sweep = session.sweep().map(|sweep| sweep.from).into_iter().chain(session.heard);
    uses.chain(chores).chain(words).chain(session.watch_rounds.iter().copied()).chain(sweep).any(|acted| acted > at)
}

fn own(session: &Session) -> Set<PersonId> {
    Set::from([session.who.clone()])
}

/// Whoever is a buddy of the session, now or when the bell rang, and everybody else in the room.
fn near(viewer: &Viewer, session: &Session, at: Instant) -> Set<PersonId> {
    let others = roster::others_in_room(viewer.state, &session.room, &session.id).map(|other| &other.who);
    let words = [at, viewer.now].map(|when| buddy::standing(viewer.book, viewer.state, session, when));
    let buddies = words.iter().flatten().map(|(word, _)| &word.buddy);
    others.chain(buddies).filter(|who| **who != session.who).cloned().collect()
}

fn stewards(viewer: &Viewer, session: &Session) -> Set<PersonId> {
    let stewards = viewer.members.iter().filter(|member| member.steward && member.id != session.who);
    stewards.map(|member| member.id.clone()).collect()
}

fn minutes(minutes: i64) -> Span {
    Span::from_minutes(minutes)
}
