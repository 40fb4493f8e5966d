//! Where a phone goes on to pull, and what of that still holds once the hub was put back to an older copy of its log.
//!
//! A place in the log alone cannot be trusted for ever: behind the end of an old copy the places are filled anew, with other
//! entries. So the log has lives, one for each start of a hub, and a cursor says in which life its place was told. A life
//! ends where the next begins; whatever was told past that end is gone, and is told again as it is now.
//!
//! To phones a cursor is a number, which they hand back as they got it: old ones need to know nothing of this.

use std::iter::once;

/// A life has this many bits of a cursor's number, which has 53: up to there every JSON reader has whole numbers exactly.
const LIFE_BITS: u32 = 20;
const PLACE_BITS: u32 = 53 - LIFE_BITS;

/// The most that a [`Life::tag`] may be.
pub const TAG_MAX: u32 = (1 << LIFE_BITS) - 1;

/// A place in the log, and the life in which it was told.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Cursor {
    /// [`Life::tag`]; 0 from a hub of before there were lives, and from the start.
    pub life: u32,
    /// Everything up to here was told; 0 is nothing.
    pub place: u64,
}

/// A stretch of the log between two starts of a hub.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Life {
    /// Drawn at its start, from 1 to [`TAG_MAX`]: counted, it would be the same again in the life after a second restoring.
    pub tag: u32,
    /// The newest place at its start.
    pub from: u64,
}

impl Cursor {
    /// The cursor of a number.
    pub const fn of(number: u64) -> Self {
        Self { life: (number >> PLACE_BITS) as u32, place: number & ((1 << PLACE_BITS) - 1) }
    }

    /// Its number.
    pub const fn number(self) -> u64 {
        ((self.life as u64) << PLACE_BITS) | self.place
    }

    /// Whether everything up to the other was told as well. Of another life it is not known.
    pub const fn covers(self, other: Self) -> bool {
        self.life == other.life && self.place >= other.place
    }

    /// Up to where what was told is what the log has now. `lives` in order, at least from the cursor's own on; `newest` is
    /// the newest place. A cursor of another log holds for nothing.
    pub fn holds_to(self, lives: &[Life], newest: u64) -> u64 {
        let ends = |life: usize| lives.get(life).map(|next| next.from);
        let end = if self.life == 0 {
            ends(0)
        } else {
            match lives.iter().position(|life| life.tag == self.life) {
                Some(own) => ends(own + 1),
                None => return 0,
            }
        };
        match end {
            Some(end) => self.place.min(end),
            None if self.place <= newest => self.place,
            None => 0,
        }
    }
}

/// The life that a log is in: the last that began.
pub fn current(lives: &[Life]) -> u32 {
    once(0).chain(lives.iter().map(|life| life.tag)).last().unwrap_or(0)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_number_is_one_cursor() {
        for (life, place, number) in
            [(0, 0, 0), (0, 3, 3), (1, 0, 1 << 33), (TAG_MAX, (1 << 33) - 1, (1 << 53) - 1), (7, 3, 60_129_542_147)]
        {
            let cursor = Cursor { life, place };
            assert_eq!((cursor.number(), Cursor::of(number)), (number, cursor));
        }
    }

    #[test]
    fn what_was_told_holds_to_the_end_of_its_life() {
        let life = |tag, from| Life { tag, from };
        let lives = [life(5, 0), life(9, 10), life(3, 10), life(6, 40)];
        for (lives, newest, (tag, place), holds) in [
            // Nothing was put back: a life ends where its last entry is.
            (&lives[..], 50, (5, 10), 10),
            (&lives, 50, (5, 4), 4),
            (&lives, 50, (3, 40), 40),
            (&lives, 50, (6, 50), 50),
            // Put back to 10 and to 40: what was told past that is told anew.
            (&lives, 50, (5, 12), 10),
            (&lives, 50, (9, 3_000), 10),
            (&lives, 50, (3, 41), 40),
            // Of another log, or of a life that the copy never saw.
            (&lives, 50, (8, 20), 0),
            (&lives, 50, (6, 51), 0),
            // Of before there were lives.
            (&lives[1..], 50, (0, 8), 8),
            (&lives[1..], 50, (0, 30), 10),
            (&[], 50, (0, 50), 50),
            (&[], 50, (0, 51), 0),
        ] {
            let cursor = Cursor { life: tag, place };
            assert_eq!(cursor.holds_to(lives, newest), holds, "{cursor:?} in {lives:?}");
        }
        assert_eq!((current(&lives), current(&[])), (6, 0));
    }
}
