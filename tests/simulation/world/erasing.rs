//! Who has what erased, and what goes by itself: `POST /api/erase` of a member and of a steward, and the hub's retention.
//!
//! An erasing is one change of the store, under its lock; the process may die before it, or before it answers. Only a phone
//! that was answered drops what it said itself.

use shared_core::ids::PersonId;
use shared_core::retention::limit;

use super::World;
use crate::checkers::erased_is_gone;
use crate::phone::LetGo;
use crate::store::Lost;

/// How often the hub looks for what is over.
const RETIRED_EVERY_MS: i64 = 6 * 3_600_000;

impl World {
    /// What is erased in this tick.
    pub(super) fn erase(&mut self) {
        if self.hub.is_busy() {
            return;
        }
        if let Some(days) = self.options.erasing.retention_days
            && self.true_ms >= self.retires_at_ms
        {
            self.retires_at_ms = self.true_ms + RETIRED_EVERY_MS;
            let before = erased_is_gone::in_force(self.hub.store.entries());
            let lost = self.hub.store.retire(limit(self.true_now(), days));
            self.erased(&before, lost, "erased: over");
        }
        if self.goes_wrong(self.options.erasing.own) {
            let phone = self.chance.below(self.phones.len());
            self.erase_own(phone);
        }
        if std::mem::take(&mut self.erases_again) || self.goes_wrong(self.options.erasing.by_steward) {
            let mut members: Vec<PersonId> = self.hub.devices.values().cloned().collect();
            members.dedup();
            let whose = self.chance.pick(&members).clone();
            self.erase_about(&whose, "erased: by a steward");
        }
    }

    fn erase_own(&mut self, phone: usize) {
        let one = &self.phones[phone];
        if one.page.is_none() || one.clocks.is_asleep() || self.net.is_cut_off(phone) || one.kind.board {
            return;
        }
        let whose = one.me.clone();
        if !self.erase_about(&whose, "erased: at a member's wish") || self.goes_wrong(self.options.net.loss) {
            return;
        }
        if let Some(let_go) = self.phones[phone].retire_own(self.options.erasing.retention_days) {
            self.let_go(phone, let_go);
        }
        self.dies(phone, "after it dropped what was erased");
    }

    /// Whether it was answered.
    fn erase_about(&mut self, whose: &PersonId, name: &str) -> bool {
        if self.breaks(self.options.hub.crash) {
            self.hub.die(0, &mut self.chance);
            self.tally.count("hub: died before it wrote");
            return false;
        }
        let before = erased_is_gone::in_force(self.hub.store.entries());
        let lost = self.hub.erase_about(whose, self.true_now());
        self.note(|| format!("{} lines about {whose} are erased", lost.len()));
        self.erased(&before, lost, name);
        if self.breaks(self.options.hub.crash) {
            self.hub.die(0, &mut self.chance);
            self.tally.count("hub: died before it answered");
            return false;
        }
        true
    }

    fn erased(&mut self, before: &erased_is_gone::InForce, lost: Vec<Lost>, name: &str) {
        erased_is_gone::nothing_in_force(before, self.hub.store.entries(), name);
        self.tally.add(name, lost.len() as u64);
        for Lost { dev, seq, why, said } in lost {
            let again = self.expected.erased.insert((dev, seq), (why, said)).is_some();
            self.tally.add("erased: once more, after an older copy was put back", u64::from(again));
        }
    }

    /// The log on a phone is looked through for what is over.
    pub(super) fn retire_daily(&mut self, phone: usize) {
        let Some(days) = self.options.erasing.retention_days else { return };
        if let Some(let_go) = self.phones[phone].retire_daily(days) {
            self.let_go(phone, let_go);
        }
    }

    fn let_go(&mut self, phone: usize, LetGo { own, elsewhere, others, known_before }: LetGo) {
        let page = self.phones[phone].page.as_ref().expect("it looked");
        let before = erased_is_gone::in_force(known_before.iter());
        erased_is_gone::nothing_in_force(&before, page.entries.iter(), "dropped on a phone");
        self.note(|| format!("phone {phone}: dropped {} lines of its own and {others} of others", own.len()));
        self.tally.add("dropped: own lines", own.len() as u64);
        self.tally.add("dropped: others' lines, over", others as u64);
        self.expected.let_go[phone].extend(own);
        self.expected.let_go_elsewhere[phone].extend(elsewhere);
    }
}
