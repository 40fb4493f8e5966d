//! One evening in one room: who comes, who is whose buddy, who leaves last.
//!
//! Only one of those present runs machines that ask for a buddy, so that the others are free to be one. Nobody starts
//! a machine that is tagged out, in use, or that they are not signed off on.

use std::collections::BTreeMap;

use shared_core::entry::Entry;
use shared_core::ids::{MachineId, PersonId};
use shared_core::members::Member;
use shared_core::rulebook::Room;
use shared_core::time::{Instant, Span};

use super::chance::Chance;
use super::sitting::Sitting;
use crate::shop::Rules;

/// What an evening inherits from those before it.
pub(super) struct Past {
    /// Machines out of use, from when, to when.
    pub(super) tagged: Vec<(MachineId, Instant, Option<Instant>)>,
    /// Machines whose chores were left, to be found as a mess by whoever comes next.
    pub(super) left_dirty: BTreeMap<MachineId, bool>,
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
    /// Plays it, and tells everybody's entries.
    pub(super) fn play(&self, past: &mut Past, chance: &mut Chance) -> Vec<Entry> {
        let stays = self.stays(chance);
        let last_out = stays.iter().map(|stay| stay.out_by).max();
        let (mut entries, mut taken) = (Vec::new(), Taken::new());
        for (n, stay) in stays.iter().enumerate() {
            let others: Vec<_> = stays.iter().filter(|other| other.member.id != stay.member.id).cloned().collect();
            let sitting = Sitting {
                rules: self.rules,
                room: self.room,
                stay,
                others: &others,
                may_need_buddy: n == 0 && !others.is_empty(),
                is_last_out: Some(stay.out_by) == last_out,
            };
            entries.extend(sitting.play(past, &mut taken, chance));
        }
        entries
    }

    /// One to three people, who come within an hour and a half and stay a good while.
    fn stays(&self, chance: &mut Chance) -> Vec<Stay<'_>> {
        let mut people: Vec<_> = self
            .rules
            .members
            .iter()
            .filter(|member| member.inducted_until.is_some_and(|until| until > self.opens))
            .collect();
        chance.shuffle(&mut people);
        // Most evenings are shared; that is when machines that ask for a buddy can be used.
        let count = if chance.happens(30) { 1 } else { 2 + usize::from(chance.happens(35)) };
        let mut leaves_at = Vec::new();
        people
            .into_iter()
            .take(count)
            .map(|member| {
                let from = self.opens + chance.minutes(0, 90) + chance.seconds(0, 59);
                let quarter = 15 * 60_000;
                let mut out_by = Instant::from_ms((from + chance.minutes(110, 200)).ms() / quarter * quarter);
                while leaves_at.contains(&out_by) {
                    out_by = out_by + Span::from_minutes(15);
                }
                leaves_at.push(out_by);
                Stay { member, from, out_by }
            })
            .collect()
    }
}

/// Who of the others is in the room for a whole stretch, to be a buddy.
pub(super) fn present<'a>(others: &'a [Stay<'_>], from: Instant, to: Instant) -> Option<&'a PersonId> {
    // People leave some minutes before their out-by: a buddy who is about to sweep is not asked any more.
    let about_to_leave = Span::from_minutes(30);
    let there = others.iter().find(|stay| stay.from < from && stay.out_by - about_to_leave > to);
    there.map(|stay| &stay.member.id)
}
