//! Start the sweep. Whoever sweeps has let go of their machines: those still running are taken down as stopped.
//!
//! Said again it changes the crew; the first start counts as the start.

use crate::entry::Fact;
use crate::refusal::Refusal;
use crate::viewer::Viewer;

pub(super) fn decide(viewer: &Viewer, crew: u32) -> Result<Vec<Fact>, Refusal> {
    let session = super::open(viewer)?;
    if crew == 0 {
        return Err(Refusal::NoCrew);
    }
    let mut facts: Vec<Fact> =
        session.running_all().map(|use_| Fact::MachineStopped { machine: use_.machine.clone() }).collect();
    facts.push(Fact::SweepStarted { crew });
    Ok(facts)
}
