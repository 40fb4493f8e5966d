//! A rulebook in another language: texts that the steward wrote in several, put in the place of the plain ones.
//!
//! A text of a rulebook is plain, or a table of languages: `text = { en = "…", es = "…" }`. Everything that reckons,
//! compares or signs goes by ids and by the plain texts; the others travel beside them, and a phone puts those of its
//! language in place once, when it is handed the rulebook. A text that has none in that language stays plain.

use std::collections::BTreeMap;

use super::{Chore, Rulebook, VocLimit};

/// What plain texts are in other languages: by the language's tag, then by the plain text.
pub type Translations = BTreeMap<String, BTreeMap<String, String>>;

/// The languages that a rulebook may be written in: those that Sweepbell speaks.
pub const LANGUAGES: &[&str] = &["en", "es", "nl"];

impl Rulebook {
    /// Speaks a language from now on, where it has texts in it. Plain texts that were replaced are gone.
    pub fn speak(&mut self, tag: &str) {
        let Some(said) = self.translations.take().and_then(|mut said| said.remove(tag)) else { return };
        let turn = |text: &mut String| {
            if let Some(other) = said.get(text) {
                text.clone_from(other);
            }
        };
        for statement in &mut self.statements {
            turn(&mut statement.text);
            turn(&mut statement.decline);
        }
        for room in &mut self.rooms {
            turn(&mut room.name);
            of_owner(&mut room.chores, &mut room.voc, &turn);
        }
        for machine in &mut self.machines {
            turn(&mut machine.name);
            machine.start_checks.iter_mut().for_each(turn);
            of_owner(&mut machine.chores, &mut machine.voc, &turn);
        }
        self.rounds.iter_mut().for_each(|round| turn(&mut round.text));
        self.stops.iter_mut().for_each(|stop| turn(&mut stop.text));
        self.exits.iter_mut().for_each(|exit| turn(&mut exit.text));
        self.extinguishers.iter_mut().for_each(|extinguisher| turn(&mut extinguisher.place));
        self.fire.iter_mut().filter_map(|rule| rule.gather.as_mut()).for_each(turn);
    }
}

/// The chores and the limit of a machine or a room.
fn of_owner(chores: &mut [Chore], voc: &mut Option<VocLimit>, turn: &dyn Fn(&mut String)) {
    for chore in chores {
        turn(&mut chore.text);
    }
    if let Some(limit) = voc {
        turn(&mut limit.source);
    }
}
