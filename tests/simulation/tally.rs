//! What a run reached, counted by name: so that a checker that never had anything to look at is noticed.

use std::collections::BTreeMap;

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
    let printed = format!("{printed:?}");
    printed.split(|c: char| !c.is_alphanumeric()).next().unwrap_or_default().to_owned()
}
