//! The later part: what is seldom opened, and comes once the first picture is there.
//!
//! The build puts into a second module whatever is reached from [`later`] and from nowhere else (`xtask/src/bundle`).
//! So nothing of what stands in [`Later`] may be named anywhere else: it is called by way of [`parts`], drawn by
//! `screens::later`. If anything did name it, the build would stop and say by what way.
//! What one needs to arrive, to work, to close down, to muster or in a fire never stands here, but for signing where the browser has
//! no Ed25519 of its own (`shell::keys`): there this part is fetched at once.

use std::cell::Cell;
use std::hint::black_box;
use std::rc::Rc;

use leptos::prelude::*;
use shared_core::card::Trust;
use shared_core::card::face::Face;
use shared_core::code::answer::{self, Accepted, Answer, AnswerFault, Draft};
use shared_core::code::ask::{Ask, Nonce};
use shared_core::entry::Entry;
use shared_core::ids::{DeviceId, PersonId};
use shared_core::in_room::RoomKey;
use shared_core::ordered::Set;
use shared_core::pin::Tries;
use shared_core::refusal::Refusal;
use shared_core::standing::act::{self, Act};
use shared_core::state::State;
use shared_core::sync::shop::{JoinChoices, ShopBundle};
use shared_core::time::Instant;
use shared_core::view::rounds::RoundRow;
use shared_core::viewer::Viewer;
use wasm_bindgen::prelude::*;

use crate::intent::{Dispatch, Hub, Wanted};
use crate::route::Page;
use crate::shell::desk::heard::{Heard, Runs};
use crate::shell::desk::{Desk, Moment, card, figures, hub, people, retire, tally};
use crate::shell::errand::{Errand, LaterErrand};
use crate::shell::hub_link::LinkFault;
use crate::shell::journal::indexed_db::IndexedDb;
use crate::shell::journal::open::Own;
use crate::shell::journal::{Change, Loaded, proving};
use crate::shell::keys::DeviceKey;
use crate::shell::{act_later, seed_key};
use crate::store::{BuddySheet, Extra, Notice};
use crate::{screens, shell};

/// A way to close what lies over a screen.
pub type Close = Callback<()>;

/// [`answer::accept`].
pub type Judge = fn(
    &Answer,
    &Ask,
    Instant,
    &PersonId,
    &dyn Fn(&DeviceId) -> Option<PersonId>,
    &Set<Nonce>,
    Option<(&RoomKey, Instant)>,
) -> Result<Accepted, AnswerFault>;

/// [`figures::draft`].
pub type Drafted = fn(Draft, &Ask, &str) -> Result<(Draft, Vec<u8>), Notice>;

/// [`figures::typed`].
pub type Typed = fn(&Tries, &ShopBundle, PersonId, &str, Instant) -> Result<Errand, Notice>;

/// [`figures::checked`].
pub type Checked = fn(&mut Tries, &ShopBundle, &PersonId, Option<&[u8]>, Instant) -> Result<(), Notice>;

/// [`people::judged`].
pub type JudgedLine =
    fn(&str, &Viewer<'_>, &dyn Fn(&DeviceId) -> Option<PersonId>) -> Option<Result<people::ShownLine, Notice>>;

/// [`tally::read`].
pub type ReadTally = fn(&[u8], &DeviceId) -> Option<tally::Tally>;

/// [`tally::write`].
pub type WriteTally = fn(&DeviceId, &Runs, &Heard, &State) -> Option<Vec<u8>>;

/// [`hub::hear`].
pub type Hear = for<'a> fn(&'a mut Desk<IndexedDb, Rc<DeviceKey>>, Hub, Moment) -> hub::Errands<'a>;

/// [`card::holder`].
pub type Holder = fn(Option<&Trust>, &ShopBundle, &[String], &DeviceId, Instant) -> Option<PersonId>;

/// [`card::face_holds`].
pub type FaceHolds = fn(Option<&Trust>, &ShopBundle, &Face, Instant) -> bool;

