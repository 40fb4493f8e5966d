//! Words of English: what is looked up. Fire, metals, finishes, shades.

use shared_core::exposure::day::Harm;
use shared_core::fire::Burning;
use shared_core::material::identify::{Caveat, Sure};
use shared_core::rulebook::emergency::{Agent, Extinguisher};
use shared_core::shade::{Band, Process, Unit};

use super::minutes_short;

/// The section.
pub const LOOK_UP: &str = "Look it up";
/// Fire.
pub const FIRE: &str = "Fire";
/// What comes before any extinguisher.
pub const LEAVE_FIRST: &str = "Leave. Warn the others. Call.";
/// And only then.
pub const SMALL_ONLY: &str = "Only a small fire, and only with the way out behind you. If you doubt it, leave. The shop's rules and the fire service come first.";
/// Where to gather.
pub const GATHER: &str = "Gather here";
/// A way out.
pub const WAY_OUT: &str = "Way out";
/// None.
pub const NO_WAY_OUT: &str = "Not a way out";
/// Doors.
pub fn doors(room: &str) -> String {
    format!("{room}: doors")
}
/// Extinguishers.
pub fn burns(room: &str) -> String {
    format!("{room}: what burns?")
}
/// None written down.
pub fn none_written(room: &str) -> String {
    format!("{room}: the rulebook names no extinguisher.")
}
/// Nothing for it.
pub const NOTHING_FOR_IT: &str = "Nothing here is for this. Leave.";
/// What burns.
pub fn burning(burning: Burning) -> &'static str {
    match burning {
        Burning::Ordinary => "Wood, paper, rags",
        Burning::Liquid => "Paint, solvent, oil",
        Burning::Gas => "Gas",
        Burning::LiveElectrics => "Something under power",
        Burning::Metal => "Metal: chips, dust",
        Burning::CookingOil => "Cooking oil",
    }
}
/// What is done first, or never.
pub fn first(burning: Burning) -> &'static str {
    match burning {
        Burning::Ordinary => "",
        Burning::Liquid | Burning::CookingOil => " Never water.",
        Burning::Gas => " Shut the valve if you can reach it; a flame that cannot be shut off is left to burn.",
        Burning::LiveElectrics => " Power off first, if you can reach it. Never water.",
        Burning::Metal => " Lay it on gently. Never water, foam or CO2.",
    }
}
/// An extinguisher and its place.
pub fn extinguisher(one: &Extinguisher) -> String {
    let agent = match one.agent {
        Agent::Water => "water",
        Agent::Foam => "foam",
        Agent::Powder => "powder",
        Agent::Co2 => "CO2",
        Agent::CleanGas => "clean gas",
        Agent::WetChemical => "wet chemical",
        Agent::MetalPowder => "metal powder",
        Agent::DrySand => "dry sand",
    };
    let electrics = if one.live_electrics { ", and for live electrics" } else { "" };
    format!("{}: {agent}, marked {}{electrics}.", one.place, one.classes.join(" "))
}
/// Metal.
pub const METAL: &str = "What metal is this?";
/// Nothing said yet.
pub const METAL_HOW: &str =
    "Try a magnet on a bare spot and scratch it. Weight and size narrow it down. Nothing here replaces a label.";
/// The magnet.
pub const MAGNET: &str = "A magnet";
/// Its answers.
pub const MAGNETS: &[&str] = &["holds", "lets go"];
/// The scratch.
pub const SCRATCH: &str = "A fresh scratch is";
/// Its answers.
pub const COLOURS: &[&str] = &["grey", "yellow", "red"];
/// The weight.
pub const GRAMS: &str = "Weight in g";
/// The size.
pub const SHAPE: &str = "Its size is that of";
/// Its answers.
pub const SHAPES: &[&str] = &["a block", "a round bar", "its water"];
/// With what.
pub const TOOL: &str = "Read with";
/// Its answers.
pub const TOOLS: &[&str] = &["rule or jug", "calliper or cylinder"];
/// The sizes of each shape.
pub const SIZES: [&[&str]; 3] =
    [&["Length in mm", "Width in mm", "Height in mm"], &["Across in mm", "Length in mm"], &["Water displaced in ml"]];
/// The answer.
pub const MAY_BE: &str = "It may be";
/// The density that was found.
pub fn dense(least: &str, most: &str) -> String {
    format!("{least} to {most} g/cm³, with the doubt of scale and rule in it.")
}
/// How sure.
pub fn sure(sure: Sure) -> &'static str {
    match sure {
        Sure::Alone => "the only one here that fits",
        Sure::Fits => "fits",
        Sure::AtTheEdge => "fits only by the doubt of the reading",
    }
}
/// A candidate.
pub fn candidate(least: &str, most: &str, sure: &str, never_in: &str) -> String {
    let never = if never_in.is_empty() { String::new() } else { format!(" Never in: {never_in}.") };
    format!("{least} to {most} g/cm³, {sure}.{never}")
}
/// Nothing fits.
pub const NO_METAL: &str =
    "Nothing here fits. Weigh and measure again; it may be hollow, plated, or an alloy that is not listed.";
