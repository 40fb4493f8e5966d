//! Joining a shop: a code, a name, and the shop's rules on this phone.
//!
//! Until a phone has joined there is nothing else to do. Afterwards the bundle lies in the journal and the app never
//! asks again; it renews the bundle whenever the hub says that there is a newer one.

use shared_core::ids::PersonId;
use shared_core::sync::shop::{JoinChoices, ShopBundle};

use super::card::trusted;
use super::{Desk, card};
use crate::shell::errand::{Errand, LaterErrand};
use crate::shell::hub_link::LinkFault;
use crate::shell::journal::{Change, Journal, Key};
use crate::shell::keys::Signer;
use crate::store::{Gate, Notice};
use crate::words::chosen;

/// Where joining stands. Idle -> Checking -> Choosing -> Joining -> Fetching -> Idle; a fault goes back one step.
#[derive(Clone, Debug, Default, PartialEq)]
pub enum Joining {
    /// Nothing is asked.
    #[default]
    Idle,
    /// A code is wanted.
    Code(Option<LinkFault>),
    /// The code is being looked at.
    Checking,
    /// Who is it?
    Choosing {
        /// The good code.
        code: String,
        /// Among whom.
        choices: JoinChoices,
        /// Why the last try failed.
        fault: Option<LinkFault>,
    },
    /// The rules are on their way.
    Fetching(Option<LinkFault>),
}

impl Joining {
    /// What stands before the screens, if anything does.
    pub fn gate(&self) -> Option<Gate> {
        match self.clone() {
            Self::Idle => None,
            Self::Code(fault) => Some(Gate::JoinCode { fault }),
            Self::Checking => Some(Gate::JoinChecking),
            Self::Choosing { choices, fault, .. } => Some(Gate::JoinChoose { choices, fault }),
            Self::Fetching(fault) => Some(Gate::Fetching { fault }),
        }
    }
}

impl<J: Journal, S: Signer> Desk<J, S> {
    /// A phone whose key was made just now has joined nowhere: nobody needs to be asked.
    pub(super) fn begin_joining(&mut self) {
        if self.shop.is_none() && self.signer.is_new() {
            self.joining = Joining::Code(None);
        }
    }

    /// A phone that may have joined before asks for the rules; one that has them asks whether they are the newest.
    pub(super) fn fetch_shop(&mut self) {
        if self.shop.is_none() && self.joining == Joining::Idle {
            self.joining = Joining::Fetching(None);
        }
        self.errands.push(Errand::Later(LaterErrand::Shop));
    }

    pub(super) fn join_with(&mut self, code: String) {
        self.notice = None;
        self.joining = Joining::Checking;
        self.errands.push(Errand::Later(LaterErrand::CheckJoin(code)));
    }

    pub(super) fn choices_came(&mut self, code: String, answer: Result<JoinChoices, LinkFault>) {
        self.joining = match answer {
            Ok(choices) => Joining::Choosing { code, choices, fault: None },
            Err(fault) if self.me().is_some() => {
                self.notice = Some(Notice::Link(fault));
                Joining::Idle
            }
            Err(fault) => Joining::Code(Some(fault)),
        };
    }

    pub(super) fn join_as(&mut self, member: PersonId) {
        if let Joining::Choosing { code, fault, .. } = &mut self.joining {
            *fault = None;
            self.errands.push(Errand::Later(LaterErrand::Join { code: code.clone(), member }));
        }
    }

    /// Back to where the code was handed in: a phone that has joined goes on as it is.
    pub(super) fn stop_joining(&mut self) {
        if matches!(self.joining, Joining::Choosing { .. }) {
            self.joining = if self.me().is_some() { Joining::Idle } else { Joining::Code(None) };
        }
    }

    pub(super) fn joined(&mut self, answer: Result<(), LinkFault>) {
        match (answer, &mut self.joining) {
            (Ok(()), _) => {
                self.joining = Joining::Fetching(None);
                self.errands.push(Errand::Later(LaterErrand::Shop));
            }
            (Err(why), Joining::Choosing { fault, .. }) => *fault = Some(why),
            (Err(why), _) => self.notice = Some(Notice::Link(why)),
        }
    }

    /// The bundle came: it counts once it is kept.
    pub(super) async fn shop_came(&mut self, answer: Result<String, LinkFault>) {
        let text = match answer {
            Ok(text) => text,
            Err(fault) => return self.no_shop(fault),
        };
        let Some(bundle) = read_shop(&text) else {
            return self.no_shop(LinkFault::Newer);
        };
        if bundle.member_of(self.signer.device_id()).is_none() {
            return self.no_shop(LinkFault::NotJoined);
        }
        // A phone that joins takes the hub's keys as they come with the rules; later they must follow from those.
        let known = match (&self.joining, &self.shop) {
            (Joining::Fetching(_), _) | (_, None) => None,
            (_, Some(shop)) => self.trust.clone().or_else(|| trusted(None, shop).ok().flatten()),
        };
        let Ok((trust, proved)) = card::prove(known, &bundle, self.signer.device_id()) else {
            return self.no_shop(LinkFault::OtherHub);
        };
        // A session goes by the rules that it began under. The hub goes on telling of newer ones, and they are fetched once
        // more when it is over; who may do what holds at once.
        if self.ledger.my_session().is_some()
            && let Some(shop) = self.shop.as_mut().filter(|shop| shop.book != bundle.book)
        {
            let before = std::mem::replace(shop, bundle);
            (shop.rev, shop.book, shop.rulebook) = (before.rev, before.book, before.rulebook);
            (self.trust, self.proved) = (trust, Some(proved));
            self.stand();
            return;
        }
        let kept = [Change::Value(Key::Shop, text), Change::Value(Key::Proved, proved.text())];
        if let Err(fault) = self.journal.change(&kept).await {
            self.notice = Some(Notice::NotSaved(fault));
        }
        self.shop = Some(bundle);
        (self.trust, self.proved) = (trust, Some(proved));
        self.stand();
        if matches!(self.joining, Joining::Fetching(_)) {
            self.joining = Joining::Idle;
        }
        self.errands.push(Errand::TellTabs);
        self.sync.hurry(self.clock.now());
    }

    /// Nobody could be asked, as if there were no network.
    pub(super) fn unreached(&mut self) {
        self.stale = true;
        self.sync.wait(self.clock.now(), self.chance);
        match self.joining {
            Joining::Checking => self.choices_came(String::new(), Err(LinkFault::Offline)),
            _ => self.no_shop(LinkFault::Offline),
        }
    }

    /// Without rules of its own the phone waits for them; with them it goes on and says so.
    fn no_shop(&mut self, fault: LinkFault) {
        match (&self.joining, fault) {
            (Joining::Fetching(_), LinkFault::NotJoined) => self.joining = Joining::Code(None),
            (Joining::Fetching(_), fault) => {
                self.sync.wait(self.clock.now(), self.chance);
                self.joining = Joining::Fetching(Some(fault));
            }
            (_, fault) => self.sync.fault(fault),
        }
    }
}

/// The bundle behind the hub's words, its rulebook in this phone's language; nothing if this version cannot read them.
pub fn read_shop(text: &str) -> Option<ShopBundle> {
    let mut shop: ShopBundle = serde_json::from_str(text).ok()?;
    shop.rulebook.speak(chosen().tag());
    Some(shop)
}
