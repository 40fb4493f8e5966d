//! An act: decided under this tab's turn, signed, written as one, and only then folded.
//!
//! When another tab wrote first everything is read again and decided again, once. A refusal, a full phone or a broken
//! key each become a notice; nothing is folded then, so nothing is shown as done.

use shared_core::command::Command;
use shared_core::decide::decide;
use shared_core::entry::Entry;
use shared_core::log::chain::Head;
use shared_core::log::jws::{self, Link, Signed};
use shared_core::refusal::Refusal;
use shared_core::standing::act::Act;
use shared_core::sync::peer::Phone;

use super::Desk;
use super::join::read_shop;
use super::ledger::Ledger;
use crate::later;
use crate::shell::errand::Errand;
use crate::shell::journal::{Change, Fault, Journal, Kept, Key, Line, Standing};
use crate::shell::keys::Signer;
use crate::shell::photo::PhotoFault;
use crate::store::{Notice, Screen};

/// What is to be done.
#[derive(Clone)]
pub(super) enum Deed {
    /// A command.
    Do(Command),
    /// An act of Book.
    OfBook(Act),
}

impl<J: Journal, S: Signer> Desk<J, S> {
    /// An act of a screen; the screen that it leads to follows.
    pub(super) async fn act_and_go(&mut self, command: Command) {
        let round = if let Command::FinishRound { round } = &command { Some(round.clone()) } else { None };
        let to = match command {
            Command::StartSweep { .. } => Some(Screen::Sweep),
            Command::Leave | Command::LeaveUndone { .. } => Some(Screen::Door),
            _ => None,
        };
        // What answers a bell quiets it, once it is durable and not before.
        let answers = to.is_some() || matches!(command, Command::MoveOutBy { .. });
        (self.notice, self.moved) = (None, None);
        if !self.act(command).await {
            return;
        }
        if answers {
            self.quiet().await;
        }
        if round.is_some() && round == self.at_round {
            self.at_round = None;
            self.go(Screen::Room);
        }
        if let Some(to) = to {
            self.go(to);
        }
    }

    /// Does what is asked; true once it is durable.
    pub(super) async fn act(&mut self, command: Command) -> bool {
        self.deed(Deed::Do(command)).await
    }

    /// The same of any act.
    pub(super) async fn deed(&mut self, deed: Deed) -> bool {
        match self.try_act(deed).await {
            Ok(Kept::Durably) => true,
            Ok(Kept::InSpare) => {
                self.notice = Some(Notice::KeptInSpare);
                true
            }
            Err(notice) => {
                self.notice = Some(notice);
                false
            }
        }
    }

    async fn try_act(&mut self, deed: Deed) -> Result<Kept, Notice> {
        let _turn = self.journal.turn().await;
        if self.journal.head().await.map_err(Notice::NotSaved)? != *self.ledger.head() {
            self.read_again().await.map_err(Notice::NotSaved)?;
        }
        match self.decide_and_write(deed.clone()).await {
            Err(Notice::NotSaved(Fault::Moved)) => {
                self.read_again().await.map_err(Notice::NotSaved)?;
                self.decide_and_write(deed).await
            }
            done => done,
        }
    }

    async fn decide_and_write(&mut self, deed: Deed) -> Result<Kept, Notice> {
        let viewer = self.viewer().ok_or(Notice::Refused(Refusal::NotAMember))?;
        let decided = match (deed, later::parts()) {
            (Deed::Do(command), _) => decide(&viewer, command),
            (Deed::OfBook(act), Some(later)) => (later.act)(&viewer, act),
            // Its screen is of the later part, which is here, then.
            (Deed::OfBook(_), None) => Ok(Vec::new()),
        };
        let entries = decided.map_err(Notice::Refused)?;
        let (lines, head) = self.sign(&entries).await?;
        let bare: Vec<Line> = lines.iter().map(|(line, _)| line.clone()).collect();
        let kept = self.journal.append(self.ledger.head(), &head, &bare).await.map_err(Notice::NotSaved)?;
        let before = self.marks();
        self.ledger.grow(lines, head);
        self.moved = self.moved_by(before, &entries);
        self.stand_by(&entries);
        self.stale = true;
        self.sync.hurry(self.clock.now());
        self.errands.push(Errand::TellTabs);
        self.errands.push(Errand::WakeForSync);
        Ok(kept)
    }

