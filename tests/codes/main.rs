//! How many hard pictures the app's reader of codes reads, beside an independent one: a table of `cargo xtask bench --codes`.
//!
//! The pictures are drawn (`drawn`). The numbers of `reader::Look` were chosen by pictures of other seeds than these. What a change
//! to the reader loses of them fails a test; `ZBar` is asked for the table alone.

mod drawn;
mod zbar;

use std::time::Instant as Stopwatch;

use drawn::{Frame, HEIGHT, Trouble, WIDTH, frame};
use reader::{Look, Picture};

/// So many pictures of each trouble the table has.
const OF_EACH: u64 = 40;

/// What came of a look at each of some pictures.
#[derive(Clone, Copy, Default)]
struct Tally {
    /// Read at the first look.
    first: u64,
    /// Read by one look of all.
    any: u64,
    /// Read as something that does not stand there.
    wrong: u64,
    /// Milliseconds of one look.
    look_ms: f64,
}

fn tally(trouble: Trouble, of_each: u64) -> Tally {
    let mut tally = Tally::default();
    for seed in 0..of_each {
        let Frame { grey, text } = frame(trouble, seed);
        let picture = Picture::of_grey(grey, WIDTH, HEIGHT).expect("as many pixels as there are");
        let began = Stopwatch::now();
        let read = Look::ALL.map(|look| reader::read(&picture, look));
        #[expect(clippy::cast_precision_loss, reason = "a few looks")]
        let looks = (Look::ALL.len() as u64 * of_each) as f64;
        tally.look_ms += began.elapsed().as_secs_f64() * 1000.0 / looks;
        let right = read.each_ref().map(|read| read.as_ref() == Some(&text));
        tally.first += u64::from(right[0]);
        tally.any += u64::from(right.contains(&true));
        tally.wrong += u64::from(read.iter().flatten().any(|read| *read != text));
    }
    tally
}

/// Prints the table, with what `ZBar` reads of the same pictures.
fn main() {
    println!("| what is wrong, {OF_EACH} pictures each | first look | four looks | ZBar |\n| --- | --- | --- | --- |");
    let mut sum = [0; 3];
    let mut look_ms = 0.0;
    for trouble in Trouble::ALL {
        let Tally { first, any, wrong, look_ms: ms } = tally(trouble, OF_EACH);
        assert_eq!(wrong, 0, "{}", trouble.name());
        let frames = (0..OF_EACH).map(|seed| frame(trouble, seed));
        let theirs = frames.map(|Frame { grey, text }| u64::from(zbar::reads(&grey, WIDTH, HEIGHT, &text))).sum();
        println!("| {} | {first} | {any} | {theirs} |", trouble.name());
        for (sum, read) in sum.iter_mut().zip([first, any, theirs]) {
            *sum += read;
        }
        look_ms += ms;
    }
    let [first, any, theirs] = sum;
    let all = Trouble::ALL.len() as u64 * OF_EACH;
    println!("| all {all} | {first} | {any} | {theirs} |");
    #[expect(clippy::cast_precision_loss, reason = "ten")]
    let look_ms = look_ms / Trouble::ALL.len() as f64;
    println!("one look, native: {look_ms:.1} ms");
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Fewer than the table has: it is not optimised.
    const OF_EACH_KEPT: u64 = 12;

    /// What was read when the reader was last made better; with more of them, put the new number. One less is let pass: the
    /// pictures are drawn with sines, whose last digits are each machine's own.
    const READ: [(Trouble, u64); 10] = [
        (Trouble::None, 11),
        (Trouble::Far, 7),
        (Trouble::Blurred, 2),
        (Trouble::Shaken, 8),
        (Trouble::Tilted, 9),
        (Trouble::Glare, 8),
        (Trouble::Dark, 10),
        (Trouble::Shade, 6),
        (Trouble::Dirty, 4),
        (Trouble::Both, 4),
    ];

    #[test]
    fn as_many_hard_pictures_are_read_as_before() {
        let tallies = READ.map(|(trouble, _)| tally(trouble, OF_EACH_KEPT));
        let read = tallies.map(|tally| tally.any);
        let fewer = READ.iter().zip(read).any(|((_, before), now)| now + 1 < *before);
        assert!(!fewer, "of {OF_EACH_KEPT} each {read:?} were read, before {READ:?}");
        assert_eq!(tallies.map(|tally| tally.wrong), [0; READ.len()], "read as what does not stand there");
    }
}
