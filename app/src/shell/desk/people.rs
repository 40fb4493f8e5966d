//! What people are to the shop, on this phone: a stop that was scanned, an act of Book, a signed line that another phone showed.
//!
//! A word that counts is in force here as soon as this phone has it, whatever the hub has heard: the members' list is what the hub
//! said, with the words of this phone's log over it. Judging a shown line is of the later part: see `crate::later`.

use shared_core::code::line;
use shared_core::entry::{Entry, Fact};
use shared_core::ids::{DeviceId, PersonId, StopId};
use shared_core::log::jws::Signed;
use shared_core::refusal::Refusal;
use shared_core::standing::{Words, said_by};
use shared_core::view::people::is_whole;
use shared_core::viewer::Viewer;

use super::Desk;
use super::ledger::other;
use crate::later;
use crate::shell::errand::Errand;
use crate::shell::journal::{Change, Journal};
use crate::shell::keys::Signer;
use crate::store::{At, Notice, Screen};

/// A line that somebody showed, judged.
pub enum ShownLine {
    /// Their walk is done: whose, and whether it is the walk as it stands here.
    Walk(PersonId, bool),
    /// A word that counts.
    Word(Box<Signed>),
}

/// What a scanned text is, if it is such a line: a word about this phone's member by somebody who may say it, or somebody's walk.
pub fn judged(
    text: &str,
    viewer: &Viewer<'_>,
    person_of: &dyn Fn(&DeviceId) -> Option<PersonId>,
) -> Option<Result<ShownLine, Notice>> {
    let signed = line::read(text)?;
    let who = &signed.entry.who;
    if person_of(&signed.dev).as_ref() != Some(who) {
        return Some(Err(Notice::BadCard));
    }
    Some(match &signed.entry.fact {
        Fact::WalkDone { mark } => Ok(ShownLine::Walk(who.clone(), is_whole(viewer, mark))),
        fact if said_by(fact).is_some_and(|(about, ..)| about == viewer.me) => {
            let may = Words::may_give(who, fact, viewer.book, viewer.members);
            may.map(|()| ShownLine::Word(Box::new(signed))).map_err(|_| Notice::OthersWord)
        }
        _ => Err(Notice::OthersWord),
    })
}

impl<J: Journal, S: Signer> Desk<J, S> {
    /// A stop's code was scanned: its page shows that stop.
    pub(super) fn stop_scanned(&mut self, id: StopId) {
        let Some(shop) = &self.shop else { return };
        if shop.rulebook.stop(&id).is_none() {
            self.notice = Some(Notice::Refused(Refusal::NoSuchStop));
            return;
        }
        self.at = At::Stop(id);
        self.go(Screen::Walk);
    }

    /// A text was scanned; true if it was a line that another phone showed.
    pub(super) async fn line_shown(&mut self, text: &str) -> bool {
        let (Some(later), Some(viewer), Some(shop)) = (later::parts(), self.viewer(), &self.shop) else { return false };
        match (later.line)(text, &viewer, &|dev| self.person_of(later, shop, dev)) {
            None => return false,
            Some(Err(notice)) => self.notice = Some(notice),
            Some(Ok(ShownLine::Walk(who, whole))) => {
                self.at = At::Walked { who, whole };
                self.go(Screen::People);
            }
            Some(Ok(ShownLine::Word(signed))) => self.take_word(&signed).await,
        }
        true
    }

    /// A word that counts is kept like a line that the hub handed out, and in force from then on.
    async fn take_word(&mut self, signed: &Signed) {
        if let Err(fault) = self.journal.change(&[Change::Other(other(signed))]).await {
            self.notice = Some(Notice::NotSaved(fault));
            return;
        }
        self.ledger.learn(signed);
        self.stand();
        self.errands.push(Errand::TellTabs);
        let takes_back =
            matches!(&signed.entry.fact, Fact::Inducted { until: None, .. } | Fact::SignedOff { until: None, .. });
        self.notice = Some(if takes_back { Notice::WordBack } else { Notice::WordTaken });
        self.go(Screen::SignOffs);
    }

    /// Puts what this phone's log says over what the hub said, if these entries say such a thing.
    pub(super) fn stand_by(&mut self, entries: &[Entry]) {
        if entries.iter().any(|entry| said_by(&entry.fact).is_some()) {
            self.stand();
        }
    }
}
