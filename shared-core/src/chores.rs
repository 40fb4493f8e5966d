//! The chores of a session and how long each takes.
