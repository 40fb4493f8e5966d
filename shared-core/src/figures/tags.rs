//! Machines that were tagged out, and how long they were out of use within the stretch.
//!
//! Out from the first word that put a tag on to the next that took it off; a second tag on a tagged machine begins nothing
//! new. What is still tagged is out until the stretch ends.

use serde::Serialize;

use super::stretch::Stretch;
use crate::ids::MachineId;
use crate::rulebook::Rulebook;
use crate::state::{State, TagWord};
use crate::time::{Instant, Span};

/// A machine that was out of use.
#[derive(Clone, Debug, Default, PartialEq, Serialize)]
pub struct TagFigures {
    /// Which.
    pub machine: MachineId,
    /// How often it was taken out of use within the stretch.
    pub times: u32,
    /// How long it was out within the stretch.
    pub minutes: i64,
    /// Whether it was out when the stretch ended.
    pub still_out: bool,
}

pub(super) fn of(book: &Rulebook, state: &State, stretch: Stretch) -> Vec<TagFigures> {
    let mut told: Vec<TagFigures> = Vec::new();
    for (machine, words) in &state.tag_words {
        let (mut times, mut out, mut since) = (0, Span::ZERO, None::<Instant>);
        for TagWord { at, tag } in words.iter().filter(|word| word.at < stretch.to) {
            match (tag, since) {
                (Some(_), None) => {
                    since = Some(*at);
                    times += u32::from(stretch.holds(*at));
                }
                (None, Some(from)) => {
                    since = None;
                    out = out + stretch.shares(from, *at);
                }
                (Some(_), Some(_)) | (None, None) => {}
            }
        }
        out = since.map_or(out, |from| out + stretch.shares(from, stretch.to));
        if times > 0 || out > Span::ZERO {
            let minutes = out.minutes_up();
            told.push(TagFigures { machine: machine.clone(), times, minutes, still_out: since.is_some() });
        }
    }
    let place = |machine: &MachineId| book.machines.iter().position(|known| known.id == *machine);
    told.sort_by_key(|one| place(&one.machine).unwrap_or(usize::MAX));
    told
}
