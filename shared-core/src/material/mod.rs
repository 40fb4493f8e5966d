//! Which material a machine refuses, and what a piece of metal may be.
//!
//! Refusing is a plain comparison of words, so that what the rulebook says is exactly what is enforced. It guesses
//! nothing: a material that the rulebook does not name is allowed, and `aluminum` is not `aluminium` unless both are
//! written. Identifying never narrows that: it tells what a piece may be, and no start is refused on its word.
//! Implements "material not in `refuses`" of DESIGN.md, "Machine start".

pub mod density;
pub mod identify;
pub mod metals;

use self::metals::Metal;
use crate::rulebook::Machine;

/// Whether `machine` refuses `material`. The case of a to z and surrounding blanks do not count.
pub fn refuses(machine: &Machine, material: &str) -> bool {
    machine.refuses.iter().any(|refused| same_word(refused, material))
}

/// Whether one of the words that a machine refuses means a kind of this metal.
pub fn refuses_metal(refused: &[String], metal: &Metal) -> bool {
    refused.iter().any(|word| metal.words().any(|known| same_word(known, word)))
}

/// Not by the tables of all the world's letters: they are a part of each phone's download.
fn same_word(a: &str, b: &str) -> bool {
    a.trim().eq_ignore_ascii_case(b.trim())
}

#[cfg(test)]
mod tests {
    use super::metals::METALS;
    use super::*;

    fn grinder(refused: &[&str]) -> Machine {
        Machine {
            id: "grinder".into(),
            name: "Grinder".to_owned(),
            room: "forge".into(),
            training: "grinder".to_owned(),
            buddy: false,
            hot_work: true,
            pedal: false,
            noise_dba: None,
            vibration_ms2: None,
            wear: vec![],
            never_wear: vec![],
            refuses: refused.iter().map(|&word| word.to_owned()).collect(),
            start_checks: vec![],
            voc: None,
            chores: vec![],
        }
    }

    #[test]
    fn compares_plainly() {
        let machine = grinder(&["aluminium", " Brass "]);
        for (material, refused) in [
            ("aluminium", true),
            ("Aluminium", true),
            ("  ALUMINIUM\t", true),
            ("brass", true),
            ("aluminum", false),
            ("mild steel", false),
            ("alu", false),
            ("", false),
        ] {
            assert_eq!(refuses(&machine, material), refused, "{material:?}");
        }
        assert!(!refuses(&grinder(&[]), "aluminium"));
    }

    #[test]
    fn a_kind_of_a_metal_is_that_metal() {
        let steel = METALS.iter().find(|metal| metal.word == "mild steel").expect("steel");
        for (refused, holds) in [("mild steel", true), (" Galvanised Steel", true), ("steel", false), ("brass", false)]
        {
            assert_eq!(refuses_metal(&[refused.to_owned()], steel), holds, "{refused}");
        }
        assert!(!refuses_metal(&[], steel));
    }
}
