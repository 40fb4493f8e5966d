//! Saying what is due, at its second: the log is folded as it grows, `shared_core::call` is asked at every wake-up, and
//! what it gives is claimed in the store and sent.
//!
//! A call is claimed before it is sent, in one change of the store, so that of several processes one says it and none
//! says it twice. What a process claimed and did not live to send is not sent by another; the repeats are for that.
//! A call that no phone listens to is not claimed: whoever subscribes while it is of use still hears it.

use std::sync::Arc;
use std::time::Duration;

use shared_core::call::{Call, calls};
use shared_core::ids::PersonId;
use shared_core::log::jws;
use shared_core::ordered::Map;
use shared_core::state::{State, fold};
use shared_core::time::{Instant, Span};
use tokio::sync::Semaphore;
use tokio::sync::broadcast::Receiver;
use tokio::sync::broadcast::error::RecvError;

use super::message::{self, Subscription};
use super::post::{Message, Outcome};
use crate::clock;
use crate::hub::Hub;
use crate::store::{Behind, News, StoreError};

/// Looked at anew after this at the latest: rules may have changed, and the clock may have been set.
const LOOK_EVERY: Duration = Duration::from_secs(20);
/// A database that does not answer is asked again after this.
const AGAIN_AFTER: Duration = Duration::from_secs(3);
/// Lines that are read at once.
const PAGE: i64 = 500;
/// What was said is remembered this long: longer than any session is of use.
const REMEMBERED: Span = Span::from_minutes(3 * 24 * 60);
/// Requests on their way at once.
const AT_ONCE: usize = 32;
/// When a message that was not taken is tried again.
const TRIES_AFTER: [Duration; 2] = [Duration::from_secs(4), Duration::from_secs(20)];

/// Says what is due until the hub stops.
pub(crate) async fn follow(hub: Arc<Hub>, mut news: Receiver<News>) {
    let mut caller =
        Caller { hub, state: State::default(), pos: 0, erasure: 0, slots: Arc::new(Semaphore::new(AT_ONCE)) };
    loop {
        let wait = match caller.look().await {
            Ok(next) => next.map_or(LOOK_EVERY, |next| until(next).min(LOOK_EVERY)),
            Err(error) => {
                tracing::warn!(%error, "what is due could not be looked up");
                AGAIN_AFTER
            }
        };
        let heard = tokio::select! {
            () = tokio::time::sleep(wait) => continue,
            heard = news.recv() => heard,
            () = caller.hub.rouse.notified() => continue,
            () = caller.hub.stop.asked() => return,
        };
        // One look serves all that is heard by now.
        while news.try_recv().is_ok() {}
        if matches!(heard, Err(RecvError::Closed)) {
            return;
        }
    }
}

fn until(next: Instant) -> Duration {
    Duration::from_millis(u64::try_from((next - clock::now()).ms()).unwrap_or(0))
}

struct Caller {
    hub: Arc<Hub>,
    /// The log up to `pos`.
    state: State,
    pos: i64,
    /// The newest erasure that the state knows of.
    erasure: u64,
    slots: Arc<Semaphore>,
}

impl Caller {
    /// Says what is due, and gives when something will be.
    async fn look(&mut self) -> Result<Option<Instant>, StoreError> {
        let listening = self.listening().await?;
        if listening.is_empty() {
            return Ok(None);
        }
        self.read_on().await?;
        let now = clock::now();
        let said = self.hub.store.said_since(now - REMEMBERED).await?;
        let shop = self.hub.shop.get();
        // Plans of many chores take milliseconds each.
        let found = tokio::task::block_in_place(|| calls(&shop.rulebook, &shop.members, &self.state, &said, now));
        let heard: Vec<Call> =
            found.due.into_iter().filter(|call| call.to.iter().any(|who| listening.contains_key(who))).collect();
        if !heard.is_empty() {
            let mut change = self.hub.store.change().await?;
            change.forget_said_before(now - REMEMBERED).await?;
            let mut ours = Vec::new();
            for call in heard {
                if change.claim(&call.said, now).await? {
                    ours.push(call);
                }
            }
            change.commit().await?;
            for call in ours {
                self.say(&call, &listening);
            }
        }
        Ok(found.next)
    }

