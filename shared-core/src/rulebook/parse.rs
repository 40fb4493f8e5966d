//! A rulebook's TOML into types, with every problem found at its line and column.
//!
//! Shape is checked here: keys, types, ranges, what must be there. What the values mean together (ids, references,
//! cycles) is checked in [`super::lint`]. A file gives either a rulebook or at least one problem, never both: a rule
//! that was misread could send somebody to a running machine. DESIGN.md section 5, "Rulebook keys".

use sha2::{Digest, Sha256};

use super::fields::Fields;
use super::keys;
use super::problem::Problem;
use super::reading::Reading;
use super::spoken::{LANGUAGES, Translations};
use super::{
    BuddyRule, Chore, FireWatchRule, Gear, Machine, RETENTION_DAYS, Reserve, Room, Round, Rulebook, Shop, Statement,
    VALID_DAYS, When, hazards, lint, walk,
};
use crate::base64url;
use crate::ids::BookId;
use crate::standing::walk::mark;

/// The longest session, in hours, that a rulebook may allow: a week.
const SESSION_HOURS_MAX: u32 = 168;
/// Ten years: past that a number is a slip of the pen.
const RETENTION_DAYS_MAX: u32 = 3_650;
/// A day, in minutes: no wait or watch is longer.
const DAY_MINUTES: u32 = 1440;

/// Reads a rulebook: `Some` exactly when there is no problem.
pub fn read(toml: &str) -> (Option<Rulebook>, Vec<Problem>) {
    let (reading, table) = Reading::begin(toml);
    let file = Fields::of_file(&reading, &table, &keys::FILE, keys::RULEBOOK);
    let book = rulebook(&file);
    if !reading.is_guesswork() {
        lint::check(&book, &reading);
    }
    let usable = reading.is_clean().then_some(book);
    (usable, reading.into_problems())
}

/// The id of a rulebook: the SHA-256 of its bytes, base64url without padding.
pub fn book_id(toml_bytes: &[u8]) -> BookId {
    BookId::new(base64url::encode(&Sha256::digest(toml_bytes)))
}

fn rulebook(file: &Fields<'_, '_, '_>) -> Rulebook {
    file.required("shop", Some("a shop has a name, a time zone and a longest session"));
    file.required("statement", Some("a shop without statements asks nothing at its door"));
    file.required("room", Some("a session happens in a room"));
    // The shop comes first: it says in which language plain texts are.
    let mut book = Rulebook {
        shop: shop(&file.section("shop", &keys::SHOP, keys::RULEBOOK)),
        reserve: reserve(&file.section("reserve", &keys::RESERVE, keys::RULEBOOK)),
        buddy: buddy(&file.section("buddy", &keys::BUDDY, keys::RULEBOOK)),
        fire_watch: fire_watch(&file.section("fire_watch", &keys::FIRE_WATCH, keys::RULEBOOK)),
        statements: file.each("statement", &keys::STATEMENT, keys::RULEBOOK).iter().map(statement).collect(),
        gear: file.each("gear", &keys::GEAR, keys::RULEBOOK).iter().map(gear).collect(),
        rooms: file.each("room", &keys::ROOM, keys::RULEBOOK).iter().map(room).collect(),
        machines: file.each("machine", &keys::MACHINE, keys::RULEBOOK).iter().map(machine).collect(),
        rounds: file.each("round", &keys::ROUND, keys::RULEBOOK).iter().map(round).collect(),
        stops: walk::stops(file),
        trainings: walk::trainings(file),
        fire: hazards::fire(file),
        extinguishers: hazards::extinguishers(file),
        exits: hazards::exits(file),
        translations: Translations::default(),
    };
    book.translations = file.reading().translations();
    book
}

fn shop(shop: &Fields<'_, '_, '_>) -> Shop {
    if let Some(told) = shop.text_if("language") {
        if let Some(language) = LANGUAGES.iter().find(|known| **known == told) {
            shop.reading().speak(language);
        } else {
            let hint = format!("write one of {}", LANGUAGES.join(", "));
            shop.problem("language", format!("`{told}` is not a language that is known here"), Some(hint));
        }
    }
    Shop {
        name: shop.text("name"),
        time_zone: shop.text("time_zone"),
        session_hours_max: shop.whole("session_hours_max", 1..=SESSION_HOURS_MAX, None),
        retention_days: shop.whole("retention_days", 1..=RETENTION_DAYS_MAX, Some(RETENTION_DAYS)),
        induction_days: shop.whole("induction_days", 1..=walk::VALID_DAYS_MAX, Some(VALID_DAYS)),
        demo: shop.flag("demo", false),
        emergency: shop.text_if("emergency"),
    }
}

