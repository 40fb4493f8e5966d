//! Say what became of what an earlier line says. Of a tag any member may, of the rest a steward.
//!
//! The check by a second person has rules of its own: [`super::clear_tag`].

use super::clear_tag;
use crate::entry::{Fact, Matter, Of, Step};
use crate::refusal::Refusal;
use crate::repair;
use crate::viewer::Viewer;

pub(super) fn decide(viewer: &Viewer, of: Of, step: Step, note: Option<&str>) -> Result<Vec<Fact>, Refusal> {
    let member = viewer.members.get(viewer.me).ok_or(Refusal::NotAMember)?;
    match &of.matter {
        Matter::Tag(machine) => {
            if !repair::current(viewer.state, machine).is_some_and(|outage| outage.is_about(&of)) {
                return Err(Refusal::NotTagged { machine: viewer.book.machine_name(machine) });
            }
            if step == Step::Checked {
                return clear_tag::decide(viewer, machine.clone());
            }
        }
        Matter::Found | Matter::Incident | Matter::Session if !member.steward => return Err(Refusal::StewardsAct),
        Matter::Found | Matter::Incident | Matter::Session => {}
    }
    let note = super::maybe_words(note)?;
    if step == Step::Remarked && note.is_none() {
        return Err(Refusal::NoWords);
    }
    Ok(vec![Fact::Noted { of, step, note }])
}
