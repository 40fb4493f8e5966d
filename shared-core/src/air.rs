//! Air: where a paint, varnish or glue may be used, by what its tin says of volatile organic compounds (VOC).
//!
//! The number on the tin, in grams per litre ready to use, is held against the limit that the rulebook gives a room and
//! a hood; both are the shop's own, and name the region's rule they follow. A room without a limit lets none in; a tin
//! without a number is no low one, and goes to the hood alone. A limit says nothing of isocyanates or of fire: a hood
//! is a machine, with its own sign-off, start checks and chores. Decides where, never whether somebody may start.

use crate::rulebook::VocLimit;

/// What the tin says.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Tin {
    /// So many grams per litre, ready to use: with its thinner and hardener in it.
    GramsPerLitre(u32),
    /// No number.
    Unsaid,
}

/// Where a tin stands against one limit.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Verdict {
    /// May be used here.
    Here,
    /// More than the limit.
    TooMuch,
    /// The tin has no number, and without one it is not used here.
    Unsaid,
}

/// Whether a tin may be opened under this limit, in a hood or in the open room.
pub fn against(limit: &VocLimit, hood: bool, tin: Tin) -> Verdict {
    match tin {
        Tin::GramsPerLitre(grams) if grams > limit.g_per_l => Verdict::TooMuch,
        Tin::Unsaid if !hood => Verdict::Unsaid,
        Tin::GramsPerLitre(_) | Tin::Unsaid => Verdict::Here,
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_limit_is_the_last_number_that_fits() {
        let limit = |g_per_l| VocLimit { g_per_l, source: "house rule".into() };
        for (tin, room, hood) in [
            (Tin::GramsPerLitre(0), Verdict::Here, Verdict::Here),
            (Tin::GramsPerLitre(130), Verdict::Here, Verdict::Here),
            (Tin::GramsPerLitre(131), Verdict::TooMuch, Verdict::Here),
            (Tin::GramsPerLitre(500), Verdict::TooMuch, Verdict::Here),
            (Tin::GramsPerLitre(501), Verdict::TooMuch, Verdict::TooMuch),
            (Tin::Unsaid, Verdict::Unsaid, Verdict::Here),
        ] {
            assert_eq!((against(&limit(130), false, tin), against(&limit(500), true, tin)), (room, hood), "{tin:?}");
        }
    }
}
