//! What is wrong with a file that a steward wrote, and where: one problem, as people are told it.
//!
//! A problem says what is wrong in the words of the file and, where it can, what to do about it. It never carries
//! the file's name: whoever opened the file knows it.

use std::fmt;

/// One problem and its place.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub struct Problem {
    /// Line, from 1.
    pub line: u32,
    /// Column in characters, from 1.
    pub column: u32,
    /// What is wrong.
    pub what: String,
    /// What was probably meant, or what to write.
    pub hint: Option<String>,
}

impl fmt::Display for Problem {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{}:{}: {}", self.line, self.column, self.what)?;
        match &self.hint {
            Some(hint) => write!(f, " ({hint})"),
            None => Ok(()),
        }
    }
}
