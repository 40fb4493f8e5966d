//! What a rulebook says for the worst minute: extinguishers, ways out, where to gather.
//!
//! Types alone. What an extinguisher may be offered for is decided in [`crate::fire`]; the same letter means different
//! fires in different regions, so the letters are never read without their region.

use serde::Serialize;

use crate::ids::RoomId;
use crate::json::{FromJson, Unfit, from_json};

/// What holds for all extinguishers of a shop.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct FireRule {
    /// Whose class letters are on them.
    pub letters: Letters,
    /// Where everybody gathers.
    pub gather: Option<String>,
}

/// Whose class letters are meant: `C` is live electrics in the one and gases in the other.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
pub enum Letters {
    /// NFPA 10 5.2: A ordinary, B liquids and gases, C live electrics, D metals, K cooking.
    #[serde(rename = "US")]
    Us,
    /// EN 2: A ordinary, B liquids, C gases, D metals, F cooking oils; no letter for live electrics.
    #[serde(rename = "EN")]
    En,
}

/// What comes out of it.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[serde(rename_all = "kebab-case")]
pub enum Agent {
    /// Water, plain or as mist.
    Water,
    /// Foam.
    Foam,
    /// Powder for ordinary fires, liquids and gases: dry chemical.
    Powder,
    /// Carbon dioxide.
    Co2,
    /// A gas that leaves nothing behind.
    CleanGas,
    /// Wet chemical, for cooking oil.
    WetChemical,
    /// Powder for burning metal: dry powder, which is not dry chemical.
    MetalPowder,
    /// Dry sand, for burning metal.
    DrySand,
}

/// One extinguisher, or what serves as one.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Extinguisher {
    /// Its id.
    pub id: String,
    /// Which room.
    pub room: RoomId,
    /// Where in it, so that a stranger finds it.
    pub place: String,
    /// What comes out of it.
    pub agent: Agent,
    /// The class letters on it.
    pub classes: Vec<String>,
    /// Whether it is marked for live electrics; where the letters have none for that.
    pub live_electrics: bool,
}

/// A door, as one sees it in a hurry.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Exit {
    /// Its id.
    pub id: String,
    /// Which room.
    pub room: RoomId,
    /// What it is and where it leads.
    pub text: String,
    /// Whether it is a way out; a door that only looks like one is written down too.
    pub way_out: bool,
}

from_json! {
    FireRule { letters, gather }
    Extinguisher { id, room, place, agent, classes, live_electrics }
    Exit { id, room, text, way_out }
}

impl Letters {
    /// Every word for it in a rulebook.
    pub const WORDS: [(&'static str, Self); 2] = [("US", Self::Us), ("EN", Self::En)];
}

impl Agent {
    /// Every word for it in a rulebook.
    pub const WORDS: [(&'static str, Self); 8] = [
        ("water", Self::Water),
        ("foam", Self::Foam),
        ("powder", Self::Powder),
        ("co2", Self::Co2),
        ("clean-gas", Self::CleanGas),
        ("wet-chemical", Self::WetChemical),
        ("metal-powder", Self::MetalPowder),
        ("dry-sand", Self::DrySand),
    ];
}

/// What a word stands for in a list of words.
pub fn word_in<T: Copy>(words: &[(&'static str, T)], word: &str) -> Option<T> {
    words.iter().find(|(known, _)| *known == word).map(|(_, meant)| *meant)
}

impl FromJson for Letters {
    fn from_json(value: &serde_json::Value) -> Result<Self, Unfit> {
        word_in(&Self::WORDS, value.as_str().unwrap_or_default()).ok_or(Unfit("`US` or `EN`"))
    }
}

impl FromJson for Agent {
    fn from_json(value: &serde_json::Value) -> Result<Self, Unfit> {
        word_in(&Self::WORDS, value.as_str().unwrap_or_default()).ok_or(Unfit("what an extinguisher holds"))
    }
}
