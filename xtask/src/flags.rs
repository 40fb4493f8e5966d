//! The command line, parsed once into an enum.
//!
//! Nothing is done here, and no other file looks at arguments.

use crate::bench::{self, Bench, Part};
use crate::bundle::Build;
use crate::simulate::{self, Run};
use crate::{crash, fuzz};

/// What `cargo xtask help` prints.
pub(crate) const HELP: &str = "\
cargo xtask <command>

  serve [--dev] [..]  bundle the app, build the hub and start it with the demo shop; every other word goes to
                      `sweepbell serve`: --shop SHOP.toml --members MEMBERS.toml, --listen ADDRESS:PORT, ...
  test [--only STEP]  everything: format, tidy, clippy, tests, simulation, describe, figures, bundle and its size, parity, browser
  bundle [--dev]      build the app into dist/: hashed names, service worker, gzip and brotli copies, size budget
  weigh [NAME]        where the bytes of the app's parts come from, by module; or of each function with that in its name
  browser [..]        the browser tests alone; every word goes to the test runner
  lighthouse          how quickly the app opens on a slow phone, and what the browser's own auditor asks of it
  pictures            the pictures of the README, made anew from the running app
  parity              the same bytes from the rules on wasm32 as here
  postgres COMMAND..  runs a command, `cargo test -p hub` say, beside a PostgreSQL server that lives as long
  describe            holds a running hub against its own description, with requests that schemathesis makes up
  figures             reckons every figure again from an exported log, with pandas, and reads the exported files
  crash [KILLS]       kills a hub that takes entries, 200 times unless told otherwise, and looks for what is lost
  simulate [--long] [--seed N] [--sessions N]
                      many phones, boards and hubs under seeds: 10,000 phone-sessions, a million, or one seed alone
  bench [FILTER]      how fast the rules are, here and on wasm32
  bench --phone [N]   how soon the app and its pages are there on a phone four times slower than this machine, with a log of N
                      entries (20,000), and whether it ever blocks
  bench --beside      the same five screens in a small JavaScript framework beside the app, start and touch, in one run
  bench --battery [N] wake-ups, work, requests and bytes of a phone that nobody touches, N minutes (3) in each of four states
  bench --codes       how many of the camera's pictures are looked at a second on such a phone, and how many hard ones are
                      read beside ZBar
  bench --growth      what a phone does, timed at many sizes; draws tests/growth/*.svg, and fails where something grows that must not
  bench --sync [RUNS] how fast the log goes in and out beside PouchDB and its server, medians of ten runs each
  bench --hub [PART]  what a hub does for 10,000 phones and how long each waits: start, sync, live (5,000 open streams), two (hubs
                      on one PostgreSQL)
  bench --check       that of --sync; fails where a ratio is worse by more than a tenth than when it was last kept
  coverage            which lines of the rules no test runs; fails under 95 in 100
  fuzz TARGET [SECS]  looks for bytes that break a property of tests/properties: rulebook, log, signed, code
  tidy                what this repository asks of its files
  help                this list

--dev builds in seconds what is several times the size, for the inner loop.";

/// One command with its options.
#[derive(Debug, PartialEq, Eq)]
pub(crate) enum Flags {
    /// Print the commands.
    Help,
    /// Build the app into `dist/`.
    Bundle {
        /// Which of the two builds.
        build: Build,
    },
    /// Bundle, build the hub, start it.
    Serve {
        /// Which of the two builds.
        build: Build,
        /// Passed on to `sweepbell serve`.
        hub: Vec<String>,
    },
    /// Say where the app's bytes come from.
    Weigh {
        /// Functions with this in their names alone, one by one.
        name: Option<String>,
    },
    /// Run every check.
    Test {
        /// One step alone, by name.
        only: Option<String>,
    },
    /// Run the browser tests.
    Browser {
        /// Passed on to the test runner.
        runner: Vec<String>,
    },
    /// Audit the served app.
    Lighthouse,
    /// Make the README's pictures.
    Pictures,
    /// Compare the rules on wasm32 with the rules here.
    Parity,
    /// Run something beside a PostgreSQL server.
    Postgres {
        /// The command and its words.
        command: Vec<String>,
    },
    /// Hold the hub against its description.
    Describe,
    /// Reckon the figures again.
    Figures,
    /// Kill the hub again and again.
    Crash {
        /// How often, with each engine.
        kills: u32,
    },
    /// Run the simulation, optimised.
    Simulate {
        /// Which of it.
        what: Run,
    },
    /// Time the rules, or the sync.
    Bench(Bench),
    /// Count the lines that tests run.
    Coverage,
    /// Look for bytes that break something.
    Fuzz {
        /// Which of the fuzz targets.
        target: String,
        /// For how long.
        seconds: u32,
    },
    /// Check the repository's files.
    Tidy,
}

impl Flags {
    /// Reads the arguments after the program's name; what is wrong with them is said in one line.
    pub(crate) fn parse(mut arguments: impl Iterator<Item = String>) -> Result<Self, String> {
        let command = arguments.next().unwrap_or_else(|| "help".to_owned());
        let mut rest: Vec<String> = arguments.collect();
        let flags = match command.as_str() {
            "help" | "--help" | "-h" => Self::Help,
            "bundle" => Self::Bundle { build: build(&mut rest) },
            "serve" => Self::Serve { build: build(&mut rest), hub: std::mem::take(&mut rest) },
            "weigh" => Self::Weigh { name: take_first(&mut rest) },
            "test" => Self::Test { only: only(&mut rest) },
            "browser" => Self::Browser { runner: std::mem::take(&mut rest) },
            "lighthouse" => Self::Lighthouse,
            "pictures" => Self::Pictures,
            "parity" => Self::Parity,
            "postgres" if rest.is_empty() => return Err("`postgres` needs a command to run".to_owned()),
            "postgres" => Self::Postgres { command: std::mem::take(&mut rest) },
            "describe" => Self::Describe,
            "figures" => Self::Figures,
            "crash" => Self::Crash { kills: number(take_first(&mut rest), crash::KILLS, "of kills")? },
            "simulate" => Self::Simulate { what: what(&mut rest)? },
            "bench" => Self::Bench(bench(&mut rest)?),
            "coverage" => Self::Coverage,
            "fuzz" => Self::Fuzz {
                target: take_first(&mut rest).ok_or("`fuzz` needs a target: rulebook, log, signed or code")?,
                seconds: number(take_first(&mut rest), fuzz::SECONDS, "of seconds")?,
            },
            "tidy" => Self::Tidy,
            other => return Err(format!("there is no command `{other}`")),
        };
        match rest.first() {
            Some(extra) => Err(format!("`{command}` has no option `{extra}`")),
            None => Ok(flags),
        }
    }
}

/// Takes `--dev` out of the words.
fn build(rest: &mut Vec<String>) -> Build {
    let words = rest.len();
    rest.retain(|word| word != "--dev");
    if rest.len() == words { Build::Release } else { Build::Dev }
}

/// Takes `--long`, `--seed N`, `--sessions N` and `--dies-at N` out of the words.
fn what(rest: &mut Vec<String>) -> Result<Run, String> {
    let mut what = Run::default();
    if let Some(at) = rest.iter().position(|word| word == "--long") {
        rest.remove(at);
        what.sessions = Some(simulate::LONG);
    }
    let options = [("--seed", &mut what.seed), ("--sessions", &mut what.sessions), ("--dies-at", &mut what.dies_at)];
    for (name, into) in options {
        let Some(at) = rest.iter().position(|word| word == name).filter(|at| at + 1 < rest.len()) else { continue };
        let word = rest.drain(at..=at + 1).next_back().unwrap_or_default();
        *into = Some(word.parse().map_err(|_| format!("`{word}` is not a whole number"))?);
    }
    Ok(what)
}

/// Takes `--sync RUNS`, `--check`, `--codes`, `--growth`, `--beside`, `--battery MINUTES`, `--hub PART`, `--phone ENTRIES` or a filter out of the words.
fn bench(rest: &mut Vec<String>) -> Result<Bench, String> {
    let first = take_first(rest);
    if first.as_deref() == Some("--sync") {
        return Ok(Bench::Sync { runs: number(take_first(rest), bench::RUNS, "of runs")?.max(1) });
    }
    if first.as_deref() == Some("--growth") {
        return Ok(Bench::Growth);
    }
    if first.as_deref() == Some("--check") {
        return Ok(Bench::Check);
    }
    if first.as_deref() == Some("--codes") {
        return Ok(Bench::Codes);
    }
    if first.as_deref() == Some("--beside") {
        return Ok(Bench::Beside);
    }
    if first.as_deref() == Some("--battery") {
        return Ok(Bench::Battery { minutes: number(take_first(rest), bench::MINUTES, "of minutes")?.max(1) });
    }
    if first.as_deref() == Some("--hub") {
        return Ok(Bench::Hub { part: take_first(rest).map(|word| part(&word)).transpose()? });
    }
    if first.as_deref() == Some("--phone") {
        return Ok(Bench::Phone { entries: number(take_first(rest), bench::ENTRIES, "of entries")? });
    }
    Ok(Bench::Rules { filter: first })
}

fn part(word: &str) -> Result<Part, String> {
    Part::named(word).ok_or_else(|| format!("`{word}` is no part of it: start, sync, live or two"))
}

/// Takes the first word, if there is one.
fn take_first(rest: &mut Vec<String>) -> Option<String> {
    (!rest.is_empty()).then(|| rest.remove(0))
}

/// How long to look, or how often to do something.
fn number(word: Option<String>, unless_told: u32, of: &str) -> Result<u32, String> {
    let Some(word) = word else { return Ok(unless_told) };
    word.parse().map_err(|_| format!("`{word}` is not a number {of}"))
}

/// Takes `--only STEP` out of the words.
fn only(rest: &mut Vec<String>) -> Option<String> {
    let at = rest.iter().position(|word| word == "--only")?;
    let step = rest.get(at + 1).cloned()?;
    rest.drain(at..=at + 1);
    Some(step)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn words_become_flags() {
        let words = |line: &str| line.split_whitespace().map(str::to_owned).collect::<Vec<_>>();
        for (line, flags) in [
            ("", Ok(Flags::Help)),
            ("bundle --dev", Ok(Flags::Bundle { build: Build::Dev })),
            ("serve", Ok(Flags::Serve { build: Build::Release, hub: Vec::new() })),
            ("serve --shop a --dev", Ok(Flags::Serve { build: Build::Dev, hub: words("--shop a") })),
            ("browser -g door", Ok(Flags::Browser { runner: words("-g door") })),
            ("test", Ok(Flags::Test { only: None })),
            ("test --only tidy", Ok(Flags::Test { only: Some("tidy".to_owned()) })),
            ("test --only", Err("`test` has no option `--only`".to_owned())),
            ("test --quick", Err("`test` has no option `--quick`".to_owned())),
            ("lighthouse", Ok(Flags::Lighthouse)),
            ("pictures", Ok(Flags::Pictures)),
            ("bench", Ok(Flags::Bench(Bench::Rules { filter: None }))),
            ("bench plan", Ok(Flags::Bench(Bench::Rules { filter: Some("plan".to_owned()) }))),
            ("bench --check", Ok(Flags::Bench(Bench::Check))),
            ("bench --beside", Ok(Flags::Bench(Bench::Beside))),
            ("bench --battery 2", Ok(Flags::Bench(Bench::Battery { minutes: 2 }))),
            ("bench --codes", Ok(Flags::Bench(Bench::Codes))),
            ("bench --hub", Ok(Flags::Bench(Bench::Hub { part: None }))),
            ("bench --hub live", Ok(Flags::Bench(Bench::Hub { part: Some(Part::Live) }))),
            ("bench --hub all", Err("`all` is no part of it: start, sync, live or two".to_owned())),
            ("bench --phone", Ok(Flags::Bench(Bench::Phone { entries: 20_000 }))),
            ("bench --phone 9", Ok(Flags::Bench(Bench::Phone { entries: 9 }))),
            ("bench --sync", Ok(Flags::Bench(Bench::Sync { runs: 10 }))),
            ("bench --sync 3", Ok(Flags::Bench(Bench::Sync { runs: 3 }))),
            ("bench --sync much", Err("`much` is not a number of runs".to_owned())),
            ("coverage", Ok(Flags::Coverage)),
            ("coverage tests", Err("`coverage` has no option `tests`".to_owned())),
            ("fuzz log", Ok(Flags::Fuzz { target: "log".to_owned(), seconds: 600 })),
            ("fuzz log 5", Ok(Flags::Fuzz { target: "log".to_owned(), seconds: 5 })),
            ("fuzz", Err("`fuzz` needs a target: rulebook, log, signed or code".to_owned())),
            ("fuzz log soon", Err("`soon` is not a number of seconds".to_owned())),
            ("postgres psql -l", Ok(Flags::Postgres { command: words("psql -l") })),
            ("postgres", Err("`postgres` needs a command to run".to_owned())),
            ("describe", Ok(Flags::Describe)),
            ("figures", Ok(Flags::Figures)),
            ("crash", Ok(Flags::Crash { kills: 200 })),
            ("crash 3", Ok(Flags::Crash { kills: 3 })),
            ("crash often", Err("`often` is not a number of kills".to_owned())),
            ("simulate", Ok(Flags::Simulate { what: Run::default() })),
            ("simulate --long", Ok(Flags::Simulate { what: Run { sessions: Some(1_000_000), ..Run::default() } })),
            (
                "simulate --seed 7 --sessions 20 --dies-at 3",
                Ok(Flags::Simulate { what: Run { seed: Some(7), sessions: Some(20), dies_at: Some(3) } }),
            ),
            ("simulate --seed", Err("`simulate` has no option `--seed`".to_owned())),
            ("simulate --seed x", Err("`x` is not a whole number".to_owned())),
            ("fly", Err("there is no command `fly`".to_owned())),
        ] {
            assert_eq!(Flags::parse(words(line).into_iter()), flags, "{line}");
        }
        assert!(words(HELP).iter().filter(|word| word.starts_with("--")).all(|word| word.len() > 2));
    }
}
