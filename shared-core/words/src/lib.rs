//! The words of every language, read when Sweepbell is built and never when it runs.
//!
//! `en.ftl`, `es.ftl` and `nl.ftl` beside this crate are Project Fluent files: one message for each thing that is said,
//! the same messages in each, with the same arguments. From them come
//! - Rust, one function for each message in a module named by its prefix ([`Book::rust`]), so that a message that is not
//!   there or an argument that is forgotten does not compile;
//! - a catalogue for each language ([`Book::catalogue`]): the texts in the order of their numbers, which is all that a
//!   phone is sent; `shared-core/src/words.rs` reads it;
//! - a catalogue that no person speaks ([`Book::pseudo`]), for tests of the layout.
//!
//! What a file may hold is less than Fluent allows, because each phone carries the reader: messages with texts,
//! arguments, and at most one choice by a whole number. What is more, is missing, or differs from English is a [`Fault`]
//! at its place and stops the build. Parameters of a function stand in alphabetical order, so that no rewording swaps
//! two of them.

mod catalogue;
mod fault;
mod message;
mod pseudo;
mod read;
mod rust;
#[cfg(test)]
mod tests;

use std::fs;
use std::path::PathBuf;

pub use self::fault::{Fault, Faults};
use self::message::Message;
pub use self::rust::Home;

/// A language that the app speaks.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Language {
    /// English, which all others are held against.
    En,
    /// Spanish.
    Es,
    /// Dutch.
    Nl,
}

impl Language {
    /// All of them, English first.
    pub const ALL: [Self; 3] = [Self::En, Self::Es, Self::Nl];

    /// Its tag (BCP 47), and the name of its file.
    pub const fn tag(self) -> &'static str {
        match self {
            Self::En => "en",
            Self::Es => "es",
            Self::Nl => "nl",
        }
    }
}

/// All messages in all languages, in the order of English.
#[derive(Debug)]
pub struct Book {
    /// The messages of each of [`Language::ALL`].
    texts: Vec<Vec<Message>>,
}

/// Where the Fluent files are: a build script that uses them depends on this folder.
pub fn folder() -> PathBuf {
    PathBuf::from(env!("CARGO_MANIFEST_DIR"))
}

impl Book {
    /// Reads the Fluent files of this crate.
    pub fn open() -> Result<Self, Faults> {
        let read = |language: Language| {
            let path = folder().join(format!("{}.ftl", language.tag()));
            fs::read_to_string(&path).map_err(|why| Fault::new(language, 0, format!("cannot be read: {why}")))
        };
        let texts = Language::ALL.map(read).into_iter().collect::<Result<Vec<_>, _>>()?;
        Self::of(&texts)
    }

    /// Reads Fluent texts, one for each of [`Language::ALL`], and holds them against each other.
    pub fn of(texts: &[String]) -> Result<Self, Faults> {
        let (mut faults, mut read) = (Vec::new(), Vec::new());
        for (language, text) in Language::ALL.into_iter().zip(texts) {
            read.push(read::messages(language, text, &mut faults));
        }
        faults.extend(message::compare(&read));
        if !faults.is_empty() {
            return Err(Faults(faults));
        }
        Ok(Self { texts: message::in_order(read) })
    }

    fn english(&self) -> &[Message] {
        &self.texts[0]
    }
}
