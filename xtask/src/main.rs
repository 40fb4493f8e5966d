//! `cargo xtask <command>`: one file per command.
fn main() {}
