//! Two phones, one buddy: the operator's ask, the buddy's signed answer, by eye or by the hub.
//!
//! Both ways carry the same text and end at the same check (`shared_core::code::answer::accept`). What the network
//! hands over is dropped in silence where it does not fit: nobody asked for it, and the code on the screen still does.

use shared_core::card::face::Face;
use shared_core::code::answer::{Answer, Draft, Kind};
use shared_core::code::ask::{ASK_MINUTES, Ask};
use shared_core::code::{self, Scanned};
use shared_core::command::Command;
use shared_core::ids::{DeviceId, MachineId, PersonId};
use shared_core::members::Member;
use shared_core::ordered::Set;
use shared_core::refusal::Refusal;
use shared_core::sync::shop::{Carry, ShopBundle};
use shared_core::time::Span;
use shared_core::view::Viewer;
use shared_core::view::buddy::{Asked, asked};

use super::Desk;
use crate::later::{self, Later};
use crate::shell::bell::Strength;
use crate::shell::errand::{Errand, LaterErrand};
use crate::shell::journal::Journal;
use crate::shell::keys::Signer;
use crate::store::{BuddySheet, Carriage, Notice};

/// The sheet between two buddies.
#[derive(Clone, Debug, Default)]
pub struct Buddy {
    sheet: Sheet,
    /// Texts that the hub has handed over: it does so by event and with a sync.
    heard: Set<String>,
    /// Cards that were shown to this phone since it was opened, as their codes' texts.
    faces: Vec<String>,
}

#[derive(Clone, Debug, Default)]
enum Sheet {
    #[default]
    Closed,
    Asking {
        ask: Ask,
        code: String,
        to: Option<PersonId>,
    },
    Asked(Ask),
    Answered {
        code: String,
        carried: Carriage,
        to: PersonId,
    },
}

impl Buddy {
    /// What the screen shows of it.
    pub fn shown(&self, viewer: &Viewer, shop: &ShopBundle) -> BuddySheet {
        let name = |who: &PersonId| viewer.members.name(who).to_owned();
        match &self.sheet {
            Sheet::Closed => BuddySheet::Closed,
            Sheet::Asking { ask, code, to } => BuddySheet::Asking {
                code: code.clone(),
                until: ask.issued_at + Span::from_minutes(ASK_MINUTES),
                to: to.as_ref().map(name),
                pins: shop
                    .pins
                    .iter()
                    .filter(|pin| pin.member != *viewer.me)
                    .map(|pin| (pin.member.clone(), name(&pin.member)))
                    .collect(),
                minutes: viewer.book.buddy.renew_minutes,
            },
            Sheet::Asked(ask) => BuddySheet::Asked(seen(viewer, shop, ask)),
            Sheet::Answered { code, carried, to } => {
                BuddySheet::Answered { code: code.clone(), carried: *carried, to: name(to) }
            }
        }
    }

    /// The hub took a code, or not.
    pub fn carried(&mut self, taken: bool) {
        if let Sheet::Answered { carried, .. } = &mut self.sheet {
            *carried = if taken { Carriage::Handed } else { Carriage::Failed };
        }
    }

    /// For which machine the operator asks, if they do: for any, where none is said.
    pub fn asked_for(&self) -> Option<&Option<MachineId>> {
        match &self.sheet {
            Sheet::Asking { ask, .. } => Some(&ask.machine),
            _ => None,
        }
    }

    /// Closes the sheet.
    pub fn close(&mut self) {
        self.sheet = Sheet::Closed;
    }
}

fn seen(viewer: &Viewer, shop: &ShopBundle, ask: &Ask) -> Asked {
    let board = shop.board_in(&ask.room).is_some();
    asked(viewer, &ask.session, &ask.operator, &ask.room, ask.machine.as_ref(), board)
}

impl<J: Journal, S: Signer> Desk<J, S> {
    /// The operator wants a buddy.
    pub(super) fn ask_buddy(&mut self, machine: Option<MachineId>, to: Option<PersonId>) {
        self.notice = None;
        let Some(viewer) = self.viewer() else { return };
        let Some(session) = viewer.open_session() else {
            self.notice = Some(Notice::Refused(Refusal::NoSession));
            return;
        };
        let ask = Ask {
            session: session.id.clone(),
            operator: viewer.me.clone(),
            room: session.room.clone(),
            machine,
            nonce: self.chance,
            issued_at: viewer.now,
        };
        match ask.write() {
            Ok(code) => {
                self.errands
                    .extend(to.clone().map(|to| Errand::Later(LaterErrand::Carry(Carry { to, text: code.clone() }))));
                self.buddy.sheet = Sheet::Asking { ask, code, to };
            }
            Err(_) => self.notice = Some(Notice::CodeTooLong),
        }
    }

    /// Somebody asks this member.
    pub(super) fn asked(&mut self, ask: Ask) {
        if self.me() == Some(&ask.operator) {
            self.notice = Some(Notice::Refused(Refusal::OwnBuddy));
        } else {
            self.buddy.sheet = Sheet::Asked(ask);
        }
    }

