//! What the screens show, and nothing else: one value a screen, kept until it differs, written by [`render`] alone.
//!
//! Every value is a pure projection of `shared_core::view` or a plain fact of the phone (what waits, what rings). A
//! screen reads, and never writes. A signal changes only when its value does. `now` ticks each second: read it at
//! the leaf that draws time, never in a screen's own closure.

use std::ops::Deref;

use leptos::prelude::*;
use shared_core::bell::Bell;
use shared_core::code::Unreadable;
use shared_core::code::answer::AnswerFault;
use shared_core::ids::{PersonId, StopId};
use shared_core::in_room::Board;
use shared_core::pin::PinFault;
use shared_core::refusal::Refusal;
use shared_core::sync::shop::{JoinChoices, UtcOffset, offset_minutes};
use shared_core::time::{Instant, Span};
use shared_core::view::bench::BenchView;
use shared_core::view::buddy::{Asked, Covering};
use shared_core::view::door::DoorView;
use shared_core::view::moved::Moved;
use shared_core::view::room::RoomView;
use shared_core::view::rounds::RoundRow;
use shared_core::view::sweep::SweepView;

use crate::parts::kept::{Kept, Same, Setter, settable};
use crate::shell::bell::Notices;
use crate::shell::hub_link::LinkFault;
use crate::shell::journal::Fault;
use crate::shell::keys::{Keeping, KeyFault};
use crate::shell::photo::PhotoFault;
use crate::shell::prefs::{Running, Theme};

/// What all screens show at one moment.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Shown {
    /// Whether the app can be used yet.
    pub gate: Gate,
    /// Door.
    pub door: Option<DoorView>,
    /// Bench, in a session.
    pub bench: Option<BenchView>,
    /// Sweep, in a session.
    pub sweep: Option<SweepView>,
    /// Room.
    pub room: Option<RoomView>,
    /// The sheet between two buddies.
    pub buddy: BuddySheet,
    /// The round whose code was scanned.
    pub at_round: Option<RoundRow>,
    /// Whom this member covers.
    pub covering: Vec<Covering>,
    /// What rings now.
    pub bell: Option<Ringing>,
    /// What the last intention came to, if it is worth a word.
    pub notice: Option<Notice>,
    /// What the last act moved of the session's times, and why; gone with the next act.
    pub moved: Option<Moved>,
    /// What one screen alone shows, while it does.
    pub extra: Extra,
    /// What the hub answered one screen, by address, while it is there.
    pub answers: Answers,
    /// What waits, and how the hub is.
    pub sync: SyncBadge,
    /// The shop and who holds this phone.
    pub shop: Option<ShopLine>,
    /// What a scanned code brought before the member.
    pub at: At,
    /// The screen to go to: a new number asks to go there.
    pub going: Going,
    /// Dark or light.
    pub theme: Theme,
    /// The first pages are due.
    pub welcome: bool,
    /// Steady time, each second.
    pub now: Instant,
}

/// What was reckoned of [`crate::intent::Wanted`]: a value that its screen alone knows, of the types in
/// `shell::desk::extra`; of nothing, or before the later part is here, none.
#[derive(Clone, Default, PartialEq)]
pub struct Extra(Option<Same>);

impl Extra {
    /// A value.
    pub fn of<T: PartialEq + Send + Sync + 'static>(value: T) -> Self {
        Self(Some(Same::of(value)))
    }

    /// The value, if it is there and of this type.
    pub fn seen<T: 'static>(&self) -> Option<&T> {
        self.0.as_ref()?.seen()
    }
}

impl std::fmt::Debug for Extra {
    fn fmt(&self, out: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        out.write_str(if self.0.is_some() { "Extra(..)" } else { "Extra" })
    }
}

