//! `POST /api/sync`: a phone's entries come in, others' go out.
//!
//! One transaction a request: every signature and chain is verified, what is stored is on the disk before the answer
//! says so, and what is not counted is told with the reason. A request that comes twice changes nothing.

use std::collections::BTreeMap;
use std::sync::Arc;

use axum::Json;
use axum::extract::{Request, State};
use shared_core::log::chain::Head;
use shared_core::log::jws;
use shared_core::sync::hub::{Intake, Kept, Taken};
use shared_core::sync::message::{MESSAGE_BYTES_MAX, MessageFault, Rejected, SyncAnswer, SyncRequest};
use shared_core::time::Instant;

use crate::api::read_text;
use crate::clock;
use crate::hub::Hub;
use crate::problem::Problem;
use crate::store::{Change, News, Row, Says, SignedIn};

impl From<MessageFault> for Problem {
    fn from(fault: MessageFault) -> Self {
        match fault {
            MessageFault::TooLong { .. } => Self::TooLarge { limit_bytes: MESSAGE_BYTES_MAX },
            MessageFault::Newer { .. } | MessageFault::Older { .. } => Self::OtherProtocol(fault.to_string()),
            MessageFault::Damaged { why } => Self::Unreadable(why),
        }
    }
}

/// Takes what is pushed, answers what is to be pulled.
pub(crate) async fn sync(
    State(hub): State<Arc<Hub>>,
    caller: SignedIn,
    request: Request,
) -> Result<Json<SyncAnswer>, Problem> {
    let ask = SyncRequest::read(&read_text(request, MESSAGE_BYTES_MAX).await?)?;
    let now = clock::now();
    let (head, rejected) = take_in(&hub, &caller, &ask, now).await?;
    let pulled = hub.store.pull(&caller.dev, ask.since, now).await?;
    let mut answer = SyncAnswer::new(now, head, hub.shop.get().rev.clone());
    answer.rejected = rejected;
    answer.pull = pulled.lines;
    answer.cursor = pulled.cursor;
    answer.more = pulled.more;
    let forgotten = hub.store.forgotten(ask.forgot).await?;
    answer.forget = forgotten.stretches;
    answer.forgot = forgotten.last;
    answer.more |= forgotten.more;
    answer.carried = hub.store.take_carried(&caller.member, &caller.dev, now).await?;
    Ok(Json(answer))
}

/// Stores what may be stored, all of it or nothing. Gives the device's head then, and what is not counted.
async fn take_in(
    hub: &Hub,
    caller: &SignedIn,
    ask: &SyncRequest,
    now: Instant,
) -> Result<(Head, Vec<Rejected>), Problem> {
    if ask.push.is_empty() {
        return Ok((hub.store.head(&caller.dev).await?, Vec::new()));
    }
    let mut change = hub.store.change().await?;
    let head = change.head(&caller.dev).await?;
    let kept = kept(&mut change, caller, &ask.push, &head).await?;
    let mut intake = Intake::new(caller.dev.clone(), caller.member.clone(), head, kept, &ask.lost);
    let mut cursor = None;
    for line in &ask.push {
        let at = keep(&mut change, caller, line, &intake.take(line), now).await?;
        cursor = at.or(cursor);
    }
    if let Some(cursor) = cursor {
        change.tell(News::Log { by: caller.dev.clone(), cursor });
    }
    change.commit().await?;
    Ok((intake.head().clone(), intake.rejected().to_vec()))
}

/// What the hub keeps already among the pushed lines; of lines that cannot be opened, nothing.
async fn kept(
    change: &mut Change,
    caller: &SignedIn,
    push: &[String],
    head: &Head,
) -> Result<BTreeMap<u64, Kept>, Problem> {
    let seqs = push.iter().filter_map(|line| jws::claimed_seq(line)).filter(|seq| *seq <= head.seq);
    let Some((from, to)) = seqs.fold(None, |range: Option<(u64, u64)>, seq| {
        Some(range.map_or((seq, seq), |(from, to)| (from.min(seq), to.max(seq))))
    }) else {
        return Ok(BTreeMap::new());
    };
    Ok(change.held(&caller.dev, from, to).await?)
}

/// Writes what became of a line; gives its cursor if it is kept.
async fn keep(
    change: &mut Change,
    caller: &SignedIn,
    line: &str,
    taken: &Taken,
    now: Instant,
) -> Result<Option<u64>, Problem> {
    let (seq, hash, aside, after) = match taken {
        Taken::Duplicate { .. } | Taken::Refused { .. } => return Ok(None),
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
    Ok(Some(change.append(&Row { dev: &caller.dev, seq, hash, jws: line, aside, says }, now).await?))
}
