//! Repairs: every machine that is out, with its thread, how it stands and who may give it back; for a steward, days out.
//!
//! Everybody reads it: whoever wants to use the machine, whoever can mend it, whoever is asked to check it.

use crate::decide::clear_tag;
use crate::entry::Of;
use crate::ids::MachineId;
use crate::refusal::Refusal;
use crate::repair::{self, Outage};
use crate::time::{Instant, Span};
use crate::view::Viewer;
use crate::view::thread::{self, NoteLine};

/// Days out are counted over so many days back.
pub const DAYS_BACK: i64 = 90;
const DAY: Span = Span::from_minutes(24 * 60);

/// What the page shows.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Repairs {
    /// Machines that are out, the longest first.
    pub out: Vec<OutRow>,
    /// Machines that were out in the last [`DAYS_BACK`] days, in the rulebook's order. To a steward alone, whose phone has the log.
    pub days: Vec<DaysOut>,
}

/// A machine that is out.
#[derive(Clone, Debug, PartialEq)]
pub struct OutRow {
    /// Which.
    pub machine: MachineId,
    /// Its name.
    pub name: String,
    /// The name of its room.
    pub room: String,
    /// Since when.
    pub since: Instant,
    /// The line that more is said of.
    pub of: Of,
    /// Everything that was said of it, in order.
    pub thread: Vec<ThreadLine>,
    /// How it stands.
    pub standing: Standing,
    /// Whether this viewer may give it back, or why not.
    pub check: Result<(), Refusal>,
}

/// How a machine that is out stands.
#[derive(Clone, Debug, PartialEq)]
pub enum Standing {
    /// Nobody has said that anything is done about it.
    Out,
    /// A part is waited for.
    Waits {
        /// Until when, as far as is known.
        until: Option<Instant>,
    },
    /// It is mended and waits for its check.
    Mended {
        /// By whom.
        by: String,
        /// When they said so.
        at: Instant,
    },
}

/// One thing that was said of it.
#[derive(Clone, Debug, PartialEq)]
pub enum ThreadLine {
    /// It was tagged out.
    Tagged {
        /// When.
        at: Instant,
        /// By whom.
        by: String,
        /// What is wrong.
        problem: String,
        /// The hash of its picture, if one was taken.
        photo: Option<String>,
    },
    /// Something else.
    Noted(NoteLine),
}

impl ThreadLine {
    fn at(&self) -> Instant {
        match self {
            Self::Tagged { at, .. } | Self::Noted(NoteLine { at, .. }) => *at,
        }
    }
}

/// How long a machine was out.
#[derive(Clone, Debug, PartialEq)]
pub struct DaysOut {
    /// Its name.
    pub name: String,
    /// How long, rounded up to hours.
    pub hours: i64,
    /// How often.
    pub times: usize,
}

/// What this viewer is shown.
pub fn repairs(viewer: &Viewer) -> Repairs {
    let mut out: Vec<OutRow> = viewer.state.tags.keys().filter_map(|machine| row(viewer, machine)).collect();
    out.sort_by(|a, b| a.since.cmp(&b.since).then_with(|| a.machine.cmp(&b.machine)));
    let steward = viewer.members.get(viewer.me).is_some_and(|me| me.steward);
    Repairs { out, days: if steward { days(viewer) } else { Vec::new() } }
}

/// One machine that is out.
pub(super) fn row(viewer: &Viewer, machine: &MachineId) -> Option<OutRow> {
    let outage = repair::current(viewer.state, machine)?;
    let known = viewer.book.machine(machine);
    Some(OutRow {
        machine: machine.clone(),
        name: viewer.book.machine_name(machine),
        room: known.map_or_else(String::new, |known| super::door::room_name(viewer, &known.room)),
        since: outage.from(),
        of: outage.newest(),
        thread: said(viewer, &outage),
        standing: standing(viewer, &outage),
        check: clear_tag::may_check(viewer, machine).map(drop),
    })
}

