//! Recurring duties.
