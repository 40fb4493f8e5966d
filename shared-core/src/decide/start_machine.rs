//! Start a machine. The order of the questions below is the rule (DESIGN.md section 4, "Machine start").

use crate::attestation;
use crate::buddy::Cover;
use crate::entry::Fact;
use crate::ids::MachineId;
use crate::material;
use crate::members::Member;
use crate::refusal::Refusal;
use crate::rulebook::Machine;
use crate::session_plan;
use crate::standing::fresh;
use crate::state::{Session, Stage};
use crate::viewer::Viewer;

pub(super) fn decide(viewer: &Viewer, id: &MachineId, material: Option<&str>) -> Result<Vec<Fact>, Refusal> {
    let session = super::open(viewer)?;
    let material = material.map(super::words).transpose()?;
    may_start(viewer, session, id, material.as_deref())?;
    Ok(vec![Fact::MachineStarted { machine: id.clone(), material }])
}

/// The machine, if this session may start it now; else the first refusal that holds.
pub fn may_start<'a>(
    viewer: &Viewer<'a>,
    session: &Session,
    id: &MachineId,
    material: Option<&str>,
) -> Result<&'a Machine, Refusal> {
    attestation::holds(viewer.book, session, viewer.now)?;
    if session.stage != Stage::Working {
        return Err(Refusal::Sweeping);
    }
    let machine = viewer.book.machine(id).ok_or_else(|| Refusal::NoSuchMachine { machine: id.clone() })?;
    if machine.room != session.room {
        let room = viewer.book.room(&machine.room).map_or_else(|| machine.room.to_string(), |room| room.name.clone());
        return Err(Refusal::MachineElsewhere { machine: machine.name.clone(), room });
    }
    if let Some(tag) = viewer.state.tags.get(id) {
        let problem = tag.problem.clone();
        return Err(Refusal::TaggedOut { machine: machine.name.clone(), problem, since: tag.since });
    }
    signed_off(viewer, viewer.members.get(viewer.me).ok_or(Refusal::NotAMember)?, machine)?;
    if let Some(material) = material.filter(|material| material::refuses(machine, material)) {
        return Err(Refusal::MaterialRefused { machine: machine.name.clone(), material: material.to_owned() });
    }
    if machine.buddy {
        let cover = crate::buddy::cover_now(viewer.book, viewer.state, session, id, viewer.now);
        if matches!(cover, Cover::GapSince(_)) {
            let renew_minutes = viewer.book.buddy.renew_minutes;
            return Err(Refusal::NoBuddy { machine: machine.name.clone(), renew_minutes });
        }
    }
    if machine.hot_work {
        before_last_spark(viewer, session, id)?;
    }
    if session.running(id).is_some() {
        return Err(Refusal::AlreadyRunning { machine: machine.name.clone() });
    }
    Ok(machine)
}

/// Whether a member is signed off on a machine's training now.
pub fn signed_off(viewer: &Viewer, member: &Member, machine: &Machine) -> Result<(), Refusal> {
    super::arrive::card_holds(member, viewer.now)?;
    let training = || viewer.book.training_name(&machine.training).to_owned();
    let refusal = || Refusal::NotSignedOff { machine: machine.name.clone(), training: training() };
    let until = *member.signed_off.get(&machine.training).ok_or_else(refusal)?;
    if viewer.now >= until {
        return Err(Refusal::SignOffExpired { training: training(), on: until });
    }
    match fresh::stale(viewer.book, viewer.state, member, &machine.training, viewer.now) {
        Some((within_days, last)) => Err(Refusal::SignOffStale { training: training(), within_days, last }),
        None => Ok(()),
    }
}

fn before_last_spark(viewer: &Viewer, session: &Session, id: &MachineId) -> Result<(), Refusal> {
    if let Some(last_spark) = session_plan::spark_refused(viewer, session, id)? {
        return Err(Refusal::PastLastSpark { last_spark, watch_minutes: viewer.book.fire_watch.minutes });
    }
    Ok(())
}
