//! What is wrong with a file of words, and where.

use std::fmt;

use crate::Language;

/// One thing that is wrong.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
#[error("words/{}.ftl:{line}: {what}", .language.tag())]
pub struct Fault {
    language: Language,
    /// From 1; 0 where it is about the whole file.
    line: usize,
    what: String,
}

impl Fault {
    pub(crate) fn new(language: Language, line: usize, what: impl Into<String>) -> Self {
        Self { language, line, what: what.into() }
    }
}

/// Everything that is wrong, a line each.
#[derive(Debug)]
pub struct Faults(pub Vec<Fault>);

impl std::error::Error for Faults {}

impl fmt::Display for Faults {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        self.0.iter().try_for_each(|fault| writeln!(f, "{fault}"))
    }
}

impl From<Fault> for Faults {
    fn from(fault: Fault) -> Self {
        Self(vec![fault])
    }
}
