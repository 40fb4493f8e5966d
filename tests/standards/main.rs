//! Published values against our reckoning: each row of `tests/data` names its source, its clause, and whether it was
//! seen in the published text, in a secondary text, worked out by the text's formula, or is from memory.
//!
//! One binary for the folder. A file that nobody lists here would never run, so that fails a test of its own.

mod air;
mod attest;
mod buddy;
mod calendar;
mod cards;
mod cases;
mod clock;
mod contrast;
mod estimate;
mod exposure;
mod fire;
mod jose;
mod material;
mod planning;
mod reserve;
mod rounds;
mod shades;
mod start_checks;
mod table;
mod trace;
mod watch;
mod zone;

use std::collections::BTreeSet;
use std::fs;
use std::path::Path;

#[test]
fn every_file_of_this_folder_runs() {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("standards");
    let listed: BTreeSet<String> = include_str!("main.rs")
        .lines()
        .filter_map(|line| line.strip_prefix("mod ")?.strip_suffix(';').map(str::to_owned))
        .collect();
    let present: BTreeSet<String> = fs::read_dir(folder)
        .expect("the folder of this file")
        .map(|entry| entry.expect("a readable folder").path())
        .filter(|path| path.extension().is_some_and(|extension| extension == "rs"))
        .filter_map(|path| Some(path.file_stem()?.to_str()?.to_owned()))
        .filter(|stem| stem != "main")
        .collect();
    assert_eq!(present, listed);
}
