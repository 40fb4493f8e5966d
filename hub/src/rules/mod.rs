//! The rulebook desk: what is wrong with a text, what it changes, what an evening would be like under it; and publishing it.
//!
//! Problems are found by the code of `sweepbell lint`, an evening is planned by that of `sweepbell plan`. What is published is
//! kept whole and numbered; what was in force before can be put back, as one more. Sessions under way keep their own rules.

mod changes;
mod evening;

pub(crate) use changes::changes;
pub(crate) use evening::evening;

use shared_core::rulebook::problem::Problem;
use shared_core::rulebook::{Rulebook, parse};

use crate::shop::check_zone;

/// Rulebooks to begin with, by name.
pub(crate) const STARTS: [(&str, &str); 3] = [
    ("metal", include_str!("../../starts/metal.toml")),
    ("wood", include_str!("../../starts/wood.toml")),
    ("mixed", include_str!("../../starts/mixed.toml")),
];

/// Reads a rulebook's text, and finds every problem.
pub(crate) fn read(text: &str) -> (Option<Rulebook>, Vec<Problem>) {
    let (rulebook, mut problems) = parse::read(text);
    if let Some(rulebook) = &rulebook {
        problems.extend(check_zone(text, rulebook));
    }
    (rulebook.filter(|_| problems.is_empty()), problems)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_one_begins_with_has_no_problem() {
        for (name, text) in STARTS {
            let (rulebook, problems) = read(text);
            assert_eq!(problems, vec![], "{name}");
            let rulebook = rulebook.expect("it is read");
            assert!(!rulebook.machines.is_empty() && rulebook.statements.len() >= 3, "{name}");
        }
    }
}
