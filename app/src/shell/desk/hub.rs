//! What the hub answers or says, taken up. Of the later part: see `crate::later`. Nobody asks the hub before that is here.

use std::pin::Pin;
use std::rc::Rc;

use super::{Desk, Moment};
use crate::intent::{Asked, Hub};
use crate::shell::errand::{Errand, LaterErrand};
use crate::shell::hub_link::LinkFault;
use crate::shell::journal::Journal;
use crate::shell::journal::indexed_db::IndexedDb;
use crate::shell::keys::{DeviceKey, Signer};

/// What is to be done outside, once it is known.
pub type Errands<'a> = Pin<Box<dyn Future<Output = Vec<Errand>> + 'a>>;

/// [`Desk::hub`] of a phone.
pub fn hear(desk: &mut Desk<IndexedDb, Rc<DeviceKey>>, said: Hub, moment: Moment) -> Errands<'_> {
    Box::pin(desk.hub(said, moment))
}

impl<J: Journal, S: Signer> Desk<J, S> {
    /// Takes up what the hub says, and hands out what is to be done outside.
    pub async fn hub(&mut self, said: Hub, moment: Moment) -> Vec<Errand> {
        self.begin_turn(moment).await;
        self.stale = true;
        match said {
            Hub::Said(event) => self.heard(event).await,
            Hub::Synced(answer) => self.synced(answer).await,
            Hub::Shop(answer) => self.shop_came(answer).await,
            Hub::Choices(code, answer) => self.choices_came(code, answer),
            Hub::Joined(answer) => self.joined(answer),
            Hub::Carried(answer) => self.buddy.carried(answer.is_ok()),
            Hub::PinSet(answer) => self.pin_set(answer),
            Hub::Answered(asked, answer) => self.screen_answered(&asked, answer).await,
        }
        self.end_turn()
    }

    /// What a screen asked is answered. What was looked up before is looked up again once something was done.
    async fn screen_answered(&mut self, asked: &Asked, answer: Result<String, LinkFault>) {
        if asked.path == Asked::ERASE && answer.is_ok() {
            self.retire_own().await;
        }
        if !asked.body.is_empty() && answer.is_ok() {
            let looked_up = self.answers.iter().filter(|(path, _)| Asked::LOOKED_UP.contains(path));
            let again = looked_up.map(|(path, _)| LaterErrand::Screen(Asked { path, body: String::new() }));
            self.errands.extend(again.map(Errand::Later));
        }
        self.answers.retain(|(path, _)| *path != asked.path);
        self.answers.push((asked.path, answer));
    }
}
