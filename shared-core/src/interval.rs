//! The exact interval of a share: Clopper and Pearson 1934.
//!
//! Every share outside it would make what was counted, or something still further off, rarer than half of what the
//! confidence leaves on that side. The tails are the binomial's own, summed from their largest term; their inverse comes by
//! halving. Small: a phone reckons it too.

/// So many halvings leave less than any double can tell apart.
const HALVINGS: usize = 64;
/// A term that is smaller, against the sum so far, changes no digit of it any more, nor do those behind it.
const NOTHING: f64 = 1e-18;

/// The interval at `confidence` (0 to 1) of the share behind `within` of `of`. Of nothing: anything from 0 to 1.
pub fn clopper_pearson(within: u64, of: u64, confidence: f64) -> (f64, f64) {
    let tail = (1.0 - confidence) / 2.0;
    let within = within.min(of);
    let low = if within == 0 { 0.0 } else { share_where(within, of, tail) };
    let high = if within == of { 1.0 } else { share_where(within + 1, of, 1.0 - tail) };
    (low, high)
}

/// The share at which `at_least` or more of `of` have the probability `wanted`.
fn share_where(at_least: u64, of: u64, wanted: f64) -> f64 {
    let (mut low, mut high) = (0.0_f64, 1.0_f64);
    for _ in 0..HALVINGS {
        let middle = f64::midpoint(low, high);
        if upper_tail(at_least, of, middle) < wanted { low = middle } else { high = middle }
    }
    f64::midpoint(low, high)
}

/// The probability of `from` or more of `of`, each with the chance `share`, which is neither 0 nor 1.
fn upper_tail(from: u64, of: u64, share: f64) -> f64 {
    let odds = share / (1.0 - share);
    if float(from) > float(of) * share {
        let (mut term, mut sum) = (weight(from, of, share), 0.0);
        for count in from..=of {
            sum += term;
            if term < sum * NOTHING {
                break;
            }
            term *= float(of - count) / float(count + 1) * odds;
        }
        return sum;
    }
    let (mut term, mut sum) = (weight(from - 1, of, share), 0.0);
    for count in (0..from).rev() {
        sum += term;
        if term < sum * NOTHING {
            break;
        }
        term *= float(count) / float(of - count + 1) / odds;
    }
    1.0 - sum
}

/// The probability of exactly `count` of `of`.
fn weight(count: u64, of: u64, share: f64) -> f64 {
    let ways = libm::lgamma(float(of + 1)) - libm::lgamma(float(count + 1)) - libm::lgamma(float(of - count + 1));
    libm::exp(ways + float(count) * libm::log(share) + float(of - count) * libm::log1p(-share))
}

#[expect(clippy::cast_precision_loss, reason = "no log has 2^53 sweeps")]
fn float(count: u64) -> f64 {
    count as f64
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
    }

    #[test]
    fn of_nothing_anything_may_be_true() {
        assert_eq!(clopper_pearson(0, 0, 0.95), (0.0, 1.0));
    }
}
