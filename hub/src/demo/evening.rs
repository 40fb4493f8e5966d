//! One evening in one room: who comes, who is whose buddy, who leaves last.
//!
//! Only one of those present runs machines that ask for a buddy, so that the others are free to be one. Nobody starts
//! a machine that is tagged out, in use, or that they are not signed off on.

use std::collections::{BTreeMap, BTreeSet};

use shared_core::entry::Entry;
use shared_core::ids::{MachineId, PersonId, RoundId};
use shared_core::members::Member;
use shared_core::rulebook::Room;
use shared_core::time::{Instant, MINUTE_MS, Span};

use super::chance::Chance;
use super::sitting::Sitting;
use crate::shop::Rules;

/// What an evening inherits from those before it.
pub(super) struct Past {
    /// Machines out of use, from when, to when.
    pub(super) tagged: Vec<(MachineId, Instant, Option<Instant>)>,
    /// Machines whose chores were left, to be found as a mess by whoever comes next.
    pub(super) left_dirty: BTreeMap<MachineId, bool>,
    /// When each round was last done.
    pub(super) rounds: BTreeMap<RoundId, Instant>,
    /// Since when nobody thinks of the rarer ones.
    pub(super) rounds_forgotten_from: Instant,
}

impl Past {
    /// Whether a machine is out of use at some time of a stretch.
    pub(super) fn is_tagged(&self, machine: &MachineId, from: Instant, to: Instant) -> bool {
        let meets = |since: Instant, until: Option<Instant>| since < to && until.is_none_or(|until| until > from);
        self.tagged.iter().any(|(id, since, until)| id == machine && meets(*since, *until))
    }
}

/// One evening in one room.
pub(super) struct Evening<'a> {
    pub(super) rules: &'a Rules,
    pub(super) room: &'a Room,
    pub(super) opens: Instant,
}

/// Somebody's stay, before it is played.
#[derive(Clone, Debug)]
pub(super) struct Stay<'a> {
    pub(super) member: &'a Member,
    pub(super) from: Instant,
    pub(super) out_by: Instant,
}

/// When machines of the room are taken.
pub(super) type Taken = Vec<(MachineId, Instant, Instant)>;

impl Evening<'_> {
    /// Plays it, and tells everybody's entries. Those who came are `elsewhere` for other rooms.
    pub(super) fn play(&self, elsewhere: &mut BTreeSet<PersonId>, past: &mut Past, chance: &mut Chance) -> Vec<Entry> {
        let stays = self.stays(elsewhere, chance);
        elsewhere.extend(stays.iter().map(|stay| stay.member.id.clone()));
        let last_to_come = stays.iter().map(|stay| stay.from).max();
        let (mut entries, mut taken) = (Vec::new(), Taken::new());
        for stay in &stays {
            let others: Vec<_> = stays.iter().filter(|other| other.member.id != stay.member.id).cloned().collect();
            let may_need_buddy = Some(stay.from) == last_to_come && !others.is_empty();
            let sitting = Sitting { rules: self.rules, room: self.room, stay, others: &others, may_need_buddy };
            entries.extend(sitting.play(past, &mut taken, chance));
        }
        entries
    }

    /// One to three people who can do something here; they come within an hour and stay a good while.
    fn stays(&self, elsewhere: &BTreeSet<PersonId>, chance: &mut Chance) -> Vec<Stay<'_>> {
        let can_work = |member: &&Member| {
            let here = self.rules.rulebook.machines_in(&self.room.id);
            let inducted = member.inducted_until.is_some_and(|until| until > self.opens);
            inducted && here.filter(|machine| member.signed_off.contains_key(&machine.training)).count() >= 2
        };
        let free = self.rules.members.iter().filter(|member| !elsewhere.contains(&member.id));
        let mut people: Vec<_> = free.filter(can_work).collect();
        chance.shuffle(&mut people);
        // Most evenings are shared; that is when machines that ask for a buddy can be used.
        let count = if chance.happens(25) { 1 } else { 2 + usize::from(chance.happens(35)) };
        let mut leaves_at = Vec::new();
        let stay = |member| {
            let from = self.opens + chance.minutes(0, 60) + chance.seconds(0, 59);
            let mut out_by = Instant::from_ms((from + chance.minutes(125, 225)).ms() / QUARTER_MS * QUARTER_MS);
            while leaves_at.contains(&out_by) {
                out_by = out_by + Span::from_ms(QUARTER_MS);
            }
            leaves_at.push(out_by);
            Stay { member, from, out_by }
        };
        people.into_iter().take(count).map(stay).collect()
    }
}

/// An out-by is a round time.
const QUARTER_MS: i64 = 15 * MINUTE_MS;

/// Who of the others is in the room for a whole stretch, to be a buddy.
pub(super) fn present<'a>(others: &'a [Stay<'_>], from: Instant, to: Instant) -> Option<&'a PersonId> {
    // People leave some minutes before their out-by: a buddy who is about to sweep is not asked any more.
    let about_to_leave = Span::from_minutes(30);
    let there = others.iter().find(|stay| stay.from < from && stay.out_by - about_to_leave > to);
    there.map(|stay| &stay.member.id)
}
