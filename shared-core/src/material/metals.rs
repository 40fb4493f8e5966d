//! The metals of a small shop: density, magnet, colour of a fresh scratch, and the words a rulebook has for them.
//!
//! Densities are handbook ranges in kg/m³; where a handbook gives one number, alloys spread about it by
//! [`SPREAD_PERMILLE`]. Each row names its source in `tests/data/metals.csv`, which a test holds against this table.

/// How far an alloy may lie from a handbook's single number, in thousandths. Common practice, no source.
pub const SPREAD_PERMILLE: u32 = 10;

/// What a magnet does.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Magnet {
    /// It holds.
    Holds,
    /// It does not.
    Lets,
}

/// The colour of a fresh scratch or of bright metal.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Colour {
    /// White to grey.
    Grey,
    /// Yellow.
    Yellow,
    /// Red to brown.
    Red,
}

/// A kind of metal.
#[derive(Debug, PartialEq, Eq)]
pub struct Metal {
    /// The word for it, as rulebooks write it.
    pub word: &'static str,
    /// Other words of a rulebook that mean a kind of it.
    pub kinds: &'static [&'static str],
    /// The least density in kg/m³.
    pub least: u32,
    /// The greatest density in kg/m³.
    pub most: u32,
    /// What a magnet does; both for a family in which some hold and some do not.
    pub magnet: &'static [Magnet],
    /// The colours it has; from memory.
    pub colours: &'static [Colour],
}

const HOLDS: &[Magnet] = &[Magnet::Holds];
const LETS: &[Magnet] = &[Magnet::Lets];
const EITHER: &[Magnet] = &[Magnet::Holds, Magnet::Lets];
const GREY: &[Colour] = &[Colour::Grey];

/// Every metal that is known here.
pub const METALS: [Metal; 14] = [
    metal("mild steel", &["hardened steel", "galvanised steel", "painted steel"], (7850, 7850), HOLDS, GREY),
    metal("cast iron", &[], (6800, 7800), HOLDS, GREY),
    metal("stainless steel", &[], (7480, 8000), EITHER, GREY),
    metal("tool steel", &["hardened steel"], (8000, 8800), HOLDS, GREY),
    metal("aluminium", &[], (2640, 2830), LETS, GREY),
    metal("copper", &[], (8930, 8960), LETS, &[Colour::Red]),
    metal("brass", &[], (8400, 8730), LETS, &[Colour::Yellow]),
    metal("bronze", &[], (7400, 8900), LETS, &[Colour::Yellow, Colour::Red]),
    metal("titanium", &[], (4500, 4500), LETS, GREY),
    metal("magnesium", &[], (1738, 1738), LETS, GREY),
    metal("zinc", &[], (7135, 7135), LETS, GREY),
    metal("lead", &[], (11_340, 11_340), LETS, GREY),
    metal("tin", &[], (7280, 7280), LETS, GREY),
    metal("nickel", &[], (8800, 8900), HOLDS, GREY),
];

const fn metal(
    word: &'static str,
    kinds: &'static [&'static str],
    (least, most): (u32, u32),
    magnet: &'static [Magnet],
    colours: &'static [Colour],
) -> Metal {
    Metal { word, kinds, least, most, magnet, colours }
}

impl Metal {
    /// Every word of a rulebook that may mean it.
    pub fn words(&self) -> impl Iterator<Item = &'static str> {
        [self.word].into_iter().chain(self.kinds.iter().copied())
    }

    /// The densities it may have, in kg/m³: the handbook's range, a single number with its spread.
    pub fn range(&self) -> (f64, f64) {
        let (least, most) = (f64::from(self.least), f64::from(self.most));
        let spread = if self.least == self.most { least * f64::from(SPREAD_PERMILLE) / 1000.0 } else { 0.0 };
        (least - spread, most + spread)
    }
}
