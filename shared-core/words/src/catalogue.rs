//! The catalogue of a language: a line for each message, and before them one that says whose it is.
//!
//! `es ltr 0123456789abcdef`: the language, which way it is written, and the fingerprint of all names and arguments, so
//! that no catalogue is read by a program that numbers its messages otherwise. Then the texts, `{0}` to `{9}` standing
//! for the arguments in alphabetical order. A choice is a line that begins with U+0001 and the digit of what it is made
//! by; then its variants, U+0001 between them, each with its key before it: a digit, `o` one, `m` many, `*` others.

use std::fmt::Write as _;

use crate::message::{Form, Key, Kind, Message, Piece};
use crate::{Book, Language};

/// Begins a choice and parts its variants.
const MARK: char = '\u{1}';

impl Book {
    /// What a phone is sent for a language.
    pub fn catalogue(&self, language: Language) -> String {
        let head = format!("{} ltr {}", language.tag(), self.fingerprint());
        encode(&head, &self.texts[language as usize])
    }

    /// One number for the names, arguments and order of all messages (FNV-1a, 64 bits).
    pub(crate) fn fingerprint(&self) -> String {
        let mut hash = 0xcbf2_9ce4_8422_2325_u64;
        let mut add = |text: &str| {
            for byte in text.bytes().chain([b'\n']) {
                hash = (hash ^ u64::from(byte)).wrapping_mul(0x0100_0000_01b3);
            }
        };
        for message in self.english() {
            add(&message.id);
            for (name, kind) in &message.arguments {
                add(name);
                add(if *kind == Kind::Number { "number" } else { "text" });
            }
        }
        format!("{hash:016x}")
    }
}

/// A head and the messages as lines.
pub(crate) fn encode(head: &str, messages: &[Message]) -> String {
    let mut out = String::from(head);
    for message in messages {
        out.push('\n');
        match &message.form {
            Form::Plain(pieces) => write_pieces(&mut out, message, pieces),
            Form::Counted { by, variants } => {
                let _ = write!(out, "{MARK}{}", message.place(by));
                for (index, (key, pieces)) in variants.iter().enumerate() {
                    if index > 0 {
                        out.push(MARK);
                    }
                    out.push(letter(*key));
                    write_pieces(&mut out, message, pieces);
                }
            }
        }
    }
    out
}

fn letter(key: Key) -> char {
    match key {
        Key::Exactly(digit) => char::from(b'0' + digit),
        Key::One => 'o',
        Key::Many => 'm',
        Key::Other => '*',
    }
}

fn write_pieces(out: &mut String, message: &Message, pieces: &[Piece]) {
    for piece in pieces {
        match piece {
            Piece::Text(text) => out.push_str(text),
            Piece::Argument(name) => {
                let _ = write!(out, "{{{}}}", message.place(name));
            }
        }
    }
}
