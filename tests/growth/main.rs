//! Cost against size: one thing is made larger at a time, and everything that a phone does is timed at each size.
//!
//! One line each on standard output, `dimension size kind name nanoseconds`, and bytes of memory. `cargo xtask bench --growth`
//! runs it, fits the slopes, judges and draws. Of several times the least counts, so that a busy machine is not taken for a cost.

mod acts;
mod memory;
mod shop;

use std::hint::black_box;
use std::time::{Duration, Instant as Stopwatch};

use cpu_time::ThreadTime;
use peak_alloc::PeakAlloc;
use tests::timed::folded;

use self::shop::{Shop, Size};

#[global_allocator]
static MEMORY: PeakAlloc = PeakAlloc;

/// What is not made larger stays as it is here.
const PLAIN: Size = Size { entries: 20_000, members: 200, machines: 20, open: 10 };
/// Everything is done at least so often, and again until so much time has passed; not oftener than this, since what is done is
/// said, and would make the log longer.
const AGAIN: usize = 5;
const LONG: Duration = Duration::from_millis(40);
const AGAIN_MOST: usize = 25;

/// Puts a number into a size.
type Set = fn(&mut Size, u64);

const DIMENSIONS: [(&str, &[u64], Set); 4] = [
    ("entries", &[1_000, 3_000, 10_000, 30_000, 100_000, 300_000, 1_000_000], |size, to| size.entries = to),
    ("members", &[10, 30, 100, 300, 1_000, 3_000, 10_000], |size, to| size.members = to),
    ("machines", &[5, 10, 20, 50, 100, 200, 500], |size, to| size.machines = to),
    ("open sessions", &[1, 2, 5, 10, 20, 50, 100, 200, 500], |size, to| size.open = to),
];

fn main() {
    // `cargo bench` says `--bench`; a word picks one dimension.
    let only = std::env::args().skip(1).find(|word| !word.starts_with('-'));
    for (dimension, sizes, set) in DIMENSIONS {
        if only.as_ref().is_some_and(|only| !dimension.starts_with(only.as_str())) {
            continue;
        }
        for to in sizes {
            let mut size = PLAIN;
            set(&mut size, *to);
            grown(dimension, *to, size);
        }
    }
    if only.is_none() {
        memory::told();
    }
}

fn grown(dimension: &str, to: u64, size: Size) {
    let mut shop = Shop::of(size);
    // What the axis says is what there is.
    let to = if dimension == "entries" { shop.entries.len() as u64 } else { to };
    let tell = |kind: &str, name: &str, took: Duration| {
        println!("{dimension}\t{to}\t{kind}\t{name}\t{}", took.as_nanos());
    };
    tell("whole", "the whole log folded", least(|| folded(black_box(&shop.entries))));
    for (name, page) in acts::pages() {
        tell("page", name, least(|| page(black_box(&shop.steward()))));
    }
    for (name, act) in acts::TAPS {
        tell("tap", name, least(|| act(black_box(&mut shop))));
    }
    let lines = acts::lines(&shop);
    let each = u32::try_from(lines.len()).unwrap_or(u32::MAX);
    tell("tap", "a line taken in", least(|| acts::take_in(&mut shop, &lines)) / each);
}

/// The least of several times, in time of the processor: a machine that is busy with something else is no cost of ours.
fn least<T>(mut act: impl FnMut() -> T) -> Duration {
    let (begun, mut least, mut done) = (Stopwatch::now(), Duration::MAX, 0);
    while done < AGAIN || (begun.elapsed() < LONG && done < AGAIN_MOST) {
        let once = ThreadTime::now();
        let made = black_box(act());
        least = least.min(once.elapsed());
        drop(made);
        done += 1;
    }
    least
}
