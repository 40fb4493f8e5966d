//! One invented session, from the door to leaving, with the small failings that real ones have.
//!
//! Most sweeps are complete; now and then a chore is left, a confirmation comes late, a fire watch ends early. Most chores
//! take about as long as [`pace`] says, which is not what the rulebook says: that is what the reserve has to learn.

use shared_core::entry::{Condition, Entry, Fact, Given, Place};
use shared_core::ids::{ChoreId, SessionId};
use shared_core::round::{Every, Standing, standing};
use shared_core::rulebook::{Chore, Machine, Room, When};
use shared_core::time::{Instant, MINUTE_MS, Span};

use super::chance::Chance;
use super::evening::{Past, Stay, Taken, present};
use crate::shop::Rules;

/// In a hundred sessions, this many have a sweep with something left out.
const SLOPPY_PERCENT: i64 = 14;
/// In a hundred buddy confirmations, this many come late.
const LATE_PERCENT: i64 = 16;
/// In a hundred fire watches, this many end early.
const CUT_SHORT_PERCENT: i64 = 20;

/// A daily round comes again by then.
const DAY: Span = Span::from_minutes(24 * 60);
/// A monthly round comes again by then.
const MONTH: Span = Span::from_minutes(31 * 24 * 60);

/// One session to be played.
pub(super) struct Sitting<'a> {
    pub(super) rules: &'a Rules,
    pub(super) room: &'a Room,
    pub(super) stay: &'a Stay<'a>,
    pub(super) others: &'a [Stay<'a>],
    pub(super) may_need_buddy: bool,
}

