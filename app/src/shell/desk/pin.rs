//! Figures of one's own: a buddy without a phone confirms with theirs on the operator's; each sets theirs on their own.
//!
//! The digest is reckoned outside and comes back as an intention. Whether this person may cover this session is asked
//! again then, like of any other word. What was typed is judged by [`super::figures`], of the later part.

use shared_core::command::Command;
use shared_core::entry::Given;
use shared_core::ids::PersonId;

use super::Desk;
use crate::later;
use crate::shell::errand::Errand;
use crate::shell::hub_link::LinkFault;
use crate::shell::journal::Journal;
use crate::shell::keys::Signer;
use crate::store::{Notice, Pin};

impl<J: Journal, S: Signer> Desk<J, S> {
    /// A buddy typed their figures here.
    pub(super) fn confirm_by_pin(&mut self, who: PersonId, figures: &str) {
        let (Some(later), Some(shop)) = (later::parts(), &self.shop) else { return };
        let judged = (later.figures_typed)(&self.tries, shop, who, figures, self.clock.now());
        self.run_or_tell(judged);
    }

    /// What they typed was digested: it is theirs, or it is not.
    pub(super) async fn digested(&mut self, who: PersonId, digest: Option<Vec<u8>>) {
        self.stale = true;
        let (Some(later), Some(shop), Some(machine)) = (later::parts(), &self.shop, self.buddy.asked_for()) else {
            return;
        };
        let machine = machine.clone();
        self.notice = (later.figures_checked)(&mut self.tries, shop, &who, digest.as_deref(), self.clock.now()).err();
        if self.notice.is_some() {
            return;
        }
        let name = shop.members.name(&who).to_owned();
        if self.act(Command::ConfirmBuddy { buddy: who, machine, proof: None, given: Given::ByPin }).await {
            self.buddy.close();
            self.notice.get_or_insert(Notice::BuddyHere { name });
        }
    }

    /// This member chooses figures.
    pub(super) fn set_pin(&mut self, figures: &str) {
        if let Some(later) = later::parts() {
            self.run_or_tell((later.figures_chosen)(figures));
        }
    }

    /// The hub keeps them, or not.
    pub(super) fn pin_set(&mut self, answer: Result<(), LinkFault>) {
        self.notice = Some(match answer {
            Ok(()) => Notice::Pin(Pin::Kept),
            Err(fault) => Notice::Link(fault),
        });
    }

    fn run_or_tell(&mut self, judged: Result<Errand, Notice>) {
        match judged {
            Ok(errand) => {
                self.notice = None;
                self.errands.push(errand);
            }
            Err(notice) => self.notice = Some(notice),
        }
    }
}