    /// Which phones listen, by member. Whoever is in the members file no more is told nothing.
    async fn listening(&self) -> Result<Map<PersonId, Vec<Subscription>>, StoreError> {
        let shop = self.hub.shop.get();
        let mut by_member: Map<PersonId, Vec<Subscription>> = Map::new();
        for subscription in self.hub.store.subscriptions().await? {
            if shop.members.get(&subscription.member).is_some() {
                by_member.entry(subscription.member.clone()).or_default().push(subscription);
            }
        }
        Ok(by_member)
    }

    /// Folds what the log has grown by. A line whose body an older release could not read is folded to nothing.
    async fn read_on(&mut self) -> Result<(), StoreError> {
        let erasure = self.hub.store.newest_erasure().await?;
        if erasure != self.erasure {
            // What was erased is not remembered here either.
            (self.state, self.pos, self.erasure) = (State::default(), 0, erasure);
        }
        loop {
            let lines = self.hub.store.lines_behind(self.pos, PAGE).await?;
            let Some(last) = lines.last() else { return Ok(()) };
            self.pos = last.pos;
            // A million signatures are a minute of a core: none is asked again.
            let opened = |line: &Behind| if line.is_proved { jws::read(&line.jws) } else { jws::open(&line.jws) };
            tokio::task::block_in_place(|| {
                for entry in lines.iter().filter_map(|line| opened(line).ok()) {
                    fold(&mut self.state, &entry.entry);
                }
            });
        }
    }

    fn say(&self, call: &Call, listening: &Map<PersonId, Vec<Subscription>>) {
        let topic = self.hub.sender.key.topic(call.said.session.as_str(), call.said.what.subject());
        let text = message::text(call, &topic);
        let phones: Vec<_> = call.to.iter().filter_map(|who| listening.get(who)).flatten().cloned().collect();
        let (what, late_ms) = (call.said.what.name(), call.late.ms());
        tracing::info!(what, late_ms, phones = phones.len(), "called");
        for to in phones {
            let (hub, slots) = (Arc::clone(&self.hub), Arc::clone(&self.slots));
            let (text, topic, until) = (text.clone(), topic.clone(), call.until);
            tokio::spawn(async move {
                let message = Message { text: &text, topic: &topic, until };
                send(&hub, &slots, &to, &message).await;
            });
        }
    }
}

/// Rings one phone as a try, in so many seconds; of use for a minute after that.
pub(crate) fn try_later(hub: &Arc<Hub>, to: Subscription, in_seconds: u32) {
    let hub = Arc::clone(hub);
    tokio::spawn(async move {
        tokio::select! {
            () = tokio::time::sleep(Duration::from_secs(in_seconds.into())) => {}
            () = hub.stop.asked() => return,
        }
        let now = clock::now();
        let topic = hub.sender.key.topic(to.dev.as_str(), "try");
        let text = message::text_of_try(now, &topic);
        let message = Message { text: &text, topic: &topic, until: now + Span::from_minutes(1) };
        send(&hub, &Semaphore::new(1), &to, &message).await;
    });
}

/// Sends it, and tries again while that is of use. A phone that is gone is not written to any more.
async fn send(hub: &Hub, slots: &Semaphore, to: &Subscription, message: &Message<'_>) {
    let mut tries = TRIES_AFTER.into_iter();
    loop {
        let outcome = {
            // Never closed.
            let _slot = slots.acquire().await;
            hub.sender.post(to, message).await
        };
        match outcome {
            Outcome::Taken | Outcome::Refused => return,
            Outcome::Gone => {
                if let Err(error) = drop_gone(hub, to).await {
                    tracing::warn!(%error, "a phone that is gone could not be forgotten");
                }
                return;
            }
            Outcome::Later => {}
        }
        let Some(wait) = tries.next() else { return };
        tokio::select! {
            () = tokio::time::sleep(wait) => {}
            () = hub.stop.asked() => return,
        }
        if clock::now() >= message.until {
            return;
        }
    }
}

async fn drop_gone(hub: &Hub, gone: &Subscription) -> Result<(), StoreError> {
    let mut change = hub.store.change().await?;
    change.forget_subscription(&gone.dev, Some(&gone.endpoint)).await?;
    change.commit().await
}