/// One use of a machine.
struct Run<'a> {
    machine: &'a Machine,
    from: Instant,
    to: Instant,
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
        let hot = self.hot_work(told.at, past, taken, chance);
        let mut used = self.work(&mut told, hot.as_ref().map(|hot| hot.from), past, taken, chance);
        if let Some(hot) = &hot {
            told.at = hot.from;
            self.run(&mut told, hot, past, taken, chance);
            used.push(hot.machine);
        }
        let early = if chance.happens(CUT_SHORT_PERCENT) { chance.minutes(6, 14) } else { Span::ZERO };
        let watched_until = hot.map(|hot| self.keep_watch(&mut told, hot.to, early, chance));
        let sweep_at = self.stay.out_by - self.sweep_takes(&used) - chance.minutes(2, 8);
        // Nobody sweeps while they watch for embers, except those who then leave too early.
        told.at = told.at.max(match watched_until {
            Some(until) if early > Span::ZERO => until - self.sweep_takes(&used),
            Some(until) => until.max(sweep_at),
            None => sweep_at,
        });
        self.sweep(&mut told, &used, past, chance);
        if self.is_last_out() {
            self.rounds(&mut told, past, chance);
        }
        told.at = told.at + chance.seconds(30, 150);
        told.say(Fact::Left);
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

    /// Hot work, if there is any tonight: so late that the watch and the sweep fit behind it.
    fn hot_work(&self, arrived: Instant, past: &Past, taken: &Taken, chance: &mut Chance) -> Option<Run<'a>> {
        let mut machines: Vec<_> =
            self.rules.rulebook.machines_in(&self.room.id).filter(|machine| machine.hot_work).collect();
        chance.shuffle(&mut machines);
        machines.sort_by_key(|machine| !machine.buddy);
        let to = self.stay.out_by - self.watch() - self.sweep_takes(machines.get(..1)?) - chance.minutes(1, 5);
        let from = to - chance.minutes(15, 35);
        let mut fit = machines.into_iter().filter(|machine| self.may_use(machine, from, to, past, taken));
        let machine = fit.next()?;
        (from > arrived && chance.happens(60)).then_some(Run { machine, from, to })
    }

    /// Other machines, one after the other, until the hot work or the sweep.
    fn work(
        &self,
        told: &mut Told,
        until: Option<Instant>,
        past: &Past,
        taken: &mut Taken,
        chance: &mut Chance,
    ) -> Vec<&'a Machine> {
        let mut machines: Vec<_> =
            self.rules.rulebook.machines_in(&self.room.id).filter(|machine| !machine.hot_work).collect();
        chance.shuffle(&mut machines);
        machines.sort_by_key(|machine| !machine.buddy);
        let mut used = Vec::new();
        for machine in machines {
            let (from, to) = (told.at, told.at + chance.minutes(14, 48) + chance.seconds(0, 59));
            let sweep_at = self.stay.out_by - self.sweep_takes(&used) - Span::from_minutes(10);
            let fits = to + Span::from_minutes(3) < until.unwrap_or(sweep_at);
            if used.len() < 3 && fits && self.may_use(machine, from, to, past, taken) {
                self.run(told, &Run { machine, from, to }, past, taken, chance);
                used.push(machine);
                told.at = told.at + chance.minutes(2, 7);
            }
        }
        used
    }

    /// One use of a machine, with what was found there and who was the buddy.
    fn run(&self, told: &mut Told, run: &Run, past: &Past, taken: &mut Taken, chance: &mut Chance) {
        Self::found(told, run.machine, past, chance);
        if run.machine.buddy {
            self.keep_buddy(told, run.to, chance);
        }
        told.say(Fact::MachineStarted { machine: run.machine.id.clone(), material: None });
        taken.push((run.machine.id.clone(), told.at, run.to));
        told.at = run.to;
        told.say(Fact::MachineStopped { machine: run.machine.id.clone() });
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
        let confirmed = Fact::BuddyConfirmed { buddy, machine: None, proof: None, given: Given::OnTheirWord };
        let mut at = told.at;
        while at < stops {
            told.say_at(at, confirmed.clone());
            let late = if chance.happens(LATE_PERCENT) { chance.minutes(2, 7) } else { Span::ZERO };
            at = at + Span::from_minutes(renew) + late - chance.seconds(20, 120);
        }
        told.at = told.at + chance.seconds(15, 40);
    }

    /// The sweep: machine by machine, then the room.
    fn sweep(&self, told: &mut Told, used: &[&'a Machine], past: &mut Past, chance: &mut Chance) {
        told.say(Fact::SweepStarted { crew: 1 });
        let sloppy = chance.happens(SLOPPY_PERCENT);
        for machine in used {
            let mut all = true;
            for chore in &machine.chores {
                all &= Self::chore(told, machine.id.as_str(), chore, sloppy, chance);
            }
            past.left_dirty.insert(machine.id.clone(), !all);
        }
        for chore in self.room_chores() {
            Self::chore(told, self.room.id.as_str(), chore, sloppy, chance);
        }
    }

    /// The room's chores that are this session's: those of the last one out, too, if nobody else is there then.
    fn room_chores(&self) -> impl Iterator<Item = &'a Chore> {
        let last_out = self.is_last_out();
        self.room.chores.iter().filter(move |chore| chore.when == When::Always || last_out)
    }

    fn is_last_out(&self) -> bool {
        let out_by = self.stay.out_by;
        !self.others.iter().any(|other| other.from < out_by && other.out_by > out_by)
    }

    /// The last one out sees to the rounds of the room that are due. Lately nobody thought of the rarer ones, and those
    /// of a year are not done on the way out.
    fn rounds(&self, told: &mut Told, past: &mut Past, chance: &mut Chance) {
        for round in self.rules.rulebook.rounds.iter().filter(|round| round.room == self.room.id) {
            let Some(every) = Every::parse(&round.every) else { continue };
            let lasts = every.after(told.at) - told.at;
            let thought_of = lasts <= DAY || (lasts <= MONTH && told.at < past.rounds_forgotten_from);
            let standing = standing(every, past.rounds.get(&round.id).copied(), told.at);
            if thought_of && !matches!(standing, Standing::Done { .. }) && chance.happens(90) {
                told.at = told.at + chance.seconds(60, 150);
                told.say(Fact::RoundDone { round: round.id.clone() });
                past.rounds.insert(round.id.clone(), told.at);
            }
        }
    }

    /// About how long the sweep takes after these machines.
    fn sweep_takes(&self, used: &[&Machine]) -> Span {
        let machines = used.iter().take(3).flat_map(|machine| &machine.chores);
        let milli: i64 = machines.chain(self.room_chores()).map(|chore| chore.minutes_milli).sum();
        Span::from_ms(milli * MINUTE_MS / 1000).max(Span::from_minutes(10))
    }

    /// Does a chore, or leaves it. Gives whether it was done.
    fn chore(told: &mut Told, owner: &str, chore: &Chore, sloppy: bool, chance: &mut Chance) -> bool {
        if sloppy && chance.happens(35) {
            return false;
        }
        let id = ChoreId::of(owner, &chore.id);
        let (least, most) = pace(&id);
        let took_ms =
            (chore.minutes_milli * MINUTE_MS / 1000 * chance.between(least, most) / 100).clamp(20_000, 600_000);
        told.at = told.at + Span::from_ms(took_ms);
        // As on a phone, nobody times what needs nobody.
        let minutes = (chore.hands > 0).then(|| minutes(Span::from_ms(took_ms)));
        told.say(Fact::ChoreDone { chore: id, minutes, photo: None });
        true
    }

    /// Looks for embers until the watch is over, or a little less. Gives until when.
    fn keep_watch(&self, told: &mut Told, last_spark: Instant, early: Span, chance: &mut Chance) -> Instant {
        let until = last_spark + self.watch() - early;
        let mut round = last_spark + chance.minutes(8, 10);
        while round < until {
            told.say_at(round, Fact::WatchRound);
            round = round + chance.minutes(8, 10);
        }
        until
    }

    fn watch(&self) -> Span {
        Span::from_minutes(i64::from(self.rules.rulebook.fire_watch.minutes))
    }
}

/// How long a chore really takes, at least and at most, in percent of what the rulebook says: what drill, shear and scaler
/// leave twice as much, the floor of the forge more, that of the fitting room much less, the rest somewhat less.
pub(super) fn pace(chore: &ChoreId) -> (i64, i64) {
    match chore.as_str() {
        "drill/chips" | "shear/strips" | "needle_scaler/flakes" => (180, 240),
        "forge/floor" => (110, 160),
        "fitting/floor" => (20, 45),
        _ => (42, 72),
    }
}

/// Minutes to a tenth, as a phone notes them.
#[expect(clippy::cast_precision_loss, reason = "tenths of a minute of one chore are few")]
fn minutes(span: Span) -> f64 {
    (span.ms() / 6_000) as f64 / 10.0
}
