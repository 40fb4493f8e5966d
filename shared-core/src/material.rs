//! Which material a machine refuses: soft light metal clogs a grinding wheel, plastic fouls a forge.
//!
//! A plain comparison of words, so that what the rulebook says is exactly what is enforced. It guesses nothing: a
//! material that the rulebook does not name is allowed, and `aluminum` is not `aluminium` unless both are written.
//! Implements "material not in `refuses`" of DESIGN.md, "Machine start".

use crate::rulebook::Machine;

/// Whether `machine` refuses `material`. Case and surrounding blanks do not count.
pub fn refuses(machine: &Machine, material: &str) -> bool {
    let asked = plain(material);
    machine.refuses.iter().any(|refused| plain(refused) == asked)
}

fn plain(word: &str) -> String {
    word.trim().to_lowercase()
}

#[cfg(test)]
mod tests {
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
}