    /// Chains the entries to what this device said last.
    async fn sign(&self, entries: &[Entry]) -> Result<(Vec<(Line, Signed)>, Head), Notice> {
        let book = self.shop.as_ref().map(|shop| shop.book.clone()).unwrap_or_default();
        let mut head = self.ledger.head().clone();
        let mut lines = Vec::with_capacity(entries.len());
        for entry in entries {
            let dev = self.signer.device_id().clone();
            let link = Link { dev, seq: head.seq + 1, prev: head.hash, book: book.clone() };
            let input = jws::signing_input(entry, &link);
            let signature = self.signer.sign(input.as_bytes()).await.map_err(Notice::NotSigned)?;
            let jws = jws::assemble(&input, signature);
            head = Head { seq: link.seq, hash: jws::hash(&jws) };
            let Link { dev, seq, prev, book } = link;
            let signed = Signed { jws: jws.clone(), dev, seq, prev, book, entry: entry.clone() };
            lines.push((Line { seq, jws, at: entry.at, standing: Standing::Waiting }, signed));
        }
        Ok((lines, head))
    }

    /// A picture was taken, or none was: the act is done with it, or not at all.
    pub(super) async fn photographed(&mut self, mut act: Command, taken: Result<Option<String>, PhotoFault>) {
        self.stale = true;
        match taken {
            Ok(None) => {}
            Ok(taken) => {
                if let Command::FinishChore { photo, .. } | Command::TagOut { photo, .. } = &mut act {
                    *photo = taken;
                }
                self.act_and_go(act).await;
            }
            Err(fault) => self.notice = Some(Notice::NoPhoto(fault)),
        }
    }

    /// Another tab wrote.
    pub(super) async fn reload(&mut self) {
        self.stale = true;
        if let Err(fault) = self.read_again().await {
            self.notice = Some(Notice::NotSaved(fault));
        }
    }

    /// Lines that storage has spoilt: they lie aside from now on, and are folded no more.
    pub(super) async fn set_aside(&mut self, changes: Vec<Change>) {
        // What cannot be moved aside now is found again at the next opening.
        if self.journal.change(&changes).await.is_ok() {
            self.reload().await;
            self.notice = Some(Notice::SetAside { lines: u32::try_from(changes.len()).unwrap_or(u32::MAX) });
        }
    }

    async fn read_again(&mut self) -> Result<(), Fault> {
        let (ledger, changes) = Ledger::load(&self.journal, self.signer.device_id()).await?;
        self.ledger = ledger;
        self.take_up(&changes).await
    }

    /// Writes what opening the journal found wrong, and takes up what lies beside the log.
    pub(super) async fn take_up(&mut self, changes: &[Change]) -> Result<(), Fault> {
        self.stale = true;
        if !changes.is_empty() {
            self.notice = Some(Notice::SetAside { lines: u32::try_from(changes.len()).unwrap_or(u32::MAX) });
            // What cannot be moved aside now is found again at the next opening.
            let _ = self.journal.change(changes).await;
        }
        if let Some(shop) = self.journal.read(Key::Shop).await? {
            self.shop = read_shop(&shop);
            let proved = self.journal.read(Key::Proved).await?;
            (self.trust, self.proved) = (None, proved.and_then(|proved| serde_json::from_str(&proved).ok()));
            self.stand();
        }
        let phone = self.journal.read(Key::Sync).await?.and_then(|phone| serde_json::from_str::<Phone>(&phone).ok());
        self.sync.take_up(phone);
        let rung = self.journal.read(Key::Rung).await?;
        self.bells.take_up(rung.as_deref());
        Ok(())
    }
}
