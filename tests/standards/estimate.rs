//! Learned minutes against numpy: the type-7 quantile to 1e-9.

use shared_core::estimate::quantile_type7;

use crate::table::rows;

#[test]
fn quantiles_equal_numpys() {
    let mut worst: f64 = 0.0;
    for row in rows(include_str!("../data/quantile-type-7.csv"), 199) {
        let mut sample: Vec<f64> =
            row.text("sample").split(' ').map(|number| number.parse().expect("a number")).collect();
        sample.sort_by(f64::total_cmp);
        let found = quantile_type7(&sample, row.number("share")).expect("a sample");
        let off = (found - row.number("quantile")).abs();
        assert!(off <= 1e-9, "{}: found {found}", row.name());
        worst = worst.max(off);
    }
    println!("type-7 quantile, numpy: 199 rows, worst difference {worst:e}");
}
