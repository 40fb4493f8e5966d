//! How fast the rules are on this machine: `cargo xtask bench`.
//!
//! Criterion times what is one thing (a fold, a signature, a frame of the camera; asked for by name, the pages of Book); of
//! plans, which differ by a thousandfold, a table of drawn ones is printed. Nothing is judged here.

mod book;
mod camera;
mod people;
mod tally;

use std::fmt::Write as _;
use std::hint::black_box;
use std::time::Instant as Stopwatch;

use criterion::{Criterion, Throughput};
use ed25519_dalek::SigningKey;
use shared_core::entry::{Entry, Fact};
use shared_core::log::jws::{self, Link};
use shared_core::time::Instant;
use tests::timed::{Case, folded, log};

/// Drawn plans for each number of chores and people.
const SEEDS: u64 = 100;
/// How often each is made; the least counts, so that a busy machine is not taken for a hard plan.
const AGAIN: usize = 3;

fn main() {
    let mut criterion = Criterion::default().configure_from_args();
    fold_of_a_log(&mut criterion);
    signatures(&mut criterion);
    camera::frames(&mut criterion);
    people::many(&mut criterion);
    tally::read(&mut criterion);
    if std::env::args().any(|word| word == "pages") {
        book::pages(&mut criterion);
    }
    criterion.final_summary();
    let filter = std::env::args().skip(1).find(|word| !word.starts_with('-'));
    if filter.is_none_or(|filter| "plans".contains(&filter)) {
        plans();
    }
}

fn fold_of_a_log(criterion: &mut Criterion) {
    let mut group = criterion.benchmark_group("fold");
    for sessions in [145, 1_450] {
        let entries = log(sessions);
        group.throughput(Throughput::Elements(entries.len() as u64));
        group.bench_function(format!("{} entries", entries.len()), |bench| bench.iter(|| folded(black_box(&entries))));
    }
    group.finish();
}

fn signatures(criterion: &mut Criterion) {
    let key = SigningKey::from_bytes(&[7; 32]);
    let fact = Fact::MachineStarted { machine: "grinder".into(), material: Some("mild steel".to_owned()) };
    let at = Instant::from_ms(1_772_574_480_000);
    let entry = Entry { at, session: "0123456789abcdef".into(), who: "p1".into(), fact };
    let link = Link { dev: jws::device_of(&key.verifying_key()), seq: 1, prev: String::new(), book: "b1".into() };
    let signed = jws::sign(&entry, &link, &key).jws;
    let mut group = criterion.benchmark_group("signature");
    group.throughput(Throughput::Elements(1));
    group.bench_function("sign a line", |bench| bench.iter(|| jws::sign(black_box(&entry), &link, &key)));
    group.bench_function("open a line", |bench| bench.iter(|| jws::open(black_box(&signed)).is_ok()));
    group.finish();
}

fn plans() {
    println!("plan, us, median and worst of {SEEDS} seeds");
    println!("chores  1 person      2             3             4             5             6");
    let mut all = Vec::new();
    for chores in 1..=12 {
        let mut row = format!("{chores:<6}");
        for crew in 1..=6 {
            let mut took: Vec<u128> = (0..SEEDS).map(|seed| least_us(&Case::drawn(seed, chores, crew))).collect();
            took.sort_unstable();
            let cell = format!("{} {}", took[took.len() / 2], took[took.len() - 1]);
            let _ = write!(row, "  {cell:<12}");
            all.extend(took);
        }
        println!("{}", row.trim_end());
    }
    all.sort_unstable();
    let over = all.iter().filter(|us| **us > 20_000).count();
    let (median, worst) = (all[all.len() / 2], all[all.len() - 1]);
    println!("all {}: median {median} us, worst {worst} us, over 20 ms {over}", all.len());
}

fn least_us(case: &Case) -> u128 {
    let once = || {
        let begun = Stopwatch::now();
        black_box(case.plan());
        begun.elapsed().as_micros()
    };
    let least = (0..AGAIN).map(|_| once()).min().unwrap_or_default();
    // Hard or disturbed: taken some more, for the few that are.
    if least < 5_000 { least } else { (0..AGAIN * 5).map(|_| once()).fold(least, u128::min) }
}
