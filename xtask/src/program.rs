//! Starting other programs.
//!
//! A program started from here sees the environment that the person had, not the one that `cargo run` makes for
//! xtask: cargo inside cargo otherwise takes the outer one's compiler and package for its own.

use std::ffi::OsStr;
use std::io::{BufRead as _, BufReader};
use std::path::Path;
use std::process::{Command, Stdio};
use std::time::{Duration, Instant};

use anyhow::{Context, Result, bail};

/// Set by `cargo run` or rustup for xtask alone. Settings of the person's own, such as `CARGO_HOME`, stay.
const INHERITED: &[&str] = &[
    "CARGO",
    "CARGO_CRATE_NAME",
    "CARGO_BIN_NAME",
    "CARGO_PRIMARY_PACKAGE",
    "LD_LIBRARY_PATH",
    "RUSTC",
    "RUSTDOC",
    "RUSTUP_TOOLCHAIN",
    "RUST_RECURSION_COUNT",
];

/// The beginnings of names that `cargo run` sets.
const INHERITED_PREFIXES: &[&str] = &["CARGO_MANIFEST_", "CARGO_PKG_", "CARGO_BIN_EXE_"];

/// A command that starts in the repository's root without what cargo set for xtask.
pub(crate) fn program(name: impl AsRef<OsStr>) -> Command {
    let mut command = Command::new(name);
    command.current_dir(crate::root::root());
    for (key, _) in std::env::vars_os() {
        let inherited = key.to_str().is_some_and(|key| {
            INHERITED.contains(&key) || INHERITED_PREFIXES.iter().any(|start| key.starts_with(start))
        });
        if inherited {
            command.env_remove(&key);
        }
    }
    command
}

/// Runs to the end with the terminal's own input and output; anything but success is an error.
pub(crate) fn run(command: &mut Command) -> Result<()> {
    let name = shown(command);
    let status = command.status().with_context(|| format!("`{name}` cannot be started"))?;
    if !status.success() {
        bail!("`{name}` failed ({status})");
    }
    Ok(())
}

/// So many browser tests may need their second try before all of them count as failed: they run in real time, on whatever else the
/// machine does.
const FLAKY_MOST: u32 = 2;

/// How many tests went which way.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub(crate) struct Tally {
    /// Passed.
    pub(crate) passed: u32,
    /// Failed, or not run although it should have been.
    pub(crate) failed: u32,
}

impl Tally {
    /// One check that passed, for what does not count by itself.
    pub(crate) const ONE: Self = Self { passed: 1, failed: 0 };

    /// Adds what one line of a test runner's output says.
    ///
    /// `cargo test` writes `test result: ok. 3 passed; 0 failed; ...`, the browser's runner a line for each count:
    /// `  3 passed (1.2s)`.
    fn hear(&mut self, line: &str) {
        let counts = match line.strip_prefix("test result: ") {
            Some(counts) => counts.split_once(". ").map_or(counts, |(_, counts)| counts),
            None if line.starts_with("  ") => line.trim(),
            None => return,
        };
        for count in counts.split("; ") {
            let Some((number, what)) = count.split_once(' ') else { continue };
            let Ok(number) = number.parse::<u32>() else { continue };
            let what = what.split(" (").next().unwrap_or(what);
            match what {
                "passed" => self.passed += number,
                // Passed, but not at once: named in what was printed, for whoever reads it.
                "flaky" if number <= FLAKY_MOST => self.passed += number,
                "failed" | "flaky" | "interrupted" | "skipped" | "did not run" => self.failed += number,
                _ => {}
            }
        }
    }
}

/// Runs a test runner to the end, showing what it says, and counts; a runner that fails without a failed test
/// (because nothing could be compiled, say) counts as one.
pub(crate) fn counted(command: &mut Command) -> Result<Tally> {
    let name = shown(command);
    let mut child = command.stdout(Stdio::piped()).spawn().with_context(|| format!("`{name}` cannot be started"))?;
    let mut tally = Tally::default();
    if let Some(out) = child.stdout.take() {
        for line in BufReader::new(out).split(b'\n') {
            let line = String::from_utf8_lossy(&line?).into_owned();
            println!("{line}");
            tally.hear(&line);
        }
    }
    let status = child.wait()?;
    if !status.success() && tally.failed == 0 {
        tally.failed = 1;
    }
    Ok(tally)
}

