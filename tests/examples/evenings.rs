//! Writes what the rules say about the evenings of some seeds: `cargo xtask parity` compares it with wasm32's.
use std::io::Write as _;

fn main() -> std::io::Result<()> {
    let seeds = std::env::args().nth(1).and_then(|seeds| seeds.parse().ok()).unwrap_or(1);
    let mut out = std::io::stdout().lock();
    (0..seeds).try_for_each(|seed| out.write_all(tests::parity::evening(seed).as_bytes()))
}