/// What the later part has.
pub struct Later {
    /// Book.
    pub book: fn() -> AnyView,
    /// A page of Book.
    pub page: fn(Page) -> AnyView,
    /// A room's wall board.
    pub board: fn() -> AnyView,
    /// What the app cannot do for anybody.
    pub cautions: fn() -> AnyView,
    /// Who is it, of those whom a join code is for?
    pub choose: fn(JoinChoices, Option<LinkFault>) -> AnyView,
    /// The first pages.
    pub welcome: fn() -> AnyView,
    /// What is asked of an answer to a bell.
    pub bell_answer: fn(screens::bell::Answer) -> AnyView,
    /// The sheet between two buddies.
    pub buddy: fn(BuddySheet) -> AnyView,
    /// The sheet of a round whose code was scanned.
    pub round: fn(RoundRow) -> AnyView,
    /// The camera sheet.
    pub scan: fn(Close) -> AnyView,
    /// What lies over Bench or Sweep.
    pub over_bench: fn(screens::bench::Over, Close) -> AnyView,
    /// What lies over Room.
    pub over_room: fn(screens::room::Over, Close) -> AnyView,
    /// Room below its muster list.
    pub room: fn(RwSignal<Option<screens::room::Over>>) -> AnyView,
    /// What of the bells reaches this phone, in a line.
    pub pocket: fn(RwSignal<Option<screens::bench::Over>>) -> AnyView,
    /// Why a refusal is one.
    pub because: fn(&Refusal, bool) -> AnyView,
    /// Whether an answer to an ask of this phone's counts.
    pub judge: Judge,
    /// What a buddy says on their own phone, with what they typed of the board's code, and the bytes to sign.
    pub draft: Drafted,
    /// That, signed, as a code's text.
    pub answer_text: fn(Draft, [u8; 64]) -> Option<String>,
    /// A buddy typed their figures here: what is to be reckoned.
    pub figures_typed: Typed,
    /// That was reckoned: whether they are theirs.
    pub figures_checked: Checked,
    /// A member chose figures.
    pub figures_chosen: fn(&str) -> Result<Errand, Notice>,
    /// Runs an errand.
    pub run: fn(LaterErrand, Rc<DeviceKey>, Dispatch),
    /// Takes up what the hub says.
    pub hear: Hear,
    /// Proves again what is kept.
    pub prove: fn(Dispatch, DeviceId),
    /// Whose phone that is.
    pub holder: Holder,
    /// Whether a face holds.
    pub face_holds: FaceHolds,
    /// The public key of a seed.
    pub public_of: fn(&[u8; 32]) -> [u8; 32],
    /// What is signed with one.
    pub sign_by: fn(&[u8; 32], &[u8]) -> [u8; 64],
    /// Which lines of the journal are over.
    pub over: fn(&Loaded, Instant, Instant) -> Vec<Change>,
    /// Reads a tally.
    pub read_tally: ReadTally,
    /// Writes one.
    pub write_tally: WriteTally,
    /// What follows from an act of Book.
    pub act: fn(&Viewer<'_>, Act) -> Result<Vec<Entry>, Refusal>,
    /// What a scanned line of another phone's is.
    pub line: JudgedLine,
    /// What one screen alone shows.
    pub reckon: fn(&Wanted, &Viewer<'_>, &[Own], &DeviceId, &ShopBundle) -> Extra,
}

thread_local! {
    static CAME: Cell<Option<&'static Later>> = const { Cell::new(None) };
}

/// The later part, once it is here.
pub fn parts() -> Option<&'static Later> {
    CAME.get()
}

/// Called by the page's script once the later part is in its place; alone in reaching all that belongs to it.
#[wasm_bindgen]
pub fn later() {
    let parts = &Later {
        book: screens::book::screen,
        page: screens::book::page,
        board: screens::board::screen,
        cautions: screens::cautions::screen,
        choose: screens::choose::screen,
        welcome: screens::welcome::pages,
        bell_answer: screens::bell_answer::asked,
        buddy: screens::buddy_confirm::sheet,
        round: screens::round_sheet::sheet,
        scan: screens::scan::opened,
        over_bench: screens::bench::later_sheet,
        over_room: screens::room::later_sheet,
        room: screens::room::below,
        pocket: screens::pocket::on_bench,
        because: screens::why::because_markup,
        judge: answer::accept,
        draft: figures::draft,
        answer_text: figures::answer_text,
        figures_typed: figures::typed,
        figures_checked: figures::checked,
        figures_chosen: figures::chosen,
        run: act_later::run,
        hear: hub::hear,
        prove: proving::prove,
        holder: card::holder,
        face_holds: card::face_holds,
        public_of: seed_key::public_of,
        sign_by: seed_key::sign,
        over: retire::over,
        read_tally: tally::read,
        write_tally: tally::write,
        act: act::decide,
        line: people::judged,
        reckon: shell::desk::extra::reckon,
    };
    // Where there is but one value to read, the compiler would name it at each reading.
    CAME.set(Some(black_box(parts)));
}
