//! The only impure part: one file for each thing of the phone that is touched, and the loop that joins them.
//!
//! An intention comes in, the desk decides and writes, the screens are rendered, errands are run; then the next one.
//! Never two at a time, and nothing is rendered as done before the journal has it. Started once, by the root.

pub mod act_later;
mod act_outside;
pub mod address;
pub mod bell;
pub mod camera;
pub mod clock;
pub mod desk;
pub mod dialog;
pub mod entropy;
pub mod errand;
pub mod hub_link;
pub mod install;
pub mod journal;
mod js;
pub mod keys;
pub mod later;
pub mod photo;
mod pin;
pub mod prefs;
pub mod push;
pub mod seed_key;
pub mod size;
pub mod speech;
pub mod tabs;
pub mod update;
pub mod wake_lock;
pub mod wakeups;

use std::pin::Pin;
use std::rc::Rc;

use futures_channel::mpsc::{UnboundedReceiver, unbounded};
use futures_core::Stream;
use wasm_bindgen_futures::spawn_local;

use self::act_outside::Outside;
use self::desk::{Desk, Moment};
use self::journal::Journal as _;
use self::journal::indexed_db::IndexedDb;
use self::keys::{DeviceKey, KeyFault, Signer as _};
use self::later::Later;
use crate::intent::{Dispatch, Intent, Phone};
use crate::later::parts;
use crate::store::{AppView, Gate, Render, Ringing, Shown, app_view, render};

pub use self::js::words;

/// How a bell reads as a notice of the phone's own: title and text.
pub type BellWords = fn(&Ringing) -> (String, String);

/// Starts the loop. What it shows, the door to it, and how far the later part is.
pub fn start(words: BellWords) -> (AppView, Dispatch, Later) {
    let gate = prefs::running().map_or(Gate::Starting, Gate::Resuming);
    let (view, to) = app_view(Shown { gate, theme: prefs::chosen().theme, ..Shown::default() });
    let (sender, intents) = unbounded();
    let dispatch = Dispatch::new(sender);
    let later = later::nobody_asked();
    spawn_local(run(intents, dispatch.clone(), to, words, later));
    (view, dispatch, later)
}

async fn run(
    mut intents: UnboundedReceiver<Intent>,
    dispatch: Dispatch,
    to: &'static Render,
    words: BellWords,
    later: Later,
) {
    bell::unlock_on_touch();
    if let Err(gate) = work(&mut intents, &dispatch, to, words, later).await {
        // Without a log or a key there is nothing to do but to say so.
        render(to, &Shown { gate, theme: prefs::chosen().theme, ..Shown::default() });
    }
}

async fn work(
    intents: &mut UnboundedReceiver<Intent>,
    dispatch: &Dispatch,
    to: &'static Render,
    words: BellWords,
    later: Later,
) -> Result<(), Gate> {
    let key = Rc::new(DeviceKey::open().await.map_err(|fault| match fault {
        KeyFault::Storage(fault) => Gate::NoStorage(fault),
        broken @ KeyFault::Broken(_) => Gate::NoKey(broken),
    })?);
    let (mut desk, mut errands) = Desk::open(IndexedDb, Rc::clone(&key), js::origin(), prefs::chosen(), moment())
        .await
        .map_err(Gate::NoStorage)?;
    let dev = key.device_id().clone();
    let outside = Outside { key, dispatch: dispatch.clone(), words, later };
    let mut listens = false;
    loop {
        turn().await;
        render(to, desk.shown());
        outside.run_all(errands);
        if !listens {
            listens = true;
            listen(dispatch);
            later::fetch_when_idle(later, dispatch.clone(), dev.clone());
        }
        let Some(intent) = next(intents).await else { return Ok(()) };
        errands = match intent {
            Intent::Ui(wanted) => desk.ui(wanted, moment()).await,
            Intent::Phone(told) => desk.phone(told, moment()).await,
            // Whatever asked it is of the later part, which is here, then.
            Intent::Hub(said) => match parts() {
                Some(parts) => (parts.hear)(&mut desk, said, moment()).await,
                None => Vec::new(),
            },
        };
    }
}

/// The page does what waits, a touch or a frame, before the next picture is made. Boxed: small where it is awaited.
#[inline(never)]
fn turn() -> Pin<Box<dyn Future<Output = ()>>> {
    Box::pin(IndexedDb.breathe())
}

/// Everything that wakes the loop by itself.
fn listen(dispatch: &Dispatch) {
    dispatch.send(Intent::Phone(Phone::Notices(bell::notices())));
    let door = dispatch.clone();
    wakeups::listen(move |wake| door.send(Intent::Phone(Phone::Woke(wake))));
    let door = dispatch.clone();
    tabs::on_others(move || door.send(Intent::Phone(Phone::OtherTab)));
    let door = dispatch.clone();
    spawn_local(update::watch(move || door.send(Intent::Phone(Phone::UpdateWaits))));
}

fn moment() -> Moment {
    Moment { reading: clock::read(), chance: entropy::bytes() }
}

async fn next(intents: &mut UnboundedReceiver<Intent>) -> Option<Intent> {
    std::future::poll_fn(|context| Pin::new(&mut *intents).poll_next(context)).await
}
