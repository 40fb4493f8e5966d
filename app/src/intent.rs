//! Everything that can wake the app: one closed list, and the one door through which it is said.
//!
//! A screen sends intentions and gets no answer back; it reads what became of them in [`crate::store::AppView`].
//! An intention is no fact: `shared_core::decide` says what follows. A new one does not compile until the loop handles
//! it (`shell::desk`).

use futures_channel::mpsc::UnboundedSender;
use leptos::prelude::expect_context;
use shared_core::code::answer::Kind;
use shared_core::command::Command;
use shared_core::figures::Reach;
use shared_core::ids::{MachineId, PersonId, RoomId, StatementId};
use shared_core::standing::act::Act;
use shared_core::sync::message::SyncAnswer;
use shared_core::sync::shop::JoinChoices;
use shared_core::time::Instant;

use crate::route::Page;
use crate::shell::bell::Notices;
use crate::shell::desk::card::Proved;
use crate::shell::hub_link::{HubEvent, LinkFault};
use crate::shell::journal::Change;
use crate::shell::photo::PhotoFault;
use crate::shell::prefs::Theme;
use crate::shell::wakeups::Wake;
use crate::store::At;

/// What somebody or something wants.
#[derive(Clone, Debug, PartialEq)]
pub enum Intent {
    /// A member at a screen.
    Ui(Ui),
    /// The phone.
    Phone(Phone),
    /// The hub.
    Hub(Hub),
}

/// What a member wants.
#[derive(Clone, Debug, PartialEq)]
pub enum Ui {
    /// An act of a session under way, a tag, something found. Not [`Command::Arrive`]: that is [`Ui::Begin`].
    Do(Command),
    /// An act of Book on people.
    Act(Act),
    /// This is before the member now, or nothing is.
    At(At),
    /// A code was scanned, typed, opened as a link or handed over: the loop finds out what it is.
    Scanned(String),
    /// To come in here.
    ArriveAt(RoomId),
    /// The statement on the screen is true.
    Attest(StatementId),
    /// The statement on the screen is not true. Nothing is written anywhere.
    Decline,
    /// All is attested and this is the out-by: the session begins.
    Begin {
        /// When the member must be gone.
        out_by: Instant,
    },
    /// Ask for a buddy: a code is shown. With `to`, the hub hands it to that person as well.
    AskBuddy {
        /// For one machine alone.
        machine: Option<MachineId>,
        /// Whose phone is asked over the network.
        to: Option<PersonId>,
    },
    /// Answer the ask that is on the screen.
    AnswerBuddy {
        /// What is said.
        kind: Kind,
        /// What was read off the room's board, as it was typed; may be empty.
        board: String,
    },
    /// A buddy without a phone confirms on this one.
    ConfirmByPin {
        /// Who.
        who: PersonId,
        /// Their figures, as they were typed.
        figures: String,
    },
    /// These are this member's figures from now on, as they were typed.
    SetPin(String),
    /// Close the sheet of the round that was scanned.
    LeaveRound,
    /// Close the buddy's sheet.
    CloseBuddy,
    /// Take a picture; this is done with it, or not at all.
    Photograph(Command),
    /// A join code was typed.
    JoinWith(String),
    /// This is who I am.
    JoinAs(PersonId),
    /// Not to join, or not now.
    StopJoining,
    /// What only one screen shows, for as long as it does.
    Want(Wanted),
    /// The bell was heard.
    Hush,
    /// The notice was read.
    Dismiss,
    /// Another theme.
    Wear(Theme),
    /// Another language, by its tag.
    Speak(&'static str),
    /// The first pages were read, or skipped.
    Welcomed,
    /// The phone may show notices, or be asked whether it may.
    AllowNotices,
    /// Something is asked of the hub, for the screen that shows the answer.
    Ask(Asked),
    /// Sync now.
    Sync,
    /// Let the new version take over now.
    Update,
}

/// What costs something to reckon and is shown by one screen alone.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub enum Wanted {
    /// Nothing of the kind.
    #[default]
    Nothing,
    /// The times as another out-by would make them. Nothing is moved.
    OutBy(Instant),
    /// Why the times are what they are.
    Why,
    /// The board of a room.
    Board(RoomId),
    /// Book: this phone's log, and the member's sessions that are over.
    Book,
    /// A page of Book.
    Page(Page),
    /// The figures of a stretch.
    Figures(Reach),
    /// People whose name holds what was typed, and one of them.
    People {
        /// What was typed.
        typed: String,
        /// Who is looked at.
        who: Option<PersonId>,
    },
}