fn reserve(reserve: &Fields<'_, '_, '_>) -> Reserve {
    Reserve {
        floor_minutes: reserve.whole("floor_minutes", 0..=DAY_MINUTES, Some(10)),
        first_bell_minutes: reserve.whole("first_bell_minutes", 0..=DAY_MINUTES, Some(10)),
        quantile: reserve.number("quantile", 0.0..=1.0).unwrap_or(0.8),
        prior_weight: reserve.whole("prior_weight", 0..=1000, Some(5)),
    }
}

fn buddy(buddy: &Fields<'_, '_, '_>) -> BuddyRule {
    BuddyRule {
        renew_minutes: buddy.whole("renew_minutes", 1..=DAY_MINUTES, Some(15)),
        covers: buddy.whole("covers", 1..=100, Some(1)),
        may_operate: buddy.flag("buddy_may_operate", false),
    }
}

fn fire_watch(watch: &Fields<'_, '_, '_>) -> FireWatchRule {
    FireWatchRule {
        minutes: watch.whole("minutes", 0..=DAY_MINUTES, Some(30)),
        exclusive: watch.flag("exclusive", true),
    }
}

fn statement(statement: &Fields<'_, '_, '_>) -> Statement {
    let text = statement.said("text");
    Statement {
        id: statement.id().as_str().into(),
        mark: Some(mark([&text])),
        text,
        decline: statement.said("decline"),
        sign: statement.text_if("sign"),
    }
}

fn gear(gear: &Fields<'_, '_, '_>) -> Gear {
    Gear { id: gear.id().as_str().into(), count: gear.whole("count", 1..=1000, None) }
}

fn room(room: &Fields<'_, '_, '_>) -> Room {
    Room {
        id: room.id().as_str().into(),
        name: room.said("name"),
        chores: room.each("chore", &keys::ROOM_CHORE, keys::RULEBOOK).iter().map(room_chore).collect(),
        voc: hazards::voc(room),
    }
}

fn room_chore(chore: &Fields<'_, '_, '_>) -> Chore {
    Chore { when: when(chore), ..chore_of_any(chore) }
}

fn when(chore: &Fields<'_, '_, '_>) -> When {
    match chore.text_if("when").as_deref() {
        None | Some("always") => When::Always,
        Some("last-out") => When::LastOut,
        Some(other) => {
            let words = "write `always` or `last-out`".to_owned();
            chore.problem("when", format!("`{other}` is not a time for a chore"), Some(words));
            When::Always
        }
    }
}

fn machine(machine: &Fields<'_, '_, '_>) -> Machine {
    Machine {
        id: machine.id().as_str().into(),
        name: machine.said("name"),
        room: machine.text("room").as_str().into(),
        training: machine.text("training"),
        buddy: machine.flag("buddy", false),
        hot_work: machine.flag("hot_work", false),
        pedal: machine.flag("pedal", false),
        noise_dba: machine.number("noise_dba", 0.0..=194.0),
        vibration_ms2: machine.number("vibration_ms2", 0.0..=200.0),
        wear: machine.texts("wear"),
        never_wear: machine.texts("never_wear"),
        refuses: machine.texts("refuses"),
        start_checks: machine.said_list("start_checks"),
        voc: hazards::voc(machine),
        chores: machine.each("chore", &keys::MACHINE_CHORE, keys::RULEBOOK).iter().map(machine_chore).collect(),
    }
}

fn machine_chore(chore: &Fields<'_, '_, '_>) -> Chore {
    Chore { per_hour_milli: chore.milli("per_hour").unwrap_or(0), cap_milli: chore.milli("cap"), ..chore_of_any(chore) }
}

fn chore_of_any(chore: &Fields<'_, '_, '_>) -> Chore {
    Chore {
        id: chore.id(),
        text: chore.said("text"),
        minutes_milli: chore.milli_required("minutes"),
        per_hour_milli: 0,
        cap_milli: None,
        hands: chore.whole("hands", 0..=100, Some(1)),
        after: chore.texts("after"),
        gear: chore.text_if("gear").map(|gear| gear.as_str().into()),
        when: When::Always,
    }
}

fn round(round: &Fields<'_, '_, '_>) -> Round {
    Round {
        id: round.id().as_str().into(),
        room: round.text("room").as_str().into(),
        text: round.said("text"),
        every: round.text("every"),
        source: round.said_if("source"),
    }
}
