//! Room: who is here and how old that knowledge is, what is tagged out, what was found.
//!
//! A muster list never drops a person for being stale; it says how stale.

use crate::entry::{Condition, Place};
use crate::ids::{MachineId, PersonId, RoomId, SessionId};
use crate::roster;
use crate::state::{Found, Stage};
use crate::time::Instant;
use crate::view::Viewer;
use crate::view::bench::{self, TagRow};
use crate::view::candidates::Candidate;
use crate::view::look::{LookView, look};
use crate::view::rounds::RoundRow;

/// What Room shows.
#[derive(Clone, Debug, PartialEq)]
pub struct RoomView {
    /// Each room with its people, this phone's room first.
    pub rooms: Vec<RoomNow>,
    /// Machines tagged out.
    pub tagged: Vec<TagRow>,
    /// Rounds, the most pressing first.
    pub rounds: Vec<RoundRow>,
    /// What was found lately, newest first, at most 20.
    pub found: Vec<FoundRow>,
    /// Every machine, for tagging out and for saying how it was found.
    pub machines: Vec<MachineName>,
    /// Who else in this phone's room could be asked to be a buddy.
    pub candidates: Vec<Candidate>,
    /// Whether this viewer may take tags off.
    pub steward: bool,
    /// The emergency number, as it is dialled.
    pub emergency: Option<String>,
    /// What is looked up: fire, metals, finishes.
    pub look: LookView,
}

/// A room and who is in it.
#[derive(Clone, Debug, PartialEq)]
pub struct RoomNow {
    /// Its id.
    pub id: RoomId,
    /// Its name.
    pub name: String,
    /// Whether this phone's session is in it.
    pub mine: bool,
    /// Who is here.
    pub people: Vec<PersonHere>,
    /// When everybody was called out of it, if that was not long ago.
    pub clear_called: Option<Instant>,
}

/// Somebody who came in and is not known to have left.
#[derive(Clone, Debug, PartialEq)]
pub struct PersonHere {
    /// Which session.
    pub session: SessionId,
    /// Who.
    pub who: PersonId,
    /// Their name.
    pub name: String,
    /// Whether it is the viewer.
    pub me: bool,
    /// Since when.
    pub since: Instant,
    /// When they meant to be out.
    pub out_by: Instant,
    /// When their phone last said anything that this phone has heard.
    pub heard: Instant,
    /// Working or sweeping.
    pub sweeping: bool,
}

/// Something that was found.
#[derive(Clone, Debug, PartialEq)]
pub struct FoundRow {
    /// When.
    pub at: Instant,
    /// The name of the machine or room.
    pub place: String,
    /// How.
    pub condition: Condition,
    /// In words.
    pub note: Option<String>,
}

/// A machine's name and room.
#[derive(Clone, Debug, PartialEq)]
pub struct MachineName {
    /// Its id.
    pub id: MachineId,
    /// Its name.
    pub name: String,
    /// Its room.
    pub room: RoomId,
}

/// What Room shows to this viewer.
pub fn room(viewer: &Viewer) -> RoomView {
    let mine = viewer.open_session().map(|session| &session.room);
    let mut rooms: Vec<RoomNow> = viewer
        .book
        .rooms
        .iter()
        .map(|room| RoomNow {
            id: room.id.clone(),
            name: room.name.clone(),
            mine: mine == Some(&room.id),
            people: people(viewer, &room.id),
            clear_called: bench::clear_called(viewer, &room.id).map(|(at, _)| at),
        })
        .collect();
    rooms.sort_by_key(|room| !room.mine);
    RoomView {
        rooms,
        tagged: tagged(viewer),
        rounds: super::rounds::rounds(viewer),
        found: found(viewer),
        machines: viewer
            .book
            .machines
            .iter()
            .map(|machine| MachineName {
                id: machine.id.clone(),
                name: machine.name.clone(),
                room: machine.room.clone(),
            })
            .collect(),
        candidates: super::candidates::candidates(viewer),
        steward: viewer.members.get(viewer.me).is_some_and(|member| member.steward),
        emergency: viewer.book.shop.emergency.clone(),
        look: look(viewer),
    }
}

fn people(viewer: &Viewer, room: &RoomId) -> Vec<PersonHere> {
    let here = roster::in_room(viewer.state, room).map(|session| PersonHere {
        session: session.id.clone(),
        who: session.who.clone(),
        name: viewer.members.name(&session.who).to_owned(),
        me: session.who == *viewer.me,
        since: session.from,
        out_by: session.out_by,
        heard: session.last_at,
        sweeping: matches!(session.stage, Stage::Sweeping(_)),
    });
    let mut people: Vec<PersonHere> = here.collect();
    people.sort_by(|a, b| a.since.cmp(&b.since).then_with(|| a.session.cmp(&b.session)));
    people
}

pub(super) fn tagged(viewer: &Viewer) -> Vec<TagRow> {
    let rows = viewer.state.tags.iter().map(|(machine, tag)| TagRow {
        machine: machine.clone(),
        name: viewer.book.machine_name(machine),
        tag: tag.clone(),
    });
    rows.collect()
}

fn found(viewer: &Viewer) -> Vec<FoundRow> {
    let row = |found: &Found| FoundRow {
        at: found.at,
        place: match &found.place {
            Place::Machine(id) => viewer.book.machine_name(id),
            Place::Room(id) => super::door::room_name(viewer, id),
        },
        condition: found.condition,
        note: found.note.clone(),
    };
    viewer.state.found_lately().map(row).collect()
}
