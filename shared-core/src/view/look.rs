//! What is looked up in a hurry or before a job: fire, metal, air. The shop's own data, ready for any screen.
//!
//! Kept whole on the phone, so that it opens without a network and without a session. Answers are asked of the pure
//! modules ([`crate::material::identify`], [`crate::air`]); nothing here decides. A person in no room is shown all rooms.

use crate::air::{self, Tin, Verdict};
use crate::decide::start_machine;
use crate::fire::{self, Burning};
use crate::material::identify::Candidate;
use crate::material::refuses_metal;
use crate::refusal::Refusal;
use crate::rulebook::emergency::Extinguisher;
use crate::rulebook::{Machine, Room, VocLimit};
use crate::view::Viewer;

/// Everything to look up.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct LookView {
    /// Where everybody gathers.
    pub gather: Option<String>,
    /// Each room's doors and extinguishers, this phone's room first.
    pub fire: Vec<RoomFire>,
    /// The machines that refuse something, this phone's room first.
    pub refusing: Vec<Refusing>,
    /// Where finishes may be used, this phone's room first.
    pub air: Vec<Finishing>,
}

/// One room in a fire.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct RoomFire {
    /// Its name.
    pub room: String,
    /// Ways out.
    pub exits: Vec<String>,
    /// Doors that are none.
    pub not_exits: Vec<String>,
    /// For what burns, what may be taken up; cooking oil only where there is something for it. Empty where no
    /// extinguisher of the room is written down.
    pub with: Vec<(Burning, Vec<Extinguisher>)>,
}

/// A machine and the materials that it refuses.
#[derive(Clone, Debug, PartialEq)]
pub struct Refusing {
    /// Its name.
    pub machine: String,
    /// Their words.
    pub refuses: Vec<String>,
}

/// A room or a hood with a limit.
#[derive(Clone, Debug, PartialEq)]
pub struct Finishing {
    /// The room's name.
    pub room: String,
    /// The hood, if it is one.
    pub hood: Option<Hood>,
    /// What may be used there, and whose number that is.
    pub limit: VocLimit,
}

/// A hood.
#[derive(Clone, Debug, PartialEq)]
pub struct Hood {
    /// Its name.
    pub name: String,
    /// What to check before it is used.
    pub start_checks: Vec<String>,
    /// Why this viewer may not use it now; that they are not in its room is no reason.
    pub refusal: Option<Refusal>,
}

/// What is looked up by this viewer.
pub fn look(viewer: &Viewer) -> LookView {
    let mut view =
        LookView { gather: viewer.book.fire.as_ref().and_then(|rule| rule.gather.clone()), ..LookView::default() };
    let mine = viewer.open_session().map(|session| &session.room);
    // This phone's room, then the others: plain loops, because every phone pays for each adapter of an iterator.
    for first in [true, false] {
        for room in &viewer.book.rooms {
            if (mine == Some(&room.id)) == first {
                add(&mut view, viewer, room);
            }
        }
    }
    view
}

fn add(view: &mut LookView, viewer: &Viewer, room: &Room) {
    view.fire.push(room_fire(viewer, room));
    if let Some(limit) = &room.voc {
        view.air.push(Finishing { room: room.name.clone(), hood: None, limit: limit.clone() });
    }
    for machine in &viewer.book.machines {
        if machine.room != room.id {
            continue;
        }
        if !machine.refuses.is_empty() {
            view.refusing.push(Refusing { machine: machine.name.clone(), refuses: machine.refuses.clone() });
        }
        if let Some(limit) = &machine.voc {
            let hood = Hood {
                name: machine.name.clone(),
                start_checks: machine.start_checks.clone(),
                refusal: not_allowed(viewer, machine),
            };
            view.air.push(Finishing { room: room.name.clone(), hood: Some(hood), limit: limit.clone() });
        }
    }
}

fn room_fire(viewer: &Viewer, room: &Room) -> RoomFire {
    let mut fire = RoomFire { room: room.name.clone(), ..RoomFire::default() };
    for exit in &viewer.book.exits {
        if exit.room == room.id {
            let doors = if exit.way_out { &mut fire.exits } else { &mut fire.not_exits };
            doors.push(exit.text.clone());
        }
    }
    // Where none is written down, nothing is known: that is not the same as nothing for any fire.
    if !viewer.book.extinguishers.iter().any(|one| one.room == room.id) {
        return fire;
    }
    for burning in Burning::ALL {
        let with = fire::offered(viewer.book, &room.id, burning);
        if burning != Burning::CookingOil || !with.is_empty() {
            fire.with.push((burning, with));
        }
    }
    fire
}

/// Why this viewer may not use a hood: in a session in its room, what its start would be refused with; else the missing
/// sign-off.
fn not_allowed(viewer: &Viewer, machine: &Machine) -> Option<Refusal> {
    match viewer.open_session().filter(|session| session.room == machine.room) {
        Some(session) => start_machine::may_start(viewer, session, &machine.id, None).err(),
        None => start_machine::signed_off(viewer, viewer.members.get(viewer.me)?, machine).err(),
    }
}

impl Finishing {
    /// Whether a tin may be opened here.
    pub fn verdict(&self, tin: Tin) -> Verdict {
        air::against(&self.limit, self.hood.is_some(), tin)
    }
}

