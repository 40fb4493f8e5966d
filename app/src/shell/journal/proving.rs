//! Proving what is kept again, while the page has nothing else to do: storage may have spoilt it since it was written or came.
//!
//! Lines of others that a tally stands for were proved when it was made, and are proved again once it is gone. One signature vouches for
//! a run of a phone's lines ([`shared_core::log::run`]). Writes no line: what is spoilt is told, and set aside by the loop like any
//! that cannot be read. Of the later part: see `crate::later`.

use std::cell::Cell;

use shared_core::ids::DeviceId;
use shared_core::log::run;
use wasm_bindgen_futures::spawn_local;

use super::indexed_db::IndexedDb;
use super::open::own_aside;
use super::{Aside, Change, Fault, Journal, Key, Other, Shelf};
use crate::intent::{Dispatch, Intent, Phone};
use crate::shell::desk::card::{self, Proved};
use crate::shell::desk::join::read_shop;

/// So many lines are proved without a pause: each may need a signature of its own, which is 40 ms on a slow phone.
const AT_ONCE: usize = 64;

thread_local! {
    static BEGUN: Cell<bool> = const { Cell::new(false) };
}

/// Begins, once in the life of a page, however often it is asked; says so if anything is spoilt.
pub fn prove(dispatch: Dispatch, dev: DeviceId) {
    if BEGUN.replace(true) {
        return;
    }
    spawn_local(async move {
        // What cannot be read now is proved when the page is opened next.
        if let Ok(Some((card, proved))) = shop(&IndexedDb, &dev).await {
            dispatch.send(Intent::Phone(Phone::ShopProved(card, proved)));
        }
        let Ok(spoilt) = spoilt(&IndexedDb).await else { return };
        dispatch.send(Intent::Phone(if spoilt.is_empty() { Phone::Proved } else { Phone::Spoilt(spoilt) }));
    });
}

/// Proves the hub's words in the rules that are kept, and keeps what follows if that is new: this phone's card, and what it says.
pub(in crate::shell) async fn shop(
    journal: &impl Journal,
    dev: &DeviceId,
) -> Result<Option<(Option<String>, Proved)>, Fault> {
    let Some(shop) = journal.read(Key::Shop).await?.and_then(|text| read_shop(&text)) else { return Ok(None) };
    let proved = card::prove(None, &shop, dev).map(|(_, proved)| proved).unwrap_or_default();
    let text = proved.text();
    if journal.read(Key::Proved).await?.as_ref() != Some(&text) {
        journal.change(&[Change::Value(Key::Proved, text)]).await?;
    }
    Ok(Some((shop.card, proved)))
}

/// What sets aside the lines that no longer open.
pub(in crate::shell) async fn spoilt(journal: &impl Journal) -> Result<Vec<Change>, Fault> {
    let mut spoilt = own_spoilt(journal).await?;
    for shelf in Shelf::ALL {
        let mut after = String::new();
        loop {
            let some = journal.others_after(shelf, &after).await?;
            let Some(last) = some.last() else { break };
            after.clone_from(&last.id);
            for few in some.chunks(AT_ONCE) {
                journal.breathe().await;
                let why = faults(few.iter().map(|Other { jws, .. }| jws.as_str()));
                spoilt.extend(few.iter().zip(why).filter_map(|(Other { id, jws }, why)| {
                    Some(Change::OtherAside(Aside { id: id.clone(), jws: jws.clone(), why: why? }))
                }));
            }
        }
    }
    Ok(spoilt)
}

async fn own_spoilt(journal: &impl Journal) -> Result<Vec<Change>, Fault> {
    let (mut spoilt, mut after) = (Vec::new(), 0);
    loop {
        let some = journal.own_after(after).await?;
        let Some(last) = some.last() else { return Ok(spoilt) };
        after = last.seq;
        journal.breathe().await;
        let why = faults(some.iter().map(|line| line.jws.as_str()));
        spoilt.extend(some.iter().zip(why).filter_map(|(line, why)| Some(own_aside(line.seq, line.jws.clone(), why?))));
    }
}

/// What is wrong with each of these lines, if anything is.
fn faults<'a>(lines: impl Iterator<Item = &'a str> + Clone) -> Vec<Option<String>> {
    let opened = run::open_runs(lines.clone());
    let why = opened.into_iter().zip(lines).map(|(opened, jws)| opened.and_then(|opened| opened.signed(jws)).err());
    why.map(|why| why.map(|why| why.to_string())).collect()
}
