//! Welding filter shades: the least shade through which an arc or a flame may be looked at, by process and by what
//! feeds it.
//!
//! The bands are those of 29 CFR 1910.133(a)(5). In print the edge of a band may stand in two rows (60 to 160 A, 160 to
//! 250 A); here the edge itself is always the darker band's. A least shade is where to stop, not where to start: start
//! too dark and go lighter until the work is seen. Helpers, watchers and passers-by need it too. What the table does
//! not have is refused, never guessed.

/// What makes the light.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Process {
    /// Stick (shielded metal arc) welding.
    Stick,
    /// Wire (gas metal arc and flux cored arc) welding.
    Wire,
    /// TIG (gas tungsten arc) welding.
    Tig,
    /// Plasma arc cutting, the arc clearly seen; hidden by the work, a lighter shade may do.
    PlasmaCutting,
    /// Plasma arc welding.
    PlasmaWelding,
    /// Air carbon arc cutting.
    AirCarbonArc,
    /// Carbon arc welding.
    CarbonArc,
    /// Gas welding.
    GasWelding,
    /// Oxygen cutting.
    OxygenCutting,
    /// Torch brazing.
    Brazing,
    /// Torch soldering.
    Soldering,
}

/// What a band is counted in.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Unit {
    /// Arc current in amperes.
    Amperes,
    /// Plate thickness in tenths of a millimetre.
    PlateTenthsMm,
    /// Nothing: one shade for the whole process.
    None,
}

/// Values from `from` on, and below `below`, ask for `shade` or darker.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Band {
    /// The first value of the band.
    pub from: u32,
    /// The first value that is the next band's; none for a band without an end.
    pub below: Option<u32>,
    /// The least shade.
    pub shade: u8,
}

/// The table's most for that process was passed: there is no published shade.
#[derive(Clone, Copy, Debug, PartialEq, Eq, thiserror::Error)]
#[error("the table ends at {most}; ask the maker of the machine, and start from the darkest")]
pub struct NotInTable {
    /// The greatest value that the table has, in the process's unit.
    pub most: u32,
}

/// Shorthand for the table below: the band's first value, the next band's, the shade.
const fn band(from: u32, below: u32, shade: u8) -> Band {
    Band { from, below: Some(below), shade }
}

const fn from_on(from: u32, shade: u8) -> Band {
    Band { from, below: None, shade }
}

/// Electrodes of stick welding: thirty-seconds of an inch, and the least shade from there on (1910.133(a)(5)).
const ELECTRODES: [Band; 4] = [band(0, 3, 7), band(3, 5, 8), band(5, 8, 10), from_on(8, 11)];

impl Process {
    /// Every process, the commonest in a small shop first.
    pub const ALL: [Self; 11] = [
        Self::Stick,
        Self::Wire,
        Self::Tig,
        Self::PlasmaCutting,
        Self::GasWelding,
        Self::OxygenCutting,
        Self::Brazing,
        Self::Soldering,
        Self::PlasmaWelding,
        Self::AirCarbonArc,
        Self::CarbonArc,
    ];

    /// What its bands are counted in.
    pub fn unit(self) -> Unit {
        match self {
            Self::Stick | Self::Wire | Self::Tig | Self::PlasmaCutting | Self::PlasmaWelding | Self::AirCarbonArc => {
                Unit::Amperes
            }
            Self::GasWelding | Self::OxygenCutting => Unit::PlateTenthsMm,
            Self::CarbonArc | Self::Brazing | Self::Soldering => Unit::None,
        }
    }

