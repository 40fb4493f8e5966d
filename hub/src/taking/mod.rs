//! Taking pushes into the log: those that come while others are written wait, and are written together next.
//!
//! A push comes here with its lines opened, which costs most; the store's lock, what each phone's log ends with, the
//! statements and the disk are then paid once for all that wait. Nothing is told as taken before it is on the disk. Where
//! the database refuses what is in one push, the others are written without it.

mod desk;
mod keep;
#[cfg(test)]
mod tests;

use std::panic::AssertUnwindSafe;
use std::sync::Arc;
use std::sync::atomic::{AtomicUsize, Ordering};

use shared_core::log::chain::Head;
use shared_core::sync::hub::Push;
use shared_core::sync::message::Rejected;
use tokio::runtime::Handle;
use tokio::sync::{mpsc, oneshot};

use self::desk::Desk;
use crate::hub::Hub;
use crate::problem::Problem;
use crate::store::{MET_MAX, SignedIn};

/// No more lines are written together, but for those of one push.
const LINES_MAX: usize = 4_800;
/// More pushes than this do not wait here: their phones are not heard further until there is room.
const QUEUE: usize = 64;

/// What became of a push.
#[derive(Clone, Debug)]
pub(crate) struct TakenIn {
    /// The device's head then.
    pub(crate) head: Head,
    /// What is not counted.
    pub(crate) rejected: Vec<Rejected>,
    /// The first place of the log that it took, and the last: all between are its own.
    pub(crate) places: Option<(i64, i64)>,
}

/// The way to where pushes wait.
#[derive(Debug)]
pub(crate) struct Taking {
    way: mpsc::Sender<Waiting>,
    /// Pushes that came and whose phones were not told yet.
    under_way: AtomicUsize,
}

/// A push, and who waits for what becomes of it.
#[derive(Debug)]
pub(crate) struct Waiting {
    brought: Brought,
    told: oneshot::Sender<Result<TakenIn, Problem>>,
}

#[derive(Debug)]
struct Brought {
    caller: SignedIn,
    push: Push,
    /// Entries that the phone cannot read any more.
    lost: Vec<u64>,
}

impl Taking {
    /// A queue, and its other end for [`begin`].
    pub(crate) fn queue() -> (Self, mpsc::Receiver<Waiting>) {
        let (way, waiting) = mpsc::channel(QUEUE);
        (Self { way, under_way: AtomicUsize::new(0) }, waiting)
    }

    /// Stores what may be stored of a push, all of it or nothing.
    pub(crate) async fn take(&self, caller: &SignedIn, lines: Vec<String>, lost: &[u64]) -> Result<TakenIn, Problem> {
        let _under_way = UnderWay::begin(&self.under_way);
        let gone = || Problem::Fault("what was pushed could not be written".into());
        let (told, hears) = oneshot::channel();
        // Lines are opened here, of as many pushes at once as there are cores, and not where they are written.
        let brought = Brought { caller: caller.clone(), push: Push::open(lines), lost: lost.to_vec() };
        self.way.send(Waiting { brought, told }).await.map_err(|_| gone())?;
        hears.await.map_err(|_| gone())?
    }

    /// Whether nobody waits for a push to be taken.
    pub(crate) fn is_quiet(&self) -> bool {
        self.under_way.load(Ordering::Relaxed) == 0
    }
}

/// A push that is under way; no longer when it is dropped.
struct UnderWay<'a>(&'a AtomicUsize);

impl<'a> UnderWay<'a> {
    fn begin(count: &'a AtomicUsize) -> Self {
        count.fetch_add(1, Ordering::Relaxed);
        Self(count)
    }
}

impl Drop for UnderWay<'_> {
    fn drop(&mut self) {
        self.0.fetch_sub(1, Ordering::Relaxed);
    }
}

/// Writes what waits, on a thread of its own: among the tasks that open lines it would have its turn too seldom.
pub(crate) fn begin(hub: Arc<Hub>, waiting: mpsc::Receiver<Waiting>) -> std::io::Result<()> {
    follow(waiting, async move |some| {
        let shop = hub.shop.get();
        let desk = Desk { store: &hub.store, book: &shop.rulebook, members: shop.file() };
        if desk.take(some).await {
            hub.owes_proof.notify_one();
        }
    })
}

/// Takes what waits, one moment's after the other's, for as long as anybody can bring more. Where that panics, those whose
/// pushes it had are told, and the rest goes on.
fn follow(
    mut waiting: mpsc::Receiver<Waiting>,
    take: impl AsyncFn(Vec<Waiting>) + Send + 'static,
) -> std::io::Result<()> {
    let runtime = Handle::current();
    let write = move || {
        let mut next = None;
        while let Some(some) = runtime.block_on(moment(&mut waiting, &mut next)) {
            if std::panic::catch_unwind(AssertUnwindSafe(|| runtime.block_on(take(some)))).is_err() {
                tracing::error!("writing what was pushed panicked");
            }
        }
    };
    std::thread::Builder::new().name("taking".into()).spawn(write).map(drop)
}

/// What is written together: what waits, of one phone one push at a time, for its second goes on where its first ends. `next`
/// is what came up and was left for the next moment.
async fn moment(waiting: &mut mpsc::Receiver<Waiting>, next: &mut Option<Waiting>) -> Option<Vec<Waiting>> {
    let first = match next.take() {
        Some(first) => first,
        None => waiting.recv().await?,
    };
    let (mut lines, mut some) = (first.brought.push.lines(), vec![first]);
    while some.len() < MET_MAX && lines < LINES_MAX {
        let Ok(another) = waiting.try_recv() else { break };
        if some.iter().any(|one| one.brought.caller.dev == another.brought.caller.dev) {
            *next = Some(another);
            break;
        }
        lines += another.brought.push.lines();
        some.push(another);
    }
    Some(some)
}
