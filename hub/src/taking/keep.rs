//! Writing judged pushes: their lines one behind the other in the log, and what is told of them once they are there.

use shared_core::ids::DeviceId;
use shared_core::standing::said_by;
use shared_core::sync::hub::{Judged, Taken};
use shared_core::time::Instant;

use super::desk::Weighed;
use crate::store::{Change, News, Row, Says, StoreError};

/// Where pushes stand in the log.
pub(super) struct Kept {
    /// The first place that each took, and the last.
    pub(super) places: Vec<Option<(i64, i64)>>,
    /// Some of it is known by a later line's signature alone.
    pub(super) owes_proof: bool,
}

/// Writes what became of pushes.
pub(super) async fn keep(
    change: &mut Change,
    devs: &[&DeviceId],
    weighed: &[Weighed],
    now: Instant,
) -> Result<Kept, StoreError> {
    let (mut rows, mut counts) = (Vec::new(), Vec::with_capacity(weighed.len()));
    for (dev, weighed) in devs.iter().zip(weighed) {
        let before = rows.len();
        for Judged { line: jws, taken, .. } in &weighed.judged {
            let (seq, hash, aside, after) = match taken {
                Taken::Duplicate { .. } | Taken::Refused { .. } => continue,
                Taken::Stored { signed, hash, after } => (signed.seq, hash, None, after),
                Taken::SetAside { seq, hash, why, after } => (*seq, hash, Some(*why), after),
            };
            if let Some(lost) = after {
                change.lose(dev, *lost, now).await?;
            }
            let says = match taken {
                Taken::Stored { signed, .. } => Some(Says::of(&signed.entry)),
                _ => None,
            };
            rows.push(Row { dev, seq, hash, jws, aside, says });
        }
        counts.push(i64::try_from(rows.len() - before)?);
    }
    let Some(last) = change.append_all(&rows, now).await? else {
        return Ok(Kept { places: vec![None; devs.len()], owes_proof: false });
    };
    let mut next = i64::try_from(last)? + 1 - i64::try_from(rows.len())?;
    let places = counts.into_iter().map(|count| {
        let first = next;
        next += count;
        (count > 0).then_some((first, next - 1))
    });
    let places: Vec<_> = places.collect();
    let owes = tell(change, devs, weighed, &places)?;
    if let Some((from, to)) = owes {
        change.owe(from, u64::try_from(to)?).await?;
    }
    Ok(Kept { places, owes_proof: owes.is_some() })
}

/// Tells everybody what is theirs to hear; gives what nobody may be handed yet, from its first place to its last.
fn tell(
    change: &mut Change,
    devs: &[&DeviceId],
    weighed: &[Weighed],
    places: &[Option<(i64, i64)>],
) -> Result<Option<(i64, i64)>, StoreError> {
    let gives = |judged: &Judged| matches!(&judged.taken, Taken::Stored { signed, .. } if said_by(&signed.entry.fact).is_some());
    if weighed.iter().flat_map(|weighed| &weighed.judged).any(gives) {
        change.tell(News::Joined);
    }
    let mut owes = None;
    for ((dev, weighed), places) in devs.iter().zip(weighed).zip(places) {
        let Some((first, last)) = *places else { continue };
        if weighed.judged.iter().any(|judged| judged.owes_proof) {
            let from = owes.map_or(first, |(from, _)| from);
            owes = Some((from, last));
        } else {
            change.tell(News::Log { by: (*dev).clone(), cursor: u64::try_from(last)? });
        }
    }
    Ok(owes)
}
