//! Incidents and near misses, for a steward: what happened and where, what was said of it since, and what was changed.
//!
//! Whoever told it is named, because they are who can be asked; nobody else is.

use crate::entry::{Happened, Matter, Of, Place};
use crate::state::Incident;
use crate::time::Instant;
use crate::view::Viewer;
use crate::view::thread::{self, NoteLine};

/// So many that were seen to are shown.
const SEEN_MOST: usize = 30;

/// What the page shows.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Incidents {
    /// Those that nobody has seen to yet, newest first.
    pub open: Vec<IncidentRow>,
    /// Those that were seen to, newest first.
    pub seen: Vec<IncidentRow>,
}

/// One of them.
#[derive(Clone, Debug, PartialEq)]
pub struct IncidentRow {
    /// Its line.
    pub of: Of,
    /// When it was told.
    pub at: Instant,
    /// The name of who told it.
    pub by: String,
    /// In their words.
    pub note: String,
    /// Where it was.
    pub place: Option<String>,
    /// How near it came.
    pub kind: Option<Happened>,
    /// Whether first aid was given.
    pub first_aid: Option<bool>,
    /// What was said of it since.
    pub notes: Vec<NoteLine>,
}

/// What a steward is shown.
pub fn incidents(viewer: &Viewer) -> Incidents {
    let mut all = Incidents::default();
    for incident in viewer.state.incidents.iter().rev() {
        let of = of(incident);
        if !thread::is_seen_to(viewer.state, &of) {
            all.open.push(row(viewer, incident));
        } else if all.seen.len() < SEEN_MOST {
            all.seen.push(row(viewer, incident));
        }
    }
    all
}

/// The line of an incident.
pub(super) fn of(incident: &Incident) -> Of {
    thread::of(Matter::Incident, incident.at, &incident.by)
}

pub(super) fn row(viewer: &Viewer, incident: &Incident) -> IncidentRow {
    let of = of(incident);
    IncidentRow {
        at: incident.at,
        by: viewer.members.name(&incident.by).to_owned(),
        note: incident.note.clone(),
        place: incident.told.place.as_ref().map(|place| place_name(viewer, place)),
        kind: incident.told.kind,
        first_aid: incident.told.first_aid,
        notes: thread::notes(viewer, &of),
        of,
    }
}

/// The name of a machine or a room.
pub(super) fn place_name(viewer: &Viewer, place: &Place) -> String {
    match place {
        Place::Machine(id) => viewer.book.machine_name(id),
        Place::Room(id) => super::door::room_name(viewer, id),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::command::Command;
    use crate::entry::{Step, Told};
    use crate::ids::PersonId;
    use crate::testing::{World, at};

    #[test]
    fn what_was_seen_to_goes_below_and_keeps_what_was_said() {
        let mut world = World::new();
        let tell = |note: &str| {
            let told = Told {
                place: Some(Place::Machine("saw".into())),
                kind: Some(Happened::NearMiss),
                first_aid: Some(false),
            };
            Command::ReportIncident { note: note.into(), told }
        };
        world.act("noor", 0, tell("a disc burst")).expect("allowed");
        world.act("ilse", 5, tell("a spark in the bin")).expect("allowed");
        let me = PersonId::from("bram");
        let first = incidents(&world.viewer(&me, at(9)));
        assert_eq!(
            first.open.iter().map(|row| row.note.as_str()).collect::<Vec<_>>(),
            ["a spark in the bin", "a disc burst"]
        );
        let row = &first.open[1];
        assert_eq!(
            (row.by.as_str(), row.place.as_deref(), row.kind),
            ("NOOR", Some("The saw"), Some(Happened::NearMiss))
        );
        for (minute, step) in [(10, Step::Changed), (11, Step::SeenTo)] {
            world
                .act("bram", minute, Command::Note { of: row.of.clone(), step, note: Some("dated".into()) })
                .expect("allowed");
        }
        let then = incidents(&world.viewer(&me, at(20)));
        assert_eq!((then.open.len(), then.seen.len()), (1, 1));
        assert_eq!(then.seen[0].notes.iter().map(|line| line.step).collect::<Vec<_>>(), [Step::Changed, Step::SeenTo]);
    }
}
