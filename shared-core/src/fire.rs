//! Fire: for what burns, which extinguisher of this room may be taken up, and which never.
//!
//! Leaving and calling come first; nobody has to fight a fire. A class letter is read by its region alone, because `C`
//! is live electrics in NFPA 10 and gases in EN 2. Whatever its letters claim, water is never offered for metal, liquids,
//! cooking oil or live electrics, and what is for metal is never offered for anything else: the one that is left then
//! is the metal one, and in a metal shop it must still be full. Advice for a small fire with the way out behind one;
//! it defers to the shop's rules and the fire service.

use crate::ids::RoomId;
use crate::rulebook::Rulebook;
use crate::rulebook::emergency::{Agent, Extinguisher, Letters};

/// What burns.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Burning {
    /// Wood, paper, cloth, plastics that char.
    Ordinary,
    /// Paint, solvent, oil, fuel.
    Liquid,
    /// Gas from a line or a cylinder.
    Gas,
    /// A machine or a cable under power.
    LiveElectrics,
    /// Chips, dust or pieces of metal.
    Metal,
    /// Cooking oil.
    CookingOil,
}

impl Burning {
    /// Every kind, as a metal shop looks for them.
    pub const ALL: [Self; 6] =
        [Self::Ordinary, Self::Metal, Self::Liquid, Self::LiveElectrics, Self::Gas, Self::CookingOil];
}

/// What a class letter stands for; none for a letter that the region does not have. NFPA 10 5.2.1 to 5.2.5 (quoted in
/// a secondary text; that its B covers gases too is from memory); EN 2:1992 with A1:2004.
pub fn of_letter(letters: Letters, letter: &str) -> &'static [Burning] {
    use Burning::{CookingOil, Gas, Liquid, LiveElectrics, Metal, Ordinary};
    match (letters, letter) {
        (_, "A") => &[Ordinary],
        (Letters::Us, "B") => &[Liquid, Gas],
        (Letters::Us, "C") => &[LiveElectrics],
        (Letters::Us, "K") | (Letters::En, "F") => &[CookingOil],
        (Letters::En, "B") => &[Liquid],
        (Letters::En, "C") => &[Gas],
        (_, "D") => &[Metal],
        _ => &[],
    }
}

/// What an agent can be meant for at all, whatever is written on the cylinder. Burning metal takes neither water, foam,
/// carbon dioxide nor dry chemical (agents' data sheets); the rest is from memory, on the side of offering less.
pub fn suits(agent: Agent) -> &'static [Burning] {
    use Burning::{CookingOil, Gas, Liquid, LiveElectrics, Metal, Ordinary};
    match agent {
        Agent::Water => &[Ordinary],
        Agent::Foam => &[Ordinary, Liquid],
        Agent::Powder => &[Ordinary, Liquid, Gas, LiveElectrics],
        Agent::Co2 => &[Liquid, LiveElectrics],
        Agent::CleanGas => &[Ordinary, Liquid, LiveElectrics],
        Agent::WetChemical => &[Ordinary, CookingOil],
        Agent::MetalPowder | Agent::DrySand => &[Metal],
    }
}

/// Whether an extinguisher may be offered for what burns.
pub fn may_be_used(letters: Letters, extinguisher: &Extinguisher, burning: Burning) -> bool {
    let marked = extinguisher.classes.iter().any(|letter| of_letter(letters, letter).contains(&burning))
        || (burning == Burning::LiveElectrics && extinguisher.live_electrics);
    marked && suits(extinguisher.agent).contains(&burning)
}

/// The extinguishers of a room that may be offered for what burns, in the rulebook's order; none without a region.
pub fn offered(book: &Rulebook, room: &RoomId, burning: Burning) -> Vec<Extinguisher> {
    let mut offered = Vec::new();
    let Some(rule) = &book.fire else { return offered };
    for one in &book.extinguishers {
        if one.room == *room && may_be_used(rule.letters, one, burning) {
            offered.push(one.clone());
        }
    }
    offered
}

#[cfg(test)]
mod tests {
    use super::*;

    fn one(agent: Agent, classes: &str, live_electrics: bool) -> Extinguisher {
        let classes = classes.chars().map(String::from).collect();
        Extinguisher {
            id: "x".into(),
            room: "forge".into(),
            place: "By the door".into(),
            agent,
            classes,
            live_electrics,
        }
    }

    fn kinds(letters: Letters, extinguisher: &Extinguisher) -> Vec<Burning> {
        Burning::ALL.into_iter().filter(|burning| may_be_used(letters, extinguisher, *burning)).collect()
    }

    #[test]
    fn the_same_letter_is_another_fire_elsewhere() {
        use Burning::{Gas, Liquid, LiveElectrics, Ordinary};
        let powder = one(Agent::Powder, "ABC", false);
        assert_eq!(kinds(Letters::Us, &powder), [Ordinary, Liquid, LiveElectrics, Gas]);
        assert_eq!(kinds(Letters::En, &powder), [Ordinary, Liquid, Gas]);
        assert_eq!(kinds(Letters::En, &one(Agent::Powder, "ABC", true)), [Ordinary, Liquid, LiveElectrics, Gas]);
        assert_eq!(kinds(Letters::Us, &one(Agent::Co2, "BC", false)), [Liquid, LiveElectrics]);
        assert_eq!(kinds(Letters::En, &one(Agent::Co2, "B", true)), [Liquid, LiveElectrics]);
    }

    /// Whatever somebody writes on them.
    #[test]
    fn the_metal_one_is_for_metal_alone_and_water_for_ordinary_fires_alone() {
        for letters in [Letters::Us, Letters::En] {
            for agent in [Agent::MetalPowder, Agent::DrySand] {
                assert_eq!(kinds(letters, &one(agent, "ABCDFK", true)), [Burning::Metal], "{letters:?} {agent:?}");
            }
            assert_eq!(kinds(letters, &one(Agent::Water, "ABCDFK", true)), [Burning::Ordinary], "{letters:?}");
            for (_, agent) in Agent::WORDS {
                let metal = may_be_used(letters, &one(agent, "ABCDFK", true), Burning::Metal);
                assert_eq!(metal, matches!(agent, Agent::MetalPowder | Agent::DrySand), "{letters:?} {agent:?}");
                assert_eq!(kinds(letters, &one(agent, "", false)), [], "nothing on it, nothing offered");
            }
        }
    }
}
