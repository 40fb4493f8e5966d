//! What goes into a bundle, each file under the path by which the others name it.
//!
//! `index.html` and everything in `public/` as they stand in the repository; the bound module, its glue and its
//! snippets as if they stood in `public/` too.

use std::collections::BTreeMap;
use std::fs;
use std::path::Path;

use anyhow::{Context, Result};

use crate::root::root;

/// Files by their path on the site, such as `/styles/app.css`.
pub(super) type Files = BTreeMap<String, Vec<u8>>;

/// Reads them all.
pub(super) fn gather(glue: &Path) -> Result<Files> {
    let mut files = Files::new();
    add(&mut files, glue, glue)?;
    let public = root().join("public");
    add(&mut files, &public, &public)?;
    let page = root().join("index.html");
    files.insert("/index.html".to_owned(), fs::read(&page).context("index.html cannot be read")?);
    Ok(files)
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
