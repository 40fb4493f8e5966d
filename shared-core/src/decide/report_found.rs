//! Say how a machine or the room was found. Anybody may, with or without a session.

use crate::entry::{Condition, Fact, Place};
use crate::refusal::Refusal;
use crate::viewer::Viewer;

pub(super) fn decide(
    viewer: &Viewer,
    place: Place,
    condition: Condition,
    note: Option<String>,
) -> Result<Vec<Fact>, Refusal> {
    match &place {
        Place::Machine(id) if viewer.book.machine(id).is_none() => {
            return Err(Refusal::NoSuchMachine { machine: id.clone() });
        }
        Place::Room(id) if viewer.book.room(id).is_none() => return Err(Refusal::NoSuchRoom { room: id.clone() }),
        Place::Machine(_) | Place::Room(_) => {}
    }
    let note = note.filter(|note| !note.trim().is_empty()).map(|note| super::words(&note)).transpose()?;
    Ok(vec![Fact::Found { place, condition, note }])
}
