//! Makes the functions that say the app's words from the Fluent files of `shared-core/words/`.

use std::error::Error;
use std::path::PathBuf;
use std::{env, fs};

use words::{Book, Home};

fn main() -> Result<(), Box<dyn Error>> {
    println!("cargo::rerun-if-changed={}", words::folder().display());
    let out = PathBuf::from(env::var_os("OUT_DIR").ok_or("cargo names no OUT_DIR")?);
    match Book::open() {
        Ok(book) => fs::write(out.join("said.rs"), book.rust(Home::App))?,
        Err(faults) => faults.0.iter().for_each(|fault| println!("cargo::error={fault}")),
    }
    Ok(())
}
