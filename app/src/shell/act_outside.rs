//! Runs errands: one exhaustive match. What takes time is begun and comes back as an intention.
//!
//! Decides nothing. A failure comes back with its type, or has no consequence beyond not having happened.

use std::rc::Rc;

use shared_core::sync::message::{SyncAnswer, SyncRequest};
use wasm_bindgen_futures::spawn_local;

use super::errand::Errand;
use super::hub_link::LinkFault;
use super::journal::indexed_db;
use super::keys::DeviceKey;
use super::{BellWords, bell, hub_link, js, photo, pin, prefs, tabs, update, wake_lock};
use crate::intent::{Dispatch, Hub, Intent, Phone};

/// What errands are run with.
pub struct Outside {
    /// The device's key, for the hub.
    pub key: Rc<DeviceKey>,
    /// Where answers go.
    pub dispatch: Dispatch,
    /// How a bell reads.
    pub words: BellWords,
}

impl Outside {
    /// Runs them all, in order.
    pub fn run_all(&self, errands: Vec<Errand>) {
        for errand in errands {
            self.run(errand);
        }
    }

    fn run(&self, errand: Errand) {
        let key = Rc::clone(&self.key);
        match errand {
            Errand::Sync(request) => self.ask(async move { Hub::Synced(sync_in_turn(&key, &request).await) }),
            Errand::FetchShop => self.ask(async move { Hub::Shop(hub_link::shop(&key).await) }),
            Errand::CheckJoin(code) => self.ask(async move {
                let choices = hub_link::check_join(&code).await;
                Hub::Choices(code, choices)
            }),
            Errand::Join { code, member } => {
                self.ask(async move { Hub::Joined(hub_link::join(&code, &member, &key).await) });
            }
            Errand::Carry(carry) => self.ask(async move { Hub::Carried(hub_link::carry(&key, &carry).await) }),
            Errand::Digest { who, figures, salt, rounds } => {
                let door = self.dispatch.clone();
                spawn_local(async move {
                    let digest = pin::digest(&figures, &salt, rounds).await;
                    door.send(Intent::Phone(Phone::Digested(who, digest)));
                });
            }
            Errand::SetPin(figures) => self.ask(async move { Hub::PinSet(pin::set(&key, &figures).await) }),
            Errand::Ask(asked) => self.ask(async move {
                let answer = hub_link::answer(&key, &asked).await;
                Hub::Answered(asked, answer)
            }),
            Errand::Listen => {
                let door = self.dispatch.clone();
                hub_link::listen(move |event| door.send(Intent::Hub(Hub::Said(event))));
            }
            Errand::Photograph(act) => {
                let door = self.dispatch.clone();
                spawn_local(async move {
                    let taken = photo::take().await;
                    door.send(Intent::Phone(Phone::Photographed(act, taken)));
                });
            }
            Errand::HandPictures => photo::hand(),
            Errand::ShowNotice(ringing) => {
                let (title, body) = (self.words)(&ringing);
                spawn_local(async move {
                    bell::show_notice(&title, &body).await;
                });
            }
            Errand::CloseNotice => spawn_local(bell::close_notice()),
            Errand::AskForNotices => {
                let door = self.dispatch.clone();
                spawn_local(async move { door.send(Intent::Phone(Phone::Notices(bell::ask().await))) });
            }
            Errand::Stay => spawn_local(async {
                update::stay().await;
                indexed_db::keep_ballast().await;
            }),
            Errand::WakeForSync => spawn_local(update::wake_for_sync()),
            Errand::Ring(strength) => bell::ring(strength),
            Errand::KeepLit(on) => wake_lock::keep_lit(on),
            Errand::TellTabs => tabs::tell_the_others(),
            Errand::KeepRunning(running) => prefs::keep_running(running.as_ref()),
            Errand::KeepTheme(theme) => prefs::keep_theme(theme),
            Errand::Speak(tag) => {
                prefs::keep_language(tag);
                js::reload();
            }
            Errand::KeepWelcomed => prefs::keep_welcomed(),
            Errand::TakeOver => update::take_over(),
        }
    }

    fn ask(&self, asked: impl Future<Output = Hub> + 'static) {
        let door = self.dispatch.clone();
        spawn_local(async move { door.send(Intent::Hub(asked.await)) });
    }
}

/// Asks if no other tab is asking.
async fn sync_in_turn(key: &Rc<DeviceKey>, request: &SyncRequest) -> Option<Result<Box<SyncAnswer>, LinkFault>> {
    let _turn = tabs::try_lock_sync().await?;
    Some(hub_link::sync(key, request).await.map(Box::new))
}
