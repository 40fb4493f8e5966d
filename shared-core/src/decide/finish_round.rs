//! Do a round: any member may, in a session or outside one. Done early is done; it is due again from then on.

use crate::entry::Fact;
use crate::ids::RoundId;
use crate::refusal::Refusal;
use crate::viewer::Viewer;

pub(super) fn decide(viewer: &Viewer, round: RoundId) -> Result<Vec<Fact>, Refusal> {
    if viewer.members.get(viewer.me).is_none() {
        return Err(Refusal::NotAMember);
    }
    if viewer.book.round(&round).is_none() {
        return Err(Refusal::NoSuchRound { round });
    }
    Ok(vec![Fact::RoundDone { round }])
}
