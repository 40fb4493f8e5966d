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
