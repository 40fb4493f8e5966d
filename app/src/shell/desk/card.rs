//! What this phone's member is by the hub's signed word, and whose other phones are.
//!
//! The signatures are checked in the later part (see `crate::later`): when the rules come, and again at each start once the page has
//! nothing else to do. What follows from them is kept beside the rules, so that nobody at the door waits for a signature. As long as
//! nothing is proved, nothing is believed.

use serde::Serialize;
use shared_core::card::face::Face;
use shared_core::card::{CardFault, Trust};
use shared_core::ids::{DeviceId, PersonId};
use shared_core::json::from_json;
use shared_core::members::Member;
use shared_core::sync::shop::ShopBundle;
use shared_core::time::Instant;

use super::Desk;
use crate::shell::journal::Journal;
use crate::shell::keys::Signer;

/// What follows from the hub's words that came with the rules.
#[derive(Clone, Debug, Default, PartialEq, Serialize)]
pub struct Proved {
    /// What this phone's card says; nothing where it says nothing that counts.
    member: Option<Member>,
    /// When the hub last said which phones were taken off.
    pub list_at: Instant,
}

from_json! { Proved { member, list_at } }

impl Proved {
    /// As it is kept.
    pub fn text(&self) -> String {
        serde_json::to_string(self).expect("plain data")
    }
}

/// What this phone believes cards by from now on, and what follows, given what it believed before. Fails where that is not the hub's
/// word: other keys, or a card that bears the name of a key which did not sign it.
pub fn prove(known: Option<Trust>, bundle: &ShopBundle, dev: &DeviceId) -> Result<(Option<Trust>, Proved), CardFault> {
    let Some(trust) = trusted(known, bundle)? else { return Ok((None, Proved::default())) };
    let member = match bundle.card.as_deref().map(|card| trust.standing(card, dev)) {
        Some(Err(fault @ CardFault::Signature)) => return Err(fault),
        said => said.and_then(Result::ok),
    };
    let list_at = trust.revoked.issued;
    Ok((Some(trust), Proved { member, list_at }))
}

/// What this phone believes cards by, given what it believed before; nothing of a hub that knows no cards, unless it
/// knew some.
pub fn trusted(known: Option<Trust>, bundle: &ShopBundle) -> Result<Option<Trust>, CardFault> {
    let list = bundle.revoked.as_deref().unwrap_or_default();
    match known {
        None if bundle.keys.is_empty() => Ok(None),
        None => Trust::read(&bundle.keys, list).map(Some),
        Some(known) => known.follow(&bundle.keys, list).map(Some),
    }
}

/// Whose phone this is: by a card that holds now, among those that came with the rules and those that were `shown` here. A hub that
/// knows no cards says so itself.
pub fn holder(
    trust: Option<&Trust>,
    shop: &ShopBundle,
    shown: &[String],
    dev: &DeviceId,
    now: Instant,
) -> Option<PersonId> {
    if shop.keys.is_empty() {
        return shop.member_of(dev).cloned();
    }
    let faces = shop.faces.iter().chain(shown).map(String::as_str);
    by(trust, shop)?.holder(dev, faces, now).map(|face| face.shown.member)
}

/// Whether a face that is shown is the hub's word, and holds now.
pub fn face_holds(trust: Option<&Trust>, shop: &ShopBundle, face: &Face, now: Instant) -> bool {
    by(trust, shop).is_some_and(|trust| trust.check(face, now).is_ok())
}

fn by(trust: Option<&Trust>, shop: &ShopBundle) -> Option<Trust> {
    trust.cloned().or_else(|| trusted(None, shop).ok().flatten())
}

impl<J: Journal, S: Signer> Desk<J, S> {
    /// What this phone's member may do is what its card says; with a card that is not the hub's word, nothing. Words that this
    /// phone has and the hub had not, when it made the card, count as well.
    pub(super) fn stand(&mut self) {
        let Some(shop) = &mut self.shop else { return };
        if !shop.keys.is_empty() {
            let card = self.proved.as_ref().and_then(|proved| proved.member.clone());
            let me = shop.member_of(self.signer.device_id()).and_then(|me| shop.members.get(me));
            let none = || me.map(|me| Member { card_until: Some(Instant::default()), ..me.clone() });
            if let Some(member) = card.or_else(none) {
                let used = me.map(|me| me.used.clone()).unwrap_or_default();
                shop.members.put(Member { used, ..member });
            }
        }
        self.ledger.state().standing.apply(&mut shop.members);
    }

    /// The rules that are kept, with this card, were proved again. What is spoilt is asked for anew.
    pub(super) fn shop_proved(&mut self, card: Option<&str>, proved: Proved) {
        let is_ours = self.shop.as_ref().is_some_and(|shop| shop.card.as_deref() == card);
        if !is_ours || self.proved.as_ref() == Some(&proved) {
            return;
        }
        self.stale = true;
        if proved.member.is_none() {
            self.fetch_shop();
        }
        self.proved = Some(proved);
        self.stand();
    }
}