    /// This member answers.
    pub(super) async fn answer_buddy(&mut self, kind: Kind, board: &str) {
        self.notice = None;
        let Sheet::Asked(ask) = self.buddy.sheet.clone() else { return };
        let (Some(viewer), Some(shop)) = (self.viewer(), &self.shop) else { return };
        if let (Kind::Here, Some(refusal)) = (kind, seen(&viewer, shop, &ask).refusal) {
            self.notice = Some(Notice::Refused(refusal));
            return;
        }
        let (me, dev) = (viewer.me.clone(), self.signer.device_id().clone());
        let draft = Draft::to(&ask, kind, self.now(), me, dev);
        match self.signed_answer(draft, &ask, board).await {
            Ok(code) => {
                let to = ask.operator;
                self.errands.push(Errand::Later(LaterErrand::Carry(Carry { to: to.clone(), text: code.clone() })));
                self.buddy.sheet = Sheet::Answered { code, carried: Carriage::Underway, to };
            }
            Err(notice) => self.notice = Some(notice),
        }
    }

    async fn signed_answer(&self, draft: Draft, ask: &Ask, board: &str) -> Result<String, Notice> {
        // Whoever answers has the sheet before them, which is of the later part.
        let later = later::parts().ok_or(Notice::CodeTooLong)?;
        let (draft, input) = (later.draft)(draft, ask, board)?;
        let signature = self.signer.sign(&input).await.map_err(Notice::NotSigned)?;
        (later.answer_text)(draft, signature).ok_or(Notice::CodeTooLong)
    }

    /// A buddy's answer was scanned: it counts, or a notice says why not.
    pub(super) async fn answered(&mut self, answer: &Answer, proof: &str) {
        let fault = |fault| Some(Notice::BadAnswer(fault));
        let asking = match self.buddy.sheet.clone() {
            // An ask of a session that is over is nobody's: its answer proves nothing about this one.
            Sheet::Asking { ask, .. } if self.ledger.my_session() == Some(&ask.session) => Some(ask),
            _ => None,
        };
        let Some(ask) = asking else {
            self.notice = fault(shared_core::code::answer::AnswerFault::OtherAsk);
            return;
        };
        let (Some(me), Some(shop), Some(later)) = (self.me(), &self.shop, later::parts()) else { return };
        let person_of = |dev: &_| self.person_of(later, shop, dev);
        let hub_now = self.now() + self.sync.clock_offset().unwrap_or_default();
        let board = shop.board_in(&ask.room).map(|key| (key, hub_now));
        let accepted = match (later.judge)(answer, &ask, self.now(), me, &person_of, self.ledger.used(), board) {
            Ok(accepted) => accepted,
            Err(why) => {
                self.notice = fault(why);
                return;
            }
        };
        let (buddy, given) = (accepted.buddy, accepted.given);
        let name = shop.members.name(&buddy).to_owned();
        let (command, done) = match accepted.kind {
            Kind::Here => {
                let proof = Some(proof.to_owned());
                (Command::ConfirmBuddy { buddy, machine: ask.machine, proof, given }, Notice::BuddyHere { name })
            }
            Kind::Leaving => (Command::EndBuddy { buddy }, Notice::BuddyGone { name }),
        };
        if self.act(command).await {
            self.buddy.close();
            self.notice.get_or_insert(done);
        }
    }

    /// Whose phone that is.
    pub(super) fn person_of(&self, later: &Later, shop: &ShopBundle, dev: &DeviceId) -> Option<PersonId> {
        (later.holder)(self.trust.as_ref(), shop, &self.buddy.faces, dev, self.now())
    }

    /// Somebody shows their card: if it counts, this phone knows theirs from now on, and what they are called.
    pub(super) fn card_shown(&mut self, face: &Face, text: &str) {
        let now = self.now();
        let holds = |shop, later: &Later| (later.face_holds)(self.trust.as_ref(), shop, face, now);
        let counts = self.shop.as_ref().zip(later::parts()).is_some_and(|(shop, later)| holds(shop, later));
        let (Some(shop), true) = (&mut self.shop, counts) else {
            self.notice = Some(Notice::BadCard);
            return;
        };
        let (id, name) = (face.shown.member.clone(), face.shown.name.clone());
        if shop.members.get(&id).is_none() {
            shop.members.put(Member { id, name: name.clone(), ..Member::default() });
        }
        self.buddy.faces.push(text.to_owned());
        self.notice = Some(Notice::CardSeen { name });
    }

    /// The hub hands over a code, for the first time or again.
    pub(super) async fn handed_over(&mut self, text: String) {
        let text = text.trim().to_owned();
        if !self.buddy.heard.insert(text.clone()) {
            return;
        }
        match (code::read(&text, &self.origin), &self.buddy.sheet) {
            // What the member is looking at is not taken from under their thumb.
            (Ok(Scanned::Ask(ask)), Sheet::Closed) if self.me() != Some(&ask.operator) => {
                self.asked(ask);
                // Nobody was looking at the phone: it says that somebody waits.
                self.errands.push(Errand::Ring(Strength::Gentle));
            }
            (Ok(Scanned::Answer(answer)), Sheet::Asking { ask, .. }) if answer.said.nonce == ask.nonce => {
                self.answered(&answer, &text).await;
            }
            _ => {}
        }
    }
}
