//! What goes on besides: the steward and whoever looks after the hub's machine, liars, and a network that remembers.

use shared_core::entry::{Entry, Fact, Told};
use shared_core::ids::SessionId;
use shared_core::time::Instant;

use super::World;
use crate::adversary::{self, Fate};
use crate::checkers;
use crate::hub::Question;

impl World {
    /// New rules, copies of the store, old copies put back, old questions once more.
    pub(super) fn look_after(&mut self) {
        if self.goes_wrong(self.options.new_rules) && self.hub.book + 1 < self.shop.books.len() {
            self.hub.book += 1;
            self.note(|| "the rules have changed".to_owned());
            self.tally.count("rules: changed");
        }
        if self.goes_wrong(self.options.hub.backup) {
            self.hub.back_up();
        }
        if self.goes_wrong(self.options.hub.put_back) && self.hub.put_back(&mut self.chance) {
            self.note(|| "the hub was put back to an older copy".to_owned());
            self.retires_at_ms = self.true_ms;
            // Whoever puts one back has erased again what it brought back; not all do.
            self.erases_again = self.options.erasing.by_steward > 0 && self.chance.hit(500);
            self.tally.count("hub: put back to an older copy");
        }
        if self.goes_wrong(self.options.net.replay) && !self.recorded.is_empty() {
            let which = self.chance.below(self.recorded.len());
            let (phone, number, text) = self.recorded[which].clone();
            self.hub.hear(Question { phone, number, process: 0, text });
            self.tally.count("net: an old question once more");
        }
    }

    pub(super) fn lie(&mut self) {
        let now = self.true_now();
        // They go to the hub directly, and wait for nobody's change.
        if self.hub.is_busy() {
            return;
        }
        if self.adversary.is_some() && self.chance.hit(80) {
            let Some(liar) = &self.adversary else { return };
            let is_steward = self.hub.gate_holds_a_steward(&liar.who);
            let lie = liar.lie(&self.hub.store, is_steward, now, &mut self.chance);
            let (before, dev) = (self.hub.store.log.len(), liar.dev.clone());
            let outcome = self.hub.ask(&dev, &lie.message, now);
            checkers::forged_is_refused::fate(&lie, outcome.as_ref(), self.hub.store.log.len() - before);
            self.tally.count(format!("lie: {}", lie.name));
            if lie.fate == Fate::TheirOwn {
                self.note(|| format!("liar: {}", lie.name));
            }
        }
        if let Some(victim) = self.twin_of
            && self.chance.hit(10)
        {
            self.twin(victim, now);
        }
    }

    /// A copy of a member's key speaks, after what the hub has of it.
    fn twin(&mut self, victim: usize, now: Instant) {
        let (dev, who) = (self.phones[victim].dev.clone(), self.phones[victim].me.clone());
        let entry = Entry {
            at: now,
            session: SessionId::outside(),
            who,
            fact: Fact::Incident { note: "me too".into(), told: Told::default() },
        };
        let head = self.hub.store.head(&dev);
        let line = adversary::sign(&self.phones[victim].key, &self.shop.books[0].id, &entry, &head);
        self.expected.signed(&dev, &[(head.seq + 1, line.clone())]);
        self.hub.ask(&dev, &adversary::question(vec![line]), now);
        self.tally.count("lie: a twin speaks");
        self.note(|| format!("twin of phone {victim} speaks"));
    }
}
