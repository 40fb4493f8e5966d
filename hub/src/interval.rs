//! The exact interval of a share: Clopper and Pearson 1934.
//!
//! Every share outside it would make what was counted, or something still further off, rarer than half of what the
//! confidence leaves on that side. The tails of the binomial are those of the beta distribution; its function comes from a
//! statistics crate, its inverse by halving.

use statrs::function::beta::beta_reg;

/// So many halvings leave less than any double can tell apart.
const HALVINGS: usize = 200;

/// The interval at `confidence` (0 to 1) of the share behind `within` of `of`. Of nothing: anything from 0 to 1.
pub(crate) fn clopper_pearson(within: u64, of: u64, confidence: f64) -> (f64, f64) {
    let tail = (1.0 - confidence) / 2.0;
    let within = within.min(of);
    let low = if within == 0 { 0.0 } else { beta_quantile(tail, within, of - within + 1) };
    let high = if within == of { 1.0 } else { beta_quantile(1.0 - tail, within + 1, of - within) };
    (low, high)
}

/// The share below which the beta distribution has `p` of its weight.
#[expect(clippy::cast_precision_loss, reason = "no log has 2^53 sweeps")]
fn beta_quantile(p: f64, a: u64, b: u64) -> f64 {
    let (mut low, mut high) = (0.0_f64, 1.0_f64);
    for _ in 0..HALVINGS {
        let middle = f64::midpoint(low, high);
        if beta_reg(a as f64, b as f64, middle) < p { low = middle } else { high = middle }
    }
    f64::midpoint(low, high)
}

#[cfg(test)]
mod tests {
    use super::*;

    /// scipy; the table says which, and is made by the script beside it.
    #[test]
    fn intervals_equal_scipys() {
        let csv = include_str!("../../tests/data/clopper-pearson.csv");
        let (mut rows, mut worst) = (0, 0.0_f64);
        for row in csv.lines().filter(|line| !line.starts_with('#')).skip(1) {
            let cells: Vec<&str> = row.split(',').collect();
            let number = |column: usize| cells[column].parse::<f64>().expect(row);
            let count = |column: usize| cells[column].parse::<u64>().expect(row);
            let (low, high) = clopper_pearson(count(0), count(1), number(2));
            worst = worst.max((low - number(3)).abs()).max((high - number(4)).abs());
            assert!(worst <= 1e-9, "{row}: {low} to {high}");
            rows += 1;
        }
        assert!(rows >= 300, "{rows} rows");
        println!("exact interval, scipy: {rows} rows, worst difference {worst:e}");
    }

    #[test]
    fn of_nothing_anything_may_be_true() {
        assert_eq!(clopper_pearson(0, 0, 0.95), (0.0, 1.0));
    }
}
