//! Noise: the share of a day's dose that a session used up, by three published reckonings.
//!
//! OSHA and NIOSH count no level under 80 dBA; the EU counts all. They disagree on purpose (5 dB and 3 dB a
//! halving), so all are given and none is chosen. Rounds nothing: whoever shows a number rounds it.

use crate::time::Span;

/// Levels under this are not counted by OSHA (29 CFR 1910.95(d)(2)(i), from memory) nor, here, by NIOSH.
const COUNTED_FROM_DBA: f64 = 80.0;
/// The day that every reckoning is a share of, in hours.
const DAY_HOURS: f64 = 8.0;
/// OSHA's action level, as a dose (29 CFR 1910.95(c)(1), from memory).
const OSHA_ACTION_PCT: f64 = 50.0;
/// NIOSH's limit, as a dose: 85 dBA over 8 h, which is also the EU's upper action value (2003/10/EC Art. 3(1)(b)).
const NIOSH_LIMIT_PCT: f64 = 100.0;

/// What a session's noise came to.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Noise {
    /// Dose in percent: 29 CFR 1910.95 App. A, `D = 100 * sum(C / T)`, `T = 8 / 2^((L - 90) / 5)` hours.
    pub osha_dose_pct: f64,
    /// Time-weighted average in dBA: 29 CFR 1910.95 App. A, `16.61 * log10(D / 100) + 90`; none without a dose.
    pub osha_twa_dba: Option<f64>,
    /// Dose in percent: NIOSH 98-126, `T = 8 / 2^((L - 85) / 3)` hours.
    pub niosh_dose_pct: f64,
    /// Daily exposure level in dB(A): 2003/10/EC, energy over 8 h, all levels counted; none without any noise.
    pub lex_8h_dba: Option<f64>,
}

/// Adds up times at a level in dBA.
pub fn noise(times: &[(f64, Span)]) -> Noise {
    let dose_pct = |criterion_dba: f64, exchange_db: f64| {
        let counted = times.iter().filter(|(level_dba, _)| counts(*level_dba));
        super::sum(
            counted
                .map(|(level_dba, span)| 100.0 * span.hours() / allowed_hours(*level_dba, criterion_dba, exchange_db)),
        )
    };
    let osha_dose_pct = dose_pct(90.0, 5.0);
    let energy = super::sum(times.iter().map(|(level_dba, span)| span.hours() * libm::pow(10.0, level_dba / 10.0)));
    Noise {
        osha_dose_pct,
        osha_twa_dba: (osha_dose_pct > 0.0).then(|| 16.61 * libm::log10(osha_dose_pct / 100.0) + 90.0),
        niosh_dose_pct: dose_pct(85.0, 3.0),
        lex_8h_dba: (energy > 0.0).then(|| 10.0 * libm::log10(energy / DAY_HOURS)),
    }
}

/// Whole minutes more at `level_dba` until the first action value is reached: OSHA's (a dose of 50 %) or NIOSH's
/// (a dose of 100 %, which is also the EU's upper action value, 85 dB(A) over 8 h). Rounded down; 0 if it is reached
/// already; `None` if the level adds nothing.
pub fn minutes_left_before_action(level_dba: f64, so_far: &Noise) -> Option<i64> {
    hours_left_before_action(&[level_dba], so_far).map(super::whole_minutes_down)
}

/// Hours more until the first action value is reached while all these levels last at once, as machines that run
/// together do; below 0 if it is passed already, `None` if none of them adds anything.
pub fn hours_left_before_action(levels_dba: &[f64], so_far: &Noise) -> Option<f64> {
    let pct_an_hour = |criterion_dba: f64, exchange_db: f64| {
        let counted = levels_dba.iter().filter(|level_dba| counts(**level_dba));
        super::sum(counted.map(|level_dba| 100.0 / allowed_hours(*level_dba, criterion_dba, exchange_db)))
    };
    let (osha, niosh) = (pct_an_hour(90.0, 5.0), pct_an_hour(85.0, 3.0));
    let left = ((OSHA_ACTION_PCT - so_far.osha_dose_pct) / osha).min((NIOSH_LIMIT_PCT - so_far.niosh_dose_pct) / niosh);
    (osha > 0.0).then_some(left)
}

/// Whether a level is counted at all by the two reckonings that have an action value here.
pub fn counts(level_dba: f64) -> bool {
    level_dba >= COUNTED_FROM_DBA
}

