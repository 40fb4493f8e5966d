//! The pages of the app over a large shop, at two sizes: `cargo xtask bench pages`.

use std::hint::black_box;

use criterion::Criterion;
use tests::large_shop::{LargeShop, PAGES};

/// Times each page at 20 and at 60 stays a day.
pub(crate) fn pages(criterion: &mut Criterion) {
    for stays_a_day in [20, 60] {
        let (shop, entries) = LargeShop::drawn(stays_a_day);
        let viewer = shop.viewer();
        let mut group = criterion.benchmark_group(format!("pages of {entries} entries"));
        group.sample_size(10);
        for (name, reckon) in PAGES {
            group.bench_function(*name, |bench| bench.iter(|| reckon(black_box(&viewer))));
        }
        group.finish();
    }
}