/// Answers of the hub by the address that was asked.
pub type Answers = Vec<(&'static str, Result<String, LinkFault>)>;

/// Whether the app can be used.
#[derive(Clone, Debug, Default, PartialEq)]
pub enum Gate {
    /// The log is being read. What ran when the app was last seen can be shown meanwhile.
    #[default]
    Starting,
    /// As above, with the copy of the running session.
    Resuming(Running),
    /// There is no storage to keep a log in: a private window, say.
    NoStorage(Fault),
    /// The phone's key is damaged.
    NoKey(KeyFault),
    /// This phone belongs to nobody yet: a join code is wanted.
    JoinCode {
        /// Why the last one did not do.
        fault: Option<LinkFault>,
    },
    /// The code is being looked at.
    JoinChecking,
    /// The code is good: who are you?
    JoinChoose {
        /// Among whom.
        choices: JoinChoices,
        /// Why the last try failed.
        fault: Option<LinkFault>,
    },
    /// Joined; the shop's rules are on their way.
    Fetching {
        /// Why the last try failed.
        fault: Option<LinkFault>,
    },
    /// Ready.
    Open,
}

/// The shop and who holds this phone.
#[derive(Clone, Debug, PartialEq)]
pub struct ShopLine {
    /// The shop's name.
    pub name: String,
    /// Whether its data is invented.
    pub demo: bool,
    /// The emergency number, as it is dialled.
    pub emergency: Option<String>,
    /// Who holds this phone.
    pub me: PersonId,
    /// What they are called.
    pub my_name: String,
    /// The shop's offsets from UTC, ascending.
    pub utc_offsets: Vec<UtcOffset>,
    /// The room whose board this device is, and what its codes are made with.
    pub hangs_in: Option<Board>,
    /// What this phone's card says, if its hub knows cards.
    pub card: Option<CardLine>,
}

/// What this phone's card says.
#[derive(Clone, Debug, PartialEq)]
pub struct CardLine {
    /// Until when it is good.
    pub until: Instant,
    /// Whether its holder looks after the shop.
    pub steward: bool,
    /// Whether its holder signs others off.
    pub signer: bool,
    /// When the hub last said which phones were taken off.
    pub list_at: Instant,
}

impl ShopLine {
    /// Minutes east of UTC on the shop's clocks at `at`.
    pub fn utc_offset_minutes(&self, at: Instant) -> i32 {
        offset_minutes(&self.utc_offsets, at)
    }
}

/// The sheet between two buddies.
#[derive(Clone, Debug, Default, PartialEq)]
pub enum BuddySheet {
    /// Closed.
    #[default]
    Closed,
    /// The operator's: show this code, then scan the answer.
    Asking {
        /// The code's text.
        code: String,
        /// Until when it may be answered.
        until: Instant,
        /// Whose phone is asked over the network as well.
        to: Option<String>,
        /// Who can confirm on this phone, with figures of their own.
        pins: Vec<(PersonId, String)>,
        /// For how many minutes a confirmation holds.
        minutes: u32,
    },
    /// The buddy's: somebody asks.
    Asked(Asked),
    /// The buddy's: show this code back.
    Answered {
        /// The code's text.
        code: String,
        /// What became of handing it over by the network.
        carried: Carriage,
        /// What is said, and to whom.
        to: String,
    },
}

impl BuddySheet {
    /// The same as if its code were still on its way: a sheet is not drawn anew when that has come through.
    pub fn on_its_way(mut self) -> Self {
        if let Self::Answered { carried, .. } = &mut self {
            *carried = Carriage::Underway;
        }
        self
    }

    /// What became of its code.
    pub fn carried(&self) -> Carriage {
        if let Self::Answered { carried, .. } = self { *carried } else { Carriage::Underway }
    }
}

/// What became of a code that the network was to hand over.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Carriage {
    /// On its way.
    #[default]
    Underway,
    /// The hub has it.
    Handed,
    /// It could not be: the code on the screen does it.
    Failed,
}

/// A bell that rings.
#[derive(Clone, Debug, PartialEq)]
pub struct Ringing {
    /// Which.
    pub bell: Bell,
    /// When it was due.
    pub at: Instant,
    /// By how much it was late.
    pub late: Span,
    /// The machine it is about.
    pub machine: Option<String>,
}

/// What an intention came to.
#[derive(Clone, Debug, PartialEq)]
pub enum Notice {
    /// A rule says no.
    Refused(Refusal),
    /// It was not saved, so it does not count.
    NotSaved(Fault),
    /// It was not signed, so it does not count.
    NotSigned(KeyFault),
    /// It counts, but lies in the browser's small store until the app is opened again.
    KeptInSpare,
    /// A statement was declined: what to do instead, in the rulebook's words.
    Declined(String),
    /// The code could not be read.
    Unreadable(Unreadable),
    /// A machine's code was scanned.
    MachineScanned {
        /// Its name.
        name: String,
    },
    /// The buddy's answer does not count.
    BadAnswer(AnswerFault),
    /// About somebody's figures, or a board's.
    Pin(Pin),
    /// The ids of this shop are too long for a code.
    CodeTooLong,
    /// A buddy confirmed.
    BuddyHere {
        /// Their name.
        name: String,
    },
    /// Somebody showed their card, and it counts.
    CardSeen {
        /// Their name.
        name: String,
    },
    /// Somebody showed a card that does not count.
    BadCard,
    /// Somebody's word about this member was shown, and counts from now on.
    WordTaken,
    /// One that takes back what stood.
    WordBack,
    /// What was shown is about somebody else, or by somebody who may not say it.
    OthersWord,
    /// A buddy left.
    BuddyGone {
        /// Their name.
        name: String,
    },
    /// There is no picture. What it was for can be done without.
    NoPhoto(PhotoFault),
    /// The hub did not do it.
    Link(LinkFault),
    /// Lines of the log could not be read again and lie aside.
    SetAside {
        /// How many.
        lines: u32,
    },
    /// The wall clock jumped; the session's times are not moved by that.
    ClockJumped {
        /// By how many seconds; negative backwards.
        seconds: i64,
    },
    /// The hub's story of this phone differs from the phone's own.
    Forked,
}

