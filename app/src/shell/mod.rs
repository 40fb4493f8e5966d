//! The only impure part: one file for each thing of the phone that is touched.

pub mod bell;
pub mod camera;
pub mod clock;
pub mod entropy;
pub mod hub_link;
pub mod journal;
mod js;
pub mod keys;
pub mod photo;
pub mod prefs;
pub mod tabs;
pub mod update;
pub mod wake_lock;
pub mod wakeups;
