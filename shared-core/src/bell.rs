//! Which bell is due.
