//! A phone and its hub: what it asks, what an answer changes, and when new rules hold.

use shared_core::state::{Session, fold};
use shared_core::sync::message::{SyncAnswer, Why};
use shared_core::sync::peer::Story;
use shared_core::time::Span;

use super::{Phone, Release, read};
use crate::chance::Chance;
use crate::disk::Act;
use crate::planted::Planted;
use crate::shop::Shop;

/// What an answer came to.
pub(crate) enum Heard {
    /// It is kept; whether to ask again at once.
    Kept { more: bool },
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
            if known && signed.dev != self.dev && page.heard.insert((signed.dev, signed.seq)) {
                fresh.push((line, signed.entry));
            }
        }
        let sync = serde_json::to_string(&page.sync).expect("plain data");
        let others = fresh.iter().map(|(line, _)| line.clone()).collect();
        if self.disk.write(Act::Heard { others, sync }).is_err() {
            // What was pulled is not kept, so the cursor must not move either.
            page.sync = before;
            let gone = fresh.iter().filter_map(|(line, _)| read(&self.opened, line).ok());
            for signed in gone {
                page.heard.remove(&(signed.dev, signed.seq));
            }
            return Heard::Unusable;
        }
        if page.pending.is_none() {
            self.disk.flush();
        }
        page.asking = None;
        for (_, entry) in fresh {
            fold(&mut page.state, &entry);
            page.entries.push(entry);
        }
        let quiet = self.planted == Some(Planted::ForkKeptQuiet);
        let told = received.rejected.iter().filter(|rejected| !quiet || rejected.why != Why::Fork);
        self.told.extend(told.map(|rejected| (rejected.seq, rejected.why)));
        self.told_fork |= received.story == Story::Forked && !quiet;
        Heard::Kept { more: received.more }
    }

    /// The hub's rules have come. A session under way keeps those that it began under, and then they are asked for again.
    pub(crate) fn take_rules(&mut self, book: usize) -> bool {
        let Some(page) = &mut self.page else { return false };
        let session = page.session.as_ref().and_then(|id| page.state.sessions.get(id));
        let under_way = session.is_some_and(Session::is_open) || page.pending.is_some();
        if page.book == book || (under_way && self.planted != Some(Planted::NewRulesAtOnce)) {
            return false;
        }
        if self.disk.write(Act::Rules(book)).is_err() {
            return false;
        }
        self.disk.flush();
        page.book = book;
        page.made = None;
        true
    }
}
