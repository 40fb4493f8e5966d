//! Who in the room could be this viewer's buddy, and how old that knowledge is.
//!
//! Whoever cannot is named with the reason, so that nobody is asked in vain. The first is the one to ask: where others
//! in the room run a machine without a buddy now, asking that one leaves as many as possible of them somebody to ask
//! ([`crate::buddy::matching`]). Who else is about to ask no phone can know. Someone without a session is not known to
//! be in the room and is not here; they may be asked all the same.

use crate::buddy::{self, Heard, matching};
use crate::ids::PersonId;
use crate::refusal::Refusal;
use crate::roster;
use crate::state::Session;
use crate::time::Instant;
use crate::view::Viewer;

/// Somebody else in the room.
#[derive(Clone, Debug, PartialEq)]
pub struct Candidate {
    /// Who.
    pub who: PersonId,
    /// Their name.
    pub name: String,
    /// When their phone last said anything that this phone has heard.
    pub heard: Instant,
    /// Why they cannot be asked, if they cannot.
    pub refusal: Option<Refusal>,
}

/// Everybody else who is known to be in the room of this viewer's session: the one to ask, then others who may be asked,
/// then those who cannot; those last heard of first. Nobody without a session.
pub fn candidates(viewer: &Viewer) -> Vec<Candidate> {
    let Some(own) = viewer.open_session() else { return Vec::new() };
    let mut others: Vec<&Session> =
        roster::others_in_room(viewer.state, &own.room, &own.id).filter(|other| other.who != own.who).collect();
    others.sort_by(|a, b| b.last_at.cmp(&a.last_at).then_with(|| a.id.cmp(&b.id)));
    let heard = Heard::now(viewer);
    let first = one_to_ask(viewer, &heard, own, &others);
    let mut rows: Vec<(u8, Candidate)> = Vec::new();
    for other in others {
        let refusal = buddy::may_cover(viewer, &heard, &other.who, &own.id, &own.who, &own.room).err();
        let place = if refusal.is_some() { 2 } else { u8::from(first != Some(&other.who)) };
        let name = viewer.members.name(&other.who).to_owned();
        rows.push((place, Candidate { who: other.who.clone(), name, heard: other.last_at, refusal }));
    }
    rows.sort_by_key(|(place, _)| *place);
    rows.into_iter().map(|(_, row)| row).collect()
}

/// So many others are weighed against each other, those last heard of: whom of more than these to ask is all the same.
const WEIGHED_MOST: usize = 24;

/// Whom a maximum matching gives this viewer, of all who need a buddy now.
fn one_to_ask<'s>(viewer: &Viewer, heard: &Heard, own: &'s Session, others: &[&'s Session]) -> Option<&'s PersonId> {
    let others = &others[..others.len().min(WEIGHED_MOST)];
    let mut askers: Vec<&Session> = vec![own];
    askers.extend(others.iter().filter(|other| buddy::is_bare(viewer, heard, other)));
    askers.sort_by(|a, b| (a.from, &a.id).cmp(&(b.from, &b.id)));
    // This viewer may serve another who asks only where the shop lets a buddy run such a machine.
    let mut servers = others.to_vec();
    if viewer.book.buddy.may_operate {
        servers.push(own);
    }
    let may = |asker: &&Session| {
        let could =
            |server: &Session| buddy::may_cover(viewer, heard, &server.who, &asker.id, &asker.who, &asker.room).is_ok();
        (0..servers.len()).filter(|place| servers.get(*place).is_some_and(|server| could(server))).collect()
    };
    let may: Vec<Vec<usize>> = askers.iter().map(may).collect();
    let covers = viewer.book.buddy.covers as usize;
    let places = servers.iter().map(|server| covers.saturating_sub(buddy::covering(heard, &server.who, None)));
    let served_by = matching::most_served(&may, &places.collect::<Vec<_>>());
    let mine = askers.iter().position(|asker| asker.id == own.id)?;
    servers.get((*served_by.get(mine)?)?).map(|server| &server.who)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::command::Command;
    use crate::testing::{World, arrive, at, confirm, start};
    use crate::words::Words;

    /// Whom `who` could ask at minute 100: names, `!` before those who cannot.
    #[track_caller]
    fn check(acts: Vec<(&str, i64, Command)>, may_operate: bool, who: &str, expected: &[&str]) -> Vec<Candidate> {
        let mut world = World::new();
        world.book.buddy.may_operate = may_operate;
        for (who, minute, command) in acts {
            let said = format!("{who} at {minute}: {command:?}");
            assert_eq!(world.act(who, minute, command), Ok(()), "{said}");
        }
        let me = PersonId::from(who);
        let rows = candidates(&world.viewer(&me, at(100)));
        let told: Vec<String> =
            rows.iter().map(|row| format!("{}{}", if row.refusal.is_some() { "!" } else { "" }, row.who)).collect();
        assert_eq!(told, expected);
        rows
    }

    fn enter(who: &str, minute: i64) -> (&str, i64, Command) {
        (who, minute, arrive(who, "forge", minute, minute + 180))
    }

    #[test]
    fn who_may_be_asked_comes_first_and_who_may_not_says_why() {
        check(vec![], false, "noor", &[]);
        check(vec![enter("noor", 80)], false, "noor", &[]);
        let three = || vec![enter("noor", 80), enter("ilse", 81), enter("bram", 82)];
        // Last heard of first.
        let rows = check(three(), false, "noor", &["bram", "ilse"]);
        assert_eq!(rows.iter().map(|row| row.heard).collect::<Vec<_>>(), [at(82), at(81)]);
        // Nobody in another room, nobody who has left.
        let away = vec![enter("noor", 80), ("ilse", 81, arrive("ilse", "fitting", 81, 200)), enter("bram", 82)];
        check([away, vec![("bram", 90, Command::Leave)]].concat(), false, "noor", &[]);
        // Ilse runs the lathe with Bram as her buddy: neither is free for Noor, and both say why.
        let busy = || {
            let acts = vec![("ilse", 95, confirm("bram")), ("ilse", 96, start("lathe"))];
            [three(), acts].concat()
        };
        let rows = check(busy(), false, "noor", &["!ilse", "!bram"]);
        let reasons: Vec<_> =
            rows.iter().filter_map(|row| row.refusal.as_ref()).map(|why| why.reason(&Words::english())).collect();
        assert_eq!(reasons, ["ILSE is running a machine that asks for a buddy.", "BRAM is somebody else's buddy now."]);
        check(busy(), true, "noor", &["ilse", "!bram"]);
        // His word has lapsed: he is free. Where the shop lets her, Ilse could be asked too; but she needs him herself, or
        // Noor, and so the one to ask is whoever leaves both somebody.
        let lapsed = || {
            let acts = vec![("ilse", 82, confirm("bram")), ("ilse", 83, start("lathe"))];
            [three(), acts].concat()
        };
        check(lapsed(), false, "noor", &["bram", "!ilse"]);
        check(lapsed(), true, "noor", &["ilse", "bram"]);
    }
}
