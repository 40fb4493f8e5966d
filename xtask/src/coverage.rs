//! `cargo xtask coverage`: which lines of the rules no test runs; an error where that is more than one in twenty.
//!
//! Runs the tests of the rules, of what spans crates and of the hub with `cargo llvm-cov`, and counts the lines of
//! `shared-core` alone: neither its tests, in files of their own or at the end of one, nor what helps them. Not a part
//! of `cargo xtask test`, which it would make twice as long.

use std::collections::BTreeMap;
use std::fs;
use std::path::Path;

use anyhow::{Context, Result, bail, ensure};

use crate::postgres::{ADDRESS, Postgres};
use crate::program::{answer, exists, program, run as run_program};
use crate::root::{root, target};
use crate::steps::step;

/// So many lines in a hundred must be run at least.
const LEAST_PCT: f64 = 95.0;

/// The folder whose lines count.
const COUNTED: &str = "shared-core/src/";

/// Lines of a file by number, with how often each was run.
type Lines = BTreeMap<usize, u64>;

/// Tests, counts and shows; an error under [`LEAST_PCT`].
pub(crate) fn run() -> Result<()> {
    if answer(program("cargo").args(["llvm-cov", "--version"])).is_none() {
        bail!("`cargo llvm-cov` is missing: run `cargo install --locked cargo-llvm-cov`");
    }
    let report = target().join("coverage.lcov");
    fs::create_dir_all(target()).with_context(|| format!("{} cannot be made", target().display()))?;
    let server = Postgres::start()?;
    step("running the tests, each line counted", || {
        let mut cargo = program("cargo");
        cargo.args(["llvm-cov", "--package", "shared-core", "--package", "tests", "--package", "hub"]);
        cargo.args(["--all-features", "--quiet", "--lcov", "--output-path"]).arg(&report);
        run_program(cargo.envs(tools()?).env(ADDRESS, server.address()))
    })?;
    let text = fs::read_to_string(&report).with_context(|| format!("{} cannot be read", report.display()))?;
    let mut shares = Vec::new();
    for (path, lines) in counted(&text, &root()) {
        let source = fs::read_to_string(root().join(&path)).with_context(|| format!("{path} cannot be read"))?;
        shares.push(share(path, &lines, &source));
    }
    show(&mut shares)
}

/// LLVM's own tools, where the compiler does not bring them along: those of its version, by Debian's names.
fn tools() -> Result<Vec<(&'static str, String)>> {
    let wanted = [("LLVM_COV", "llvm-cov"), ("LLVM_PROFDATA", "llvm-profdata")];
    if wanted.iter().all(|(key, _)| std::env::var_os(key).is_some()) {
        return Ok(Vec::new());
    }
    let sysroot = answer(program("rustc").args(["--print", "target-libdir"])).context("rustc cannot be started")?;
    if Path::new(&sysroot).with_file_name("bin").join("llvm-cov").is_file() {
        return Ok(Vec::new());
    }
    let about = answer(program("rustc").arg("-vV")).context("rustc cannot be started")?;
    let version = about.lines().find_map(|line| line.strip_prefix("LLVM version: ")).context("rustc names no LLVM")?;
    let major = version.split('.').next().unwrap_or(version);
    let found = wanted.map(|(key, name)| (key, format!("{name}-{major}")));
    match found.iter().find(|(_, name)| !exists(name)) {
        Some((_, name)) => bail!("`{name}` is missing: run `rustup component add llvm-tools`, or install llvm-{major}"),
        None => Ok(found.into()),
    }
}

/// The counted files of a report in lcov's form, by path from the root.
fn counted(report: &str, root: &Path) -> BTreeMap<String, Lines> {
    let mut files: BTreeMap<String, Lines> = BTreeMap::new();
    let mut current = None;
    for line in report.lines() {
        if let Some(path) = line.strip_prefix("SF:") {
            let path = Path::new(path).strip_prefix(root).ok().and_then(Path::to_str);
            current = path.filter(|path| is_counted(path)).map(str::to_owned);
        } else if let (Some(path), Some(data)) = (&current, line.strip_prefix("DA:")) {
            let mut numbers = data.split(',').map(str::parse::<u64>);
            if let (Some(Ok(number)), Some(Ok(times))) = (numbers.next(), numbers.next()) {
                let lines = files.entry(path.clone()).or_default();
                *lines.entry(usize::try_from(number).unwrap_or(0)).or_default() += times;
            }
        }
    }
    files
}

