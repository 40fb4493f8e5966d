//! `cargo xtask tidy`: what this repository asks of its files, where no compiler asks it.
//!
//! Each check is one row with its reason. Most of them state an absence, because an absence cannot be read out of
//! code. Text is looked at, not meaning: a check may be blunt, but it must be explainable in one line.

mod files;
mod layout;
mod shape;
mod words;

use anyhow::{Result, bail};

use self::files::File;
use crate::program::Tally;
use crate::root::root;

/// Something that a check found: where, and what is wrong there.
#[derive(Debug, PartialEq, Eq)]
struct Finding {
    path: String,
    /// From 1; 0 means the whole file.
    line: usize,
    what: String,
}

impl Finding {
    fn new(file: &File, line: usize, what: impl Into<String>) -> Self {
        Self { path: file.path.clone(), line, what: what.into() }
    }
}

/// One thing that is asked of the files.
struct Check {
    name: &'static str,
    why: &'static str,
    run: fn(&[File]) -> Vec<Finding>,
}

const CHECKS: &[Check] = &[
    Check {
        name: "every source opens with what it is for",
        why: "the next reader starts at the top of the file they were sent to",
        run: shape::headers,
    },
    Check { name: "files stay small", why: "a file is one idea; past 600 lines it is two", run: shape::long_files },
    Check {
        name: "functions fit a screen",
        why: "what does not fit a screen is not read as a whole; past 70 lines, name its parts",
        run: shape::long_functions,
    },
    Check {
        name: "no blanks at a line's end, one line end at the file's",
        why: "they change nothing but every comparison of versions",
        run: shape::blanks,
    },
    Check {
        name: "tests run, and can fail",
        why: "an ignored, expected or commented-out failure is a claim that nobody runs",
        run: words::silenced_tests,
    },
    Check {
        name: "no words that do not belong into a file",
        why: "plans, places of one machine and names of registries mean nothing to the next reader",
        run: words::forbidden,
    },
    Check {
        name: "the rules touch nothing",
        why: "shared-core has no I/O, no clock and no web, so that it says the same everywhere",
        run: words::impure_core,
    },
    Check {
        name: "one door writes what screens show",
        why: "only app/src/store.rs writes to the store, after what it shows is durable",
        run: words::store_writes,
    },
    Check {
        name: "views are small and quick on a phone",
        why: "a memo, a list or a bare closure in a view is compiled anew for each place that it stands in, and a dialog opened there blocks the page",
        run: words::dear_views,
    },
    Check {
        name: "what members read is in words/",
        why: "a sentence in a program is said in one language",
        run: words::sentences,
    },
    Check {
        name: "every source is part of its crate",
        why: "a file that no `mod` names is neither compiled nor tested",
        run: layout::forgotten_files,
    },
    Check {
        name: "everything is where the map says",
        why: "a person who knows one checkout knows all",
        run: layout::top_level,
    },
    Check {
        name: "DEVELOPERS.md names every module of the rules",
        why: "a map with a blank spot is not looked at twice",
        run: layout::mapped_modules,
    },
    Check {
        name: "there are a dozen parts at most",
        why: "with few parts a member learns each of them once",
        run: layout::a_dozen_parts,
    },
    Check {
        name: "the binder and the bound are of one version",
        why: "glue of another version than the module's does not start",
        run: layout::one_bindgen,
    },
];

/// Runs every check and prints what was found.
pub(crate) fn run() -> Result<Tally> {
    let files = files::read(&root())?;
    let mut tally = Tally::default();
    for check in CHECKS {
        let findings = (check.run)(&files);
        if findings.is_empty() {
            tally.passed += 1;
            continue;
        }
        tally.failed += 1;
        println!("{}: {}", check.name, check.why);
        for Finding { path, line, what } in findings {
            println!("  {path}:{line}: {what}");
        }
    }
    println!("{}", shape::sizes(&files));
    match tally.failed {
        0 => Ok(tally),
        failed => bail!("{failed} of {} checks found something", CHECKS.len()),
    }
}
