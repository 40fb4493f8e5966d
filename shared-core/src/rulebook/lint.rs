//! Every problem of a rulebook at once.
