//! The app's screens: each reads [`crate::store::AppView`] and sends intentions, and decides nothing.
//!
//! [`frame::Screens`] is the root: the gate until the app can be used, then the screen of the present address with the
//! places at its foot; bells and the sheet between two buddies lie over all of them.
//!
//! Three sizes: a screen lists its sections, a section takes fields and sends intentions, a part (`crate::parts`)
//! draws plain values. The present instant is read at leaves alone ([`time`]).

pub mod bell;
pub mod bell_answer;
pub mod bench;
pub mod board;
pub mod book;
pub mod buddy_confirm;
mod buddy_pin;
pub mod cautions;
pub mod choose;
pub mod door;
pub mod frame;
#[cfg(feature = "gallery")]
pub mod gallery;
pub mod gate;
pub mod later;
pub mod look;
pub mod notice_bar;
pub mod pocket;
pub mod room;
pub mod round_sheet;
pub mod rule;
pub mod scan;
pub mod sweep;
pub mod time;
pub mod wants;
pub mod welcome;
pub mod why;
