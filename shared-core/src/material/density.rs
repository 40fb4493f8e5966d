//! Density from a weight and a size, with the doubt of both carried through.
//!
//! A reading is given with the most by which it may be off. Each such bound is taken as a rectangular distribution of
//! that half-width (JCGM 100:2008, 4.3.7), the relative doubts are added in squares with their powers (5.1.6; a diameter
//! counts twice), and the interval is the density with twice the combined doubt (6.2.1, k = 2). First-order: what
//! is more doubtful than [`DOUBT_PERCENT_MOST`] is refused instead of answered badly. Knows no metal.

/// The relative standard uncertainty beyond which no answer is given, in percent. A house rule.
pub const DOUBT_PERCENT_MOST: u32 = 15;

/// A reading and the most by which it may be off, in the same unit.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Reading {
    /// What was read.
    pub value: f64,
    /// The most by which it may be off.
    pub off: f64,
}

/// What a size was read with. How far each may be off is common practice, no source.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Tool {
    /// A rule, to half a millimetre; or a jug, to 5 ml.
    RuleOrJug,
    /// A calliper, to a twentieth of a millimetre; or a measuring cylinder, to 1 ml.
    CalliperOrCylinder,
}

impl Tool {
    /// A length in millimetres, read with it.
    pub fn length(self, mm: f64) -> Reading {
        Reading { value: mm, off: if self == Self::RuleOrJug { 0.5 } else { 0.05 } }
    }

    /// An amount of water in millilitres, read with it.
    pub fn water(self, ml: f64) -> Reading {
        Reading { value: ml, off: if self == Self::RuleOrJug { 5.0 } else { 1.0 } }
    }
}

/// A weight in grams, read on a kitchen scale: to 1 g or half a percent, whichever is more. Common practice, no source.
pub fn weighed(grams: f64) -> Reading {
    Reading { value: grams, off: (0.005 * grams).max(1.0) }
}

/// How the volume was come by; lengths in millimetres.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Size {
    /// A block: three edges.
    Block(Reading, Reading, Reading),
    /// A round bar or a disc: diameter and length.
    Round(Reading, Reading),
    /// The water that it displaced, in millilitres.
    Water(Reading),
}

/// A density in kg/m³.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Density {
    /// The best estimate.
    pub value: f64,
    /// The combined standard uncertainty.
    pub doubt: f64,
}

/// Why there is no density.
#[derive(Clone, Copy, Debug, PartialEq, Eq, thiserror::Error)]
pub enum NoDensity {
    /// A reading is missing, not a number, or not above 0.
    #[error("a weight or a size is missing")]
    Missing,
    /// The readings are too rough for the piece.
    #[error("too small a piece for such a scale or rule")]
    TooRough,
}

impl Density {
    /// From `least` to `most`: twice the doubt to either side.
    pub fn interval(self) -> (f64, f64) {
        (self.value - 2.0 * self.doubt, self.value + 2.0 * self.doubt)
    }
}

/// The density of a piece of `grams` and that size.
pub fn density(grams: Reading, size: Size) -> Result<Density, NoDensity> {
    let (mm3, size_squares) = match size {
        Size::Block(a, b, c) => (a.value * b.value * c.value, square(a, 1.0)? + square(b, 1.0)? + square(c, 1.0)?),
        Size::Round(across, long) => {
            let mm3 = std::f64::consts::FRAC_PI_4 * across.value * across.value * long.value;
            (mm3, square(across, 2.0)? + square(long, 1.0)?)
        }
        Size::Water(ml) => (ml.value * 1000.0, square(ml, 1.0)?),
    };
    let relative = (square(grams, 1.0)? + size_squares).sqrt();
    if relative > f64::from(DOUBT_PERCENT_MOST) / 100.0 {
        return Err(NoDensity::TooRough);
    }
    // One g/mm³ is a million kg/m³.
    let value = grams.value / mm3 * 1e6;
    Ok(Density { value, doubt: value * relative })
}

/// The square of a reading's relative standard uncertainty, times its power in the product.
fn square(reading: Reading, power: f64) -> Result<f64, NoDensity> {
    let sound = reading.value.is_finite() && reading.value > 0.0 && reading.off.is_finite() && reading.off >= 0.0;
    let share = power * reading.off / reading.value;
    if sound { Ok(share * share / 3.0) } else { Err(NoDensity::Missing) }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn read(value: f64, off: f64) -> Reading {
        Reading { value, off }
    }

    #[test]
    fn what_is_not_there_is_no_number() {
        let edge = read(10.0, 0.5);
        for bad in [0.0, -1.0, f64::NAN, f64::INFINITY] {
            assert_eq!(density(read(bad, 1.0), Size::Water(edge)), Err(NoDensity::Missing), "{bad} g");
            assert_eq!(density(read(78.0, 1.0), Size::Block(edge, read(bad, 0.5), edge)), Err(NoDensity::Missing));
        }
        assert_eq!(density(read(78.0, 1.0), Size::Water(read(10.0, 5.0))), Err(NoDensity::TooRough));
    }

    #[test]
    fn what_it_was_read_with_says_how_far_off() {
        let (rough, fine) = (Tool::RuleOrJug, Tool::CalliperOrCylinder);
        assert_eq!((rough.length(20.0), fine.length(20.0)), (read(20.0, 0.5), read(20.0, 0.05)));
        assert_eq!((rough.water(80.0), fine.water(80.0)), (read(80.0, 5.0), read(80.0, 1.0)));
        assert_eq!((weighed(100.0), weighed(1000.0)), (read(100.0, 1.0), read(1000.0, 5.0)));
    }

    #[test]
    fn exact_readings_leave_no_doubt() {
        let cube = Size::Block(read(10.0, 0.0), read(10.0, 0.0), read(10.0, 0.0));
        let found = density(read(7.85, 0.0), cube).expect("a density");
        assert!((found.value - 7850.0).abs() < 1e-9 && found.doubt == 0.0);
    }
}
