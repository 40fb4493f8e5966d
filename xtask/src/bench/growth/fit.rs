//! Curves as they were timed, and the slope of one on the log-log plane.

use anyhow::{Context, Result};

/// What something cost at each size.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct Curve {
    /// What was made larger.
    pub(super) dimension: String,
    /// A tap, a page, the whole log, or memory.
    pub(super) kind: String,
    /// What was done.
    pub(super) name: String,
    /// Size, and nanoseconds or bytes.
    pub(super) points: Vec<(f64, f64)>,
}

impl Curve {
    /// Reads `dimension size kind name cost`, parted by tabs, a line each.
    pub(super) fn read(text: &str) -> Result<Vec<Self>> {
        let mut curves: Vec<Self> = Vec::new();
        for line in text.lines().filter(|line| !line.is_empty()) {
            let point = || -> Option<Self> {
                let [dimension, size, kind, name, cost] = line.split('\t').collect::<Vec<_>>().try_into().ok()?;
                let points = vec![(size.parse().ok()?, cost.parse().ok()?)];
                Some(Self { dimension: dimension.into(), kind: kind.into(), name: name.into(), points })
            };
            let point = point().with_context(|| format!("`{line}` is no measurement"))?;
            let known = curves.iter_mut().find(|known| known.dimension == point.dimension && known.name == point.name);
            match known {
                Some(known) => known.points.extend(point.points),
                None => curves.push(point),
            }
        }
        Ok(curves)
    }
}

/// The power with which the cost grows: the least squares line through the logarithms, over the upper half of the sizes (as many
/// points as make it, two at least).
pub(super) fn slope(points: &[(f64, f64)]) -> f64 {
    let upper = &points[points.len().saturating_sub((points.len() / 2 + 1).max(2))..];
    let logs: Vec<(f64, f64)> = upper.iter().map(|(size, cost)| (size.ln(), cost.max(1.0).ln())).collect();
    let mean = |of: fn(&(f64, f64)) -> f64| {
        logs.iter().map(of).sum::<f64>() / f64::from(u32::try_from(logs.len()).unwrap_or(u32::MAX))
    };
    let (mean_x, mean_y) = (mean(|log| log.0), mean(|log| log.1));
    let (mut along, mut across) = (0.0, 0.0);
    for (x, y) in &logs {
        along += (x - mean_x) * (x - mean_x);
        across += (x - mean_x) * (y - mean_y);
    }
    if along > 0.0 { across / along } else { 0.0 }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_power_is_found() {
        let of = |cost: fn(f64) -> f64| slope(&[1e3, 3e3, 1e4, 3e4, 1e5].map(|size| (size, cost(size))));
        for (cost, power) in [
            ((|_| 70.0) as fn(f64) -> f64, 0.0),
            (|size| 3.0 * size, 1.0),
            (|size| size * size, 2.0),
            // What is flat at first and square above is square.
            (|size| if size < 1e4 { 1e8 } else { size * size }, 2.0),
            (|size| 1e6 / size, -1.0),
        ] {
            assert!((of(cost) - power).abs() < 1e-9, "{} and not {power}", of(cost));
        }
        assert_eq!(slope(&[(5.0, 7.0)]).to_bits(), 0.0_f64.to_bits());
    }

    #[test]
    fn lines_are_read() {
        let text = "entries\t10\ttap\ta tap\t5\nentries\t100\ttap\ta tap\t6\nmembers\t10\ttap\ta tap\t7\n";
        let curves = Curve::read(text).expect("measurements");
        let points: Vec<_> = curves.iter().map(|curve| (curve.dimension.as_str(), curve.points.len())).collect();
        assert_eq!(points, [("entries", 2), ("members", 1)]);
        assert!(Curve::read("entries\t10\ttap\ta tap").is_err());
        assert!(Curve::read("entries\tten\ttap\ta tap\t5").is_err());
    }
}
