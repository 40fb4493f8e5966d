//! The journal in the browser's database, with strict durability.
//!
//! When the database is lost twice in a row the lines of an act go to a spare place in local storage, and the caller
//! is told so: better a log that says where it lies than a member who is told that nothing happened. The spare is
//! emptied into the log at the next load.
//!
//! The statements themselves are in `js/journal.js`; this file turns words into types.

use gloo_storage::{LocalStorage, Storage};
use js_sys::{Array, Uint8Array};
use serde::{Deserialize, Serialize};
use serde_json::Value;
use wasm_bindgen::prelude::*;

use shared_core::json::{FromJson, from_json};
use shared_core::log::chain::Head;

use super::{Aside, Change, Fault, Journal, Kept, Key, Line, Loaded, Mark, Other, Reach, Shelf};
use crate::later::ReadTally;
use crate::shell::js::word;
use crate::shell::later;
use crate::shell::tabs::{self, Lock};

const SPARE: &str = "sweepbell.spare";

#[wasm_bindgen(module = "/js/journal.js")]
extern "C" {
    #[wasm_bindgen(catch, js_name = load)]
    async fn js_load(whole: bool) -> Result<JsValue, JsValue>;
    #[wasm_bindgen(catch, js_name = linesAfter)]
    async fn js_lines_after(store: &str, key: &JsValue) -> Result<JsValue, JsValue>;
    #[wasm_bindgen(js_name = breathe)]
    async fn js_breathe();
    #[wasm_bindgen(catch, js_name = head)]
    async fn js_head() -> Result<JsValue, JsValue>;
    #[wasm_bindgen(catch, js_name = append)]
    async fn js_append(expected: &str, next: &str, lines: &str) -> Result<(), JsValue>;
    #[wasm_bindgen(catch, js_name = change)]
    async fn js_change(puts: &str, deletes: &str, takes_away: bool) -> Result<(), JsValue>;
    #[wasm_bindgen(catch, js_name = keepTally)]
    async fn js_keep_tally(head: &str, others: f64, losses: f64, tally: &[u8]) -> Result<(), JsValue>;
    #[wasm_bindgen(catch, js_name = kvGet)]
    pub async fn kv_get(key: &str) -> Result<JsValue, JsValue>;
    #[wasm_bindgen(catch, js_name = kvOnce)]
    pub async fn kv_once(key: &str, value: &JsValue) -> Result<JsValue, JsValue>;
    #[wasm_bindgen(catch, js_name = photoPut)]
    pub async fn photo_put(sha: &str, bytes: &JsValue) -> Result<(), JsValue>;
    #[wasm_bindgen(catch, js_name = keepBallast)]
    async fn js_keep_ballast() -> Result<(), JsValue>;
}

/// The browser's database.
#[derive(Clone, Copy, Debug, Default)]
pub struct IndexedDb;

/// The lines of an act that the database would not take.
#[derive(Serialize)]
struct Spare {
    expected: Head,
    next: Head,
    lines: Vec<Line>,
}

from_json! { Spare { expected, next, lines } }

impl Journal for IndexedDb {
    type Turn = Lock;

    async fn turn(&self) -> Lock {
        tabs::lock_log().await
    }

    async fn load(&self, reach: Reach) -> Result<(Loaded, Option<Vec<u8>>), Fault> {
        empty_spare().await?;
        load(reach).await
    }

    async fn reads_tallies(&self) -> Option<ReadTally> {
        later::come().await.map(|parts| parts.read_tally)
    }

    #[expect(clippy::cast_precision_loss, reason = "counts of lines on a phone")]
    async fn keep_tally(&self, head: &Head, Mark { others, losses }: Mark, tally: &[u8]) -> Result<(), Fault> {
        let kept = js_keep_tally(&text(head), others as f64, losses as f64, tally).await;
        kept.map_err(|thrown| fault(&thrown))
    }

    #[expect(clippy::cast_precision_loss, reason = "counts of lines on a phone")]
    async fn own_after(&self, seq: u64) -> Result<Vec<Line>, Fault> {
        parse(js_lines_after("log", &JsValue::from_f64(seq as f64)).await)
    }

    async fn others_after(&self, on: Shelf, id: &str) -> Result<Vec<Other>, Fault> {
        parse(js_lines_after(on.name(), &JsValue::from_str(id)).await)
    }

    async fn breathe(&self) {
        js_breathe().await;
    }

    async fn head(&self) -> Result<Head, Fault> {
        if let Some(last) = spare().last() {
            return Ok(last.next.clone());
        }
        parse(js_head().await)
    }

    async fn append(&self, expected: &Head, next: &Head, lines: &[Line]) -> Result<Kept, Fault> {
        if !spare().is_empty() {
            return put_in_spare(expected, next, lines);
        }
        match js_append(&text(expected), &text(next), &text(lines)).await.map_err(|thrown| fault(&thrown)) {
            Ok(()) => Ok(Kept::Durably),
            Err(Fault::Lost) => put_in_spare(expected, next, lines),
            Err(fault) => Err(fault),
        }
    }

