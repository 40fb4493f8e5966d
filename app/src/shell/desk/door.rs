//! At the door: what is attested before a session exists lives here and nowhere else.
//!
//! Nothing of it is written until the session begins; a member who declines leaves no trace. A code is first asked
//! what it is, whoever hands it in: the camera, a link, a thumb or the hub.

use shared_core::attestation::Arriving;
use shared_core::code::{self, Scanned};
use shared_core::command::Command;
use shared_core::ids::{MachineId, RoomId, RoundId, StatementId};
use shared_core::refusal::Refusal;
use shared_core::time::Instant;

use super::Desk;
use crate::shell::errand::Errand;
use crate::shell::journal::Journal;
use crate::shell::keys::Signer;
use crate::store::{Notice, Screen};

impl<J: Journal, S: Signer> Desk<J, S> {
    /// A code was handed in by the member.
    pub(super) async fn scanned(&mut self, text: &str) {
        self.notice = None;
        if self.line_shown(text).await {
            return;
        }
        match code::read(text, &self.origin) {
            Ok(Scanned::Door { room, join }) => {
                if let Some(code) = join
                    && self.me().is_none()
                {
                    self.join_with(code);
                }
                self.arrive_at(room);
            }
            Ok(Scanned::Machine { machine }) => self.machine_scanned(&machine),
            Ok(Scanned::Stop { stop }) => self.stop_scanned(stop),
            Ok(Scanned::Round { round }) => self.round_scanned(round),
            Ok(Scanned::Join { code }) => self.join_with(code),
            Ok(Scanned::Ask(ask)) => self.asked(ask),
            Ok(Scanned::Face(face)) => self.card_shown(&face, text.trim()),
            Ok(Scanned::Answer(answer)) => self.answered(&answer, text.trim()).await,
            Err(unreadable) => self.notice = Some(Notice::Unreadable(unreadable)),
        }
    }

    /// Comes to a door. Before the phone has joined the room is kept in mind.
    pub(super) fn arrive_at(&mut self, room: RoomId) {
        self.notice = None;
        self.go(Screen::Door);
        if self.ledger.my_session().is_none() {
            self.arriving = Some(Arriving::at(room, self.now()));
        }
    }

    pub(super) fn attest(&mut self, statement: &StatementId) {
        self.notice = None;
        let now = self.now();
        if let (Some(arriving), Some(shop)) = (&mut self.arriving, &self.shop) {
            arriving.attest(&shop.rulebook, statement, now);
        }
    }

    /// Nothing is written: the value is dropped.
    pub(super) fn decline(&mut self) {
        let Some(arriving) = self.arriving.take() else { return };
        let next = self.shop.as_ref().and_then(|shop| arriving.next_statement(&shop.rulebook));
        self.notice = next.map(|(_, statement)| Notice::Declined(statement.decline.clone()));
    }

    pub(super) async fn begin(&mut self, out_by: Instant) {
        self.notice = None;
        let Some(arriving) = self.arriving.clone() else { return };
        let Arriving { room, began, attested } = arriving;
        let session = self.new_session_id();
        if self.act(Command::Arrive { session, room, entered_at: began, out_by, attested }).await {
            self.arriving = None;
            self.errands.push(Errand::Stay);
            self.go(Screen::Bench);
        }
    }

    /// A round's code was scanned: its sheet is shown, and one touch there says that it was done.
    fn round_scanned(&mut self, round: RoundId) {
        let Some(shop) = &self.shop else { return };
        if shop.rulebook.round(&round).is_some() {
            self.at_round = Some(round);
        } else {
            self.notice = Some(Notice::Refused(Refusal::NoSuchRound { round }));
        }
    }

    fn machine_scanned(&mut self, machine: &MachineId) {
        let Some(shop) = &self.shop else { return };
        if let Some(found) = shop.rulebook.machine(machine) {
            self.notice = Some(Notice::MachineScanned { name: found.name.clone() });
            self.go(if self.ledger.my_session().is_some() { Screen::Bench } else { Screen::Room });
        } else {
            self.notice = Some(Notice::Refused(Refusal::NoSuchMachine { machine: machine.clone() }));
        }
    }
}
