//! The repository's own text files, read once.

use std::fs;
use std::path::Path;

use anyhow::{Context, Result};

/// Folders that are made, not written.
const MADE: &[&str] = &["target", "dist", "dist.new", "dist.old", "node_modules", "results", "data.db", ".git"];
/// The hub's data, at the root alone: `tests/data` is written by people.
const MADE_AT_ROOT: &[&str] = &["data"];
/// What is text. Lock files are made by tools, in their own way.
const TEXT: &[&str] =
    &["rs", "toml", "md", "js", "ts", "css", "html", "sql", "json", "jsonl", "csv", "webmanifest", "svg", "sh", "ftl"];
const TEXT_NAMES: &[&str] = &["run", "LICENSE", ".gitignore", ".npmrc"];
const LOCKS: &[&str] = &["Cargo.lock", "package-lock.json"];

/// One file: its path from the root, with `/`, and its text.
#[derive(Clone, Debug)]
pub(super) struct File {
    pub(super) path: String,
    pub(super) text: String,
}

impl File {
    /// For tests of checks.
    #[cfg(test)]
    pub(super) fn new(path: &str, text: &str) -> Self {
        Self { path: path.to_owned(), text: text.to_owned() }
    }

    /// Whether it is Rust.
    pub(super) fn is_rust(&self) -> bool {
        self.has_extension("rs")
    }

    /// Whether its name ends in `.extension`.
    pub(super) fn has_extension(&self, extension: &str) -> bool {
        Path::new(&self.path).extension().is_some_and(|own| own == extension)
    }

    /// Whether all of it is tests.
    pub(super) fn is_test(&self) -> bool {
        self.path.split('/').any(|part| matches!(part, "tests" | "tests.rs"))
    }

    /// Its lines without the module of tests at its end, numbered from 1.
    pub(super) fn code(&self) -> impl Iterator<Item = (usize, &str)> {
        let end = self.text.find("\n#[cfg(test)]\nmod tests {").unwrap_or(self.text.len());
        self.text[..end].lines().enumerate().map(|(at, line)| (at + 1, line))
    }

    /// Its lines, numbered from 1.
    pub(super) fn lines(&self) -> impl Iterator<Item = (usize, &str)> {
        self.text.lines().enumerate().map(|(at, line)| (at + 1, line))
    }
}

/// Reads them all, in the order of their paths.
pub(super) fn read(root: &Path) -> Result<Vec<File>> {
    let mut files = Vec::new();
    add(&mut files, root, root)?;
    files.sort_by(|a, b| a.path.cmp(&b.path));
    Ok(files)
}

fn add(files: &mut Vec<File>, root: &Path, folder: &Path) -> Result<()> {
    for item in fs::read_dir(folder).with_context(|| format!("{} cannot be read", folder.display()))? {
        let path = item?.path();
        let name = path.file_name().unwrap_or_default().to_string_lossy().into_owned();
        if path.is_dir() {
            let made = MADE.contains(&name.as_str()) || (folder == root && MADE_AT_ROOT.contains(&name.as_str()));
            if !made {
                add(files, root, &path)?;
            }
            continue;
        }
        let extension = path.extension().unwrap_or_default().to_string_lossy().into_owned();
        let is_text = TEXT.contains(&extension.as_str()) || TEXT_NAMES.contains(&name.as_str());
        if is_text && !LOCKS.contains(&name.as_str()) {
            let inside = path.strip_prefix(root)?.components().map(|part| part.as_os_str().to_string_lossy());
            let text = fs::read_to_string(&path).with_context(|| format!("{} is not text", path.display()))?;
            files.push(File { path: inside.collect::<Vec<_>>().join("/"), text });
        }
    }
    Ok(())
}
