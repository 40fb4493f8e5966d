//! The reserve and the backward schedule.
