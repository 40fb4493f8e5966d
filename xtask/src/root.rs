//! Where things are: the repository's root and the target directories.
//!
//! Only this file reads the environment for places.

use std::path::PathBuf;

/// The repository's root: the folder above xtask's own.
pub(crate) fn root() -> PathBuf {
    let own = std::env::var_os("CARGO_MANIFEST_DIR").unwrap_or_else(|| env!("CARGO_MANIFEST_DIR").into());
    let own = PathBuf::from(own);
    own.parent().map_or_else(|| own.clone(), PathBuf::from)
}

/// Where native builds go: the person's `CARGO_TARGET_DIR`, else `target/`.
pub(crate) fn target() -> PathBuf {
    let chosen = std::env::var_os("CARGO_TARGET_DIR").map_or_else(|| PathBuf::from("target"), PathBuf::from);
    root().join(chosen)
}

/// Where wasm32 builds go: a folder of their own, because they may come from another compiler.
pub(crate) fn web_target() -> PathBuf {
    target().join("web")
}

/// The bundle that the hub serves.
pub(crate) fn dist() -> PathBuf {
    root().join("dist")
}
