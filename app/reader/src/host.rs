//! What `public/later_reader.js` finds in the module: room for a picture, a look at it, and what was read.
//!
//! One picture at a time; its text stands until the next look.

use std::cell::RefCell;

use crate::{Look, Picture, read};

/// What is kept between two calls.
struct Desk {
    rgba: Vec<u8>,
    text: String,
}

thread_local! {
    static DESK: RefCell<Desk> = const { RefCell::new(Desk { rgba: Vec::new(), text: String::new() }) };
}

/// Where a picture of so many bytes is to be written, as a browser hands it out: four bytes a pixel.
#[expect(unsafe_code, reason = "the name under which the module's host finds it; nothing else is unsafe")]
#[unsafe(no_mangle)]
extern "C" fn room(bytes: usize) -> *mut u8 {
    DESK.with_borrow_mut(|desk| {
        desk.rgba.resize(bytes, 0);
        desk.rgba.as_mut_ptr()
    })
}

/// Looks at it in the way whose turn it is of such a number; answers how many bytes of text were read, none if there was no code.
#[expect(unsafe_code, reason = "the name under which the module's host finds it; nothing else is unsafe")]
#[unsafe(no_mangle)]
extern "C" fn look(width: usize, height: usize, turn: usize) -> usize {
    DESK.with_borrow_mut(|desk| {
        let picture = Picture::of_rgba(&desk.rgba, width, height);
        desk.text = picture.and_then(|picture| read(&picture, Look::of_turn(turn))).unwrap_or_default();
        desk.text.len()
    })
}

/// Where the text is.
#[expect(unsafe_code, reason = "the name under which the module's host finds it; nothing else is unsafe")]
#[unsafe(no_mangle)]
extern "C" fn text() -> *const u8 {
    DESK.with_borrow(|desk| desk.text.as_ptr())
}
