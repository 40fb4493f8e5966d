//! Taking what a phone handed in after it was taken off into the log's end, by the intake that every line passes: the same for an
//! endpoint and for the command. What does not follow what the log has of that phone is not taken, and is gone.

use shared_core::ids::DeviceId;
use shared_core::members::Members;
use shared_core::rulebook::Rulebook;
use shared_core::sync::hub::{Intake, Taken};
use shared_core::sync::invite::LateAdmitted;
use shared_core::time::Instant;

use crate::gate::{Gate, is_asked};
use crate::store::{News, Row, Says, Store, StoreError};

/// Takes a phone's late lines in, in order; nothing of a phone that never joined. Without the rulebook and the members file nobody
/// may say what another is to the shop.
pub(crate) async fn admit(
    store: &Store,
    rules: Option<(&Rulebook, &Members)>,
    dev: &DeviceId,
    now: Instant,
) -> Result<Option<LateAdmitted>, StoreError> {
    let mut change = store.change().await?;
    let Some(known) = change.device(dev).await? else { return Ok(None) };
    let head = change.head(dev).await?;
    let lines = change.take_late(dev).await?;
    let kept = change.held(dev, 1, head.seq).await?;
    let mut gate = match rules {
        Some((book, members)) => Some(Gate::open(&mut change, book, members).await?),
        None => None,
    };
    let mut intake = Intake::new(dev.clone(), known.member, head, kept, &[]);
    let (mut admitted, mut cursor) = (LateAdmitted { taken: 0, refused: 0 }, None);
    for line in &lines {
        let taken = intake.take_asking(line, &mut |entry| match &mut gate {
            Some(gate) => gate.may_say(entry),
            None => !is_asked(&entry.fact),
        });
        let (seq, hash, aside) = match &taken {
            Taken::Stored { signed, hash, .. } => (signed.seq, hash, None),
            Taken::SetAside { seq, hash, why, .. } => (*seq, hash, Some(*why)),
            Taken::Duplicate { .. } => continue,
            Taken::Refused { .. } => {
                admitted.refused += 1;
                continue;
            }
        };
        let says = match &taken {
            Taken::Stored { signed, .. } => Some(Says::of(&signed.entry)),
            _ => None,
        };
        cursor = Some(change.append(&Row { dev, seq, hash, jws: line, aside, says }, now).await?);
        admitted.taken += 1;
    }
    if let Some(cursor) = cursor {
        change.tell(News::Log { by: dev.clone(), cursor });
        change.tell(News::Joined);
    }
    change.commit().await?;
    Ok(Some(admitted))
}
