//! What goes into a bundle, each file under the path by which the others name it.
//!
//! `index.html` and everything in `public/` as they stand in the repository; the bound module, its glue and its
//! snippets as if they stood in `public/` too; the catalogues of words, and a script that names them.

use std::collections::BTreeMap;
use std::fmt::Write as _;
use std::fs;
use std::path::Path;

use anyhow::{Context, Result};
use words::{Book, Language};

use super::Build;
use crate::root::root;

/// Files by their path on the site, such as `/styles/app.css`.
pub(super) type Files = BTreeMap<String, Vec<u8>>;

/// Reads them all.
pub(super) fn gather(glue: &Path, build: Build) -> Result<Files> {
    let mut files = Files::new();
    add(&mut files, glue, glue)?;
    let public = root().join("public");
    add(&mut files, &public, &public)?;
    let page = root().join("index.html");
    files.insert("/index.html".to_owned(), fs::read(&page).context("index.html cannot be read")?);
    let book = Book::open().context("the words cannot be read")?;
    files.extend(words(&book, build));
    Ok(files)
}

/// The catalogue of each language; `words.js`: where they are, and what the page says before one is there; and
/// `later_words.js`, the service worker's own.
fn words(book: &Book, build: Build) -> Files {
    let mut catalogues: Vec<_> =
        Language::ALL.iter().map(|&language| (language.tag(), book.catalogue(language))).collect();
    // For the layout alone: what phones download does not have it.
    if build == Build::Dev {
        catalogues.push(("pseudo", book.pseudo()));
    }
    let (mut files, mut script) = (Files::new(), String::from("export const CATALOGUES = {\n"));
    for (tag, text) in catalogues {
        let _ = writeln!(script, "{tag}: '/words/{tag}.txt',");
        files.insert(format!("/words/{tag}.txt"), text.into_bytes());
    }
    script.push_str("};\nexport const PAGE = {\n");
    // The page itself is English.
    for language in Language::ALL.into_iter().filter(|language| *language != Language::En) {
        let _ = writeln!(script, "{}: {{", language.tag());
        for (id, text) in book.page(language) {
            // Debug's escapes of a text without control characters are JavaScript's too.
            let _ = writeln!(script, "{id}: {text:?},");
        }
        script.push_str("},\n");
    }
    script.push_str("};\n");
    files.insert("/words.js".to_owned(), script.into_bytes());
    files.insert("/later_words.js".to_owned(), book.worker().into_bytes());
    files
}

/// Adds everything under `folder`, named from `base`.
fn add(files: &mut Files, base: &Path, folder: &Path) -> Result<()> {
    for item in fs::read_dir(folder).with_context(|| format!("{} cannot be read", folder.display()))? {
        let path = item?.path();
        let name = path.file_name().unwrap_or_default().to_string_lossy();
        if name.starts_with('.') || name.ends_with(".md") {
            continue;
        }
        if path.is_dir() {
            add(files, base, &path)?;
            continue;
        }
        let inside = path.strip_prefix(base)?.components().map(|part| part.as_os_str().to_string_lossy());
        let key = inside.fold(String::new(), |key, part| key + "/" + &part);
        files.insert(key, fs::read(&path).with_context(|| format!("{} cannot be read", path.display()))?);
    }
    Ok(())
}
