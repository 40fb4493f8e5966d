//! Tag a machine out, in words. Any member may, with or without a session; a machine that runs is stopped by it.
//!
//! A tag is a word on a phone and replaces no lock (29 CFR 1910.147; a defect tag stays until the repair).

use crate::entry::Fact;
use crate::ids::MachineId;
use crate::refusal::Refusal;
use crate::viewer::Viewer;

pub(super) fn decide(
    viewer: &Viewer,
    machine: MachineId,
    problem: &str,
    photo: Option<String>,
) -> Result<Vec<Fact>, Refusal> {
    if viewer.members.get(viewer.me).is_none() {
        return Err(Refusal::NotAMember);
    }
    if viewer.book.machine(&machine).is_none() {
        return Err(Refusal::NoSuchMachine { machine });
    }
    let problem = super::words(problem)?;
    let mut facts = Vec::new();
    if viewer.open_session().is_some_and(|session| session.running(&machine).is_some()) {
        facts.push(Fact::MachineStopped { machine: machine.clone() });
    }
    facts.push(Fact::TaggedOut { machine, problem, photo });
    Ok(facts)
}
