//! Reads QR codes in pictures of a camera.
//!
//! No one way of telling ink from paper finds every code, and a hand holds a phone still for some pictures: so each picture is
//! looked at in one way, the next one in the next, and a code that one way misses is found a fraction of a second later. How many
//! hard pictures each of them reads is counted in `tests/codes`.
//!
//! A WebAssembly module of its own (`host`), so that a worker can have it and nothing that goes wrong here takes the app along.
//! Knows nothing of what codes say, keeps no picture, and never answers with what did not come through its error correction.

#[cfg(target_arch = "wasm32")]
mod host;
mod picture;

use picture::Ink;
pub use picture::Picture;

/// One way to tell ink from paper.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Look {
    /// Smoothed, and beside its nearest neighbours alone: out of focus, grainy, at a shadow's edge.
    Near,
    /// As it is, beside much of what is around it.
    Wide,
    /// The middle alone, twice as large: small and far.
    Twice,
    /// Smoothed, and hardly darker will do: little light.
    Faint,
}

impl Look {
    /// All of them, in their turn: what reads most alone, then what reads most of what is left.
    pub const ALL: [Self; 4] = [Self::Near, Self::Wide, Self::Twice, Self::Faint];

    /// The look whose turn it is.
    pub const fn of_turn(turn: usize) -> Self {
        Self::ALL[turn % Self::ALL.len()]
    }
}

/// What the first code says that is found in this way. The numbers are those that read most of the hard pictures together.
pub fn read(picture: &Picture, look: Look) -> Option<String> {
    match look {
        Look::Near => picture.smoothed().found(&Ink { reach_px: 12, percent: 95 }),
        Look::Wide => picture.found(&Ink { reach_px: 60, percent: 90 }),
        Look::Twice => picture.middle_doubled().found(&Ink { reach_px: 48, percent: 95 }),
        Look::Faint => picture.smoothed().found(&Ink { reach_px: 24, percent: 98 }),
    }
}
