//! Judging and writing the pushes of a moment: one change for all of them, all of each push or nothing of it.

use shared_core::ids::DeviceId;
use shared_core::members::Members;
use shared_core::ordered::Map;
use shared_core::rulebook::Rulebook;
use shared_core::sync::hub::{Intake, Judged, Push};
use shared_core::time::Instant;

use super::keep::{Kept, keep};
use super::{Brought, TakenIn, Waiting};
use crate::clock;
use crate::gate::{self, Gate};
use crate::problem::Problem;
use crate::store::{Change, Store, StoreError};

/// With more lines than this behind the first that waits to be proved, no more are taken unproved.
const UNPROVED_MAX: u64 = 20_000;

/// What is needed to write.
pub(super) struct Desk<'a> {
    pub(super) store: &'a Store,
    pub(super) book: &'a Rulebook,
    /// The members file.
    pub(super) members: &'a Members,
}

/// What became of pushes that were written together.
struct Written {
    taken: Vec<TakenIn>,
    /// Some of it is known by a later line's signature alone.
    owes_proof: bool,
}

/// A push that was judged.
pub(super) struct Weighed {
    intake: Intake,
    pub(super) judged: Vec<Judged>,
}

impl Desk<'_> {
    /// Writes what waited and tells everybody what came of it; gives whether any of it is still to be proved.
    pub(super) async fn take(&self, some: Vec<Waiting>) -> bool {
        let (mut brought, told): (Vec<Brought>, Vec<_>) = some.into_iter().map(|one| (one.brought, one.told)).unzip();
        let (taken, owes_proof) = match self.write(&mut brought).await {
            Ok(Written { taken, owes_proof }) => (taken.into_iter().map(Ok).collect(), owes_proof),
            // The database is away or takes nothing: of nobody.
            Err(error) if brought.len() == 1 || !is_of_content(&error) => {
                let problem = Problem::from(error);
                (brought.iter().map(|_| Err(problem.clone())).collect(), false)
            }
            Err(_) => self.write_one_by_one(brought).await,
        };
        for (told, taken) in told.into_iter().zip(taken) {
            // Whoever went away meanwhile asks again.
            let _ = told.send(taken);
        }
        owes_proof
    }

    async fn write_one_by_one(&self, brought: Vec<Brought>) -> (Vec<Result<TakenIn, Problem>>, bool) {
        let (mut taken, mut owes_proof) = (Vec::with_capacity(brought.len()), false);
        for one in brought {
            match self.write(&mut [one]).await {
                Ok(written) => {
                    taken.extend(written.taken.into_iter().map(Ok));
                    owes_proof |= written.owes_proof;
                }
                Err(error) => taken.push(Err(error.into())),
            }
        }
        (taken, owes_proof)
    }

    /// Writes pushes of different devices with one commit. When it fails nothing is written, and the pushes are as they were.
    async fn write(&self, brought: &mut [Brought]) -> Result<Written, StoreError> {
        let mut weighed = Vec::with_capacity(brought.len());
        let kept = match self.weigh_and_keep(brought, &mut weighed, clock::now()).await {
            Ok(kept) => kept,
            Err(error) => {
                for (brought, weighed) in brought.iter_mut().zip(weighed) {
                    brought.push = Push::of(weighed.judged);
                }
                return Err(error);
            }
        };
        let taken = |(Weighed { intake, .. }, places): (Weighed, _)| TakenIn {
            head: intake.head().clone(),
            rejected: intake.rejected().to_vec(),
            places,
        };
        Ok(Written { taken: weighed.into_iter().zip(kept.places).map(taken).collect(), owes_proof: kept.owes_proof })
    }

    async fn weigh_and_keep(
        &self,
        brought: &mut [Brought],
        weighed: &mut Vec<Weighed>,
        now: Instant,
    ) -> Result<Kept, StoreError> {
        let mut change = self.store.change().await?;
        self.weigh(&mut change, brought, weighed).await?;
        let devs: Vec<&DeviceId> = brought.iter().map(|brought| &brought.caller.dev).collect();
        let kept = keep(&mut change, &devs, weighed, now).await?;
        change.commit().await?;
        Ok(kept)
    }

    /// What becomes of each line: from where the log of its phone ends, and after what those before it in the queue said.
    async fn weigh(
        &self,
        change: &mut Change,
        brought: &mut [Brought],
        weighed: &mut Vec<Weighed>,
    ) -> Result<(), StoreError> {
        let devs: Vec<&DeviceId> = brought.iter().map(|brought| &brought.caller.dev).collect();
        let mut met = change.meets(&devs).await?;
        let mut gate = None;
        for Brought { caller, push, lost } in brought {
            let head = met.heads.remove(&caller.dev).unwrap_or_default();
            let kept = match push.seqs() {
                Some((from, to)) if from <= head.seq => change.held(&caller.dev, from, to.min(head.seq)).await?,
                _ => Map::new(),
            };
            if gate.is_none() && push.says(|entry| gate::is_asked(&entry.fact)) {
                gate = Some(Gate::open(change, self.book, self.members).await?);
            }
            let mut push = std::mem::take(push);
            if push.owes_proof() && met.waiting > UNPROVED_MAX {
                push = push.one_by_one();
            }
            let mut intake = Intake::new(caller.dev.clone(), caller.member.clone(), head, kept, lost);
            let judged = match &mut gate {
                Some(gate) => intake.take_all_asking(push, &mut |entry| gate.may_say(entry)),
                None => intake.take_all(push),
            };
            weighed.push(Weighed { intake, judged });
        }
        Ok(())
    }
}

/// Whether what was to be written is what failed.
fn is_of_content(error: &StoreError) -> bool {
    matches!(error, StoreError::Database(_) | StoreError::Number(_) | StoreError::Value { .. })
}
