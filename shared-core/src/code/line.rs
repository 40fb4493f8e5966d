//! A signed line of the log, from phone to phone without a network: that a walk is done, an induction, a sign-off.
//!
//! The line travels in its parts and is put together again by the one way in which lines are written, so that the signature is
//! over the very bytes that its phone signed: what is read here is the entry itself, and counts like one that the hub hands out.
//! Whether its giver may say it is asked elsewhere ([`crate::standing::Words::may_give`]). A longer code than a buddy's (QR
//! version 13 at level M at most), because there is time for it.

use super::packed::{self, Packer, TooLong, Unpacker};
use super::{PREFIX, base45};
use crate::base64url;
use crate::entry::{Entry, Fact};
use crate::ids::{BookId, PersonId, SessionId};
use crate::log::jws::{self, Link, Signed};
use crate::time::Instant;

/// The most bytes of such a line: with the prefix 470 characters, which QR version 13 holds at error correction level M
/// (ISO/IEC 18004, table of capacities: 13-M takes 483 alphanumeric characters).
pub const LINE_BYTES_MAX: usize = 310;

const WALK_DONE: u8 = 1;
const INDUCTED: u8 = 2;
const SIGNED_OFF: u8 = 3;

/// The code's text of a line; nothing of a line that says anything else, or was said in a session.
pub fn write(signed: &Signed) -> Option<Result<String, TooLong>> {
    let Entry { at, session, who, fact } = &signed.entry;
    let (kind, person, training, mark, until) = match fact {
        Fact::WalkDone { mark } => (WALK_DONE, "", "", mark.as_str(), None),
        Fact::Inducted { person, until } => (INDUCTED, person.as_str(), "", "", *until),
        Fact::SignedOff { person, training, until } => (SIGNED_OFF, person.as_str(), training.as_str(), "", *until),
        _ => return None,
    };
    let signature: [u8; 64] = decoded(signed.jws.rsplit('.').next()?)?;
    if *session != SessionId::outside() {
        return None;
    }
    let mut packer = Packer::new(packed::LINE);
    packer.bytes(&[kind]);
    packer.bytes(&jws::key_bytes(&signed.dev)?);
    packer.bytes(&signature);
    packer.bytes(&signed.seq.to_be_bytes());
    packer.bytes(&at.ms().to_be_bytes());
    packer.bytes(&until.map_or(i64::MIN, Instant::ms).to_be_bytes());
    digest(&mut packer, &signed.prev);
    digest(&mut packer, signed.book.as_str());
    for text in [who.as_str(), person, training, mark] {
        packer.id(text);
    }
    Some(packer.text(LINE_BYTES_MAX))
}

/// Reads a code's text, and proves the line's own signature.
pub fn read(text: &str) -> Option<Signed> {
    let bytes = base45::decode(text.trim().strip_prefix(PREFIX)?)?;
    let mut from = Unpacker::new(&bytes);
    from.byte().filter(|kind| *kind == packed::LINE)?;
    let kind = from.byte()?;
    let dev = jws::device_of_bytes(&from.array()?);
    let signature: [u8; 64] = from.array()?;
    let seq = u64::from_be_bytes(from.array()?);
    let at = Instant::from_ms(i64::from_be_bytes(from.array()?));
    let until = i64::from_be_bytes(from.array()?);
    let until = (until != i64::MIN).then(|| Instant::from_ms(until));
    let (prev, book) = (undigested(&mut from)?, undigested(&mut from)?);
    let who = PersonId::new(from.named_id()?);
    let (person, training, mark) = (PersonId::new(from.id()?), from.id()?.to_owned(), from.id()?.to_owned());
    let fact = match kind {
        WALK_DONE => Fact::WalkDone { mark },
        INDUCTED => Fact::Inducted { person, until },
        SIGNED_OFF => Fact::SignedOff { person, training, until },
        _ => return None,
    };
    let entry = from.end(Entry { at, session: SessionId::outside(), who, fact })?;
    let input = jws::signing_input(&entry, &Link { dev, seq, prev, book: BookId::new(book) });
    jws::open(&jws::assemble(&input, signature)).ok()
}

/// A digest in its 32 bytes, or what stands in its place as it is.
fn digest(packer: &mut Packer, text: &str) {
    if let Some(bytes) = decoded::<32>(text) {
        packer.bytes(&[32]);
        packer.bytes(&bytes);
    } else {
        packer.bytes(&[0]);
        packer.id(text);
    }
}

fn undigested(from: &mut Unpacker<'_>) -> Option<String> {
    match from.byte()? {
        32 => from.array::<32>().map(|bytes| base64url::encode(&bytes)),
        0 => from.id().map(str::to_owned),
        _ => None,
    }
}

fn decoded<const N: usize>(text: &str) -> Option<[u8; N]> {
    base64url::decode(text)?.try_into().ok()
}
