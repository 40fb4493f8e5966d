//! Take down a buddy's confirmation. Its signature and freshness were checked when it was read ([`crate::code`]); what
//! is asked here is whether this person may cover this session.

use crate::buddy;
use crate::entry::{Fact, Given};
use crate::ids::{MachineId, PersonId};
use crate::refusal::Refusal;
use crate::viewer::Viewer;

pub(super) fn decide(
    viewer: &Viewer,
    buddy: PersonId,
    machine: Option<MachineId>,
    proof: Option<String>,
    given: Given,
) -> Result<Vec<Fact>, Refusal> {
    let session = super::open(viewer)?;
    if viewer.members.get(&buddy).is_none() {
        return Err(Refusal::NotAMember);
    }
    let heard = buddy::Heard::now(viewer);
    buddy::may_cover(viewer, &heard, &buddy, &session.id, &session.who, &session.room)?;
    Ok(vec![Fact::BuddyConfirmed { buddy, machine, proof, given }])
}
