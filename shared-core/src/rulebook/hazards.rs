//! The tables and keys of fire and air: read, and held against what they must mean.
//!
//! A class letter that its region does not have, or that its agent cannot be meant for, is a problem and not a shrug:
//! somebody would take that cylinder to that fire. DESIGN.md section 5 allows these keys; the headless contract has none
//! of them.

use super::emergency::{Agent, Exit, Extinguisher, FireRule, Letters, word_in};
use super::fields::Fields;
use super::lint::one_of;
use super::reading::Reading;
use super::{Rulebook, VocLimit, keys};
use crate::fire::{Burning, of_letter, suits};

/// No tin holds more: the heaviest common solvents weigh about this much a litre. From memory.
const VOC_MOST_G_PER_L: u32 = 2000;

/// `[fire]`
pub(super) fn fire(file: &Fields<'_, '_, '_>) -> Option<FireRule> {
    file.get("fire")?;
    let table = file.section("fire", &keys::FIRE, keys::RULEBOOK);
    let letters = word(&table, "letters", &Letters::WORDS).unwrap_or(Letters::En);
    Some(FireRule { letters, gather: table.said_if("gather") })
}

/// `[[extinguisher]]`
pub(super) fn extinguishers(file: &Fields<'_, '_, '_>) -> Vec<Extinguisher> {
    let read = |one: &Fields<'_, '_, '_>| {
        one.required("classes", Some("the letters on its label, such as `[\"A\", \"B\"]`"));
        let agent = word(one, "agent", &Agent::WORDS);
        // Without its agent nothing can be said of its letters: they are read for their shape alone.
        let (classes, live_electrics) = (one.texts("classes"), one.flag("live_electrics", false));
        Extinguisher {
            id: one.id(),
            room: one.text("room").as_str().into(),
            place: one.said("place"),
            agent: agent.unwrap_or(Agent::Water),
            classes: if agent.is_some() { classes } else { Vec::new() },
            live_electrics: live_electrics && agent.is_some(),
        }
    };
    file.each("extinguisher", &keys::EXTINGUISHER, keys::RULEBOOK).iter().map(read).collect()
}

/// `[[exit]]`
pub(super) fn exits(file: &Fields<'_, '_, '_>) -> Vec<Exit> {
    let read = |exit: &Fields<'_, '_, '_>| Exit {
        id: exit.id(),
        room: exit.text("room").as_str().into(),
        text: exit.said("text"),
        way_out: exit.flag("way_out", true),
    };
    file.each("exit", &keys::EXIT, keys::RULEBOOK).iter().map(read).collect()
}

/// `voc_limit_g_per_l` and `voc_source` of a room or a machine: both or neither.
pub(super) fn voc(owner: &Fields<'_, '_, '_>) -> Option<VocLimit> {
    let source = owner.said_if("voc_source");
    if owner.get("voc_limit_g_per_l").is_none() {
        if source.is_some() {
            owner.required("voc_limit_g_per_l", Some("`voc_source` says whose limit it is"));
        }
        return None;
    }
    owner.required("voc_source", Some("limits differ by region: say whose number it is, or `house rule`"));
    let g_per_l = owner.whole("voc_limit_g_per_l", 0..=VOC_MOST_G_PER_L, Some(0));
    Some(VocLimit { g_per_l, source: source.unwrap_or_default() })
}

/// One word of a list, which must be there.
fn word<T: Copy>(table: &Fields<'_, '_, '_>, key: &'static str, words: &[(&'static str, T)]) -> Option<T> {
    let told = table.text(key);
    let meant = word_in(words, &told);
    if meant.is_none() && !told.trim().is_empty() {
        let known: Vec<&str> = words.iter().map(|(word, _)| *word).collect();
        let hint = one_of(&told, &known).or_else(|| Some(format!("write one of {}", known.join(", "))));
        table.problem(key, format!("`{told}` is not known as `{key}` of {}", table.name()), hint);
    }
    meant
}

/// Notes every problem of meaning in what is written of fire.
pub(super) fn check(book: &Rulebook, reading: &Reading<'_>) {
    match &book.fire {
        None if !book.extinguishers.is_empty() => {
            let hint = "write `[fire]` with `letters = \"US\"` (NFPA 10) or `letters = \"EN\"` (EN 2)".to_owned();
            reading.problem_at("extinguisher.0", "class letters without a region: C differs", Some(hint));
        }
        None => {}
        Some(rule) => {
            for (n, extinguisher) in book.extinguishers.iter().enumerate() {
                classes(rule.letters, extinguisher, &format!("extinguisher.{n}"), reading);
            }
        }
    }
    for room in &book.rooms {
        let mut doors = book.exits.iter().enumerate().filter(|(_, exit)| exit.room == room.id).peekable();
        if let Some((first, _)) = doors.peek().copied()
            && !doors.any(|(_, exit)| exit.way_out)
        {
            let what = format!("no way out of room `{}` is written down", room.id);
            reading.problem_at(&format!("exit.{first}"), what, Some("one of them has `way_out = true`".to_owned()));
        }
    }
}

fn classes(letters: Letters, extinguisher: &Extinguisher, path: &str, reading: &Reading<'_>) {
    let written_empty = reading.has(&format!("{path}.classes")) && !reading.has(&format!("{path}.classes.0"));
    if written_empty && !extinguisher.live_electrics {
        let hint = "the letters on its label, such as `[\"A\", \"B\"]`".to_owned();
        reading.problem_at(&format!("{path}.classes"), "an extinguisher without a class is for nothing", Some(hint));
    }
    let can = suits(extinguisher.agent);
    for (at, letter) in extinguisher.classes.iter().enumerate().filter(|(_, letter)| !letter.is_empty()) {
        let place = format!("{path}.classes.{at}");
        let meant = of_letter(letters, letter);
        if meant.is_empty() {
            let hint = match letters {
                Letters::Us => "NFPA 10 has A, B, C, D and K",
                Letters::En => "EN 2 has A, B, C, D and F; for live electrics write `live_electrics = true`",
            };
            reading.problem_at(&place, format!("`{letter}` is not a class"), Some(hint.to_owned()));
        } else if !meant.iter().any(|burning| can.contains(burning)) {
            let what = format!("{} is never for class {letter}", said(extinguisher.agent));
            let hint = (letters == Letters::En && letter == "C")
                .then(|| "in EN 2, C is gases; for live electrics write `live_electrics = true`".to_owned());
            reading.problem_at(&place, what, hint);
        }
    }
    if extinguisher.live_electrics {
        let place = format!("{path}.live_electrics");
        if letters == Letters::Us {
            reading.problem_at(&place, "NFPA 10 has a letter for that", Some("write class `C`".to_owned()));
        } else if !can.contains(&Burning::LiveElectrics) {
            reading.problem_at(&place, format!("{} is never for live electrics", said(extinguisher.agent)), None);
        }
    }
}

fn said(agent: Agent) -> &'static str {
    Agent::WORDS.iter().find(|(_, known)| *known == agent).map_or("it", |(word, _)| word)
}
