//! Learning how long chores take.
