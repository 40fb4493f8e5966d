//! A start from a tally, natively: the state of a shop of 5,000 members and two years, read from its bytes.

use std::hint::black_box;

use criterion::{Criterion, Throughput};
use tests::large_shop::{LargeShop, sessions_of};

/// Times the reading and the writing.
pub(crate) fn read(criterion: &mut Criterion) {
    let (shop, entries) = LargeShop::drawn(20);
    let tally = shop.tally();
    let mut group = criterion.benchmark_group("tally");
    group.sample_size(10).throughput(Throughput::Elements(entries as u64));
    println!("a tally of {entries} entries: {} KB", tally.len() / 1_000);
    group.bench_function("read", |bench| bench.iter(|| sessions_of(black_box(&tally))));
    group.bench_function("written", |bench| bench.iter(|| black_box(&shop).tally()));
    group.finish();
}
