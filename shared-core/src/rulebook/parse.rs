//! TOML into a rulebook.
