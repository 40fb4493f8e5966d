//! Today: what needs the steward, the most pressing first; empty when nothing does.
//!
//! A need is a fact with a next step, never a reproach: it names a session or a thing, not a fault of somebody's. It goes
//! when it is seen to, when what is wrong is put right, or, of an evening or a mess, after [`LATELY_DAYS`]: what nobody has
//! seen to by then nobody will, and a list that only grows is not read.

use crate::buddy::Heard;
use crate::entry::{Condition, Matter, Of, Step, Undone};
use crate::fire_watch;
use crate::ids::{PersonId, SessionId};
use crate::report;
use crate::round;
use crate::state::{Found, Session, State};
use crate::time::{HOUR_MS, Instant, Span};
use crate::view::Viewer;
use crate::view::door::room_name;
use crate::view::incidents::{self, IncidentRow, place_name};
use crate::view::repairs::{self, OutRow, Standing};
use crate::view::rounds::{self, RoundRow};
use crate::view::thread;

/// Evenings and messes need somebody for so many days.
pub const LATELY_DAYS: i64 = 14;

/// What needs the steward.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Today {
    /// The most pressing first.
    pub needs: Vec<Need>,
}

/// One thing that does.
#[derive(Clone, Debug, PartialEq)]
pub enum Need {
    /// A session is open past its out-by: is its member safe?
    PastOutBy {
        /// Which.
        session: SessionId,
        /// Whose.
        who: PersonId,
        /// What they are called.
        name: String,
        /// The name of the room.
        room: String,
        /// When they meant to be out.
        out_by: Instant,
        /// When their phone was last heard of.
        heard: Instant,
    },
    /// Somebody told of an incident.
    Incident(IncidentRow),
    /// A session left something behind it.
    Evening(Left),
    /// A machine is tagged out.
    Out(OutRow),
    /// Rounds that are late, the latest first; apart from these, rounds that are due, or were never written down. They have one
    /// way to go, however many they are.
    Rounds(Vec<RoundRow>),
    /// A mess was found.
    Mess {
        /// Its line.
        of: Of,
        /// When.
        at: Instant,
        /// The name of the machine or room.
        place: String,
        /// In the finder's words.
        note: Option<String>,
        /// Whether those who could know were asked.
        asked: bool,
    },
}

/// What a session that is over left behind it.
#[derive(Clone, Debug, PartialEq)]
pub struct Left {
    /// Its line.
    pub of: Of,
    /// Whose it was.
    pub name: String,
    /// The name of the room.
    pub room: String,
    /// When it was left.
    pub left: Instant,
    /// By how many minutes the fire watch was cut short; none if it was kept.
    pub watch_short_minutes: i64,
    /// Stretches in which a machine that asks for a buddy had none.
    pub gaps: Vec<(String, Instant, Instant)>,
    /// What was not ticked, with the name of its machine or room.
    pub missing: Vec<String>,
    /// Why not, if they said.
    pub undone: Option<Undone>,
}

/// What needs this viewer, as far as their phone knows.
pub fn today(viewer: &Viewer) -> Today {
    let lately = viewer.now - Span::from_ms(LATELY_DAYS * 24 * HOUR_MS);
    let mut needs: Vec<Need> = past_out_by(viewer).collect();
    let open = viewer.state.incidents.iter().map(|incident| (incidents::of(incident), incident));
    let open = open.filter(|(of, _)| !thread::is_seen_to(viewer.state, of));
    needs.extend(open.map(|(_, incident)| Need::Incident(incidents::row(viewer, incident))));
    needs.extend(evenings(viewer, lately).map(Need::Evening));
    needs.extend(viewer.state.tags.keys().filter_map(|machine| repairs::row(viewer, machine)).map(Need::Out));
    let due = rounds::rounds(viewer).into_iter().filter(|row| !matches!(row.standing, round::Standing::Done { .. }));
    let (late, due): (Vec<RoundRow>, Vec<RoundRow>) = due.partition(|row| late_since(row).is_some());
    needs.extend([late, due].into_iter().filter(|rows| !rows.is_empty()).map(Need::Rounds));
    needs.extend(viewer.state.found.iter().filter(|found| found.at >= lately).filter_map(|found| mess(viewer, found)));
    needs.sort_by_key(|need| pressing(need, viewer.now));
    Today { needs }
}

/// How pressing: people, then fire, then what may hurt the next one, then what can wait; in each the newest first, but whom
/// nobody has heard of for longest.
fn pressing(need: &Need, now: Instant) -> (u8, i64) {
    let newest = |at: Instant| -at.ms();
    match need {
        Need::PastOutBy { out_by, .. } => (0, out_by.ms()),
        Need::Incident(row) => (1, newest(row.at)),
        Need::Evening(left) if left.watch_short_minutes > 0 => (2, newest(left.left)),
        Need::Evening(left) if !left.gaps.is_empty() => (3, newest(left.left)),
        Need::Evening(left) => (8, newest(left.left)),
        Need::Out(row) => match row.standing {
            Standing::Mended { at, .. } => (4, newest(at)),
            Standing::Waits { until: Some(until) } if until > now => (10, until.ms()),
            Standing::Out | Standing::Waits { .. } => (5, newest(row.since)),
        },
        Need::Rounds(rows) => match rows.first().and_then(late_since) {
            Some(due) => (6, due.ms()),
            None => (9, 0),
        },
        Need::Mess { at, .. } => (7, newest(*at)),
    }
}

