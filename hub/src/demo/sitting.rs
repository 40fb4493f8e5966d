//! One invented session, from the door to leaving, with the small failings that real ones have.
//!
//! Most sweeps are complete; now and then a chore is left, a confirmation comes late, a fire watch ends early.

use shared_core::entry::{Condition, Entry, Fact, Place};
use shared_core::ids::{ChoreId, SessionId};
use shared_core::rulebook::{Chore, Machine, Room, When};
use shared_core::time::{Instant, Span};

use super::chance::Chance;
use super::evening::{Past, Stay, Taken, present};
use crate::shop::Rules;

/// In a hundred sessions, this many have a sweep with something left out.
const SLOPPY_PERCENT: i64 = 14;
/// In a hundred buddy confirmations, this many come late.
const LATE_PERCENT: i64 = 9;
/// In a hundred fire watches, this many end early.
const CUT_SHORT_PERCENT: i64 = 20;

/// One session to be played.
pub(super) struct Sitting<'a> {
    pub(super) rules: &'a Rules,
    pub(super) room: &'a Room,
    pub(super) stay: &'a Stay<'a>,
    pub(super) others: &'a [Stay<'a>],
    pub(super) may_need_buddy: bool,
    pub(super) is_last_out: bool,
}

/// The session's entries so far, and its clock.
struct Told<'a> {
    stay: &'a Stay<'a>,
    session: SessionId,
    at: Instant,
    entries: Vec<Entry>,
}

impl Told<'_> {
    fn say(&mut self, fact: Fact) {
        self.say_at(self.at, fact);
    }

    fn say_at(&mut self, at: Instant, fact: Fact) {
        let who = self.stay.member.id.clone();
        self.entries.push(Entry { at, session: self.session.clone(), who, fact });
    }
}

impl<'a> Sitting<'a> {
    /// Plays it, and tells its entries in order of time.
    pub(super) fn play(&self, past: &mut Past, taken: &mut Taken, chance: &mut Chance) -> Vec<Entry> {
        let session = SessionId::new(format!("{:016x}", chance.bits()));
        let mut told = Told { stay: self.stay, session, at: self.stay.from, entries: Vec::new() };
        self.arrive(&mut told, chance);
        let used = self.work(&mut told, past, taken, chance);
        let last_spark = used.iter().filter(|(machine, _)| machine.hot_work).map(|(_, stopped)| *stopped).max();
        self.sweep(&mut told, &used, past, chance);
        self.leave(&mut told, last_spark, chance);
        told.entries.sort_by_key(|entry| entry.at);
        told.entries
    }

    fn arrive(&self, told: &mut Told, chance: &mut Chance) {
        told.say(Fact::Entered { room: self.room.id.clone(), out_by: self.stay.out_by });
        for statement in &self.rules.rulebook.statements {
            told.at = told.at + chance.seconds(2, 5);
            told.say(Fact::Attested { statement: statement.id.clone() });
        }
        told.at = told.at + chance.minutes(3, 9);
    }

    /// Uses some machines, sparks first. Gives each with the moment it stopped.
    fn work(
        &self,
        told: &mut Told,
        past: &Past,
        taken: &mut Taken,
        chance: &mut Chance,
    ) -> Vec<(&'a Machine, Instant)> {
        let sweep_at = self.stay.out_by - chance.minutes(28, 36);
        let spark_until = self.stay.out_by - self.watch() - chance.minutes(2, 6);
        let mut machines: Vec<_> = self.rules.rulebook.machines_in(&self.room.id).collect();
        chance.shuffle(&mut machines);
        machines.sort_by_key(|machine| !machine.hot_work);
        let mut used = Vec::new();
        for machine in machines {
            let until = if machine.hot_work { sweep_at.min(spark_until) } else { sweep_at };
            let stops = told.at + chance.minutes(14, 48) + chance.seconds(0, 59);
            if used.len() == 3 || stops > until || !self.may_use(machine, told.at, stops, past, taken) {
                continue;
            }
            Self::found(told, machine, past, chance);
            if machine.buddy {
                self.keep_buddy(told, stops, chance);
            }
            told.say(Fact::MachineStarted { machine: machine.id.clone(), material: None });
            taken.push((machine.id.clone(), told.at, stops));
            told.say_at(stops, Fact::MachineStopped { machine: machine.id.clone() });
            used.push((machine, stops));
            told.at = stops + chance.minutes(2, 7);
        }
        told.at = told.at.max(sweep_at);
        used
    }

