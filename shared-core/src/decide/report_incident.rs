//! Tell the steward that something happened, or nearly did. Anybody may, with or without a session.
//!
//! What is asked for is what happened and where; never who was at fault, nor what anybody suffers from.

use crate::entry::{Fact, Told};
use crate::refusal::Refusal;
use crate::viewer::Viewer;

pub(super) fn decide(viewer: &Viewer, note: &str, told: Told) -> Result<Vec<Fact>, Refusal> {
    if let Some(place) = &told.place {
        super::is_here(viewer, place)?;
    }
    Ok(vec![Fact::Incident { note: super::words(note)?, told }])
}
