//! Say how a machine or the room was found. Anybody may, with or without a session.

use crate::entry::{Condition, Fact, Place};
use crate::refusal::Refusal;
use crate::viewer::Viewer;

pub(super) fn decide(
    viewer: &Viewer,
    place: Place,
    condition: Condition,
    note: Option<&str>,
) -> Result<Vec<Fact>, Refusal> {
    super::is_here(viewer, &place)?;
    Ok(vec![Fact::Found { place, condition, note: super::maybe_words(note)? }])
}
