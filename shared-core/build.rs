//! Names the rules by the digest of their sources, and makes the functions that say shared-core's own words, and the catalogues, from the Fluent files of `shared-core/words/`.

use std::error::Error;
use std::path::{Path, PathBuf};
use std::{env, fs, io};

use base64::Engine as _;
use base64::engine::general_purpose::URL_SAFE_NO_PAD;
use sha2::{Digest, Sha256};

use words::{Book, Home, Language};

fn main() -> Result<(), Box<dyn Error>> {
    println!("cargo::rerun-if-changed={}", words::folder().display());
    println!("cargo::rerun-if-changed=src");
    println!("cargo::rustc-env=SWEEPBELL_FOLDED_BY={}", digest(Path::new("src"))?);
    let out = PathBuf::from(env::var_os("OUT_DIR").ok_or("cargo names no OUT_DIR")?);
    let book = match Book::open() {
        Ok(book) => book,
        Err(faults) => {
            faults.0.iter().for_each(|fault| println!("cargo::error={fault}"));
            return Ok(());
        }
    };
    fs::write(out.join("said.rs"), book.rust(Home::Core))?;
    for language in Language::ALL {
        fs::write(out.join(format!("{}.txt", language.tag())), book.catalogue(language))?;
    }
    Ok(())
}

/// Of all files under `folder`, with their names, in the order of those.
fn digest(folder: &Path) -> io::Result<String> {
    let mut digest = Sha256::new();
    for path in files(folder)? {
        let bytes = fs::read(&path)?;
        digest.update(format!("{}\n{}\n", path.display(), bytes.len()));
        digest.update(bytes);
    }
    Ok(URL_SAFE_NO_PAD.encode(digest.finalize()))
}

fn files(folder: &Path) -> io::Result<Vec<PathBuf>> {
    let mut files = Vec::new();
    for entry in fs::read_dir(folder)? {
        let entry = entry?;
        if entry.file_type()?.is_dir() {
            files.extend(self::files(&entry.path())?);
        } else {
            files.push(entry.path());
        }
    }
    files.sort();
    Ok(files)
}
