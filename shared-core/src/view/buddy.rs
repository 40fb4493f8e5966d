//! The buddy's side: whom this person covers, and what an ask that was scanned says.

use crate::buddy;
use crate::entry::Given;
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
    /// What showed that this viewer is in the room.
    pub given: Given,
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
    /// Whether a board hangs in the room, with a code to be read off it.
    pub board: bool,
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
        .open()
        .filter(|session| session.confirmations.iter().any(|word| word.buddy == *viewer.me))
        .filter_map(|session| {
            let (until, given) = buddy::standing(viewer.book, viewer.state, session, viewer.now)
                .into_iter()
                .filter(|(confirmation, _)| confirmation.buddy == *viewer.me)
                .map(|(confirmation, until)| (until, confirmation.given))
                .max()?;
            Some(Covering {
                session: session.id.clone(),
                who: session.who.clone(),
                name: viewer.members.name(&session.who).to_owned(),
                until,
                given,
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
    board: bool,
) -> Asked {
    Asked {
        name: viewer.members.name(operator).to_owned(),
        room: super::door::room_name(viewer, room),
        machine: machine.map(|id| viewer.book.machine_name(id)),
        board,
        minutes: viewer.book.buddy.renew_minutes,
        refusal: buddy::may_cover(viewer, &buddy::Heard::now(viewer), viewer.me, session, operator, room).err(),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::command::Command;
    use crate::testing::{World, at, confirm, start};

    /// Whom Ilse covers at a minute, and until when.
    #[track_caller]
    fn check(world: &World, minute: i64, expected: &[(&str, i64)]) {
        let me = PersonId::from("ilse");
        let told = covering(&world.viewer(&me, at(minute)));
        let told: Vec<(&str, i64)> =
            told.iter().map(|row| (row.name.as_str(), (row.until - at(0)).minutes_up())).collect();
        assert_eq!(told, expected, "at {minute}");
    }

    #[test]
    fn a_buddy_sees_whom_they_cover_as_long_as_they_do() -> Result<(), Refusal> {
        let mut world = World::new();
        world.book.buddy.covers = 2;
        for who in ["noor", "ilse", "bram"] {
            world.enter(who, 0, 200)?;
        }
        check(&world, 5, &[]);
        world.act("noor", 10, confirm("ilse"))?;
        world.act("noor", 11, start("lathe"))?;
        world.act("bram", 12, confirm("ilse"))?;
        check(&world, 12, &[("NOOR", 25), ("BRAM", 27)]);
        // Renewed, she stands last; at the instant of a lapse nobody does.
        world.act("noor", 20, confirm("ilse"))?;
        check(&world, 26, &[("BRAM", 27), ("NOOR", 35)]);
        check(&world, 27, &[("NOOR", 35)]);
        world.act("noor", 30, Command::Leave)?;
        check(&world, 30, &[]);
        Ok(())
    }

    #[test]
    fn an_ask_says_who_where_for_what_and_how_long() -> Result<(), Refusal> {
        let mut world = World::new();
        world.enter("ilse", 0, 200)?;
        let (ilse, noor) = (PersonId::from("ilse"), PersonId::from("noor"));
        let ask = |room: &str, operator: &PersonId, machine: Option<&str>| {
            let machine = machine.map(MachineId::from);
            asked(&world.viewer(&ilse, at(5)), &"s".into(), operator, &room.into(), machine.as_ref(), true)
        };
        let plain = Asked {
            name: "NOOR".to_owned(),
            room: "Room forge".to_owned(),
            machine: Some("The lathe".to_owned()),
            board: true,
            minutes: 15,
            refusal: None,
        };
        assert_eq!(ask("forge", &noor, Some("lathe")), plain);
        assert_eq!(ask("forge", &noor, None), Asked { machine: None, ..plain.clone() });
        assert!(matches!(ask("fitting", &noor, None).refusal, Some(Refusal::BuddyElsewhere { .. })));
        assert_eq!(ask("forge", &ilse, None).refusal, Some(Refusal::OwnBuddy));
        Ok(())
    }
}
