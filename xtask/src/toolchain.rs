//! Finds or installs a compiler for wasm32.
//!
//! In this order: rustup's target if it is there; Debian's toolchain if it is there; rustup told to fetch the target,
//! with a limit, because without a network it hangs instead of failing; Debian's packages. The standard library is built
//! from its source, once per target directory: that is a tenth of the download, and Debian has it no other way. Rustup is
//! told to fetch the source too; without it, the library that rustup has compiled does.

use std::path::Path;
use std::process::Command;
use std::time::Duration;

use anyhow::{Context, Result};

use crate::debian;
use crate::program::{answer, exists, program, within};
use crate::root::web_target;
use crate::steps::step;

/// The target's name.
pub(crate) const TARGET: &str = "wasm32-unknown-unknown";

/// How long rustup may take to fetch the target, or the library's source.
const FETCH_LIMIT: Duration = Duration::from_secs(20);

/// Debian's packages: a compiler, its cargo, the standard library's source, and the linker that it asks for.
const PACKAGES: &[&str] = &["rustc-web", "cargo-web", "rust-web-src", "rust-web-llvm", "lld-22"];

/// What those packages put where; all must be there.
const DEBIAN: &[&str] =
    &["/usr/bin/rustc", "/usr/bin/cargo", "/usr/bin/rust-lld", "/usr/lib/rustlib/src/rust/library/std/Cargo.toml"];

/// A compiler for wasm32.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Toolchain {
    /// The one that runs xtask too, with the library as rustup has compiled it.
    Rustup,
    /// The same, with the library built from source.
    RustupSource,
    /// Debian's, with the standard library built from source.
    Debian,
}

impl Toolchain {
    /// Finds one, or installs it.
    pub(crate) fn find() -> Result<Self> {
        if rustup_has_target() {
            return Ok(Self::rustup());
        }
        if debian_is_complete() {
            return Ok(Self::Debian);
        }
        step("looking for a WebAssembly compiler", || {
            if exists("rustup") {
                println!("  asking rustup for {TARGET}, for at most {} s", FETCH_LIMIT.as_secs());
                if within(program("rustup").args(["target", "add", TARGET]), FETCH_LIMIT) && rustup_has_target() {
                    return Ok(Self::rustup());
                }
            }
            debian::install(PACKAGES)
                .context("no WebAssembly compiler: run `rustup target add wasm32-unknown-unknown` with a network")?;
            anyhow::ensure!(
                debian_is_complete(),
                "Debian's packages are installed, but one of {DEBIAN:?} is not there"
            );
            Ok(Self::Debian)
        })
    }

    /// Rustup's, with the source if it is there or can be fetched.
    fn rustup() -> Self {
        let fetch = || within(program("rustup").args(["component", "add", "rust-src"]), FETCH_LIMIT);
        if rustup_has_source() || (exists("rustup") && fetch() && rustup_has_source()) {
            Self::RustupSource
        } else {
            Self::Rustup
        }
    }

    /// Whether the standard library is built here, and so without the texts of its panics.
    pub(crate) fn builds_library(self) -> bool {
        self != Self::Rustup
    }

    /// What people are told it is.
    pub(crate) fn name(self) -> &'static str {
        match self {
            Self::Rustup => "rustup's target",
            Self::RustupSource => "rustup's target, standard library from source",
            Self::Debian => "Debian's toolchain, standard library from source",
        }
    }

    /// A `cargo <verb>` for wasm32, to which package and profile are yet to be added.
    pub(crate) fn cargo(self, verb: &str) -> Command {
        let mut cargo = match self {
            Self::Rustup | Self::RustupSource => program("cargo"),
            Self::Debian => {
                let mut cargo = program("/usr/bin/cargo");
                // Ahead of rustup's shims, and with the standard library's source allowed to build.
                let path = std::env::var_os("PATH").unwrap_or_default();
                let folders = std::iter::once(Path::new("/usr/bin").to_owned()).chain(std::env::split_paths(&path));
                if let Ok(path) = std::env::join_paths(folders) {
                    cargo.env("PATH", path);
                }
                cargo.env("RUSTC", "/usr/bin/rustc");
                cargo
            }
        };
        // Leptos erases the types of components under this name: a screen is compiled once, not once for each place.
        // Nobody reads where a phone's module panicked or what a type looks like there: a quarter of the download.
        let mut flags = String::from("--cfg erase_components -Zlocation-detail=none -Zfmt-debug=none");
        if self.builds_library() {
            flags += " -Zunstable-options -Cpanic=immediate-abort";
        }
        // A stable compiler takes these flags by this word.
        cargo.env("RUSTFLAGS", flags).env("RUSTC_BOOTSTRAP", "1");
        cargo.env("CARGO_TARGET_DIR", web_target()).arg(verb).args(["--target", TARGET]);
        if self.builds_library() {
            cargo.args(["-Z", "build-std=std,panic_abort", "-Z", "build-std-features=optimize_for_size"]);
        }
        cargo
    }
}

fn rustup_has_target() -> bool {
    let library = answer(program("rustc").args(["--print", "target-libdir", "--target", TARGET]));
    library.is_some_and(|folder| Path::new(&folder).is_dir())
}

fn rustup_has_source() -> bool {
    let root = answer(program("rustc").args(["--print", "sysroot"]));
    root.is_some_and(|root| Path::new(&root).join("lib/rustlib/src/rust/library/std/Cargo.toml").is_file())
}

fn debian_is_complete() -> bool {
    DEBIAN.iter().all(|file| Path::new(file).is_file())
}
