//! A phone and its hub: what it asks, what an answer changes, and when new rules hold.

use shared_core::state::{Session, fold};
use shared_core::sync::message::{SyncAnswer, Why};
use shared_core::sync::peer::Story;
use shared_core::time::Span;

use super::{Phone, Release, read};
use crate::chance::Chance;
use crate::disk::{Act, Served};
use crate::hub::Hub;
use crate::planted::Planted;
use crate::shop::Shop;

/// What an answer came to.
pub(crate) enum Heard {
    /// It is kept; whether to ask again at once, and how many lines were forgotten.
    Kept { more: bool, forgotten: usize },
    /// It answers another question than the one in flight.
    NotOurs,
    /// It cannot be read, or there is no room for it.
    Unusable,
}

impl Phone {
    /// The next question to the hub, if it is time.
    pub(crate) fn question(&mut self, tick: usize, number: u64) -> Option<String> {
        let page = self.page.as_mut()?;
        if page.asking.is_some() || tick < page.ask_at {
            return None;
        }
        page.sync.is_stewards(page.members.get(&self.me).is_some_and(|me| me.steward));
        let waiting: Vec<(u64, &str)> = page.own.iter().map(|(seq, line)| (*seq, line.as_str())).collect();
        let question = page.sync.generate(page.steady.now(), &waiting, &page.lost)?;
        page.asking = Some((number, tick));
        let text = question.write();
        Some(match self.kind.release {
            Release::Today => text,
            Release::Earlier => text.replace(",\"lost\":[]", "").replace(",\"since\":0", ""),
            Release::Later => text.replacen('{', "{\"hopes\":{\"deep\":[1,null]},", 1),
        })
    }

    /// No answer came, or none that can be read. Answers the wait before the next question.
    pub(crate) fn unanswered(&mut self, chance: &mut Chance) -> Option<Span> {
        let page = self.page.as_mut()?;
        page.asking = None;
        Some(page.sync.failed(chance.jitter()))
    }

    /// An answer, perhaps to the question in flight.
    pub(crate) fn answered(&mut self, text: &str, shop: &Shop) -> Heard {
        if self.planted == Some(Planted::NewWordsUnread) && text.contains("later") {
            return Heard::Unusable;
        }
        let Ok(answer) = SyncAnswer::read(text) else { return Heard::Unusable };
        let page = self.page.as_mut().expect("it asked");
        let before = page.sync.clone();
        let Some(received) = page.sync.receive(page.steady.now(), answer, &page.head) else { return Heard::NotOurs };
        let mut fresh = Vec::new();
        for line in received.pulled {
            let Ok(signed) = read(&self.opened, &line) else { continue };
            let known = shop.devices.get(&signed.dev) == Some(&signed.entry.who);
            let id = (signed.dev, signed.seq);
            if known && id.0 != self.dev && page.heard.insert(id.clone()) {
                fresh.push((id, line, signed.entry));
            }
        }
        // What its own member said on another phone stays as what this one said does.
        let of_others = received.forget.into_iter().filter(|stretch| shop.devices.get(&stretch.dev) != Some(&self.me));
        let mut forget = page.known_in(&of_others.collect::<Vec<_>>());
        if self.planted == Some(Planted::PhoneForgetsNothing) {
            forget.clear();
        }
        let sync = serde_json::to_string(&page.sync).expect("plain data");
        let others = fresh.iter().map(|(id, line, _)| (id.clone(), line.clone())).collect();
        if self.disk.write(Act::Heard { others, forget: forget.iter().cloned().collect(), sync }).is_err() {
            // What was pulled is not kept, so the cursor must not move either.
            page.sync = before;
            for (id, ..) in fresh {
                page.heard.remove(&id);
            }
            return Heard::Unusable;
        }
        if page.pending.is_none() {
            self.disk.flush();
        }
        page.asking = None;
        page.clock_offset = received.clock_offset;
        page.news += u64::from(!fresh.is_empty());
        for (id, _, entry) in fresh {
            fold(&mut page.state, &entry);
            page.entries.push(entry);
            page.ids.push(id);
        }
        let forgotten = forget.len();
        page.forget(&forget, &self.dev);
        // What the hub would not take may have been folded.
        let anew = !forget.is_empty() || received.rejected.iter().any(|told| !self.told.contains_key(&told.seq));
        let quiet = self.planted == Some(Planted::ForkKeptQuiet);
        let told = received.rejected.iter().filter(|rejected| !quiet || rejected.why != Why::Fork);
        self.told.extend(told.map(|rejected| (rejected.seq, rejected.why)));
        self.told_fork |= received.story == Story::Forked && !quiet;
        if anew {
            self.refold();
        }
        Heard::Kept { more: received.more, forgotten }
    }

    /// The hub's rules have come. A session under way keeps those that it began under, and then they are asked for again.
    /// Who may do what holds at once.
    pub(crate) fn take_rules(&mut self, hub: &Hub) -> bool {
        let Some(page) = self.page.as_mut().filter(|page| page.pending.is_none()) else { return false };
        if page.served.rev == hub.rev() {
            return false;
        }
        let served = Served { rev: hub.rev(), members: hub.members_for(&self.me).into() };
        let session = page.session.as_ref().and_then(|id| page.state.sessions.get(id));
        let keeps = session.is_some_and(Session::is_open) && self.planted != Some(Planted::NewRulesAtOnce);
        if keeps && page.book != hub.book {
            page.served.members = served.members;
        } else {
            // Where there is no room for it, it holds as long as the page lives.
            if self.disk.write(Act::Rules(hub.book, served.clone())).is_ok() {
                self.disk.flush();
            }
            (page.book, page.served) = (hub.book, served);
        }
        page.stand();
        page.made = None;
        true
    }
}
