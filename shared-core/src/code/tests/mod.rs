//! Tests of codes, one file a question: what is understood, what is believed, what fits.

mod answers;
mod line;
mod reading;
mod sizes;

use ed25519_dalek::Signer as _;

use super::answer::{Answer, Draft, Kind};
use super::ask::Ask;
use crate::ids::{PersonId, SessionId};
use crate::log::jws;
use crate::log::testing::{key, minute};

/// An ask of `m1` in the fitting shop.
fn ask() -> Ask {
    Ask {
        session: SessionId::from_entropy([1, 2, 3, 4, 5, 6, 7, 0xf8]),
        operator: PersonId::from("m1"),
        room: "fitting".into(),
        machine: Some("pillar-drill".into()),
        nonce: [9; 8],
        issued_at: minute(0),
    }
}

/// An answer to it, by the phone of that number.
fn answer(ask: &Ask, kind: Kind, buddy: &str, phone: u8) -> Answer {
    signed(ask, kind, buddy, phone, None)
}

/// The same, with what was read off a board.
fn signed(ask: &Ask, kind: Kind, buddy: &str, phone: u8, board: Option<u32>) -> Answer {
    let device = jws::device_of(&key(phone).verifying_key());
    let draft = Draft::to(ask, kind, minute(1), buddy.into(), device).by_board(board);
    let signature = key(phone).sign(&draft.signing_input(ask).expect("it fits")).to_bytes();
    draft.assemble(signature)
}
