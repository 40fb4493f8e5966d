//! A language that no person speaks, for tests of the layout: English in letters that nobody mistakes for it, a third
//! longer, and written from right to left.
//!
//! Only development and tests are handed it; no bundle that phones download holds it.

use crate::Book;
use crate::catalogue::encode;
use crate::message::{Form, Message, Piece};

/// A private-use tag of BCP 47; the rest of the app takes it for a kind of English.
const TAG: &str = "en-x-pseudo";

/// Letters and what is written for them; all of them are in the Latin Extended-A block or below, which the app's font
/// and every phone's have.
const LETTERS: &[(char, char)] = &[
    ('a', 'á'),
    ('c', 'ç'),
    ('d', 'đ'),
    ('e', 'é'),
    ('g', 'ğ'),
    ('i', 'í'),
    ('l', 'ł'),
    ('n', 'ñ'),
    ('o', 'ö'),
    ('r', 'ř'),
    ('s', 'š'),
    ('t', 'ŧ'),
    ('u', 'ü'),
    ('y', 'ý'),
    ('z', 'ž'),
    ('A', 'Á'),
    ('C', 'Ç'),
    ('E', 'É'),
    ('I', 'Í'),
    ('L', 'Ł'),
    ('N', 'Ñ'),
    ('O', 'Ö'),
    ('S', 'Š'),
    ('T', 'Ŧ'),
    ('U', 'Ü'),
];

impl Book {
    /// The catalogue of that language.
    pub fn pseudo(&self) -> String {
        let messages: Vec<Message> = self.english().iter().map(spoken).collect();
        encode(&format!("{TAG} rtl {}", self.fingerprint()), &messages)
    }
}

fn spoken(message: &Message) -> Message {
    let mut message = message.clone();
    let all = match &mut message.form {
        Form::Plain(pieces) => vec![pieces],
        Form::Counted { variants, .. } => variants.iter_mut().map(|(_, pieces)| pieces).collect(),
    };
    for piece in all.into_iter().flatten() {
        if let Piece::Text(text) = piece {
            *text = lengthened(text);
        }
    }
    message
}

/// Each vowel and each n twice: a third longer, spread over the words as it is in a language of longer ones.
fn lengthened(text: &str) -> String {
    let mut out = String::new();
    for letter in text.chars() {
        let written = LETTERS.iter().find(|(plain, _)| *plain == letter).map_or(letter, |(_, written)| *written);
        out.push(written);
        if "aeioun".contains(letter) {
            out.push(written);
        }
    }
    out
}
