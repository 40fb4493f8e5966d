//! Medians, spreads, and the table that is printed.

use super::sides::{Ran, Took};

/// Entries that go in, and readers that each take all of them out.
pub(crate) const ENTRIES: f64 = 10_000.0;
/// Readers at once.
pub(crate) const READERS: f64 = 5.0;

/// What phones are told to do, in this order; and how many entries that moves.
pub(crate) const ACTS: [(&str, &str, f64); 5] = [
    ("in", "in, 50 phones at once", ENTRIES),
    ("early", "out at once, to one reader", ENTRIES),
    ("again", "in again, nothing new", ENTRIES),
    ("out", "out, to 5 readers at once", ENTRIES * READERS),
    ("one", "in, one phone", ENTRIES),
];

/// The middle of some figures, with the least and the greatest.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) struct Spread {
    pub(crate) least: f64,
    pub(crate) median: f64,
    pub(crate) most: f64,
}

impl Spread {
    /// Of at least one figure.
    pub(crate) fn of(figures: impl Iterator<Item = f64>) -> Self {
        let mut sorted: Vec<f64> = figures.collect();
        sorted.sort_by(f64::total_cmp);
        let (low, high) = (sorted[(sorted.len() - 1) / 2], sorted[sorted.len() / 2]);
        Self { least: sorted[0], median: f64::midpoint(low, high), most: sorted[sorted.len() - 1] }
    }
}

/// One side's runs, a line for each act.
pub(crate) fn print(name: &str, runs: &[Ran], counted: Option<&Ran>) {
    let peak = Spread::of(runs.iter().map(|run| run.peak_mib));
    println!("\n{name}; server's peak memory {:.0} MiB", peak.median);
    println!(
        "  {:<28}{:>22}{:>12}{:>12}{:>14}{:>14}",
        "", "entries/s (of runs)", "server s", "phones s", "B/entry there", "B/entry back"
    );
    for (at, (_, what, entries)) in ACTS.iter().enumerate() {
        let of = |figure: fn(&Took) -> f64| Spread::of(runs.iter().map(|run| figure(&run.took[at])));
        let rate = Spread::of(runs.iter().map(|run| entries / run.took[at].seconds));
        let (server, phones) = (of(|took| took.server_cpu_s).median, of(|took| took.phones_cpu_s).median);
        let bytes = counted.map(|run| run.took[at].bytes).unwrap_or_default();
        // A run's bytes fit 32 bits, and a float holds those exactly.
        let each = |bytes: u64| f64::from(u32::try_from(bytes).unwrap_or(u32::MAX)) / entries;
        println!(
            "  {what:<28}{:>8.0} ({:.0}-{:.0}){:>12.2}{:>12.2}{:>14.0}{:>14.0}",
            rate.median,
            rate.least,
            rate.most,
            server,
            phones,
            each(bytes.there),
            each(bytes.back)
        );
    }
}

/// Prints and returns how many times as quick one is as another, act by act.
pub(crate) fn compare(name: &str, hub: &[Ran], peer: &[Ran]) -> Vec<f64> {
    let median = |runs: &[Ran], at: usize| Spread::of(runs.iter().map(|run| run.took[at].seconds)).median;
    let times: Vec<f64> = (0..ACTS.len()).map(|at| median(peer, at) / median(hub, at)).collect();
    let told: Vec<String> =
        ACTS.iter().zip(&times).map(|((_, what, _), times)| format!("{what}: {times:.1}")).collect();
    println!("\n{name}, times as quick: {}", told.join("; "));
    times
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_middle_of_some_figures() {
        for (figures, least, median, most) in
            [(&[3.0][..], 3.0, 3.0, 3.0), (&[4.0, 1.0], 1.0, 2.5, 4.0), (&[9.0, 1.0, 2.0], 1.0, 2.0, 9.0)]
        {
            assert_eq!(Spread::of(figures.iter().copied()), Spread { least, median, most }, "{figures:?}");
        }
    }
}