impl LookView {
    /// The machines that refuse at least one of these candidates.
    pub fn refuse_one_of(&self, candidates: &[Candidate]) -> Vec<&str> {
        let mut refuse = Vec::new();
        for machine in &self.refusing {
            if candidates.iter().any(|one| refuses_metal(&machine.refuses, one.metal)) {
                refuse.push(machine.machine.as_str());
            }
        }
        refuse
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::ids::PersonId;
    use crate::material::identify::{Seen, identify};
    use crate::material::metals::Colour;
    use crate::rulebook::emergency::{Agent, Exit, FireRule, Letters};
    use crate::testing::{World, at};

    fn world() -> World {
        let mut world = World::new();
        let one = |id: &str, room: &str, agent, classes: &[&str], live_electrics| Extinguisher {
            id: id.into(),
            room: room.into(),
            place: format!("By {id}"),
            agent,
            classes: classes.iter().map(|&letter| letter.to_owned()).collect(),
            live_electrics,
        };
        let exit =
            |room: &str, text: &str, way_out| Exit { id: text.into(), room: room.into(), text: text.into(), way_out };
        world.book.fire = Some(FireRule { letters: Letters::En, gather: Some("On the quay".into()) });
        world.book.extinguishers = vec![
            one("foam", "forge", Agent::Foam, &["A", "B"], false),
            one("metal", "forge", Agent::MetalPowder, &["D"], false),
            one("co2", "fitting", Agent::Co2, &["B"], true),
        ];
        world.book.exits = vec![exit("forge", "Yard", true), exit("forge", "Canal", false)];
        let limit = |g_per_l| Some(VocLimit { g_per_l, source: "house rule".into() });
        world.book.rooms[1].voc = limit(130);
        world.book.machines[3].voc = limit(500);
        world
    }

    fn look_of(world: &World, who: &str) -> LookView {
        let me = PersonId::from(who);
        look(&world.viewer(&me, at(5)))
    }

    #[test]
    fn a_fire_is_looked_up_without_a_session_in_every_room() {
        use Burning::{Gas, Liquid, LiveElectrics, Metal, Ordinary};

        let view = look_of(&world(), "noor");
        assert_eq!(view.gather.as_deref(), Some("On the quay"));
        let ids = |with: &[Extinguisher]| with.iter().map(|one| one.id.clone()).collect::<Vec<_>>().join(" ");
        let told = |room: &RoomFire| room.with.iter().map(|(burning, with)| (*burning, ids(with))).collect::<Vec<_>>();
        for (index, with) in [["foam", "metal", "foam", "", ""], ["", "", "co2", "co2", ""]].into_iter().enumerate() {
            let kinds = [Ordinary, Metal, Liquid, LiveElectrics, Gas];
            let wanted: Vec<(Burning, String)> = kinds.into_iter().zip(with.map(str::to_owned)).collect();
            assert_eq!(told(&view.fire[index]), wanted, "{}", view.fire[index].room);
        }
        let names: Vec<&str> = view.fire.iter().map(|room| room.room.as_str()).collect();
        assert_eq!(names, ["Room forge", "Room fitting"]);
        assert_eq!(
            (&view.fire[0].exits, &view.fire[0].not_exits),
            (&vec!["Yard".to_owned()], &vec!["Canal".to_owned()])
        );
    }

    #[test]
    fn what_is_not_written_down_is_not_told_as_missing() {
        let mut world = world();
        world.book.extinguishers.retain(|one| one.room.as_str() == "forge");
        let view = look_of(&world, "noor");
        assert_eq!((view.fire[0].with.len(), view.fire[1].with.len()), (5, 0));
    }

    #[test]
    fn my_room_comes_first() -> Result<(), Refusal> {
        let mut world = world();
        world.act("noor", 0, crate::testing::arrive("noor", "fitting", 0, 60))?;
        let view = look_of(&world, "noor");
        assert_eq!(view.fire.first().map(|room| room.room.as_str()), Some("Room fitting"));
        assert_eq!(view.refusing.first().map(|one| one.machine.as_str()), Some("The drill"));
        Ok(())
    }

    #[test]
    fn a_hood_says_what_it_asks_and_who_may_not() {
        let (noor, bram) = (look_of(&world(), "noor"), look_of(&world(), "bram"));
        let hood = |view: &LookView| view.air[1].hood.clone().expect("a hood");
        assert_eq!(hood(&noor).refusal, None);
        assert!(matches!(hood(&bram).refusal, Some(Refusal::NotSignedOff { .. })));
        let verdicts =
            |grams| noor.air.iter().map(|place| place.verdict(Tin::GramsPerLitre(grams))).collect::<Vec<_>>();
        assert_eq!(verdicts(130), [Verdict::Here, Verdict::Here]);
        assert_eq!(verdicts(131), [Verdict::TooMuch, Verdict::Here]);
        assert_eq!(verdicts(501), [Verdict::TooMuch, Verdict::TooMuch]);
    }

    /// As long as it may be aluminium, whatever refuses aluminium refuses it.
    #[test]
    fn a_doubtful_piece_is_refused_by_all_that_refuse_one_of_its_metals() {
        let view = look_of(&world(), "noor");
        let all = ["The lathe", "The torch", "The saw", "The drill"];
        assert_eq!(view.refuse_one_of(&identify(&Seen::default())), all);
        assert_eq!(view.refuse_one_of(&identify(&Seen { colour: Some(Colour::Red), ..Seen::default() })), [""; 0]);
    }
}
