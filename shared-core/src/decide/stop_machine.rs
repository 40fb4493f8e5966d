//! Stop a machine that this session started.

use crate::entry::Fact;
use crate::ids::MachineId;
use crate::refusal::Refusal;
use crate::viewer::Viewer;

pub(super) fn decide(viewer: &Viewer, machine: MachineId) -> Result<Vec<Fact>, Refusal> {
    let session = super::open(viewer)?;
    if session.running(&machine).is_none() {
        return Err(Refusal::NotRunning { machine: viewer.book.machine_name(&machine) });
    }
    Ok(vec![Fact::MachineStopped { machine }])
}