    fn may_use(&self, machine: &Machine, from: Instant, to: Instant, past: &Past, taken: &Taken) -> bool {
        let signed_off = self.stay.member.signed_off.get(&machine.training).is_some_and(|until| *until > to);
        let buddy = !machine.buddy || (self.may_need_buddy && present(self.others, from, to).is_some());
        let free = !taken.iter().any(|(id, since, until)| *id == machine.id && *since < to && *until > from);
        signed_off && buddy && free && !past.is_tagged(&machine.id, from, to)
    }

    /// What the session before left is found; what it left clean is mostly not worth a word.
    fn found(told: &mut Told, machine: &Machine, past: &Past, chance: &mut Chance) {
        let dirty = past.left_dirty.get(&machine.id).copied().unwrap_or(false);
        if !chance.happens(if dirty { 80 } else { 25 }) {
            return;
        }
        let (condition, note) = if dirty {
            let notes = ["chips on the bed", "filings under the bench", "offcuts left lying", "rag left on the guard"];
            (Condition::Mess, chance.pick(&notes).map(|note| (*note).to_owned()))
        } else {
            (Condition::Clean, None)
        };
        told.say(Fact::Found { place: Place::Machine(machine.id.clone()), condition, note });
        told.at = told.at + chance.seconds(20, 90);
    }

    /// Confirmations from just before the start until the stop; one that comes late leaves a gap.
    fn keep_buddy(&self, told: &mut Told, stops: Instant, chance: &mut Chance) {
        let Some(buddy) = present(self.others, told.at, stops).cloned() else { return };
        let renew = i64::from(self.rules.rulebook.buddy.renew_minutes);
        let confirmed = Fact::BuddyConfirmed { buddy, machine: None, proof: None };
        let mut at = told.at;
        while at < stops {
            told.say_at(at, confirmed.clone());
            let late = if chance.happens(LATE_PERCENT) { chance.minutes(2, 7) } else { Span::ZERO };
            at = at + Span::from_minutes(renew) + late - chance.seconds(20, 120);
        }
        told.at = told.at + chance.seconds(15, 40);
    }

    /// The sweep: machine by machine, then the room.
    fn sweep(&self, told: &mut Told, used: &[(&'a Machine, Instant)], past: &mut Past, chance: &mut Chance) {
        told.say(Fact::SweepStarted { crew: 1 });
        let sloppy = chance.happens(SLOPPY_PERCENT);
        for (machine, _) in used {
            let mut all = true;
            for chore in &machine.chores {
                all &= Self::chore(told, machine.id.as_str(), chore, sloppy, chance);
            }
            past.left_dirty.insert(machine.id.clone(), !all);
        }
        for chore in &self.room.chores {
            if chore.when == When::Always || self.is_last_out {
                Self::chore(told, self.room.id.as_str(), chore, sloppy, chance);
            }
        }
    }

    /// Does a chore, or leaves it. Gives whether it was done.
    fn chore(told: &mut Told, owner: &str, chore: &Chore, sloppy: bool, chance: &mut Chance) -> bool {
        if sloppy && chance.happens(35) {
            return false;
        }
        let took_ms = chore.minutes_milli * chance.between(40, 90);
        told.at = told.at + Span::from_ms(took_ms.clamp(20_000, 600_000));
        let minutes = Some(minutes(Span::from_ms(took_ms)));
        told.say(Fact::ChoreDone { chore: ChoreId::of(owner, &chore.id), minutes, photo: None });
        true
    }

    /// Leaves when the sweep is done and, after hot work, the watch is over; or, now and then, before that.
    fn leave(&self, told: &mut Told, last_spark: Option<Instant>, chance: &mut Chance) {
        if let Some(last_spark) = last_spark {
            let over = last_spark + self.watch();
            let cut_short = if chance.happens(CUT_SHORT_PERCENT) { chance.minutes(6, 14) } else { Span::ZERO };
            let mut round = last_spark + chance.minutes(9, 11);
            while round < over - cut_short {
                told.say_at(round, Fact::WatchRound);
                round = round + chance.minutes(9, 11);
            }
            told.at = told.at.max(over - cut_short);
        }
        told.at = told.at + chance.seconds(30, 150);
        told.say(Fact::Left);
    }

    fn watch(&self) -> Span {
        Span::from_minutes(i64::from(self.rules.rulebook.fire_watch.minutes))
    }
}

/// Minutes to a tenth, as a phone notes them.
#[expect(clippy::cast_precision_loss, reason = "tenths of a minute of one chore are few")]
fn minutes(span: Span) -> f64 {
    (span.ms() / 6_000) as f64 / 10.0
}
