//! Folding facts into state.
