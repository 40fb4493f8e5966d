//! Lines of the table, and how busy the machine is beside it.

use std::fs;

use super::crowd::Took;

/// The machine's load average of the last minute; others work on it too.
pub(crate) fn load() -> String {
    let text = fs::read_to_string("/proc/loadavg").unwrap_or_default();
    text.split(' ').next().unwrap_or_default().to_owned()
}

/// What stands above [`syncs`].
pub(crate) fn head(title: &str) {
    println!("\n{title}");
    println!(
        "  {:<52}{:>8}{:>8}{:>7}{:>9}{:>9}{:>9}{:>9}{:>8}{:>8}{:>9}{:>9}{:>6}",
        "", "due/s", "done/s", "failed", "p50 ms", "p99 ms", "p99.9", "most", "in", "out", "hub s", "phones s", "load"
    );
}

/// Syncs, due or as many as went through.
pub(crate) fn syncs(what: &str, due: Option<u32>, took: &Took) {
    let said = |name| took.said.get(name);
    let due = due.map_or_else(|| "-".to_owned(), |rate| rate.to_string());
    println!(
        "  {what:<52}{due:>8}{:>8.0}{:>7.0}{:>9.1}{:>9.1}{:>9.1}{:>9.1}{:>8.0}{:>8.0}{:>9.2}{:>9.2}{:>6}",
        said("done") / said("seconds"),
        said("failed"),
        said("p50"),
        said("p99"),
        said("p999"),
        said("most"),
        said("in"),
        said("out"),
        took.hubs_s,
        took.phones_s,
        load()
    );
}
