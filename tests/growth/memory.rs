//! What a log costs in memory, by an allocator that counts: the state alone, and with each line as a phone keeps its own.

use ed25519_dalek::SigningKey;
use shared_core::log::jws::{self, Link};
use shared_core::state::State;
use tests::timed::folded;

use crate::shop::{Shop, Size};
use crate::{MEMORY, PLAIN};

/// Two sizes, so that what does not grow is seen.
const SIZES: [u64; 3] = [10_000, 100_000, 1_000_000];
/// So many lines are signed to be weighed.
const SIGNED: usize = 10_000;

/// Prints `memory`, size, `kind`, name and bytes for every 1,000 entries.
pub(crate) fn told() {
    for size in SIZES {
        let shop = Shop::of(Size { entries: size, ..PLAIN });
        let said = shop.entries.len();
        let before = MEMORY.current_usage();
        let state: State = folded(&shop.entries);
        let bytes = MEMORY.current_usage() - before;
        drop(state);
        println!("memory\t{said}\tmemory\tthe state\t{}", bytes * 1_000 / said);
    }
    let shop = Shop::of(Size { entries: SIGNED as u64, ..PLAIN });
    let key = SigningKey::from_bytes(&[7; 32]);
    let link = Link { dev: jws::device_of(&key.verifying_key()), seq: 1, prev: String::new(), book: "b1".into() };
    let before = MEMORY.current_usage();
    let lines: Vec<_> = shop.entries.iter().map(|entry| jws::sign(entry, &link, &key)).collect();
    let bytes = MEMORY.current_usage() - before;
    println!("memory\t{}\tmemory\ta line as its own phone keeps it\t{}", lines.len(), bytes * 1_000 / lines.len());
}
