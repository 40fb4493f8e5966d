//! A rulebook in another language: texts that the steward wrote in several, put in the place of the plain ones.
//!
//! A text of a rulebook is plain, or a table of languages: `text = { en = "…", es = "…" }`. Everything that reckons,
//! compares or signs goes by ids and by the plain texts; the others travel beside them, and a phone puts those of its
//! language in place once, when it is handed the rulebook. A text that has none in that language stays plain.

use serde::Serialize;
use serde_json::Value;

use super::{Chore, Rulebook, VocLimit};
use crate::json::{FromJson, Unfit};

/// What plain texts are in other languages: an object by the language's tag, of objects by the plain text. Kept as JSON,
/// which phones can read as it is.
#[derive(Clone, Debug, Default, PartialEq, Serialize)]
#[serde(transparent)]
pub struct Translations(Value);

impl FromJson for Translations {
    fn from_json(value: &Value) -> Result<Self, Unfit> {
        Ok(Self(value.clone()))
    }
}

impl Translations {
    /// Whether there is none.
    pub fn is_empty(&self) -> bool {
        self.0.is_null()
    }

    /// What a plain text is in a language.
    pub fn get(&self, tag: &str, plain: &str) -> Option<&str> {
        self.0.get(tag)?.get(plain)?.as_str()
    }

    /// Keeps what a plain text is in a language; `false` if it is something else there already.
    #[cfg(feature = "toml")]
    pub(super) fn keep(&mut self, tag: &str, plain: &str, text: &str) -> bool {
        let kept = &mut self.0[tag][plain];
        if kept.is_null() {
            *kept = text.into();
        }
        *kept == text
    }
}

/// The languages that a rulebook may be written in: those that Sweepbell speaks.
pub const LANGUAGES: &[&str] = &["en", "es", "nl"];

impl Rulebook {
    /// Speaks a language from now on, where it has texts in it. Plain texts that were replaced are gone.
    pub fn speak(&mut self, tag: &str) {
        let said = std::mem::take(&mut self.translations);
        if said.is_empty() {
            return;
        }
        let turn = |text: &mut String| {
            if let Some(other) = said.get(tag, text) {
                *text = other.to_owned();
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
        for round in &mut self.rounds {
            turn(&mut round.text);
            round.source.iter_mut().for_each(turn);
        }
        for stop in &mut self.stops {
            turn(&mut stop.text);
            stop.says.iter_mut().for_each(turn);
            if let Some(question) = &mut stop.question {
                turn(&mut question.text);
                question.answers.iter_mut().for_each(turn);
                turn(&mut question.because);
            }
        }
        for training in &mut self.trainings {
            turn(&mut training.name);
            training.checklist.iter_mut().for_each(turn);
        }
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
