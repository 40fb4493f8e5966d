//! `POST /api/sync`: a phone's entries come in, others' go out.
//!
//! One change a request that brings lines, and one look for all that is answered: every line is shown to be its phone's and in its place, what is stored is on the disk before
//! the answer says so, and what is not counted is told with the reason. A request that comes twice changes nothing. Lines
//! of a long push that a later one vouches for are handed to nobody before they are proved by themselves ([`crate::proving`]).

use std::sync::Arc;

use axum::Json;
use axum::extract::{Request, State};
use shared_core::log::chain::Head;
use shared_core::ordered::Map;
use shared_core::standing::said_by;
use shared_core::sync::hub::{Intake, Judged, Push, Taken};
use shared_core::sync::message::{MESSAGE_BYTES_MAX, MessageFault, Rejected, SyncAnswer, SyncRequest};
use shared_core::time::Instant;

use crate::api::read_text;
use crate::clock;
use crate::gate::{Gate, is_asked};
use crate::hub::Hub;
use crate::problem::Problem;
use crate::store::{Change, News, Row, Says, SignedIn, Whom};

impl From<MessageFault> for Problem {
    fn from(fault: MessageFault) -> Self {
        match fault {
            MessageFault::TooLong { .. } => Self::TooLarge { limit_bytes: MESSAGE_BYTES_MAX },
            MessageFault::Newer { .. } | MessageFault::Older { .. } => Self::OtherProtocol(fault.to_string()),
            MessageFault::Damaged { why } => Self::Unreadable(why),
        }
    }
}

/// With more lines than this behind the first that waits to be proved, no more are taken unproved.
const WAITING_MAX: u64 = 20_000;

/// Takes what is pushed, answers what is to be pulled.
pub(crate) async fn sync(
    State(hub): State<Arc<Hub>>,
    caller: SignedIn,
    request: Request,
) -> Result<Json<SyncAnswer>, Problem> {
    let ask = SyncRequest::read(&read_text(request, MESSAGE_BYTES_MAX).await?)?;
    let now = clock::now();
    let taken = if ask.push.is_empty() { None } else { Some(take_in(&hub, &caller, &ask, now).await?) };
    let whom = if hub.shop.get().is_steward(&caller.member) { Whom::Steward } else { Whom::Member };
    let mut look = hub.store.look().await?;
    let (head, rejected) = match taken {
        Some(taken) => taken,
        None => (look.head(&caller.dev).await?, Vec::new()),
    };
    let forgotten = look.forgotten(ask.forgot).await?;
    let pulled = look.pull(&caller.dev, ask.since, whom, now).await?;
    let is_carried_to = look.carries(&caller.member, &caller.dev, now).await?;
    // Given back before anything is written: readers are few.
    drop(look);
    let mut answer = SyncAnswer::new(now, head, hub.shop.get().rev.clone());
    answer.goes_on = Some(ask.goes_on());
    answer.rejected = rejected;
    let told: Vec<u64> = answer.rejected.iter().map(|rejected| rejected.seq).collect();
    answer.rejected.extend(pulled.unsigned.into_iter().filter(|unsigned| !told.contains(&unsigned.seq)));
    answer.pull = pulled.lines;
    answer.cursor = pulled.cursor;
    answer.forget = forgotten.stretches;
    answer.forgot = forgotten.last;
    answer.more = pulled.more || forgotten.more;
    if is_carried_to {
        answer.carried = hub.store.take_carried(&caller.member, &caller.dev, now).await?;
    }
    Ok(Json(answer))
}

/// Stores what may be stored, all of it or nothing. Gives the device's head then, and what is not counted.
async fn take_in(
    hub: &Hub,
    caller: &SignedIn,
    ask: &SyncRequest,
    now: Instant,
) -> Result<(Head, Vec<Rejected>), Problem> {
    // Lines are opened before the store is asked for its lock.
    let mut push = Push::open(&ask.push);
    let mut change = hub.store.change().await?;
    if push.owes_proof() && change.waiting().await? > WAITING_MAX {
        push = Push::open_each(&ask.push);
    }
    let head = change.head(&caller.dev).await?;
    let kept = match push.seqs() {
        Some((from, to)) if from <= head.seq => change.held(&caller.dev, from, to.min(head.seq)).await?,
        _ => Map::new(),
    };
    let mut intake = Intake::new(caller.dev.clone(), caller.member.clone(), head, kept, &ask.lost);
    let judged = if push.says(|entry| is_asked(&entry.fact)) {
        let shop = hub.shop.get();
        let mut gate = Gate::open(&mut change, &shop.rulebook, shop.file()).await?;
        intake.take_all_asking(push, &mut |entry| gate.may_say(entry))
    } else {
        intake.take_all(push)
    };
    let owes_proof = judged.iter().any(|judged| judged.owes_proof);
    keep(&mut change, caller, &judged, now).await?;
    change.commit().await?;
    if owes_proof {
        hub.owes_proof.notify_one();
    }
    Ok((intake.head().clone(), intake.rejected().to_vec()))
}

/// Writes what became of a push.
async fn keep(change: &mut Change, caller: &SignedIn, judged: &[Judged<'_>], now: Instant) -> Result<(), Problem> {
    let first = change.next_pos().await?;
    let mut rows = Vec::with_capacity(judged.len());
    for Judged { line: jws, taken, .. } in judged {
        let (seq, hash, aside, after) = match taken {
            Taken::Duplicate { .. } | Taken::Refused { .. } => continue,
            Taken::Stored { signed, hash, after } => (signed.seq, hash, None, after),
            Taken::SetAside { seq, hash, why, after } => (*seq, hash, Some(*why), after),
        };
        if let Some(lost) = after {
            change.lose(&caller.dev, *lost, now).await?;
        }
        let says = match taken {
            Taken::Stored { signed, .. } => Some(Says::of(&signed.entry)),
            _ => None,
        };
        rows.push(Row { dev: &caller.dev, seq, hash, jws, aside, says });
    }
    let Some(cursor) = change.append_all(&rows, now).await? else { return Ok(()) };
    let gives = |judged: &Judged<'_>| matches!(&judged.taken, Taken::Stored { signed, .. } if said_by(&signed.entry.fact).is_some());
    if judged.iter().any(gives) {
        change.tell(News::Joined);
    }
    if judged.iter().any(|judged| judged.owes_proof) {
        change.owe(first).await?;
    } else {
        change.tell(News::Log { by: caller.dev.clone(), cursor });
    }
    Ok(())
}
