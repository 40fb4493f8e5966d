//! Figures of one's own: a buddy without a phone confirms with theirs on the operator's; each sets theirs on their own.
//!
//! The digest is reckoned outside and comes back as an intention. Whether this person may cover this session is asked
//! again then, like of any other word. Figures are neither kept nor shown.

use shared_core::command::Command;
use shared_core::entry::Given;
use shared_core::ids::PersonId;
use shared_core::pin::{self, PinFault};

use super::Desk;
use crate::shell::errand::Errand;
use crate::shell::hub_link::LinkFault;
use crate::shell::journal::Journal;
use crate::shell::keys::Signer;
use crate::store::{Notice, Pin};

impl<J: Journal, S: Signer> Desk<J, S> {
    /// A buddy typed their figures here.
    pub(super) fn confirm_by_pin(&mut self, who: PersonId, figures: &str) {
        self.notice = None;
        if let Some(until) = self.tries.rests_until(self.now()) {
            self.notice = Some(Notice::Pin(Pin::Rests { minutes: (until - self.now()).minutes_up() }));
            return;
        }
        let recipe = self.shop.as_ref().and_then(|shop| shop.pin_of(&who)?.recipe());
        match (pin::typed(figures), recipe) {
            (None, _) => self.notice = Some(Notice::Pin(Pin::Fault(PinFault::NotSixFigures))),
            (Some(_), None) => self.notice = Some(Notice::Pin(Pin::Unknown)),
            (Some(figures), Some((salt, rounds))) => {
                self.errands.push(Errand::Digest { who, figures, salt, rounds });
            }
        }
    }

    /// What they typed was digested: it is theirs, or it is not.
    pub(super) async fn digested(&mut self, who: PersonId, digest: Option<Vec<u8>>) {
        self.stale = true;
        let (Some(shop), Some(machine)) = (&self.shop, self.buddy.asked_for()) else { return };
        let Some(digest) = digest else {
            self.notice = Some(Notice::Pin(Pin::Unknown));
            return;
        };
        if !shop.pin_of(&who).is_some_and(|pin| pin.is(&digest)) {
            self.tries.wrong(self.now());
            self.notice = Some(Notice::Pin(Pin::Wrong));
            return;
        }
        self.tries.right();
        self.notice = None;
        let name = shop.members.name(&who).to_owned();
        let machine = machine.clone();
        if self.act(Command::ConfirmBuddy { buddy: who, machine, proof: None, given: Given::ByPin }).await {
            self.buddy.close();
            self.notice.get_or_insert(Notice::BuddyHere { name });
        }
    }

    /// This member chooses figures.
    pub(super) fn set_pin(&mut self, figures: &str) {
        match pin::chosen(figures) {
            Ok(figures) => {
                self.notice = None;
                self.errands.push(Errand::SetPin(figures));
            }
            Err(fault) => self.notice = Some(Notice::Pin(Pin::Fault(fault))),
        }
    }

    /// The hub keeps them, or not.
    pub(super) fn pin_set(&mut self, answer: Result<(), LinkFault>) {
        self.notice = Some(match answer {
            Ok(()) => Notice::Pin(Pin::Kept),
            Err(fault) => Notice::Link(fault),
        });
    }
}