/// Since when a round is late, if it is.
pub fn late_since(row: &RoundRow) -> Option<Instant> {
    match row.standing {
        round::Standing::Overdue { due } => Some(due),
        _ => None,
    }
}

fn past_out_by<'a>(viewer: &'a Viewer) -> impl Iterator<Item = Need> + 'a {
    let late = viewer.state.sessions.open().filter(|session| session.out_by < viewer.now);
    late.map(|session| Need::PastOutBy {
        session: session.id.clone(),
        who: session.who.clone(),
        name: viewer.members.name(&session.who).to_owned(),
        room: room_name(viewer, &session.room),
        out_by: session.out_by,
        heard: session.last_at,
    })
}

/// Sessions that were left since then with something behind them that nobody has seen to.
fn evenings<'a>(viewer: &'a Viewer, since: Instant) -> impl Iterator<Item = Left> + 'a {
    // Whoever was there at the same time left later still, or is there: the rest of two years is not looked at again.
    let around = Span::from_ms(i64::from(viewer.book.shop.session_hours_max) * HOUR_MS);
    let mut near = State::default();
    near.sessions = viewer.state.sessions.since(since - around).into_iter().cloned().collect();
    let heard = Heard::since(viewer.state, since - around);
    let over =
        viewer.state.sessions.since(since).into_iter().filter_map(move |session| Some((session, session.left()?)));
    over.filter(move |(_, left)| *left >= since)
        .filter_map(move |(session, left)| behind(viewer, &near, &heard, session, left))
}

fn behind(viewer: &Viewer, near: &State, heard: &Heard, session: &Session, left: Instant) -> Option<Left> {
    let of = thread::of(Matter::Session, session.from, &session.who);
    if thread::is_seen_to(viewer.state, &of) {
        return None;
    }
    let watch = fire_watch::kept(viewer.book, session).map_or(0, |kept| kept.cut_short_minutes);
    let gaps = crate::buddy::gaps(viewer.book, heard, session, left);
    let missing = report::missing(viewer.book, near, session, left);
    if watch == 0 && gaps.is_empty() && missing.is_empty() {
        return None;
    }
    let gap = |gap: crate::buddy::Gap| (viewer.book.machine_name(&gap.machine), gap.from, gap.to);
    Some(Left {
        of,
        name: viewer.members.name(&session.who).to_owned(),
        room: room_name(viewer, &session.room),
        left,
        watch_short_minutes: watch,
        gaps: gaps.into_iter().map(gap).collect(),
        missing: missing.iter().map(|chore| super::book::chore_text(viewer, chore)).collect(),
        undone: session.undone,
    })
}

