//! Buddy coverage and its gaps.
