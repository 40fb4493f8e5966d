//! What a run reached, counted by name: so that a checker that never had anything to look at is noticed.

use std::collections::BTreeMap;
use std::fmt::{self, Write};

#[derive(Clone, Debug, Default)]
pub(crate) struct Tally(BTreeMap<String, u64>);

impl Tally {
    pub(crate) fn count(&mut self, what: impl Into<String>) {
        self.add(what, 1);
    }

    pub(crate) fn add(&mut self, what: impl Into<String>, times: u64) {
        *self.0.entry(what.into()).or_default() += times;
    }

    pub(crate) fn of(&self, what: &str) -> u64 {
        self.0.get(what).copied().unwrap_or(0)
    }

    pub(crate) fn merge(&mut self, other: &Self) {
        for (what, times) in &other.0 {
            self.add(what.clone(), *times);
        }
    }

    pub(crate) fn lines(&self) -> String {
        let lines: Vec<String> = self.0.iter().map(|(what, times)| format!("  {times:>8} {what}")).collect();
        lines.join("\n")
    }
}

/// The name of an enum's variant, from how it is printed.
pub(crate) fn variant(printed: &impl std::fmt::Debug) -> String {
    let mut name = Name(String::new());
    // What comes after it is not worth printing: then it ends with an error.
    let _ended_early = write!(name, "{printed:?}");
    name.0
}

/// Takes what is printed up to the first character that is no letter or digit.
struct Name(String);

impl Write for Name {
    fn write_str(&mut self, printed: &str) -> fmt::Result {
        let end = printed.find(|c: char| !c.is_alphanumeric());
        self.0.push_str(&printed[..end.unwrap_or(printed.len())]);
        if end.is_some() { Err(fmt::Error) } else { Ok(()) }
    }
}
