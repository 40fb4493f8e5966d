//! Book: this phone's own log, line by line, with the names that its ids stand for.

use crate::entry::{Entry, Fact, Matter, Place, Point};
use crate::ids::{ChoreId, MachineId, RoomId};
use crate::time::Instant;
use crate::view::Viewer;

/// One line of the log, for reading.
#[derive(Clone, Debug, PartialEq)]
pub struct BookLine {
    /// Its number in this phone's chain.
    pub seq: u64,
    /// When.
    pub at: Instant,
    /// What happened.
    pub fact: Fact,
    /// The name of the machine, room, buddy or chore that it is about.
    pub about: Option<String>,
    /// Whether the hub holds it.
    pub standing: Standing,
}

/// Where an entry is.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Standing {
    /// On this phone, waiting for a network.
    Waiting,
    /// The hub holds it.
    Held,
    /// The hub would not take it, and why.
    Rejected(String),
}

/// The line for an entry of this phone.
pub fn line(viewer: &Viewer, seq: u64, entry: &Entry, standing: Standing) -> BookLine {
    BookLine { seq, at: entry.at, fact: entry.fact.clone(), about: about(viewer, &entry.fact), standing }
}

fn about(viewer: &Viewer, fact: &Fact) -> Option<String> {
    let machine = |id: &MachineId| Some(viewer.book.machine_name(id));
    let room = |id: &RoomId| Some(super::door::room_name(viewer, id));
    match fact {
        Fact::Entered { room: id, .. }
        | Fact::Found { place: Place::Room(id), .. }
        | Fact::ClearCalled { room: id } => room(id),
        Fact::Attested { statement } => {
            viewer.book.statements.iter().find(|known| known.id == *statement).map(|known| known.text.clone())
        }
        Fact::MachineStarted { machine: id, .. }
        | Fact::MachineStopped { machine: id }
        | Fact::TaggedOut { machine: id, .. }
        | Fact::TagCleared { machine: id }
        | Fact::Found { place: Place::Machine(id), .. } => machine(id),
        Fact::BuddyConfirmed { buddy, .. } | Fact::BuddyLeft { buddy } => Some(viewer.members.name(buddy).to_owned()),
        Fact::ChoreDone { chore, .. } => Some(chore_text(viewer, chore)),
        Fact::Walked { point: Point::Stop(id), .. } => viewer.book.stop(id).map(|stop| stop.text.clone()),
        Fact::Walked { point: Point::Statement(statement), .. } => {
            viewer.book.statements.iter().find(|known| known.id == *statement).map(|known| known.text.clone())
        }
        Fact::Inducted { person, .. } | Fact::RoleGiven { person, .. } => Some(viewer.members.name(person).to_owned()),
        Fact::SignedOff { person, training, .. } => {
            Some([viewer.members.name(person), ", ", viewer.book.training_name(training)].concat())
        }
        Fact::Noted { of, .. } => match &of.matter {
            Matter::Tag(id) => machine(id),
            Matter::Found | Matter::Incident | Matter::Session => None,
        },
        Fact::RoundDone { round } => viewer.book.round(round).map(|round| round.text.clone()),
        _ => None,
    }
}

/// What a chore says, with the name of its machine or room.
pub(super) fn chore_text(viewer: &Viewer, id: &ChoreId) -> String {
    let machine = viewer
        .book
        .machines
        .iter()
        .flat_map(|machine| machine.chores.iter().map(|chore| (machine.id.as_str(), machine.name.as_str(), chore)));
    let room = viewer
        .book
        .rooms
        .iter()
        .flat_map(|room| room.chores.iter().map(|chore| (room.id.as_str(), room.name.as_str(), chore)));
    machine
        .chain(room)
        .find(|(owner, _, chore)| ChoreId::of(owner, &chore.id) == *id)
        .map_or_else(|| id.to_string(), |(_, name, chore)| format!("{name}: {}", chore.text))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::entry::{Condition, Given};
    use crate::ids::PersonId;
    use crate::testing::{World, at};

    #[test]
    fn every_line_names_what_it_is_about() {
        let (world, me) = (World::new(), PersonId::from("noor"));
        let (saw, forge) = (|| MachineId::from("saw"), || RoomId::from("forge"));
        let found = |place| Fact::Found { place, condition: Condition::Clean, note: None };
        let done = |chore: &str| Fact::ChoreDone { chore: chore.into(), minutes: None, photo: None };
        for (fact, about) in [
            (Fact::Entered { room: forge(), out_by: at(90) }, Some("Room forge")),
            (Fact::Attested { statement: "eyes".into() }, Some("eyes is so.")),
            (Fact::MachineStarted { machine: saw(), material: None }, Some("The saw")),
            (Fact::MachineStopped { machine: saw() }, Some("The saw")),
            (Fact::TaggedOut { machine: saw(), problem: "blade".to_owned(), photo: None }, Some("The saw")),
            (Fact::TagCleared { machine: saw() }, Some("The saw")),
            (found(Place::Machine(saw())), Some("The saw")),
            (found(Place::Room(forge())), Some("Room forge")),
            (
                Fact::BuddyConfirmed { buddy: "ilse".into(), machine: None, proof: None, given: Given::OnTheirWord },
                Some("ILSE"),
            ),
            (Fact::BuddyLeft { buddy: "ilse".into() }, Some("ILSE")),
            (done("saw/brush"), Some("The saw: Do brush.")),
            (done("forge/floor"), Some("Room forge: Do floor.")),
            (Fact::RoundDone { round: "bin".into() }, Some("See to the bin.")),
            (Fact::Left, None),
            // What the rulebook of today no longer has keeps its id, or has nothing to say.
            (done("press/oil"), Some("press/oil")),
            (Fact::Attested { statement: "gone".into() }, None),
            (Fact::RoundDone { round: "gone".into() }, None),
        ] {
            let entry = Entry { at: at(5), session: "s".into(), who: me.clone(), fact: fact.clone() };
            let line = line(&world.viewer(&me, at(9)), 7, &entry, Standing::Waiting);
            let about = about.map(str::to_owned);
            assert_eq!(line, BookLine { seq: 7, at: at(5), fact, about, standing: Standing::Waiting });
        }
    }
}
