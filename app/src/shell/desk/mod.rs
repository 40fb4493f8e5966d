//! The loop's own state, and what each intention does to it: decide, make durable, only then fold and show.
//!
//! One intention at a time: a turn. Time and chance are arguments, the journal and the key are traits, everything else outside
//! is an [`Errand`] that is handed back: so the whole of it runs in a native test. Nothing is shown as done before the
//! journal has it (DESIGN.md section 3).
//!
//! Holds no rule: what may be done is asked of `shared_core::decide`, what may be shown of `shared_core::view`.

mod act;
mod bells;
mod buddy;
pub mod card;
mod door;
pub mod extra;
pub mod figures;
pub mod heard;
pub mod hub;
pub mod join;
mod ledger;
pub mod people;
mod pin;
pub mod retire;
mod show;
mod sync;
pub mod tally;
#[cfg(test)]
mod tests;

use shared_core::attestation::Arriving;
use shared_core::card::Trust;
use shared_core::clock::{Jump, Reading, Steady};
use shared_core::command::Command;
use shared_core::entry::Entry;
use shared_core::ids::{PersonId, RoundId, SessionId};
use shared_core::pin::Tries;
use shared_core::sync::shop::{ShopBundle, day_from};
use shared_core::time::Instant;
use shared_core::view::Viewer;
use shared_core::view::moved::{self, Marks, Moved};

use self::act::Deed;
use self::bells::Bells;
use self::buddy::Buddy;
use self::card::Proved;
use self::join::Joining;
use self::ledger::Ledger;
use self::sync::Syncing;
use super::bell::Notices;
use super::errand::{Errand, LaterErrand};
use super::journal::{Fault, Journal};
use super::keys::Signer;
use super::prefs::{Chosen, Running};
use super::wakeups::Wake;
use crate::intent::{Phone, Ui, Wanted};
use crate::store::{Answers, At, Gate, Going, Notice, Screen, Shown};

/// When an intention arrives, and eight bytes of chance for whatever it makes.
#[derive(Clone, Copy, Debug)]
pub struct Moment {
    /// What the clocks say.
    pub reading: Reading,
    /// Fresh random bytes.
    pub chance: [u8; 8],
}

/// Everything the loop knows.
pub struct Desk<J, S> {
    journal: J,
    signer: S,
    /// This shop's address: scheme, host, port if any.
    origin: String,
    clock: Steady,
    chance: [u8; 8],
    ledger: Ledger,
    shop: Option<ShopBundle>,
    /// What follows from the hub's signed words that came with the rules.
    proved: Option<Proved>,
    /// What cards are believed by, if the shop's hub knows cards, once that was needed.
    trust: Option<Trust>,
    /// What the hub answered the screen that is there.
    answers: Answers,
    joining: Joining,
    arriving: Option<Arriving>,
    /// The round whose code was scanned.
    at_round: Option<RoundId>,
    buddy: Buddy,
    /// Wrong figures that were typed here since the page was opened.
    tries: Tries,
    bells: Bells,
    sync: Syncing,
    notice: Option<Notice>,
    /// What the last act, or word from others, moved.
    moved: Option<Moved>,
    wanted: Wanted,
    /// What a scanned code brought before the member, until they leave it.
    at: At,
    going: Going,
    chosen: Chosen,
    update_waits: bool,
    notices: Option<Notices>,
    /// The copy of the running session as it was last handed out.
    kept_running: Option<Running>,
    shown: Shown,
    /// When the screens were last made.
    made_at: Instant,
    /// Something but the time has changed since the screens were made.
    stale: bool,
    errands: Vec<Errand>,
}

impl<J: Journal, S: Signer> Desk<J, S> {
    /// Opens the journal and takes up what was going on. Without a journal there is no desk.
    pub async fn open(
        journal: J,
        signer: S,
        origin: String,
        chosen: Chosen,
        now: Moment,
    ) -> Result<(Self, Vec<Errand>), Fault> {
        let (ledger, changes) = Ledger::load(&journal, signer.device_id()).await?;
        let (clock, jump) = Steady::begin(now.reading, ledger.last_at());
        let mut desk = Self {
            journal,
            signer,
            origin,
            clock,
            chance: now.chance,
            ledger,
            shop: None,
            proved: None,
            trust: None,
            answers: Answers::new(),
            joining: Joining::default(),
            arriving: None,
            at_round: None,
            buddy: Buddy::default(),
            tries: Tries::default(),
            bells: Bells::default(),
            sync: Syncing::default(),
            notice: None,
            moved: None,
            wanted: Wanted::Nothing,
            at: At::Nothing,
            going: Going::default(),
            chosen,
            update_waits: false,
            notices: None,
            kept_running: None,
            shown: Shown::default(),
            made_at: Instant::default(),
            stale: true,
            errands: Vec::new(),
        };
        desk.take_up(&changes).await?;
        desk.begin_joining();
        desk.told_of_jump(jump).await;
        let errands = desk.end_turn();
        Ok((desk, errands))
    }

    /// Does what a member wants, and hands out what is to be done outside.
    pub async fn ui(&mut self, wanted: Ui, moment: Moment) -> Vec<Errand> {
        self.begin_turn(moment).await;
        self.stale = true;
        self.wanted(wanted).await;
        self.end_turn()
    }

    /// Takes up what the phone reports, likewise.
    pub async fn phone(&mut self, told: Phone, moment: Moment) -> Vec<Errand> {
        self.begin_turn(moment).await;
        self.told(told).await;
        self.end_turn()
    }

    /// Nothing but the time changes here.
    async fn begin_turn(&mut self, moment: Moment) {
        self.chance = moment.chance;
        let jump = self.clock.read(moment.reading);
        self.told_of_jump(jump).await;
    }