    /// Its bands, ascending and without a gap (29 CFR 1910.133(a)(5)). A last band that ends has the table's most as
    /// its last value: `below` is one more.
    pub fn bands(self) -> &'static [Band] {
        const STICK: [Band; 4] = [band(0, 60, 7), band(60, 160, 8), band(160, 250, 10), band(250, 551, 11)];
        const WIRE: [Band; 2] = [band(0, 60, 7), band(60, 501, 10)];
        const TIG: [Band; 2] = [band(0, 150, 8), band(150, 501, 10)];
        const PLASMA_CUTTING: [Band; 3] = [band(0, 300, 8), band(300, 400, 9), band(400, 801, 10)];
        const PLASMA_WELDING: [Band; 4] = [band(0, 20, 6), band(20, 100, 8), band(100, 400, 10), band(400, 801, 11)];
        const AIR_CARBON_ARC: [Band; 2] = [band(0, 500, 10), band(500, 1001, 11)];
        const GAS_WELDING: [Band; 3] = [band(0, 32, 4), band(32, 127, 5), from_on(127, 6)];
        const OXYGEN_CUTTING: [Band; 3] = [band(0, 250, 3), band(250, 1500, 4), from_on(1500, 5)];
        match self {
            Self::Stick => &STICK,
            Self::Wire => &WIRE,
            Self::Tig => &TIG,
            Self::PlasmaCutting => &PLASMA_CUTTING,
            Self::PlasmaWelding => &PLASMA_WELDING,
            Self::AirCarbonArc => &AIR_CARBON_ARC,
            Self::GasWelding => &GAS_WELDING,
            Self::OxygenCutting => &OXYGEN_CUTTING,
            Self::CarbonArc => &const { [from_on(0, 14)] },
            Self::Brazing => &const { [from_on(0, 3)] },
            Self::Soldering => &const { [from_on(0, 2)] },
        }
    }
}

/// The least shade for a value in the process's unit.
pub fn least_shade(process: Process, value: u32) -> Result<u8, NotInTable> {
    shade_in(process.bands(), value)
}

/// The least shade for stick welding by current and electrode (thirty-seconds of an inch): the darker of the two.
pub fn least_shade_of_stick(amperes: u32, electrode_32nds: u32) -> Result<u8, NotInTable> {
    Ok(least_shade(Process::Stick, amperes)?.max(shade_in(&ELECTRODES, electrode_32nds)?))
}

fn shade_in(bands: &[Band], value: u32) -> Result<u8, NotInTable> {
    let holds = |band: &&Band| band.from <= value && band.below.is_none_or(|below| value < below);
    let most = bands.last().and_then(|band| band.below).map_or(u32::MAX, |below| below - 1);
    bands.iter().find(holds).map(|band| band.shade).ok_or(NotInTable { most })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn bands_follow_each_other_and_never_get_lighter() {
        for process in Process::ALL {
            let bands = process.bands();
            assert_eq!(bands.first().map(|band| band.from), Some(0), "{process:?}");
            for pair in bands.windows(2) {
                assert_eq!(pair[0].below, Some(pair[1].from), "{process:?}");
                assert!(pair[0].shade < pair[1].shade, "{process:?}");
            }
            assert_eq!(process.unit() == Unit::None, bands.len() == 1, "{process:?}");
        }
    }

    #[test]
    fn past_the_table_there_is_no_shade() {
        for (process, most) in [
            (Process::Stick, 550),
            (Process::Wire, 500),
            (Process::Tig, 500),
            (Process::PlasmaCutting, 800),
            (Process::PlasmaWelding, 800),
            (Process::AirCarbonArc, 1000),
        ] {
            assert!(least_shade(process, most).is_ok(), "{process:?}");
            assert_eq!(least_shade(process, most + 1), Err(NotInTable { most }), "{process:?}");
        }
        assert_eq!(least_shade(Process::OxygenCutting, u32::MAX), Ok(5));
    }

    #[test]
    fn a_thick_electrode_is_the_darker_answer() {
        for (amperes, electrode_32nds, shade) in [(100, 4, 8), (100, 6, 10), (200, 4, 10), (50, 9, 11), (160, 3, 10)] {
            assert_eq!(least_shade_of_stick(amperes, electrode_32nds), Ok(shade), "{amperes} A, {electrode_32nds}/32");
        }
    }
}
