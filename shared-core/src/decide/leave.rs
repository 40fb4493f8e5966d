//! Leave the room. Never blocked: what is not done is said before and is in the log; machines still running are taken
//! down as stopped. Why the sweep is not done is said along with it, or not.

use crate::entry::{Fact, Undone};
use crate::refusal::Refusal;
use crate::viewer::Viewer;

pub(super) fn decide(viewer: &Viewer, why: Option<Undone>) -> Result<Vec<Fact>, Refusal> {
    let session = super::open(viewer)?;
    let mut facts: Vec<Fact> =
        session.running_all().map(|use_| Fact::MachineStopped { machine: use_.machine.clone() }).collect();
    facts.extend(why.map(|why| Fact::SweepUndone { why }));
    facts.push(Fact::Left);
    Ok(facts)
}