    /// What follows from the time that has passed, whatever the turn was.
    fn end_turn(&mut self) -> Vec<Errand> {
        self.ask_hub_if_due();
        self.show();
        std::mem::take(&mut self.errands)
    }

    /// What the screens show now.
    pub fn shown(&self) -> &Shown {
        &self.shown
    }

    async fn wanted(&mut self, wanted: Ui) {
        match wanted {
            Ui::Do(command) => self.act_and_go(command).await,
            Ui::Act(act) => {
                (self.notice, self.moved) = (None, None);
                self.deed(Deed::OfBook(act)).await;
            }
            Ui::At(at) => self.at = at,
            Ui::Scanned(text) => self.scanned(&text).await,
            Ui::ArriveAt(room) => self.arrive_at(room),
            Ui::Attest(statement) => self.attest(&statement),
            Ui::Decline => self.decline(),
            Ui::Begin { out_by } => self.begin(out_by).await,
            Ui::AskBuddy { machine, to } => self.ask_buddy(machine, to),
            Ui::AnswerBuddy { kind, board } => self.answer_buddy(kind, &board).await,
            Ui::ConfirmByPin { who, figures } => self.confirm_by_pin(who, &figures),
            Ui::SetPin(figures) => self.set_pin(&figures),
            Ui::LeaveRound => self.at_round = None,
            Ui::CloseBuddy => self.buddy.close(),
            Ui::Photograph(act) => self.errands.push(Errand::Later(LaterErrand::Photograph(act))),
            Ui::JoinWith(code) => self.join_with(code),
            Ui::JoinAs(member) => self.join_as(member),
            Ui::StopJoining => self.stop_joining(),
            Ui::Want(wanted) => {
                if wanted == Wanted::Nothing {
                    self.answers.clear();
                }
                self.wanted = wanted;
            }
            Ui::Ask(asked) => self.errands.push(Errand::Later(LaterErrand::Screen(asked))),
            Ui::Hush => self.hush().await,
            Ui::Dismiss => self.notice = None,
            Ui::Wear(theme) => {
                self.chosen.theme = theme;
                self.errands.push(Errand::KeepTheme(theme));
            }
            Ui::Speak(tag) => self.errands.push(Errand::Speak(tag)),
            Ui::Welcomed => {
                self.chosen.welcomed = true;
                self.errands.push(Errand::KeepWelcomed);
            }
            Ui::AllowNotices => self.errands.push(Errand::AskForNotices),
            Ui::Sync => self.sync.hurry(self.clock.now()),
            Ui::Update => self.errands.push(Errand::TakeOver),
        }
    }

    async fn told(&mut self, told: Phone) {
        match told {
            Phone::Woke(Wake::Tick) => {}
            Phone::Woke(Wake::Seen) => {
                self.stale = true;
                self.sync.hurry(self.clock.now());
            }
            Phone::Woke(Wake::Network) => self.sync.online(self.clock.now()),
            Phone::OtherTab => self.reload().await,
            Phone::Proved => self.tally_up().await,
            Phone::Spoilt(changes) => self.set_aside(changes).await,
            Phone::ShopProved(card, proved) => self.shop_proved(card.as_deref(), proved),
            Phone::Unreached => self.unreached(),
            Phone::Photographed(act, taken) => self.photographed(act, taken).await,
            Phone::Digested(who, digest) => self.digested(who, digest).await,
            Phone::Notices(allowed) => {
                self.stale = true;
                self.notices = Some(allowed);
            }
            Phone::UpdateWaits => {
                self.stale = true;
                self.update_waits = true;
                // A version is never changed under a running session unless the member asks for it.
                if self.ledger.my_session().is_none() && self.arriving.is_none() {
                    self.errands.push(Errand::TakeOver);
                }
            }
        }
    }

    async fn told_of_jump(&mut self, jump: Option<Jump>) {
        let Some(Jump { by }) = jump else { return };
        let seconds = by.ms() / 1000;
        self.stale = true;
        if self.ledger.my_session().is_some() {
            self.act(Command::NoteJump { seconds }).await;
        }
        self.notice = Some(Notice::ClockJumped { seconds });
    }

    fn go(&mut self, to: Screen) {
        self.going = Going { count: self.going.count + 1, to };
    }

    fn me(&self) -> Option<&PersonId> {
        self.shop.as_ref()?.member_of(self.signer.device_id())
    }

    /// The eyes of whoever holds this phone; nobody's before it has joined.
    fn viewer(&self) -> Option<Viewer<'_>> {
        let shop = self.shop.as_ref()?;
        Some(Viewer {
            book: &shop.rulebook,
            members: &shop.members,
            state: self.ledger.state(),
            me: self.me()?,
            session: self.ledger.my_session(),
            now: self.clock.now(),
            day_from: day_from(&shop.utc_offsets, self.clock.now()),
        })
    }

    /// The session's times, before something changes them.
    fn marks(&self) -> Option<Marks> {
        moved::marks(&self.viewer()?)
    }

    /// What these entries moved.
    fn moved_by(&self, before: Option<Marks>, entries: &[Entry]) -> Option<Moved> {
        moved::moved(&before?, &self.viewer()?, entries.iter())
    }

    fn now(&self) -> Instant {
        self.clock.now()
    }

    fn new_session_id(&self) -> SessionId {
        SessionId::from_entropy(self.chance)
    }

    fn gate(&self) -> Gate {
        match self.joining.gate() {
            Some(gate) => gate,
            None if self.viewer().is_some() => Gate::Open,
            None => Gate::JoinCode { fault: None },
        }
    }
}
