//! Which words what is looked up has: fire, metals, finishes, shades.

use shared_core::exposure::day::Harm;
use shared_core::fire::Burning;
use shared_core::material::identify::{Caveat, Sure};
use shared_core::rulebook::emergency::{Agent, Extinguisher};
use shared_core::shade::{Band, Process, Unit};

pub use super::said::look::*;
use super::said::{look as said, metal as metals};
use super::time::{decimal, short};

/// What burns.
pub fn burning(burning: Burning) -> &'static str {
    match burning {
        Burning::Ordinary => burning_ordinary(),
        Burning::Liquid => burning_liquid(),
        Burning::Gas => burning_gas(),
        Burning::LiveElectrics => burning_live(),
        Burning::Metal => burning_metal(),
        Burning::CookingOil => burning_oil(),
    }
}

/// What is done first, or never; empty where there is no more to say.
pub fn first(burning: Burning) -> &'static str {
    match burning {
        Burning::Ordinary => "",
        Burning::Liquid | Burning::CookingOil => first_liquid(),
        Burning::Gas => first_gas(),
        Burning::LiveElectrics => first_live(),
        Burning::Metal => first_metal(),
    }
}

/// An extinguisher and its place.
pub fn extinguisher(one: &Extinguisher) -> String {
    let agent = match one.agent {
        Agent::Water => agent_water(),
        Agent::Foam => agent_foam(),
        Agent::Powder => agent_powder(),
        Agent::Co2 => agent_co2(),
        Agent::CleanGas => agent_clean_gas(),
        Agent::WetChemical => agent_wet_chemical(),
        Agent::MetalPowder => agent_metal_powder(),
        Agent::DrySand => agent_dry_sand(),
    };
    let say = if one.live_electrics { extinguisher_live } else { said::extinguisher };
    say(agent, &one.classes.join(" "), &one.place)
}

/// What a magnet does.
pub fn magnets() -> Vec<&'static str> {
    vec![magnet_holds(), magnet_lets_go()]
}

/// The colour of a scratch.
pub fn colours() -> Vec<&'static str> {
    vec![colour_grey(), colour_yellow(), colour_red()]
}

/// What the size is that of.
pub fn shapes() -> Vec<&'static str> {
    vec![shape_block(), shape_round(), shape_water()]
}

/// What it is read with.
pub fn tools() -> Vec<&'static str> {
    vec![tool_rough(), tool_fine()]
}

/// The sizes of each shape, by its number from 1; none of any other.
pub fn sizes(shape: usize) -> Vec<&'static str> {
    match shape {
        1 => vec![size_length(), size_width(), size_height()],
        2 => vec![size_across(), size_length()],
        3 => vec![size_displaced()],
        _ => vec![],
    }
}

/// How sure.
pub fn sure(sure: Sure) -> &'static str {
    match sure {
        Sure::Alone => sure_alone(),
        Sure::Fits => sure_fits(),
        Sure::AtTheEdge => sure_edge(),
    }
}

/// A candidate, and which machines must never have it.
pub fn candidate(least: &str, most: &str, sure: &str, never_in: &str) -> String {
    let told = said::candidate(least, most, sure);
    if never_in.is_empty() { told } else { [told, said::never_in(never_in)].join(" ") }
}

/// What must be said beside it.
pub fn caveat(caveat: Caveat) -> &'static str {
    match caveat {
        Caveat::BrassOrBronze => caveat_brass_or_bronze(),
        Caveat::StainlessWithoutMagnet => caveat_stainless(),
        Caveat::PerhapsMagnesium => caveat_magnesium(),
        Caveat::PerhapsLead => caveat_lead(),
    }
}

/// A metal that the rulebooks have a word for; any other material as the steward wrote it.
pub fn metal_named(word: &str) -> &str {
    match word {
        "mild steel" => metals::mild_steel(),
        "cast iron" => metals::cast_iron(),
        "stainless steel" => metals::stainless_steel(),
        "tool steel" => metals::tool_steel(),
        "hardened steel" => metals::hardened_steel(),
        "galvanised steel" => metals::galvanised_steel(),
        "painted steel" => metals::painted_steel(),
        "aluminium" => metals::aluminium(),
        "copper" => metals::copper(),
        "brass" => metals::brass(),
        "bronze" => metals::bronze(),
        "titanium" => metals::titanium(),
        "magnesium" => metals::magnesium(),
        "zinc" => metals::zinc(),
        "lead" => metals::lead(),
        "tin" => metals::tin(),
        "nickel" => metals::nickel(),
        other => other,
    }
}

/// Materials, as a list.
pub fn metals_named(words: &[String]) -> String {
    words.iter().map(|word| metal_named(word)).collect::<Vec<_>>().join(", ")
}

/// A process.
pub fn process(process: Process) -> &'static str {
    match process {
        Process::Stick => process_stick(),
        Process::Wire => process_wire(),
        Process::Tig => process_tig(),
        Process::PlasmaCutting => process_plasma_cutting(),
        Process::PlasmaWelding => process_plasma_welding(),
        Process::AirCarbonArc => process_air_carbon_arc(),
        Process::CarbonArc => process_carbon_arc(),
        Process::GasWelding => process_gas_welding(),
        Process::OxygenCutting => process_oxygen_cutting(),
        Process::Brazing => process_brazing(),
        Process::Soldering => process_soldering(),
    }
}

/// A band and its shade; the first says where it ends.
pub fn band(band: Band, unit: Unit) -> String {
    let shade = i64::from(band.shade);
    let below = band.below.filter(|_| band.from == 0);
    let edge = i64::from(below.unwrap_or(band.from));
    match (unit, below) {
        (Unit::None, _) => said::shade(shade),
        (Unit::Amperes, Some(_)) => amperes_under(edge, shade),
        (Unit::Amperes, None) => amperes_from(edge, shade),
        (Unit::PlateTenthsMm, Some(_)) => plate_under(&tenths(edge), shade),
        (Unit::PlateTenthsMm, None) => plate_from(&tenths(edge), shade),
    }
}

fn tenths(of: i64) -> String {
    if of % 10 == 0 { (of / 10).to_string() } else { decimal(of / 10, &(of % 10).to_string()) }
}

/// Minutes left at a machine, on its line.
pub fn left(harm: Harm, minutes: i64) -> String {
    match (harm, minutes > 0) {
        (Harm::Noise, true) => said::left_ears(&short(minutes)),
        (Harm::Vibration, true) => said::left_hands(&short(minutes)),
        (Harm::Noise, false) => enough_ears().into(),
        (Harm::Vibration, false) => enough_hands().into(),
    }
}

/// The same for a leaf that counts.
pub fn left_ears(minutes: i64) -> String {
    left(Harm::Noise, minutes)
}

/// The same for a leaf that counts.
pub fn left_hands(minutes: i64) -> String {
    left(Harm::Vibration, minutes)
}

/// The same before a machine starts, with what it is.
pub fn left_of_day(harm: Harm, minutes: i64) -> String {
    match (harm, minutes > 0) {
        (Harm::Noise, true) => day_left_ears(&short(minutes)),
        (Harm::Vibration, true) => day_left_hands(&short(minutes)),
        (Harm::Noise, false) => day_enough_ears().into(),
        (Harm::Vibration, false) => day_enough_hands().into(),
    }
}
