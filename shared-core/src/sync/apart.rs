//! Lines of an answer as they are smallest on the wire: what each says and its signature apart, and no hash that an earlier line
//! of the same answer implies.
//!
//! A line as it is kept is text in base64url, and the hash in it is base64url within that: two thirds of what compression leaves
//! of a page is signatures and hashes, which nothing makes smaller. Taken apart, only the signatures are left. A hub says a
//! page so to whoever asks for it (`SyncRequest::apart`), and only if what they put together again is the same to the letter.
//!
//! On the wire it is a list of texts: what each line says, as the JSON that was signed, and last all signatures, one after the
//! other. In place of a hash that was left out stands by how many lines before this one the line stands that it is of.
//!
//! Proves nothing: what was put together is opened like any other line.

use serde_json::Value;

use crate::json::{FromJson as _, field};
use crate::log::jws::{self, SIGNATURE_CHARS};
use crate::ordered::Map;

/// What stands before the hash of the line before.
const BEFORE_HASH: &str = "\"prev\":\"";

/// Takes lines apart; nothing if they would not be the same again.
pub fn take_apart(lines: &[String]) -> Option<Vec<String>> {
    let (mut apart, mut signatures, mut known) = (Vec::new(), String::new(), Map::new());
    for (at, line) in lines.iter().enumerate() {
        let (mut text, signature) = jws::text_and_signature(line)?;
        let from = text.find(BEFORE_HASH)? + BEFORE_HASH.len();
        let to = from + text.get(from..)?.find('"')?;
        if let Some(before) = known.get(&text[from..to]) {
            text.replace_range(from..to, &(at - before).to_string());
        }
        apart.push(text);
        signatures.push_str(signature);
        known.insert(jws::hash(line), at);
    }
    apart.push(signatures);
    (put_together(apart.clone()).as_deref() == Some(lines)).then_some(apart)
}

fn put_together(mut texts: Vec<String>) -> Option<Vec<String>> {
    let signatures = texts.pop()?;
    let mut lines: Vec<String> = Vec::new();
    for mut text in texts {
        let from = text.find(BEFORE_HASH)? + BEFORE_HASH.len();
        let to = from + text[from..].find('"')?;
        // A hash is too long for a number.
        if let Ok(back) = text[from..to].parse() {
            let before = lines.get(lines.len().checked_sub(back)?)?;
            text.replace_range(from..to, &jws::hash(before));
        }
        let signed = lines.len() * SIGNATURE_CHARS;
        lines.push(jws::line_of(&text, signatures.get(signed..signed + SIGNATURE_CHARS)?));
    }
    Some(lines)
}

/// The lines of an answer, which stand there whole or apart; nothing if they do not fit together.
pub fn lines_of(answer: &Value) -> Option<Vec<String>> {
    match answer.get("apart") {
        Some(texts) => put_together(Vec::from_json(texts).ok()?),
        None => field(answer, "pull").ok(),
    }
}
