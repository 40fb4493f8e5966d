//! Take a tag off: a steward's act.

use crate::entry::Fact;
use crate::ids::MachineId;
use crate::refusal::Refusal;
use crate::viewer::Viewer;

pub(super) fn decide(viewer: &Viewer, machine: MachineId) -> Result<Vec<Fact>, Refusal> {
    if !viewer.members.get(viewer.me).is_some_and(|member| member.steward) {
        return Err(Refusal::StewardsAct);
    }
    if !viewer.state.tags.contains_key(&machine) {
        return Err(Refusal::NotTagged { machine: viewer.book.machine_name(&machine) });
    }
    Ok(vec![Fact::TagCleared { machine }])
}