fn is_counted(path: &str) -> bool {
    let test = path.contains("/tests/") || path.ends_with("/tests.rs") || path.ends_with("/testing.rs");
    path.starts_with(COUNTED) && !test
}

/// How many lines of a file were run.
#[derive(Debug, PartialEq, Eq)]
struct Share {
    path: String,
    run: usize,
    of: usize,
    /// The numbers of those that were not.
    missed: Vec<usize>,
}

impl Share {
    #[expect(clippy::cast_precision_loss, reason = "no file has 2^53 lines")]
    fn pct(&self) -> f64 {
        if self.of == 0 { 100.0 } else { 100.0 * self.run as f64 / self.of as f64 }
    }
}

/// Counts a file's lines up to the tests at its end.
fn share(path: String, lines: &Lines, source: &str) -> Share {
    let tests = source.lines().position(|line| line == "mod tests {").map_or(usize::MAX, |place| place + 1);
    let missed: Vec<usize> = lines.range(..tests).filter(|(_, times)| **times == 0).map(|(line, _)| *line).collect();
    let of = lines.range(..tests).count();
    Share { path, run: of - missed.len(), of, missed }
}

/// Prints the files that are not run whole, the worst first, and the sum.
fn show(shares: &mut [Share]) -> Result<()> {
    shares.sort_by(|a, b| a.pct().total_cmp(&b.pct()).then_with(|| a.path.cmp(&b.path)));
    for share in shares.iter().filter(|share| !share.missed.is_empty()) {
        println!(
            "{:6.2} %  {:>4} of {:<4}  {}: {}",
            share.pct(),
            share.run,
            share.of,
            share.path,
            ranges(&share.missed)
        );
    }
    let sum = |count: fn(&Share) -> usize| shares.iter().map(count).sum();
    let all = Share { path: COUNTED.to_owned(), run: sum(|one| one.run), of: sum(|one| one.of), missed: Vec::new() };
    ensure!(all.of > 0, "no line of {COUNTED} was counted");
    println!("{:6.2} %  {} of {} lines in {} files of {COUNTED}", all.pct(), all.run, all.of, shares.len());
    ensure!(all.pct() >= LEAST_PCT, "less than {LEAST_PCT} % of the lines of {COUNTED} are run by a test");
    Ok(())
}

/// `[1, 2, 3, 7]` as `1-3 7`.
fn ranges(numbers: &[usize]) -> String {
    let mut runs: Vec<(usize, usize)> = Vec::new();
    for &number in numbers {
        match runs.last_mut() {
            Some((_, last)) if *last + 1 == number => *last = number,
            _ => runs.push((number, number)),
        }
    }
    let shown = |(from, to): &(usize, usize)| if from == to { from.to_string() } else { format!("{from}-{to}") };
    runs.iter().map(shown).collect::<Vec<_>>().join(" ")
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn rules_count_and_tests_do_not() {
        let report = "SF:/r/shared-core/src/a.rs\nDA:1,3\nDA:2,0\nDA:3,0\nDA:9,4\nend_of_record\n\
            SF:/r/shared-core/src/a/tests.rs\nDA:1,0\nend_of_record\n\
            SF:/r/hub/src/a.rs\nDA:1,0\nend_of_record\nSF:/elsewhere/shared-core/src/b.rs\nDA:1,0\nend_of_record\n";
        let files = counted(report, Path::new("/r"));
        assert_eq!(files.keys().collect::<Vec<_>>(), ["shared-core/src/a.rs"]);
        let lines = &files["shared-core/src/a.rs"];
        let share = |source| share("a".to_owned(), lines, source);
        let none = "\n".repeat(9);
        assert_eq!(share(&none), Share { path: "a".to_owned(), run: 2, of: 4, missed: vec![2, 3] });
        let tested = "\n\n\n\n#[cfg(test)]\nmod tests {\n\n\n}\n";
        assert_eq!(share(tested), Share { path: "a".to_owned(), run: 1, of: 3, missed: vec![2, 3] });
    }

    #[test]
    fn too_little_is_an_error() {
        let of = |run| Share { path: "a".to_owned(), run, of: 100, missed: vec![1; 100 - run] };
        assert!(show(&mut [of(95)]).is_ok());
        assert!(show(&mut [of(94)]).is_err());
        assert!(show(&mut [of(100), of(90)]).is_ok());
        assert!(show(&mut []).is_err());
        assert_eq!(ranges(&[1, 2, 3, 7, 9, 10]), "1-3 7 9-10");
    }
}
