//! Proving the lines of others again, while the page has nothing else to do: storage may have spoilt one since it came.
//!
//! What a tally stands for was proved when the tally was made, and is proved again once that is gone. One signature vouches for a run of a phone's lines ([`shared_core::log::run`]). Writes nothing: what is spoilt is told, and
//! set aside by the loop like any line that cannot be read. Of the later part: see `crate::later`.

use shared_core::log::run;
use wasm_bindgen_futures::spawn_local;

use super::indexed_db::IndexedDb;
use super::{Aside, Fault, Journal, Other, Shelf};
use crate::intent::{Dispatch, Intent, Phone};

/// So many lines are proved without a pause: each may need a signature of its own, which is 40 ms on a slow phone.
const AT_ONCE: usize = 64;

/// Begins; says so if anything is spoilt.
pub fn prove(dispatch: Dispatch) {
    spawn_local(async move {
        // What cannot be read now is proved when the page is opened next.
        let Ok(spoilt) = spoilt(&IndexedDb).await else { return };
        dispatch.send(Intent::Phone(if spoilt.is_empty() { Phone::Proved } else { Phone::Spoilt(spoilt) }));
    });
}

/// Those that no longer open, and why.
pub(in crate::shell) async fn spoilt(journal: &impl Journal) -> Result<Vec<Aside>, Fault> {
    let mut spoilt = Vec::new();
    for shelf in Shelf::ALL {
        let mut after = String::new();
        loop {
            let some = journal.others_after(shelf, &after).await?;
            let Some(last) = some.last() else { break };
            after.clone_from(&last.id);
            for few in some.chunks(AT_ONCE) {
                journal.breathe().await;
                spoilt.extend(spoilt_of(few));
            }
        }
    }
    Ok(spoilt)
}

fn spoilt_of(few: &[Other]) -> Vec<Aside> {
    let opened = run::open_runs(few.iter().map(|other| other.jws.as_str()));
    let why = opened.into_iter().zip(few).map(|(opened, other)| opened.and_then(|opened| opened.signed(&other.jws)));
    let aside = |(other, why): (&Other, shared_core::log::jws::JwsFault)| Aside {
        id: other.id.clone(),
        jws: other.jws.clone(),
        why: why.to_string(),
    };
    few.iter().zip(why).filter_map(|(other, opened)| Some((other, opened.err()?))).map(aside).collect()
}