fn mess(viewer: &Viewer, found: &Found) -> Option<Need> {
    let of = thread::of(Matter::Found, found.at, &found.by);
    if found.condition == Condition::Clean || thread::is_seen_to(viewer.state, &of) {
        return None;
    }
    let asked = viewer.state.notes_of(&of).any(|noted| noted.step == Step::Asked);
    Some(Need::Mess { of, at: found.at, place: place_name(viewer, &found.place), note: found.note.clone(), asked })
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::command::Command;
    use crate::entry::{Entry, Fact, Place, Told};
    use crate::testing::{World, arrive, at, start, stop};

    const DAY: i64 = 24 * 60;

    fn said(session: &str, who: &str, minute: i64, fact: Fact) -> Entry {
        Entry { at: at(minute), session: session.into(), who: who.into(), fact }
    }

    /// A need, as a word and what it is about.
    fn told(need: &Need) -> String {
        match need {
            Need::PastOutBy { session, .. } => format!("late {session}"),
            Need::Incident(row) => format!("incident {}", row.note),
            Need::Evening(left) => {
                let gaps: Vec<_> = left.gaps.iter().map(|(name, ..)| name.as_str()).collect();
                format!("evening {}: {} {gaps:?} {:?}", left.name, left.watch_short_minutes, left.missing)
            }
            Need::Out(row) => format!("out {}", row.name),
            Need::Rounds(rows) => {
                let ids: Vec<_> = rows.iter().map(|row| row.id.as_str()).collect();
                format!("rounds {}", ids.join(" "))
            }
            Need::Mess { place, asked, .. } => format!("mess {place}{}", if *asked { ", asked" } else { "" }),
        }
    }

    /// What bram, a steward, is told at `minute`; rounds that nobody ever did are left out.
    fn needs(world: &World, minute: i64) -> Vec<String> {
        let me = PersonId::from("bram");
        let all = today(&world.viewer(&me, at(minute))).needs;
        let never = |row: &RoundRow| row.standing == round::Standing::NeverDone;
        let never = |need: &&Need| matches!(need, Need::Rounds(rows) if rows.iter().all(never));
        all.iter().filter(|need| !never(need)).map(told).collect()
    }

    #[test]
    fn a_session_needs_the_steward_once_it_is_open_past_its_out_by() {
        let entered = |session: &str, who: &str, out_by| {
            said(session, who, 0, Fact::Entered { room: "forge".into(), out_by: at(out_by) })
        };
        let log = [
            entered("a", "noor", 90),
            entered("b", "ilse", 60),
            entered("c", "teun", 30),
            said("c", "teun", 40, Fact::Left),
            said("a", "noor", 55, Fact::WatchRound),
        ];
        for (minute, late) in [(60, vec![]), (61, vec!["late b"]), (200, vec!["late b", "late a"])] {
            let mut world = World::new();
            world.state = State::of(&log);
            let told: Vec<String> = needs(&world, minute).into_iter().filter(|told| told.starts_with("late")).collect();
            assert_eq!(told, late, "minute {minute}");
        }
    }

    /// An evening that leaves everything behind it, and a shop in which everything happens at once.
    fn bad_evening() -> World {
        let mut world = World::new();
        let place = || Place::Machine("saw".into());
        for (who, minute, command) in [
            ("noor", 0, arrive("noor", "forge", 0, 200)),
            ("noor", 5, start("torch")),
            ("noor", 40, stop("torch")),
            ("noor", 50, Command::Leave),
            ("ilse", 60, Command::ReportFound { place: place(), condition: Condition::Mess, note: None }),
            ("ilse", 61, Command::ReportFound { place: place(), condition: Condition::Clean, note: None }),
            ("ilse", 62, Command::TagOut { machine: "drill".into(), problem: "slips".into(), photo: None }),
            ("ilse", 63, Command::ReportIncident { note: "a spark".into(), told: Told::default() }),
            ("ilse", 64, Command::FinishRound { round: "bin".into() }),
            ("noor", 70, arrive("noor", "forge", 70, 90)),
        ] {
            assert_eq!(world.act(who, minute, command), Ok(()), "{who} {minute}");
        }
        world
    }

    #[test]
    fn the_most_pressing_stands_first() {
        let evening =
            "evening NOOR: 20 [] [\"Room forge: Do floor.\", \"Room forge: Do lights.\", \"The torch: Do brush.\"]";
        assert_eq!(
            needs(&bad_evening(), 64 + DAY),
            ["late noor-70", "incident a spark", evening, "out The drill", "rounds bin", "mess The saw"]
        );
    }

    #[test]
    fn what_was_seen_to_goes_and_so_does_what_is_long_past() {
        let mut world = bad_evening();
        world.act("noor", 80, Command::Leave).expect("never refused");
        world.act("ilse", 81, Command::FinishRound { round: "bin".into() }).expect("allowed");
        let me = PersonId::from("bram");
        let lines: Vec<Of> = (today(&world.viewer(&me, at(90))).needs.iter())
            .filter_map(|need| match need {
                Need::Incident(row) => Some(row.of.clone()),
                Need::Evening(left) => Some(left.of.clone()),
                Need::Mess { of, .. } => Some(of.clone()),
                _ => None,
            })
            .collect();
        assert_eq!(lines.len(), 4, "two evenings, a mess, an incident");
        let mut seen = world.clone();
        for of in lines {
            seen.act("bram", 95, Command::Note { of, step: Step::SeenTo, note: None }).expect("allowed");
        }
        assert_eq!(needs(&seen, 100), ["out The drill"]);
        // Of what nobody has seen to, evenings and messes go after a while; an incident, a tag and a round stay.
        let later = LATELY_DAYS * DAY + 81;
        assert_eq!(needs(&world, later), ["incident a spark", "out The drill", "rounds bin"]);
    }

    #[test]
    fn an_empty_shop_needs_nobody() {
        assert_eq!(needs(&World::new(), 0), Vec::<String>::new());
    }

    #[test]
    fn a_gap_is_told_with_its_machine() {
        let mut world = World::new();
        for (who, minute, command) in [
            ("noor", 0, arrive("noor", "forge", 0, 200)),
            ("noor", 5, crate::testing::confirm("ilse")),
            ("noor", 6, start("lathe")),
            ("noor", 40, stop("lathe")),
            ("noor", 41, Command::StartSweep { crew: 1 }),
            ("noor", 45, Command::FinishChore { chore: "lathe/brush".into(), photo: None }),
            ("noor", 55, Command::FinishChore { chore: "forge/floor".into(), photo: None }),
            ("noor", 56, Command::FinishChore { chore: "forge/lights".into(), photo: None }),
            ("noor", 57, Command::Leave),
        ] {
            assert_eq!(world.act(who, minute, command), Ok(()), "{who} {minute}");
        }
        assert_eq!(needs(&world, 60), ["evening NOOR: 0 [\"The lathe\"] []"]);
    }
}