/// How long a level may last in a day: 8 h at the criterion, half of that with each exchange more.
fn allowed_hours(level_dba: f64, criterion_dba: f64, exchange_db: f64) -> f64 {
    DAY_HOURS / two_to((level_dba - criterion_dba) / exchange_db)
}

/// `2^x`, exact for whole `x`. Not `libm::exp2`: its table is 4 KB of each phone's download that no compression helps.
#[expect(
    clippy::cast_possible_truncation,
    reason = "a cast saturates, and what is past the exponents is 0 or infinite"
)]
fn two_to(x: f64) -> f64 {
    let whole = libm::floor(x);
    libm::scalbn(libm::exp((x - whole) * std::f64::consts::LN_2), whole as i32)
}

#[cfg(test)]
mod tests {
    use proptest::prelude::*;

    use super::*;

    #[test]
    fn nothing_has_no_logarithm() {
        let none = Noise { osha_dose_pct: 0.0, osha_twa_dba: None, niosh_dose_pct: 0.0, lex_8h_dba: None };
        assert_eq!(noise(&[]), none);
        assert!(noise(&[]).osha_dose_pct.is_sign_positive(), "an empty sum of floats would be -0");
        assert_eq!(noise(&[(95.0, Span::ZERO)]), none);
        let quiet = noise(&[(79.9, Span::from_minutes(480))]);
        assert_eq!((quiet.osha_dose_pct, quiet.osha_twa_dba, quiet.niosh_dose_pct), (0.0, None, 0.0));
        assert!(quiet.lex_8h_dba.is_some_and(|level| (level - 79.9).abs() < 1e-9));
    }

    /// 85 dBA for 8 h is both action values at once (29 CFR 1910.95(c)(1); NIOSH 98-126 table 1-1).
    #[test]
    fn says_how_long_is_left() {
        let fresh = noise(&[]);
        let half = noise(&[(85.0, Span::from_minutes(240))]);
        let spent = noise(&[(100.0, Span::from_minutes(60))]);
        for (level_dba, so_far, minutes) in [
            (85.0, fresh, Some(480)),
            (88.0, fresh, Some(240)),
            (100.0, fresh, Some(15)),
            (80.0, fresh, Some(960)),
            (79.9, fresh, None),
            (85.0, half, Some(240)),
            (88.0, half, Some(120)),
            (85.0, spent, Some(0)),
        ] {
            assert_eq!(minutes_left_before_action(level_dba, &so_far), minutes, "{level_dba} dBA after {so_far:?}");
        }
    }

    proptest! {
        /// Time cut in two is the same time, and more time is never less of a dose.
        #[test]
        fn time_adds_up(level_dba in 60.0..120.0_f64, first in 0..600_i64, more in 1..600_i64) {
            let (first, more) = (Span::from_minutes(first), Span::from_minutes(more));
            let cut = noise(&[(level_dba, first), (level_dba, more)]);
            let whole = noise(&[(level_dba, first + more)]);
            prop_assert!((cut.osha_dose_pct - whole.osha_dose_pct).abs() <= 1e-9 * whole.osha_dose_pct);
            prop_assert!((cut.niosh_dose_pct - whole.niosh_dose_pct).abs() <= 1e-9 * whole.niosh_dose_pct);
            let alone = noise(&[(level_dba, first)]);
            prop_assert!(alone.osha_dose_pct <= whole.osha_dose_pct && alone.niosh_dose_pct <= whole.niosh_dose_pct);
        }

        /// The minutes that are left fit under both action values, and one more does not.
        #[test]
        fn what_is_left_is_exact(level_dba in 80.0..120.0_f64, before_dba in 60.0..100.0_f64, before in 0..300_i64) {
            let before = (before_dba, Span::from_minutes(before));
            let left = minutes_left_before_action(level_dba, &noise(&[before])).expect("it adds up");
            let reached = |minutes: i64| {
                let then = noise(&[before, (level_dba, Span::from_minutes(minutes))]);
                then.osha_dose_pct > OSHA_ACTION_PCT + 1e-6 || then.niosh_dose_pct > NIOSH_LIMIT_PCT + 1e-6
            };
            prop_assert!(left == 0 || !reached(left));
            prop_assert!(reached(left + 1));
        }
    }
}
