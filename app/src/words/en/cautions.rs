//! Words of English: what it is not.

/// Heading.
pub const TITLE: &str = "What this app cannot do";
/// DESIGN.md section 7.
pub const LINES: [&str; 4] = [
    "It supports your judgement. It is not a safety device.",
    "It does not make a machine safe, does not interlock it, and does not measure noise.",
    "It defers to the shop's rules, to local codes, to the authority having jurisdiction and to licensed practice.",
    "In danger: stop, leave, call the emergency number.",
];