/// What came of figures that were typed.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Pin {
    /// They will not do.
    Fault(PinFault),
    /// They are not that person's.
    Wrong,
    /// Too many were wrong: none are taken for a while.
    Rests {
        /// For how long.
        minutes: i64,
    },
    /// This phone has nothing to check them against.
    Unknown,
    /// They are kept: from now on they are this member's.
    Kept,
}

/// What waits, and how the hub is.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct SyncBadge {
    /// Lines that the hub does not hold yet.
    pub waiting: usize,
    /// Lines that it would not take.
    pub rejected: usize,
    /// Lines that could not be read again.
    pub aside: u32,
    /// The last word of the hub.
    pub link: Link,
    /// The log was heard to its end; what is reckoned before that may lack what was said long ago.
    pub heard_all: bool,
    /// Add this to the phone's clock for the hub's, as last estimated.
    pub clock_offset: Option<Span>,
    /// A new version stands ready.
    pub update_waits: bool,
    /// Where the device's key lies.
    pub keeping: Option<Keeping>,
    /// Whether the phone may show notices; `None` until it has been looked up.
    pub notices: Option<Notices>,
}

/// How the hub is.
#[derive(Clone, Debug, Default, PartialEq)]
pub enum Link {
    /// Not asked yet.
    #[default]
    Unknown,
    /// It answered then.
    Reached(Instant),
    /// It did not.
    Fault(LinkFault),
}

/// What a scanned code brought before the member.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub enum At {
    /// Nothing.
    #[default]
    Nothing,
    /// A stop of the walk.
    Stop(StopId),
    /// Somebody whose walk is done.
    Walked {
        /// Who.
        who: PersonId,
        /// Whether it is the walk as it stands here.
        whole: bool,
    },
}

/// A screen to go to.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Going {
    /// Counts the askings.
    pub count: u32,
    /// Where to.
    pub to: Screen,
}

/// The screens that the loop leads to.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Screen {
    /// Arrive.
    #[default]
    Door,
    /// Work.
    Bench,
    /// Close down.
    Sweep,
    /// Who is here.
    Room,
    /// The walk.
    Walk,
    /// What this member may run.
    SignOffs,
    /// People.
    People,
}

/// The read half. Made once, and there as long as the page is: so that every closure of a view carries a pointer, not
/// each field.
#[derive(Clone, Copy)]
pub struct AppView(&'static Fields);

impl Deref for AppView {
    type Target = Fields;

    fn deref(&self) -> &Fields {
        self.0
    }
}

macro_rules! app_view {
    ($($field:ident: $kind:ty),* $(,)?) => {
        /// What [`AppView`] leads to: a kept value for each field of [`Shown`].
        pub struct Fields {
            $(
                #[doc = concat!("See [`Shown::", stringify!($field), "`].")]
                pub $field: Kept<$kind>,
            )*
        }

        /// The write half, which only the loop holds.
        pub struct Render {
            $($field: Setter<$kind>,)*
        }

        /// Both halves, showing `shown`.
        pub fn app_view(shown: Shown) -> (AppView, &'static Render) {
            let Shown { $($field),* } = shown;
            $(let $field = settable($field);)*
            let fields = Fields { $($field: $field.0),* };
            (AppView(Box::leak(Box::new(fields))), Box::leak(Box::new(Render { $($field: $field.1),* })))
        }

        /// Shows `next`: each signal is written if its value differs, and wakes its readers only then.
        pub fn render(to: &Render, next: &Shown) {
            let Shown { $($field),* } = next;
            $(to.$field.set($field);)*
        }
    };
}

app_view! {
    gate: Gate,
    door: Option<DoorView>,
    bench: Option<BenchView>,
    sweep: Option<SweepView>,
    room: Option<RoomView>,
    buddy: BuddySheet,
    at_round: Option<RoundRow>,
    covering: Vec<Covering>,
    bell: Option<Ringing>,
    notice: Option<Notice>,
    moved: Option<Moved>,
    extra: Extra,
    answers: Answers,
    sync: SyncBadge,
    shop: Option<ShopLine>,
    at: At,
    going: Going,
    theme: Theme,
    welcome: bool,
    now: Instant,
}

/// What the screens show, inside the app.
pub fn use_app_view() -> AppView {
    expect_context::<AppView>()
}
