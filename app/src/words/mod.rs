//! Every visible string that is not a refusal, in one file a language.

pub mod en;
