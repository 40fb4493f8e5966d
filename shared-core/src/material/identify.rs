//! "What metal is this?": what a magnet, a scratch and a density leave over, ranked, and how sure that is.
//!
//! It never names one metal where several fit: brass and bronze overlap in density, some stainless steel is not
//! magnetic, and both are said. A magnet is a first look, never the last word. Whoever is not sure treats the piece as
//! every metal that is left, which is why a machine is refused as soon as one of them is.

use super::density::Density;
use super::metals::{Colour, METALS, Magnet, Metal};

/// What was seen; what was not tried is left out.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Seen {
    /// What a magnet did.
    pub magnet: Option<Magnet>,
    /// The colour of a fresh scratch.
    pub colour: Option<Colour>,
    /// Its density.
    pub density: Option<Density>,
}

/// How sure a candidate is.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Sure {
    /// The only one that is left.
    Alone,
    /// It fits, and so do others.
    Fits,
    /// Only the doubt of the reading reaches it.
    AtTheEdge,
}

/// A metal that it may be.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Candidate {
    /// Which.
    pub metal: &'static Metal,
    /// How sure.
    pub sure: Sure,
}

/// What must be said beside a list of candidates.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Caveat {
    /// Brass and bronze are both left: density cannot part them.
    BrassOrBronze,
    /// No magnet holds, and it may still be stainless steel.
    StainlessWithoutMagnet,
    /// It may be magnesium: no sparks, no grinding, no water if it burns.
    PerhapsMagnesium,
    /// It may be lead: no dust, no fume, and wash.
    PerhapsLead,
}

/// What it may be, likeliest first.
pub fn identify(seen: &Seen) -> Vec<Candidate> {
    let told = |metal: &&Metal| {
        seen.magnet.is_none_or(|magnet| metal.magnet.contains(&magnet))
            && seen.colour.is_none_or(|colour| metal.colours.contains(&colour))
            && seen.density.is_none_or(|density| meets(metal, density))
    };
    let mut left: Vec<Candidate> = Vec::new();
    for metal in METALS.iter().filter(told) {
        let found = Candidate { metal, sure: sure(metal, seen.density) };
        // A dozen at most: each is put before the first that is less likely, which needs no sorting of its own.
        let at = left.iter().position(|known| likelier(&found, known, seen.density)).unwrap_or(left.len());
        left.insert(at, found);
    }
    if let [only] = &mut left[..]
        && seen.density.is_some()
    {
        only.sure = Sure::Alone;
    }
    left
}

/// What must be said beside these candidates.
pub fn caveats(seen: &Seen, left: &[Candidate]) -> Vec<Caveat> {
    let is_left = |word: &str| left.iter().any(|candidate| candidate.metal.word == word);
    let said = [
        (Caveat::BrassOrBronze, is_left("brass") && is_left("bronze")),
        (Caveat::StainlessWithoutMagnet, seen.magnet == Some(Magnet::Lets) && is_left("stainless steel")),
        (Caveat::PerhapsMagnesium, is_left("magnesium")),
        (Caveat::PerhapsLead, is_left("lead")),
    ];
    said.into_iter().filter(|(_, holds)| *holds).map(|(caveat, _)| caveat).collect()
}

/// Whether `one` is likelier than `other`: surer, or as sure and nearer. Without a density the table's order stays.
fn likelier(one: &Candidate, other: &Candidate, density: Option<Density>) -> bool {
    density.is_some_and(|density| {
        one.sure < other.sure || one.sure == other.sure && far(one.metal, density) < far(other.metal, density)
    })
}

/// Whether the reading's interval meets the metal's range.
fn meets(metal: &Metal, density: Density) -> bool {
    let ((least, most), (low, high)) = (metal.range(), density.interval());
    low <= most && least <= high
}

fn sure(metal: &Metal, density: Option<Density>) -> Sure {
    let (least, most) = metal.range();
    match density {
        Some(density) if density.value < least || density.value > most => Sure::AtTheEdge,
        _ => Sure::Fits,
    }
}

