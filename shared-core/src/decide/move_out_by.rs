//! Move the out-by, within the time for which the attestations hold.

use crate::decide::arrive::out_by_range_of;
use crate::entry::Fact;
use crate::refusal::Refusal;
use crate::time::Instant;
use crate::viewer::Viewer;

pub(super) fn decide(viewer: &Viewer, out_by: Instant) -> Result<Vec<Fact>, Refusal> {
    let session = super::open(viewer)?;
    let (earliest, latest) = out_by_range_of(viewer.book, session, viewer.now);
    if out_by < earliest || out_by > latest {
        return Err(Refusal::OutByOutOfRange { earliest, latest });
    }
    Ok(vec![Fact::OutByMoved { out_by }])
}
