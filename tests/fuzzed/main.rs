//! What fuzzing found, and the seeds it began with, asked again: see `tests/fuzz`.
//!
//! Each file of `tests/data/fuzzed/<target>` is one input, kept byte for byte. Beside them each is cut short and
//! changed in a few fixed ways, so that a fault near to one that was mended is found without a fuzzer.

use std::fs;
use std::path::Path;

use tests::properties::ALL;

fn inputs(target: &str) -> Vec<(String, Vec<u8>)> {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("data/fuzzed").join(target);
    let files = fs::read_dir(&folder).unwrap_or_else(|why| panic!("{}: {why}", folder.display()));
    let mut inputs: Vec<_> = files
        .map(|file| {
            let path = file.expect("a file").path();
            (path.display().to_string(), fs::read(&path).expect("can be read"))
        })
        .collect();
    inputs.sort();
    inputs
}

#[test]
fn what_was_found_holds() {
    for (target, holds) in ALL {
        let inputs = inputs(target);
        assert!(inputs.len() >= 5, "{target}: only {} inputs", inputs.len());
        for (path, input) in inputs {
            println!("{path}");
            holds(&input);
        }
    }
}

#[test]
fn what_is_near_to_it_holds() {
    for (target, holds) in ALL {
        for (path, input) in inputs(target) {
            println!("{path}");
            let step = input.len() / 25 + 1;
            for at in (0..input.len()).step_by(step) {
                holds(&input[..at]);
                for with in [b'0', b'"', b'-', 0xff] {
                    let mut other = input.clone();
                    other[at] = with;
                    holds(&other);
                }
            }
        }
    }
}
