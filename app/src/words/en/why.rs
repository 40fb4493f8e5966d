//! Words of English: asking why.

/// A heading, and the act under a refusal.
pub const WHY: &str = "Why?";
/// The act beside a time.
pub const ACT: &str = "why?";
/// The steel rule, to a screen reader.
pub const ALL: &str = "Why these times?";
