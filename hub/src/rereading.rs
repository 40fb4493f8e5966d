//! Turns at reading the store for what is served, so that what was read earlier is never served over what was read later:
//! a phone that has just joined would be told that it has not.
//!
//! Each reading is its own; what is written meanwhile waits for none of them.

use std::sync::atomic::{AtomicU64, Ordering};

use tokio::sync::{Mutex, MutexGuard};

/// The turns of one process.
#[derive(Debug, Default)]
pub(crate) struct Rereading {
    /// How many were asked for.
    asked: AtomicU64,
    /// Of those, how many were asked for before the last good reading began.
    read_for: Mutex<u64>,
}

/// One turn: nobody else reads until it is dropped.
#[derive(Debug)]
pub(crate) struct Turn<'a> {
    own: u64,
    /// All that were asked for by now are served by what is read from now on.
    all: u64,
    read_for: MutexGuard<'a, u64>,
}

impl Rereading {
    /// Waits for a turn.
    pub(crate) async fn turn(&self) -> Turn<'_> {
        let own = self.asked.fetch_add(1, Ordering::SeqCst) + 1;
        let read_for = self.read_for.lock().await;
        Turn { own, all: self.asked.load(Ordering::SeqCst), read_for }
    }
}

impl Turn<'_> {
    /// Whether a reading that began after this turn was asked for has ended well: of many who ask at once the first two read.
    pub(crate) fn is_served(&self) -> bool {
        *self.read_for >= self.own
    }

    /// What was read is served.
    pub(crate) fn ended_well(mut self) {
        *self.read_for = self.all;
    }
}

#[cfg(test)]
mod tests {
    use std::pin::pin;
    use std::task::{Context, Poll, Waker};

    use super::*;

    #[tokio::test]
    async fn who_asks_while_one_reads_is_served_by_the_next_reading_and_not_by_that_one() {
        let turns = Rereading::default();
        let first = turns.turn().await;
        assert!(!first.is_served());
        let (mut second, mut third) = (pin!(turns.turn()), pin!(turns.turn()));
        let mut looks = Context::from_waker(Waker::noop());
        assert!(second.as_mut().poll(&mut looks).is_pending(), "one at a time");
        assert!(third.as_mut().poll(&mut looks).is_pending());
        first.ended_well();
        let Poll::Ready(second) = second.poll(&mut looks) else { panic!("its turn has come") };
        assert!(!second.is_served(), "what the first read may be older");
        second.ended_well();
        let Poll::Ready(third) = third.poll(&mut looks) else { panic!("its turn has come") };
        assert!(third.is_served(), "the second began after the third had asked");
    }

    #[tokio::test]
    async fn a_reading_that_failed_serves_nobody() {
        let turns = Rereading::default();
        let first = turns.turn().await;
        let mut second = pin!(turns.turn());
        assert!(second.as_mut().poll(&mut Context::from_waker(Waker::noop())).is_pending());
        drop(first);
        assert!(!second.await.is_served());
    }
}
