//! Which material a machine refuses.
