//! Whether `dist/` still is what the sources say.
//!
//! The stamp holds one digest of everything that a bundle is made from, and the names of the files that were made.
//! A changed byte in a source, another kind of build or a lost file means: build again. Times of files are not asked.

use std::collections::BTreeSet;
use std::fs;
use std::path::{Path, PathBuf};

use anyhow::{Context, Result};
use sha2::{Digest, Sha256};

use super::Build;
use super::site::hexadecimal;
use crate::root::root;

/// Where the stamp is, in `dist/`.
const STAMP: &str = ".stamp";

/// What a bundle is made from.
const INPUTS: &[&str] =
    &["app", "shared-core", "public", "index.html", "Cargo.toml", "Cargo.lock", "xtask/src/bundle", "xtask/Cargo.toml"];

/// The digest of all inputs of a build.
pub(super) fn inputs(build: Build) -> Result<String> {
    digest_of(&root(), INPUTS, build)
}

/// Whether a folder was made from exactly these inputs and is whole.
pub(super) fn holds(folder: &Path, inputs: &str) -> bool {
    let Ok(stamp) = fs::read_to_string(folder.join(STAMP)) else { return false };
    let mut lines = stamp.lines();
    lines.next() == Some(inputs) && lines.all(|file| folder.join(file).is_file())
}

/// Writes the stamp of a folder that is whole now.
pub(super) fn put(folder: &Path, inputs: &str) -> Result<()> {
    let mut stamp = format!("{inputs}\n");
    for file in files_of(folder)? {
        let inside = file.strip_prefix(folder)?.to_string_lossy().into_owned();
        stamp.push_str(&inside);
        stamp.push('\n');
    }
    fs::write(folder.join(STAMP), stamp).context("the stamp cannot be written")
}

fn digest_of(base: &Path, inputs: &[&str], build: Build) -> Result<String> {
    let mut all = Sha256::new();
    all.update(format!("{build:?}\n"));
    for input in inputs {
        for file in files_of(&base.join(input))? {
            let bytes = fs::read(&file).with_context(|| format!("{} cannot be read", file.display()))?;
            let name = file.strip_prefix(base)?.to_string_lossy().into_owned();
            all.update(format!("{name} {}\n", bytes.len()));
            all.update(bytes);
        }
    }
    Ok(hexadecimal(&all.finalize()))
}

/// The files at or under a path, in order.
fn files_of(path: &Path) -> Result<BTreeSet<PathBuf>> {
    let mut found = BTreeSet::new();
    if path.is_file() {
        found.insert(path.to_owned());
    } else if path.is_dir() {
        for item in fs::read_dir(path)? {
            found.extend(files_of(&item?.path())?);
        }
    }
    Ok(found)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn only_the_same_inputs_and_a_whole_folder_hold() {
        let base = std::env::temp_dir().join(format!("sweepbell-stamp-{}", std::process::id()));
        let (source, made) = (base.join("source"), base.join("made"));
        fs::create_dir_all(&source).expect("a temporary folder");
        fs::create_dir_all(made.join("assets")).expect("a temporary folder");
        fs::write(source.join("a"), "1").expect("a file");
        fs::write(made.join("assets/x"), "x").expect("a file");
        let of = |build| digest_of(&base, &["source", "not-there"], build).expect("readable");

        let first = of(Build::Release);
        assert!(!holds(&made, &first), "no stamp yet");
        put(&made, &first).expect("writable");
        assert!(holds(&made, &of(Build::Release)), "nothing changed");
        assert!(!holds(&made, &of(Build::Dev)), "another kind of build");
        fs::write(source.join("a"), "2").expect("a file");
        assert!(!holds(&made, &of(Build::Release)), "a changed byte");
        fs::write(source.join("a"), "1").expect("a file");
        fs::remove_file(made.join("assets/x")).expect("a file");
        assert!(!holds(&made, &of(Build::Release)), "a lost file");
        fs::remove_dir_all(&base).expect("a temporary folder");
    }
}
