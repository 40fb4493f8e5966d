//! Give a mended machine back: the check by a second person, after which its tag is off.
//!
//! Two people always: whoever says that it is mended does not check it. Who checks must know the machine: they are
//! signed off on it, or a steward. Tools and loose parts gone, guards back, everybody clear, the tag taken off by who may
//! (29 CFR 1910.147(e)); a tag stays until what was wrong is put right (29 CFR 1910.145(f)). The shop's own rules come first.

use super::arrive::inducted;
use super::start_machine::signed_off;
use crate::entry::{Fact, Step};
use crate::ids::MachineId;
use crate::refusal::Refusal;
use crate::repair::{self, Standing};
use crate::viewer::Viewer;

pub(super) fn decide(viewer: &Viewer, machine: MachineId) -> Result<Vec<Fact>, Refusal> {
    let of = may_check(viewer, &machine)?;
    Ok(vec![Fact::Noted { of, step: Step::Checked, note: None }, Fact::TagCleared { machine }])
}

/// The newest line of the tag that this viewer may take off; else the first refusal that holds.
pub fn may_check(viewer: &Viewer, id: &MachineId) -> Result<crate::entry::Of, Refusal> {
    let member = viewer.members.get(viewer.me).ok_or(Refusal::NotAMember)?;
    let machine = || viewer.book.machine_name(id);
    let outage = repair::current(viewer.state, id).ok_or_else(|| Refusal::NotTagged { machine: machine() })?;
    let Standing::Mended { by, .. } = outage.standing() else { return Err(Refusal::NotMended { machine: machine() }) };
    if by == viewer.me {
        return Err(Refusal::SecondPerson { machine: machine() });
    }
    if !member.steward {
        let known = viewer.book.machine(id).ok_or_else(|| Refusal::NoSuchMachine { machine: id.clone() })?;
        inducted(member, viewer.now)?;
        signed_off(viewer, member, known)?;
    }
    Ok(outage.newest())
}
