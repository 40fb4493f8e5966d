//! How places were found, by place and by hour of the day.
//!
//! Only what somebody said counts: a mess that nobody wrote down is in no figure, and a place that is looked at more often
//! has more of both. So clean and mess stand side by side, and a rate is left to whoever reads both.

use serde::Serialize;

use super::stretch::{Stretch, weekday_and_hour};
use crate::entry::{Condition, Place};
use crate::ordered::Map;
use crate::state::State;
use crate::sync::shop::UtcOffset;

/// What was found.
#[derive(Clone, Debug, Default, PartialEq, Serialize)]
pub struct Mess {
    /// Each place that was found, most mess first.
    pub places: Vec<PlaceFound>,
    /// How often a mess was found in each hour of the day, from midnight.
    pub hours: Vec<i64>,
}

/// A place that was found.
#[derive(Clone, Debug, Default, PartialEq, Serialize)]
pub struct PlaceFound {
    /// The id of a machine, or of a room.
    pub place: String,
    /// Whether it is a room.
    pub is_room: bool,
    /// How often as it should be.
    pub clean: u32,
    /// How often not.
    pub mess: u32,
}

impl Mess {
    /// How often clean, and how often not, in all.
    pub fn totals(&self) -> (u32, u32) {
        (self.places.iter().map(|place| place.clean).sum(), self.places.iter().map(|place| place.mess).sum())
    }
}

pub(super) fn of(state: &State, offsets: &[UtcOffset], stretch: Stretch) -> Mess {
    let (mut places, mut hours) = (Map::<(bool, String), (u32, u32)>::new(), vec![0; 24]);
    for found in state.found.iter().filter(|found| stretch.holds(found.at)) {
        let place = match &found.place {
            Place::Machine(machine) => (false, machine.to_string()),
            Place::Room(room) => (true, room.to_string()),
        };
        let (clean, mess) = places.entry(place).or_default();
        match found.condition {
            Condition::Clean => *clean += 1,
            Condition::Mess => {
                *mess += 1;
                if let Some(hour) = hours.get_mut(weekday_and_hour(offsets, found.at).1) {
                    *hour += 1;
                }
            }
        }
    }
    let told = places.into_iter().map(|((is_room, place), (clean, mess))| PlaceFound { place, is_room, clean, mess });
    let mut places: Vec<PlaceFound> = told.collect();
    places.sort_by_key(|place| std::cmp::Reverse(place.mess));
    Mess { places, hours }
}
