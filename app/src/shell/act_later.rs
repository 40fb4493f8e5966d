//! Runs the errands of the later part: one exhaustive match. What is answered or taken comes back as an intention.
//!
//! Decides nothing, and a failure comes back with its type. Of the later part: see `crate::later`.

use std::rc::Rc;

use shared_core::sync::message::{SyncAnswer, SyncRequest};
use wasm_bindgen_futures::spawn_local;

use super::errand::LaterErrand;
use super::hub_link::{self, LinkFault};
use super::journal::proving::prove;
use super::keys::{DeviceKey, Signer as _};
use super::{photo, pin, tabs};
use crate::intent::{Dispatch, Hub, Intent, Phone};

/// Begins. Where the later part came late, what is kept is proved from here on.
pub fn run(errand: LaterErrand, key: Rc<DeviceKey>, door: Dispatch) {
    prove(door.clone(), key.device_id().clone());
    match errand {
        LaterErrand::Listen => hub_link::listen(move |event| door.send(Intent::Hub(Hub::Said(event)))),
        LaterErrand::Pictures => photo::hand(),
        errand => spawn_local(async move {
            if let Some(intent) = ended(errand, &key).await {
                door.send(intent);
            }
        }),
    }
}

/// How it ended; nothing of what is only begun.
async fn ended(errand: LaterErrand, key: &Rc<DeviceKey>) -> Option<Intent> {
    Some(Intent::Hub(match errand {
        LaterErrand::Sync(request) => Hub::Synced(sync_in_turn(key, &request).await),
        LaterErrand::Shop => Hub::Shop(hub_link::shop(key).await),
        LaterErrand::CheckJoin(code) => {
            let choices = hub_link::check_join(&code).await;
            Hub::Choices(code, choices)
        }
        LaterErrand::Join { code, member } => Hub::Joined(hub_link::join(&code, &member, key).await),
        LaterErrand::Carry(carry) => Hub::Carried(hub_link::carry(key, &carry).await),
        LaterErrand::SetPin(figures) => Hub::PinSet(pin::set(key, &figures).await),
        LaterErrand::Screen(asked) => {
            let answer = hub_link::answer(key, &asked).await;
            Hub::Answered(asked, answer)
        }
        LaterErrand::Digest { who, figures, salt, rounds } => {
            let digest = pin::digest(&figures, &salt, rounds).await;
            return Some(Intent::Phone(Phone::Digested(who, digest)));
        }
        LaterErrand::Photograph(act) => {
            let taken = photo::take().await;
            return Some(Intent::Phone(Phone::Photographed(act, taken)));
        }
        LaterErrand::Listen | LaterErrand::Pictures => return None,
    }))
}

/// Asks if no other tab is asking.
async fn sync_in_turn(key: &Rc<DeviceKey>, request: &SyncRequest) -> Option<Result<Box<SyncAnswer>, LinkFault>> {
    let _turn = tabs::try_lock_sync().await?;
    Some(hub_link::sync(key, request).await.map(Box::new))
}
