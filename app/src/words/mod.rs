//! Every visible string, by screen: functions made from `shared-core/words/en.ftl` and its translations when the app is built.
//!
//! The texts themselves are in no program: the page's script fetches the catalogue of the phone's language beside the
//! module, `main` chooses it once before the first screen, and a function only finds its text there. Here by hand stands
//! what picks between messages. Holds no sentence of its own; `cargo xtask tidy` sees that no other file of the app does.

pub mod bench;
pub mod buddy;
pub mod cautions;
pub mod door;
pub mod facts;
pub mod faults;
pub mod look;
pub mod moved;
pub mod room;
pub mod rule;
pub mod signs;
pub mod time;

use std::sync::OnceLock;

use shared_core::words::Words;

pub use self::said::{
    bell, board, book, figures, finds, frame, gate, incidents, kept, later, people, pocket, posted, repairs, rules,
    scan, standing, sweep, today, walk, welcome, why,
};

/// What the messages of the Fluent files became.
mod said {
    use shared_core::words::{Arg, Text};

    use super::chosen;

    // Compiled once: called from hundreds of places.
    #[inline(never)]
    fn text(number: usize) -> &'static Text {
        chosen().text(number)
    }

    #[inline(never)]
    fn fill(number: usize, args: &[Arg]) -> String {
        chosen().fill(number, args)
    }

    include!(concat!(env!("OUT_DIR"), "/said.rs"));
}

static CHOSEN: OnceLock<Words> = OnceLock::new();

/// Chooses the words of this page, once and before the first screen.
pub fn choose(words: Words) {
    let _ = CHOSEN.set(words);
}

/// The words of this page.
pub fn chosen() -> &'static Words {
    #[cfg(test)]
    choose(Words::english());
    CHOSEN.get().expect("the words are chosen before the first screen")
}

/// The name of Book, with how many lines wait on this phone.
pub fn frame_book(waiting: usize) -> String {
    if waiting == 0 { frame::book().into() } else { frame::book_with(count(waiting)) }
}

/// How many, as a message takes it.
pub fn count(of: usize) -> i64 {
    i64::try_from(of).unwrap_or(i64::MAX)
}
