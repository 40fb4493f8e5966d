//! Runs errands: one exhaustive match. What takes time is begun and comes back as an intention.
//!
//! Decides nothing. A failure comes back with its type, or has no consequence beyond not having happened.

use std::rc::Rc;

use wasm_bindgen_futures::spawn_local;

use super::errand::{Errand, LaterErrand};
use super::journal::indexed_db;
use super::keys::DeviceKey;
use super::later::{Later, at_leisure};
use super::photo::PhotoFault;
use super::{BellWords, bell, js, prefs, tabs, update, wake_lock};
use crate::intent::{Dispatch, Intent, Phone};

/// What errands are run with.
pub struct Outside {
    /// The device's key, for the hub.
    pub key: Rc<DeviceKey>,
    /// Where answers go.
    pub dispatch: Dispatch,
    /// How a bell reads.
    pub words: BellWords,
    /// How far the later part is.
    pub later: Later,
}

impl Outside {
    /// Runs them all, in order.
    pub fn run_all(&self, errands: Vec<Errand>) {
        for errand in errands {
            self.run(errand);
        }
    }

    fn run(&self, errand: Errand) {
        match errand {
            Errand::Later(errand) => self.run_later(errand),
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

    /// The later part is fetched first, once the page is idle. Without it nobody is asked, and nothing taken.
    fn run_later(&self, errand: LaterErrand) {
        let (key, door, later) = (Rc::clone(&self.key), self.dispatch.clone(), self.later);
        spawn_local(async move {
            match at_leisure(later).await {
                Some(parts) => (parts.run)(errand, key, door),
                None => door.send(Intent::Phone(match errand {
                    LaterErrand::Photograph(act) => Phone::Photographed(act, Err(PhotoFault::NotHere)),
                    _ => Phone::Unreached,
                })),
            }
        });
    }
}