    async fn change(&self, changes: &[Change]) -> Result<(), Fault> {
        let mut puts = Vec::new();
        let mut deletes = Vec::new();
        for change in changes {
            match change {
                Change::Line(line) => puts.push(put("log", line)),
                Change::Other(other) => puts.push(put(Shelf::Fresh.name(), other)),
                Change::LineAside { seq, aside } => {
                    puts.push(put("aside", aside));
                    deletes.push(put("log", seq));
                }
                Change::OtherAside(aside) => {
                    puts.push(put("aside", aside));
                    deletes.extend(of_both(&aside.id));
                }
                Change::LineGone(seq) => deletes.push(put("log", seq)),
                Change::OtherGone(id) => deletes.extend(of_both(id)),
                Change::TallyGone => deletes.push(put("kv", "tally")),
                Change::PhotoGone(digest) => deletes.push(put("photos", digest)),
                Change::Value(key, value) => puts.push(format!("[\"kv\",{},{}]", text(value), text(key.name()))),
            }
        }
        let takes_away = changes.iter().any(Change::takes_away);
        js_change(&list(&puts), &list(&deletes), takes_away).await.map_err(|thrown| fault(&thrown))
    }

    async fn read(&self, key: Key) -> Result<Option<String>, Fault> {
        kv_get(key.name()).await.map(|value| value.as_string()).map_err(|thrown| fault(&thrown))
    }
}

/// Keeps room back for the day that the phone is full. Without room for it there is nothing to keep back.
pub async fn keep_ballast() {
    let _ = js_keep_ballast().await;
}

/// What the database's word means.
pub fn fault(thrown: &JsValue) -> Fault {
    match word(thrown).as_str() {
        "moved" => Fault::Moved,
        "full" => Fault::Full,
        "lost" => Fault::Lost,
        other => Fault::Unavailable(other.to_owned()),
    }
}

async fn load(reach: Reach) -> Result<(Loaded, Option<Vec<u8>>), Fault> {
    let found = js_load(reach == Reach::Whole).await.map_err(|thrown| fault(&thrown))?;
    let found = Array::from(&found);
    let tally = found.get(1).dyn_into::<Uint8Array>().ok().map(|bytes| bytes.to_vec());
    Ok((parse(Ok(found.get(0)))?, tally))
}

fn of_both(id: &str) -> [String; 2] {
    Shelf::ALL.map(|shelf| put(shelf.name(), id))
}

fn parse<T: for<'de> Deserialize<'de>>(answer: Result<JsValue, JsValue>) -> Result<T, Fault> {
    let text = answer.map_err(|thrown| fault(&thrown))?.as_string().unwrap_or_default();
    serde_json::from_str(&text).map_err(|why| Fault::Unavailable(why.to_string()))
}

fn text<T: Serialize + ?Sized>(value: &T) -> String {
    serde_json::to_string(value).expect("lines and heads are plain data")
}

/// A thing and the store that it goes into or out of, as `js/journal.js` takes it. Not by way of a JSON value: writing
/// those brings tables of floats along.
fn put<T: Serialize + ?Sized>(store: &str, thing: &T) -> String {
    format!("[\"{store}\",{}]", text(thing))
}

fn list(items: &[String]) -> String {
    format!("[{}]", items.join(","))
}

fn spare() -> Vec<Spare> {
    let spared = LocalStorage::get::<Value>(SPARE).ok();
    spared.and_then(|acts| Vec::from_json(&acts).ok()).unwrap_or_default()
}

fn put_in_spare(expected: &Head, next: &Head, lines: &[Line]) -> Result<Kept, Fault> {
    let mut acts = spare();
    if acts.last().is_some_and(|last| last.next != *expected) {
        return Err(Fault::Moved);
    }
    acts.push(Spare { expected: expected.clone(), next: next.clone(), lines: lines.to_vec() });
    LocalStorage::set(SPARE, &acts).map_err(|_| Fault::Full)?;
    Ok(Kept::InSpare)
}

/// Moves spared acts into the log, in their order. An act that the log holds already was written after all; one whose
/// place is taken by another is kept aside, where it is counted and shown.
async fn empty_spare() -> Result<(), Fault> {
    for Spare { expected, next, lines } in spare() {
        match js_append(&text(&expected), &text(&next), &text(&lines)).await.map_err(|thrown| fault(&thrown)) {
            Ok(()) => {}
            Err(Fault::Moved) => {
                let (held, _) = load(Reach::SinceTally).await?;
                let foreign = lines.iter().filter(|line| !held.log.iter().any(|kept| kept.jws == line.jws));
                let why = "another line took its place while the storage was away";
                let aside = |line: &Line| Aside { id: line.jws.clone(), jws: line.jws.clone(), why: why.to_owned() };
                let aside: Vec<String> = foreign.map(|line| put("aside", &aside(line))).collect();
                js_change(&list(&aside), "[]", false).await.map_err(|thrown| fault(&thrown))?;
            }
            Err(fault) => return Err(fault),
        }
    }
    LocalStorage::delete(SPARE);
    Ok(())
}
