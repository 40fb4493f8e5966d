//! Did you mean.
