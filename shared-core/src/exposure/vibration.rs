//! Hand-arm vibration: points, and the daily exposure A(8).
//!
//! Magnitudes are vector sums in m/s² (ISO 5349-1), time is time with the trigger down; a machine's time stands for
//! it here, which is on the safe side. 100 points are the exposure action value, 400 the limit (2002/44/EC Art. 3).

use crate::time::Span;

/// The exposure action value in points: A(8) of 2.5 m/s² (2002/44/EC Art. 3(1)(b)).
const ACTION_POINTS: f64 = 100.0;

/// What a session's vibration came to.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Vibration {
    /// Points as the HSE counts them: `2 * a² * t`, t in hours; they add up.
    pub points: f64,
    /// Daily exposure in m/s²: ISO 5349-1, `sqrt(sum(a² * t) / 8)`, t in hours.
    pub a8_ms2: f64,
}

/// Adds up times at a magnitude in m/s².
pub fn vibration(times: &[(f64, Span)]) -> Vibration {
    let points = super::sum(times.iter().map(|(ms2, span)| points_an_hour(*ms2) * span.hours()));
    Vibration { points, a8_ms2: (points / 16.0).sqrt() }
}

/// Whole minutes more at `ms2` until the exposure action value is reached. Rounded down; 0 if it is reached already;
/// `None` if the magnitude adds nothing.
pub fn minutes_left_before_action(ms2: f64, so_far: &Vibration) -> Option<i64> {
    hours_left_before_action(&[ms2], so_far).map(super::whole_minutes_down)
}

/// Hours more until the exposure action value is reached while all these magnitudes last at once; below 0 if it is
/// passed already, `None` if none of them adds anything.
pub fn hours_left_before_action(magnitudes_ms2: &[f64], so_far: &Vibration) -> Option<f64> {
    let an_hour = super::sum(magnitudes_ms2.iter().map(|ms2| points_an_hour(*ms2)));
    (an_hour > 0.0).then(|| (ACTION_POINTS - so_far.points) / an_hour)
}

fn points_an_hour(ms2: f64) -> f64 {
    2.0 * ms2 * ms2
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn nothing_is_nothing() {
        assert_eq!(vibration(&[]), Vibration { points: 0.0, a8_ms2: 0.0 });
        assert!(vibration(&[]).points.is_sign_positive(), "an empty sum of floats would be -0");
        assert_eq!(vibration(&[(5.0, Span::ZERO)]), Vibration { points: 0.0, a8_ms2: 0.0 });
    }

    #[test]
    fn says_how_long_is_left() {
        let fresh = vibration(&[]);
        let half = vibration(&[(5.0, Span::from_minutes(60))]);
        let spent = vibration(&[(10.0, Span::from_minutes(60))]);
        for (ms2, so_far, minutes) in [
            (5.0, fresh, Some(120)),
            (5.0, half, Some(60)),
            (6.0, fresh, Some(83)),
            (5.0, spent, Some(0)),
            (0.0, fresh, None),
        ] {
            assert_eq!(minutes_left_before_action(ms2, &so_far), minutes, "{ms2} m/s² after {so_far:?}");
        }
    }
}