/// Several fit.
pub fn until_sure(machines: &str) -> String {
    format!("Until you are sure, not in: {machines}.")
}
/// What must be said beside it.
pub fn caveat(caveat: Caveat) -> &'static str {
    match caveat {
        Caveat::BrassOrBronze => "Brass and bronze overlap: weight and size cannot part them.",
        Caveat::StainlessWithoutMagnet => "Some stainless steel does not hold a magnet either.",
        Caveat::PerhapsMagnesium => "It may be magnesium: no sparks, no grinding, and never water on it if it burns.",
        Caveat::PerhapsLead => "It may be lead: no dust, no fume, and wash your hands.",
    }
}
/// Air.
pub const AIR: &str = "May I open this tin?";
/// What to read.
pub const VOC: &str = "VOC on the tin, in g/l";
/// Which of its numbers.
pub const VOC_HINT: &str =
    "Ready to use, thinner and hardener in it. 1\u{a0}lb/gal is 120\u{a0}g/l. No number? Leave it empty.";
/// Where.
pub const WHERE: &str = "Where";
/// No place.
pub const NO_PLACE: &str = "The rulebook names no place for paint or glue. Ask the steward.";
/// In the open room.
pub fn in_the_room(room: &str) -> String {
    format!("{room}, in the room")
}
/// Yes.
pub const YES_ROOM: &str = "Yes, fan on, and the lid on between strokes.";
/// Yes.
pub const YES_HOOD: &str = "Yes:";
/// Yes, but for the person.
pub const NOT_YOU: &str = "Not yet:";
/// Too much.
pub const TOO_MUCH: &str = "No, too much.";
/// No number.
pub const UNSAID: &str = "No, not without a number on the tin.";
/// Whose limit.
pub fn limit(g_per_l: u32, source: &str) -> String {
    format!("Limit {g_per_l} g/l: {source}.")
}
/// What a limit is not.
pub const AIR_CAUTION: &str = "This is about solvent vapour alone. Isocyanates and fire are on the tin's own label.";
/// Shades.
pub const SHADES: &str = "Welding shades";
/// The table.
pub const LEAST_SHADE: &str = "The least shade";
/// How to use them.
pub const SHADES_HOW: &str = "The least there may be, for helpers and watchers too. Start darker, go lighter until you see the work. 29 CFR 1910.133(a)(5).";
/// A process.
pub fn process(process: Process) -> &'static str {
    match process {
        Process::Stick => "Stick",
        Process::Wire => "Wire, solid or cored",
        Process::Tig => "TIG",
        Process::PlasmaCutting => "Plasma cutting",
        Process::PlasmaWelding => "Plasma welding",
        Process::AirCarbonArc => "Air carbon arc",
        Process::CarbonArc => "Carbon arc",
        Process::GasWelding => "Gas welding",
        Process::OxygenCutting => "Oxygen cutting",
        Process::Brazing => "Torch brazing",
        Process::Soldering => "Torch soldering",
    }
}
/// A band and its shade; the first says where it ends.
pub fn band(band: Band, unit: Unit) -> String {
    let (word, edge) = match band.below {
        Some(below) if band.from == 0 => ("under", below),
        _ => ("from", band.from),
    };
    match unit {
        Unit::None => format!("shade {}", band.shade),
        Unit::Amperes => format!("{word} {edge}\u{a0}A: shade {}", band.shade),
        Unit::PlateTenthsMm => {
            let part = if edge % 10 == 0 { String::new() } else { format!(".{}", edge % 10) };
            format!("{word} {}{part}\u{a0}mm plate: shade {}", edge / 10, band.shade)
        }
    }
}
/// The end of the table.
pub fn table_ends(most: u32) -> String {
    format!("the table ends at {most}\u{a0}A")
}
/// Minutes left at a machine, on its line.
pub fn left(harm: Harm, minutes: i64) -> String {
    let part = match harm {
        Harm::Noise => "ears",
        Harm::Vibration => "hands",
    };
    if minutes > 0 { format!("{part}: {} left", minutes_short(minutes)) } else { format!("{part}: enough for today") }
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
    let part = match harm {
        Harm::Noise => "ears",
        Harm::Vibration => "hands",
    };
    if minutes > 0 {
        format!("Your {part} have {} left here today, by an estimate that measures nothing.", minutes_short(minutes))
    } else {
        format!("Your {part} have had enough for today, by an estimate that measures nothing.")
    }
}
/// What that is.
pub const LEFT_CAUTION: &str = "Ears and hands: what is left today before an action value for noise or vibration. An estimate from typical levels, without hearing protection, not a measurement. It stays on this phone.";
