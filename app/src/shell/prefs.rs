//! Preferences, and a copy of the running session for the fastest start. In the browser's small store.
//!
//! The log is the truth. The copy is shown only until the log has been read, and is written after the log, never
//! instead of it; a copy that cannot be read is as good as none.

use gloo_storage::{LocalStorage, Storage};
use serde::Serialize;
use serde_json::Value;
use shared_core::ids::RoomId;
use shared_core::json::{FromJson, Unfit, from_json, read_as_json};
use shared_core::time::Instant;

const THEME: &str = "sweepbell.theme";
/// Read by the page's script too, which fetches the words: `public/start.js`.
const LANGUAGE: &str = "sweepbell.language";
const WELCOMED: &str = "sweepbell.welcomed";
const RUNNING: &str = "sweepbell.running";

/// What was chosen on this phone.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Chosen {
    /// Dark or light.
    pub theme: Theme,
    /// The first pages were read, or skipped.
    pub welcomed: bool,
}

/// Dark steel or drawing paper.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize)]
#[serde(rename_all = "lowercase")]
pub enum Theme {
    /// As the phone has it.
    #[default]
    Phone,
    /// Blackened steel.
    Dark,
    /// Drawing paper.
    Light,
}

impl FromJson for Theme {
    fn from_json(value: &Value) -> Result<Self, Unfit> {
        match value.as_str() {
            Some("phone") => Ok(Self::Phone),
            Some("dark") => Ok(Self::Dark),
            Some("light") => Ok(Self::Light),
            _ => Err(Unfit("a theme")),
        }
    }
}

/// What the first screen shows of a running session before the log has been read.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct Running {
    /// Where.
    pub room: RoomId,
    /// Since when.
    pub from: Instant,
    /// Until when at most.
    pub out_by: Instant,
    /// When the sweep starts.
    pub sweep_from: Instant,
}

from_json! { Running { room, from, out_by, sweep_from } }

read_as_json!(Theme);

/// What was chosen.
pub fn chosen() -> Chosen {
    Chosen {
        theme: LocalStorage::get(THEME).unwrap_or_default(),
        welcomed: LocalStorage::raw().get_item(WELCOMED).is_ok_and(|kept| kept.is_some()),
    }
}

/// Never again the first pages. Where nothing can be kept they come again, which harms nobody.
pub fn keep_welcomed() {
    let _ = LocalStorage::raw().set_item(WELCOMED, "1");
}

/// Keeps the theme. A full store keeps the old one, which harms nobody.
pub fn keep_theme(theme: Theme) {
    let _ = LocalStorage::set(THEME, theme);
}

/// Keeps the language by its tag, for the next time that the page is loaded.
pub fn keep_language(tag: &str) {
    let _ = LocalStorage::set(LANGUAGE, tag);
}

/// The copy of the running session.
pub fn running() -> Option<Running> {
    LocalStorage::get(RUNNING).ok()
}

/// Renews the copy, or takes it away.
pub fn keep_running(running: Option<&Running>) {
    match running {
        Some(running) => drop(LocalStorage::set(RUNNING, running)),
        None => LocalStorage::delete(RUNNING),
    }
}
