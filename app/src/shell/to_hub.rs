//! Asks the hub: one exhaustive match over what it may be asked. What it answers comes back as an intention.
//!
//! Decides nothing, and a failure comes back with its type. Of the later part: see `crate::later`.

use std::rc::Rc;

use shared_core::sync::message::{SyncAnswer, SyncRequest};
use wasm_bindgen_futures::spawn_local;

use super::errand::ToHub;
use super::hub_link::{self, LinkFault};
use super::keys::DeviceKey;
use super::{photo, pin, tabs};
use crate::intent::{Dispatch, Hub, Intent};

/// Begins to ask.
pub fn ask(asked: ToHub, key: Rc<DeviceKey>, door: Dispatch) {
    match asked {
        ToHub::Listen => hub_link::listen(move |event| door.send(Intent::Hub(Hub::Said(event)))),
        ToHub::Pictures => photo::hand(),
        asked => spawn_local(async move {
            if let Some(said) = answer(asked, &key).await {
                door.send(Intent::Hub(said));
            }
        }),
    }
}

/// What it answers; nothing to what is not answered.
async fn answer(asked: ToHub, key: &Rc<DeviceKey>) -> Option<Hub> {
    Some(match asked {
        ToHub::Sync(request) => Hub::Synced(sync_in_turn(key, &request).await),
        ToHub::Shop => Hub::Shop(hub_link::shop(key).await),
        ToHub::CheckJoin(code) => {
            let choices = hub_link::check_join(&code).await;
            Hub::Choices(code, choices)
        }
        ToHub::Join { code, member } => Hub::Joined(hub_link::join(&code, &member, key).await),
        ToHub::Carry(carry) => Hub::Carried(hub_link::carry(key, &carry).await),
        ToHub::SetPin(figures) => Hub::PinSet(pin::set(key, &figures).await),
        ToHub::Screen(asked) => {
            let answer = hub_link::answer(key, &asked).await;
            Hub::Answered(asked, answer)
        }
        ToHub::Listen | ToHub::Pictures => return None,
    })
}

/// Asks if no other tab is asking.
async fn sync_in_turn(key: &Rc<DeviceKey>, request: &SyncRequest) -> Option<Result<Box<SyncAnswer>, LinkFault>> {
    let _turn = tabs::try_lock_sync().await?;
    Some(hub_link::sync(key, request).await.map(Box::new))
}
