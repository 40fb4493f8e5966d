//! The buddy's side: whom this person covers, and what an ask that was scanned says.

use crate::buddy;
use crate::ids::{MachineId, PersonId, RoomId, SessionId};
use crate::refusal::Refusal;
use crate::time::Instant;
use crate::view::Viewer;

/// Somebody whom this viewer covers.
#[derive(Clone, Debug, PartialEq)]
pub struct Covering {
    /// Whose session.
    pub session: SessionId,
    /// Who.
    pub who: PersonId,
    /// Their name.
    pub name: String,
    /// Until when this viewer's word holds.
    pub until: Instant,
}

/// What somebody asks of this viewer.
#[derive(Clone, Debug, PartialEq)]
pub struct Asked {
    /// Who asks.
    pub name: String,
    /// The name of the room.
    pub room: String,
    /// The name of the machine, if it is for one alone.
    pub machine: Option<String>,
    /// For how many minutes a confirmation holds.
    pub minutes: u32,
    /// Why this viewer cannot confirm, if they cannot.
    pub refusal: Option<Refusal>,
}

/// Everybody whom this viewer covers now, as far as this phone knows.
pub fn covering(viewer: &Viewer) -> Vec<Covering> {
    let mut rows: Vec<Covering> = viewer
        .state
        .sessions
        .values()
        .filter(|session| session.is_open())
        .filter_map(|session| {
            let until = buddy::standing(viewer.book, viewer.state, session, viewer.now)
                .into_iter()
                .filter(|(confirmation, _)| confirmation.buddy == *viewer.me)
                .map(|(_, until)| until)
                .max()?;
            Some(Covering {
                session: session.id.clone(),
                who: session.who.clone(),
                name: viewer.members.name(&session.who).to_owned(),
                until,
            })
        })
        .collect();
    rows.sort_by(|a, b| a.until.cmp(&b.until).then_with(|| a.session.cmp(&b.session)));
    rows
}

/// What an ask says to this viewer.
pub fn asked(
    viewer: &Viewer,
    session: &SessionId,
    operator: &PersonId,
    room: &RoomId,
    machine: Option<&MachineId>,
) -> Asked {
    Asked {
        name: viewer.members.name(operator).to_owned(),
        room: super::door::room_name(viewer, room),
        machine: machine.map(|id| viewer.book.machine_name(id)),
        minutes: viewer.book.buddy.renew_minutes,
        refusal: buddy::may_cover(viewer, viewer.me, session, operator, room).err(),
    }
}