fn standing(viewer: &Viewer, outage: &Outage) -> Standing {
    match outage.standing() {
        repair::Standing::Out => Standing::Out,
        repair::Standing::Waits { until } => Standing::Waits { until },
        repair::Standing::Mended { by, at } => Standing::Mended { by: viewer.members.name(by).to_owned(), at },
    }
}

fn said(viewer: &Viewer, outage: &Outage) -> Vec<ThreadLine> {
    let tagged = outage.tags.iter().map(|tag| ThreadLine::Tagged {
        at: tag.since,
        by: viewer.members.name(&tag.by).to_owned(),
        problem: tag.problem.clone(),
        photo: tag.photo.clone(),
    });
    let noted = outage.notes.iter().map(|noted| ThreadLine::Noted(thread::line(viewer, noted)));
    let mut lines: Vec<ThreadLine> = tagged.chain(noted).collect();
    lines.sort_by_key(ThreadLine::at);
    lines
}

fn days(viewer: &Viewer) -> Vec<DaysOut> {
    let from = viewer.now - Span::from_ms(DAY.ms() * DAYS_BACK);
    let one = |machine: &crate::rulebook::Machine| {
        let out = repair::time_out(viewer.state, &machine.id, from, viewer.now);
        let outages = repair::outages(viewer.state, &machine.id);
        let times = outages.iter().filter(|outage| outage.to.is_none_or(|to| to > from)).count();
        let hours = (out.minutes_up() + 59) / 60;
        (times > 0).then(|| DaysOut { name: machine.name.clone(), hours, times })
    };
    viewer.book.machines.iter().filter_map(one).collect()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::command::Command;
    use crate::entry::Step;
    use crate::ids::PersonId;
    use crate::testing::{World, at};

    const HOUR: i64 = 60;

    #[test]
    fn a_thread_tells_everything_and_who_may_give_the_machine_back() {
        let mut world = World::new();
        let pictured =
            Command::TagOut { machine: "saw".into(), problem: "guard loose".into(), photo: Some("p".repeat(43)) };
        world.act("noor", 0, pictured).expect("allowed");
        let of = |world: &World| {
            let me = PersonId::from("noor");
            let all = repairs(&world.viewer(&me, at(HOUR)));
            all.out[0].of.clone()
        };
        let note = |world: &World, step| Command::Note { of: of(world), step, note: Some("a nut".into()) };
        let waits = note(&world, Step::WaitsForPart { until: Some(at(500)) });
        world.act("ilse", 10, waits).expect("allowed");
        let mended = note(&world, Step::Mended);
        world.act("ilse", 20, mended).expect("allowed");
        let seen = |world: &World, who: &str| repairs(&world.viewer(&PersonId::from(who), at(10 * HOUR)));
        let row = &seen(&world, "noor").out[0];
        assert_eq!((row.name.as_str(), row.room.as_str(), row.since), ("The saw", "Room forge", at(0)));
        assert_eq!(row.standing, Standing::Mended { by: "ILSE".into(), at: at(20) });
        assert_eq!(row.thread.iter().map(ThreadLine::at).collect::<Vec<_>>(), [at(0), at(10), at(20)]);
        let tagged = ThreadLine::Tagged {
            at: at(0),
            by: "NOOR".into(),
            problem: "guard loose".into(),
            photo: Some("p".repeat(43)),
        };
        assert_eq!(row.thread[0], tagged, "with the picture");
        assert_eq!(row.check, Ok(()));
        assert!(matches!(seen(&world, "ilse").out[0].check, Err(Refusal::SecondPerson { .. })));
        // Days out are for who has the whole log.
        assert_eq!(seen(&world, "noor").days, []);
        assert_eq!(seen(&world, "bram").days, [DaysOut { name: "The saw".into(), hours: 10, times: 1 }]);
        world.act("noor", 3 * HOUR, Command::ClearTag { machine: "saw".into() }).expect("allowed");
        let after = seen(&world, "bram");
        assert_eq!((after.out.len(), after.days[0].hours), (0, 3));
    }
}