/// What one screen asks of the hub: an address of its, and a body if it is to do something.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Asked {
    /// The address.
    pub path: &'static str,
    /// The body; empty where something is only looked up.
    pub body: String,
}

impl Asked {
    /// The open one-time codes, to a steward.
    pub const INVITES: &'static str = "/api/invites";
    /// The phones: one's own, or all to a steward.
    pub const PHONES: &'static str = "/api/devices";
    /// What the hub holds about whoever asks.
    pub const MINE: &'static str = "/api/mine";
    /// Its end.
    pub const ERASE: &'static str = "/api/erase";
    /// The hub's key for push services, and where it rings this phone.
    pub const PUSH: &'static str = "/api/push";
    /// The rulebook, to a steward.
    pub const RULES: &'static str = "/api/rules";
    /// What is looked up, and again once something was done.
    pub const LOOKED_UP: [&'static str; 4] = [Self::PHONES, Self::INVITES, Self::MINE, Self::PUSH];
}

/// What the phone reports.
#[derive(Clone, Debug, PartialEq)]
pub enum Phone {
    /// Time has passed, or the phone slept.
    Woke(Wake),
    /// Another tab wrote to the log.
    OtherTab,
    /// What is kept was proved.
    Proved,
    /// Lines do not open any more: what sets them aside.
    Spoilt(Vec<Change>),
    /// The hub's words in the rules that are kept were proved: this phone's card, and what follows.
    ShopProved(Option<String>, Proved),
    /// The digest of the figures that somebody typed; none where the browser cannot reckon it.
    Digested(PersonId, Option<Vec<u8>>),
    /// A picture was taken for an act, or none was.
    Photographed(Command, Result<Option<String>, PhotoFault>),
    /// Whether the phone may show notices.
    Notices(Notices),
    /// A new version of the app stands ready.
    UpdateWaits,
    /// The hub could not be asked: what asks it did not come.
    Unreached,
}

/// What the hub answers or says.
#[derive(Clone, Debug, PartialEq)]
pub enum Hub {
    /// It said something by itself.
    Said(HubEvent),
    /// An exchange of the log ended; `None` where another tab had its turn.
    Synced(Option<Result<Box<SyncAnswer>, LinkFault>>),
    /// The shop, as it stands, in the hub's words.
    Shop(Result<String, LinkFault>),
    /// What stands behind a join code.
    Choices(String, Result<JoinChoices, LinkFault>),
    /// This device was taken up.
    Joined(Result<(), LinkFault>),
    /// A code was handed over, or not.
    Carried(Result<(), LinkFault>),
    /// This member's figures are kept, or not.
    PinSet(Result<(), LinkFault>),
    /// What a screen asked is answered, in the hub's words.
    Answered(Asked, Result<String, LinkFault>),
}

/// The one door for intentions.
#[derive(Clone, Debug)]
pub struct Dispatch(UnboundedSender<Intent>);

impl Dispatch {
    /// A door to the loop behind `sender`.
    pub fn new(sender: UnboundedSender<Intent>) -> Self {
        Self(sender)
    }

    /// Says what a member wants.
    pub fn ui(&self, wanted: Ui) {
        self.send(Intent::Ui(wanted));
    }

    /// Asks for an act.
    pub fn act(&self, command: Command) {
        self.ui(Ui::Do(command));
    }

    /// Says what anything wants. After the loop has ended nobody listens any more, and nothing is lost by that.
    pub fn send(&self, intent: Intent) {
        let _ = self.0.unbounded_send(intent);
    }
}

/// The door for intentions, inside the app.
pub fn use_dispatch() -> Dispatch {
    expect_context::<Dispatch>()
}