/// How far the reading lies from the middle of the metal's range, in half-widths of both.
fn far(metal: &Metal, density: Density) -> f64 {
    let (least, most) = metal.range();
    (density.value - f64::midpoint(least, most)).abs() / ((most - least) / 2.0 + 2.0 * density.doubt)
}

#[cfg(test)]
mod tests {
    use proptest::prelude::*;

    use super::*;

    fn words(seen: &Seen) -> Vec<&'static str> {
        identify(seen).iter().map(|candidate| candidate.metal.word).collect()
    }

    const LETS: Option<Magnet> = Some(Magnet::Lets);

    #[test]
    fn what_was_not_tried_leaves_everything() {
        let all = identify(&Seen::default());
        assert_eq!(all.len(), METALS.len());
        assert!(all.iter().all(|candidate| candidate.sure == Sure::Fits));
    }

    #[test]
    fn a_magnet_and_a_scratch_are_first_looks() {
        let lets = Seen { magnet: Some(Magnet::Lets), ..Seen::default() };
        assert!(words(&lets).contains(&"stainless steel") && !words(&lets).contains(&"mild steel"));
        assert!(caveats(&lets, &identify(&lets)).contains(&Caveat::StainlessWithoutMagnet));
        let yellow = Seen { colour: Some(Colour::Yellow), ..lets };
        assert_eq!(words(&yellow), ["brass", "bronze"]);
        assert_eq!(caveats(&yellow, &identify(&yellow)), [Caveat::BrassOrBronze]);
        assert!(identify(&yellow).iter().all(|candidate| candidate.sure == Sure::Fits), "no density, no certainty");
    }

    #[test]
    fn density_ranks_and_says_how_sure() {
        for (magnet, value, doubt, wanted) in [
            (LETS, 2700.0, 30.0, vec![("aluminium", Sure::Alone)]),
            (LETS, 8550.0, 60.0, vec![("brass", Sure::Fits), ("bronze", Sure::Fits)]),
            (LETS, 8300.0, 60.0, vec![("bronze", Sure::Fits), ("brass", Sure::AtTheEdge)]),
            (None, 11_340.0, 100.0, vec![("lead", Sure::Alone)]),
            (LETS, 1740.0, 20.0, vec![("magnesium", Sure::Alone)]),
            (Some(Magnet::Holds), 2700.0, 30.0, vec![]),
        ] {
            let seen = Seen { magnet, colour: None, density: Some(Density { value, doubt }) };
            let found: Vec<_> = identify(&seen).iter().map(|found| (found.metal.word, found.sure)).collect();
            assert_eq!(found, wanted, "{seen:?}");
        }
    }

    proptest! {
        /// A rougher scale or rule rules out less, and never something else.
        #[test]
        fn more_doubt_leaves_more(value in 1500.0..12_000.0_f64, doubt in 0.0..600.0_f64, more in 0.0..600.0_f64, tried in 0..3_usize) {
            let magnet = [None, Some(Magnet::Holds), LETS][tried];
            let with = |doubt| words(&Seen { magnet, colour: None, density: Some(Density { value, doubt }) });
            let (sure, rough) = (with(doubt), with(doubt + more));
            prop_assert!(sure.iter().all(|word| rough.contains(word)), "{sure:?} in {rough:?}");
        }

        /// Alone is said only where everything else is out; the surest come first, and of those the nearest.
        #[test]
        fn the_order_is_sureness_then_nearness(value in 1500.0..12_000.0_f64, doubt in 0.0..600.0_f64) {
            let density = Density { value, doubt };
            let found = identify(&Seen { density: Some(density), ..Seen::default() });
            prop_assert_eq!(found.iter().any(|one| one.sure == Sure::Alone), found.len() == 1);
            for pair in found.windows(2) {
                let key = |one: &Candidate| (one.sure, far(one.metal, density));
                prop_assert!(key(&pair[0]) <= key(&pair[1]), "{found:?}");
            }
        }
    }
}
