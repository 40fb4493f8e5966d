//! Walk the hot-work place while its watch runs.

use crate::entry::Fact;
use crate::fire_watch::{self, WatchStage};
use crate::refusal::Refusal;
use crate::viewer::Viewer;

pub(super) fn decide(viewer: &Viewer) -> Result<Vec<Fact>, Refusal> {
    let session = super::open(viewer)?;
    match fire_watch::watch(viewer.book, session, viewer.now).map(|watch| watch.stage) {
        Some(WatchStage::Watching { .. }) => Ok(vec![Fact::WatchRound]),
        Some(WatchStage::Sparking | WatchStage::Over { .. }) | None => Err(Refusal::NoWatch),
    }
}