/// Runs to the end and returns what it printed; `None` when it is not there or fails.
pub(crate) fn answer(command: &mut Command) -> Option<String> {
    let output = command.stdin(Stdio::null()).output().ok()?;
    output.status.success().then(|| String::from_utf8_lossy(&output.stdout).trim().to_owned())
}

/// Runs quietly for at most `limit`, then kills it; whether it ended well in time.
pub(crate) fn within(command: &mut Command, limit: Duration) -> bool {
    let started = Instant::now();
    let Ok(mut child) = command.stdin(Stdio::null()).stdout(Stdio::null()).stderr(Stdio::null()).spawn() else {
        return false;
    };
    while started.elapsed() < limit {
        match child.try_wait() {
            Ok(Some(status)) => return status.success(),
            Ok(None) => std::thread::sleep(Duration::from_millis(100)),
            Err(_) => break,
        }
    }
    // Either may fail only because it ended meanwhile, which is all that is wanted.
    let _ = child.kill();
    let _ = child.wait();
    false
}

/// Whether a program of that name can be found.
pub(crate) fn exists(name: &str) -> bool {
    if name.contains('/') {
        return Path::new(name).is_file();
    }
    let path = std::env::var_os("PATH").unwrap_or_default();
    std::env::split_paths(&path).any(|folder| folder.join(name).is_file())
}

fn shown(command: &Command) -> String {
    let words = std::iter::once(command.get_program()).chain(command.get_args());
    words.map(|word| word.to_string_lossy().into_owned()).collect::<Vec<_>>().join(" ")
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_slow_program_is_killed_at_its_limit() {
        let started = Instant::now();
        assert!(!within(program("sleep").arg("30"), Duration::from_millis(200)));
        assert!(started.elapsed() < Duration::from_secs(5));
        assert!(within(&mut program("true"), Duration::from_secs(5)));
        assert!(!within(&mut program("no-such-program-here"), Duration::from_secs(5)));
    }

    #[test]
    fn runners_are_understood() {
        for (line, passed, failed) in [
            ("test result: ok. 12 passed; 0 failed; 0 ignored; 0 measured; 3 filtered out; finished in 2.10s", 12, 0),
            ("test result: FAILED. 1 passed; 2 failed; 0 ignored; 0 measured; 0 filtered out; finished in 0.00s", 1, 2),
            ("  11 passed (14.3s)", 11, 0),
            ("  1 failed", 0, 1),
            ("  2 did not run", 0, 2),
            ("  2 flaky", 2, 0),
            ("  3 flaky", 0, 3),
            ("    3 failed [chromium]", 0, 0),
            ("11 passed", 0, 0),
            ("  all 3 passed", 0, 0),
        ] {
            let mut tally = Tally::default();
            tally.hear(line);
            assert_eq!(tally, Tally { passed, failed }, "{line}");
        }
    }

    #[test]
    fn a_runner_that_ends_badly_is_a_failure() {
        let of = |script| counted(program("sh").args(["-c", script])).expect("sh is there");
        assert_eq!(of("echo '  3 passed (1s)'"), Tally { passed: 3, failed: 0 });
        assert_eq!(of("echo '  3 passed (1s)'; exit 1"), Tally { passed: 3, failed: 1 });
        assert_eq!(of("echo '  3 failed'; exit 1"), Tally { passed: 0, failed: 3 });
    }

    #[test]
    fn what_cargo_set_for_xtask_is_cleared() {
        let command = program("true");
        let cleared: Vec<_> = command.get_envs().filter(|(_, value)| value.is_none()).map(|(key, _)| key).collect();
        assert!(cleared.contains(&OsStr::new("CARGO_MANIFEST_DIR")));
        assert!(!cleared.contains(&OsStr::new("CARGO_HOME")) && !cleared.contains(&OsStr::new("CARGO_TARGET_DIR")));
    }
}
