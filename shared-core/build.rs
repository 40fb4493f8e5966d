//! Makes the functions that say shared-core's own words, and the catalogues, from the Fluent files of `shared-core/words/`.

use std::error::Error;
use std::path::PathBuf;
use std::{env, fs};

use words::{Book, Home, Language};

fn main() -> Result<(), Box<dyn Error>> {
    println!("cargo::rerun-if-changed={}", words::folder().display());
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
