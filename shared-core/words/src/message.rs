//! A message as a phone has it: plain, or one of several by a whole number; and all languages held against English.

use std::collections::BTreeMap;

use crate::{Fault, Language};

/// What an argument is.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Kind {
    /// A text, put in as it is.
    Text,
    /// A whole number: `NUMBER($n)`, or what a choice is made by.
    Number,
}

/// A part of a text.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(crate) enum Piece {
    Text(String),
    Argument(String),
}

/// For which numbers a variant is.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Key {
    /// For exactly this one, 0 to 9.
    Exactly(u8),
    /// CLDR's `one`.
    One,
    /// CLDR's `many`.
    Many,
    /// For all others.
    Other,
}

/// What is said.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(crate) enum Form {
    Plain(Vec<Piece>),
    /// The whole text for each number; the last is [`Key::Other`].
    Counted {
        by: String,
        variants: Vec<(Key, Vec<Piece>)>,
    },
}

/// One message of one language.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(crate) struct Message {
    /// `bench-sweep-in`.
    pub(crate) id: String,
    pub(crate) line: usize,
    pub(crate) form: Form,
    /// By name, so in alphabetical order.
    pub(crate) arguments: BTreeMap<String, Kind>,
}

impl Message {
    /// `bench` of `bench-sweep-in`.
    pub(crate) fn module(&self) -> &str {
        self.id.split_once('-').map_or(self.id.as_str(), |(module, _)| module)
    }

    /// `sweep_in` of `bench-sweep-in`.
    pub(crate) fn name(&self) -> String {
        self.id.split_once('-').map_or("", |(_, name)| name).replace('-', "_")
    }

    /// Which of its arguments this is, by its place in the alphabet.
    pub(crate) fn place(&self, argument: &str) -> usize {
        self.arguments.keys().position(|name| name == argument).expect("every argument of a piece is listed")
    }
}

/// What is missing, too much, or asks for other arguments than English does.
pub(crate) fn compare(texts: &[Vec<Message>]) -> Vec<Fault> {
    let mut faults = Vec::new();
    let Some((english, others)) = texts.split_first() else { return faults };
    for (language, messages) in Language::ALL.into_iter().skip(1).zip(others) {
        for wanted in english {
            match messages.iter().find(|message| message.id == wanted.id) {
                None => faults.push(Fault::new(language, 0, format!("`{}` is missing", wanted.id))),
                Some(found) if !found.arguments.keys().eq(wanted.arguments.keys()) => {
                    let names = |message: &Message| message.arguments.keys().cloned().collect::<Vec<_>>().join(", ");
                    let what = format!("`{}` has ({}), English has ({})", wanted.id, names(found), names(wanted));
                    faults.push(Fault::new(language, found.line, what));
                }
                Some(_) => {}
            }
        }
        let known = |message: &&Message| english.iter().any(|wanted| wanted.id == message.id);
        for message in messages.iter().filter(|message| !known(message)) {
            faults.push(Fault::new(language, message.line, format!("English has no `{}`", message.id)));
        }
    }
    faults
}

/// All languages in the order of English, an argument being a number where any of them needs it as one.
pub(crate) fn in_order(texts: Vec<Vec<Message>>) -> Vec<Vec<Message>> {
    let Some(english) = texts.first().cloned() else { return texts };
    let number = |id: &str, argument: &str| {
        let messages = texts.iter().flatten().filter(|message| message.id == id);
        messages.filter_map(|message| message.arguments.get(argument)).any(|kind| *kind == Kind::Number)
    };
    let ordered = texts.iter().map(|messages| {
        let own = english.iter().filter_map(|wanted| messages.iter().find(|message| message.id == wanted.id));
        own.cloned()
            .map(|mut message| {
                for (argument, kind) in &mut message.arguments {
                    if number(&message.id, argument) {
                        *kind = Kind::Number;
                    }
                }
                message
            })
            .collect()
    });
    ordered.collect()
}
