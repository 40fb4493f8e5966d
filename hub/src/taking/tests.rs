//! Pushes that are written together, on an embedded database: each where it belongs, and one that cannot be written alone.

use ed25519_dalek::SigningKey;
use shared_core::entry::{Entry, Fact};
use shared_core::ids::SessionId;
use shared_core::log::jws::{self, Link};
use shared_core::time::Instant;
use tokio::sync::oneshot::{self, Receiver};

use super::*;
use crate::shop::{Rules, Source};
use crate::store::{Place, Store};

const NOW: Instant = Instant::from_ms(1_764_000_000_000);

/// A phone that signs what it says.
struct Phone {
    caller: SignedIn,
    key: SigningKey,
    head: Head,
}

impl Phone {
    async fn new(number: u8, store: Option<&Store>) -> Self {
        let key = SigningKey::from_bytes(&[number; 32]);
        let caller = SignedIn { dev: jws::device_of(&key.verifying_key()), member: "ada".into(), ends: NOW };
        if let Some(store) = store {
            let mut change = store.change().await.expect("a change");
            change.join(&caller.dev, &caller.member, NOW).await.expect("joined");
            change.commit().await.expect("committed");
        }
        Self { caller, key, head: Head::default() }
    }

    fn says(&mut self, count: usize) -> Vec<String> {
        let mut say = || {
            let entry = Entry {
                at: NOW,
                session: SessionId::from_entropy([1; 8]),
                who: self.caller.member.clone(),
                fact: Fact::WatchRound,
            };
            let (dev, seq, prev) = (self.caller.dev.clone(), self.head.seq + 1, self.head.hash.clone());
            let jws = jws::sign(&entry, &Link { dev, seq, prev, book: "book".into() }, &self.key).jws;
            self.head = Head { seq, hash: jws::hash(&jws) };
            jws
        };
        (0..count).map(|_| say()).collect()
    }
}

fn waiting(phone: &Phone, lines: Vec<String>) -> (Waiting, Receiver<Result<TakenIn, Problem>>) {
    let (told, hears) = oneshot::channel();
    let brought = Brought { caller: phone.caller.clone(), push: Push::open(lines), lost: Vec::new() };
    (Waiting { brought, told }, hears)
}

/// Its head and its places, or nothing where it failed.
type Told = Option<(u64, Option<(i64, i64)>)>;

/// Writes these together; gives for each its head and its places, or nothing where it failed.
async fn check(store: &Store, some: Vec<(&Phone, Vec<String>)>, expected: &[Told], owes: bool) {
    let rules = Rules::read(&Source::Demo, None, NOW).expect("the demo shop has no mistakes");
    let (some, hear): (Vec<_>, Vec<_>) = some.into_iter().map(|(phone, lines)| waiting(phone, lines)).unzip();
    let desk = Desk { store, book: &rules.rulebook, members: &rules.members };
    assert_eq!(desk.take(some).await, owes, "{expected:?}");
    let mut told = Vec::new();
    for hears in hear {
        told.push(hears.await.expect("told").ok().map(|taken| (taken.head.seq, taken.places)));
    }
    assert_eq!(told, expected);
}

#[tokio::test]
async fn pushes_of_a_moment_stand_one_behind_the_other_and_fail_alone() {
    let folder = tempfile::tempdir().expect("a folder");
    let store = Store::open(&Place::File(folder.path().join("hub.sqlite"))).await.expect("it opens");
    let (mut ada, mut bo) = (Phone::new(1, Some(&store)).await, Phone::new(2, Some(&store)).await);
    let (mut long, mut stranger) = (Phone::new(3, Some(&store)).await, Phone::new(4, None).await);
    let (first, of_bo, of_long) = (ada.says(2), bo.says(1), long.says(30));
    let together = vec![(&ada, first.clone()), (&long, of_long), (&bo, of_bo)];
    check(&store, together, &[Some((2, Some((1, 2)))), Some((30, Some((3, 32)))), Some((1, Some((33, 33))))], true)
        .await;

    let (next, of_stranger, of_bo) = (ada.says(1), stranger.says(1), bo.says(3));
    let again = [first.clone(), next].concat();
    let together = vec![(&ada, again), (&stranger, of_stranger), (&long, Vec::new()), (&bo, of_bo)];
    check(&store, together, &[Some((3, Some((34, 34)))), None, Some((30, None)), Some((4, Some((35, 37))))], false)
        .await;

    check(&store, vec![(&ada, first)], &[Some((3, None))], false).await;
    assert_eq!(store.lines().await.expect("read").len(), 37);
    assert!(store.prove_some().await.expect("proved"));
    assert_eq!(store.handed_out().await.expect("read").len(), 37);
}

/// Sends these at once and gives how many lines of which phone were written together, moment by moment.
async fn check_moments(sent: &[(&Phone, usize)], expected: &[&[(u64, usize)]]) {
    let (way, mut waits) = mpsc::channel(QUEUE);
    for &(phone, lines) in sent {
        let (one, _) = waiting(phone, vec![String::new(); lines]);
        way.send(one).await.expect("room for all");
    }
    drop(way);
    let number = |one: &Waiting| {
        let place = sent.iter().position(|(phone, _)| phone.caller.dev == one.brought.caller.dev);
        place.expect("one of those that sent") as u64
    };
    let (mut next, mut moments) = (None, Vec::new());
    while let Some(some) = moment(&mut waits, &mut next).await {
        moments.push(some.iter().map(|one| (number(one), one.brought.push.lines())).collect::<Vec<_>>());
    }
    assert_eq!(moments, expected);
}

#[tokio::test]
async fn of_one_phone_one_push_is_written_at_a_time_and_no_more_lines_together_than_the_most() {
    let (ada, bo, long) = (Phone::new(1, None).await, Phone::new(2, None).await, Phone::new(3, None).await);
    check_moments(&[], &[]).await;
    check_moments(&[(&ada, 1), (&bo, 2), (&long, 3)], &[&[(0, 1), (1, 2), (2, 3)]]).await;
    check_moments(
        &[(&ada, 1), (&bo, 2), (&ada, 3), (&ada, 4), (&bo, 5)],
        &[&[(0, 1), (1, 2)], &[(0, 3)], &[(0, 4), (1, 5)]],
    )
    .await;
    check_moments(&[(&ada, LINES_MAX - 1), (&bo, 1), (&long, 1)], &[&[(0, LINES_MAX - 1), (1, 1)], &[(2, 1)]]).await;
}

#[tokio::test]
async fn a_panic_is_told_to_those_whose_pushes_it_had_and_no_more() {
    let (taking, waits) = Taking::queue();
    follow(waits, async |some| {
        for Waiting { brought, told } in some {
            assert_ne!(brought.push.lines(), 13, "as the test has it");
            let head = Head { seq: brought.push.lines() as u64, hash: String::new() };
            let _ = told.send(Ok(TakenIn { head, rejected: Vec::new(), places: None }));
        }
    })
    .expect("a thread");
    let ada = Phone::new(1, None).await;
    for (lines, expected) in [(1, Some(1)), (13, None), (2, Some(2))] {
        let taken = taking.take(&ada.caller, vec![String::new(); lines], &[]).await;
        assert_eq!(taken.ok().map(|taken| taken.head.seq), expected, "{lines} lines");
        assert!(taking.is_quiet());
    }
}
