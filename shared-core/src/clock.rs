//! A steady clock over a wall clock that may jump.
