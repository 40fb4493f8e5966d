//! Small rulebooks for tests, built in Rust so that no test here depends on the reading of TOML.

use crate::rulebook::{BuddyRule, Chore, FireWatchRule, Gear, Machine, Reserve, Room, Rulebook, Shop, When};

pub(crate) fn shop(rooms: Vec<Room>) -> Rulebook {
    Rulebook {
        shop: Shop {
            name: "Test".to_owned(),
            time_zone: "UTC".to_owned(),
            session_hours_max: 12,
            retention_days: 90,
            induction_days: 365,
            demo: false,
            emergency: None,
        },
        reserve: Reserve { floor_minutes: 5, first_bell_minutes: 10, quantile: 0.8, prior_weight: 5 },
        buddy: BuddyRule { renew_minutes: 15, covers: 1, may_operate: false },
        fire_watch: FireWatchRule { minutes: 45, exclusive: true },
        statements: Vec::new(),
        gear: vec![Gear { id: "vac".into(), count: 1 }],
        rooms,
        machines: Vec::new(),
        rounds: Vec::new(),
        stops: Vec::new(),
        trainings: Vec::new(),
        fire: None,
        extinguishers: Vec::new(),
        exits: Vec::new(),
        translations: crate::rulebook::spoken::Translations::default(),
    }
}

pub(crate) fn room(id: &str, chores: Vec<Chore>) -> Room {
    Room { id: id.into(), name: id.to_owned(), chores, voc: None }
}

pub(crate) fn machine(id: &str, chores: Vec<Chore>) -> Machine {
    Machine {
        id: id.into(),
        name: id.to_owned(),
        room: "bay".into(),
        training: id.to_owned(),
        buddy: false,
        hot_work: false,
        pedal: false,
        noise_dba: None,
        vibration_ms2: None,
        wear: Vec::new(),
        never_wear: Vec::new(),
        refuses: Vec::new(),
        start_checks: Vec::new(),
        voc: None,
        chores,
    }
}

/// One hand, nothing first, no gear, always owed.
pub(crate) fn chore(id: &str, minutes: i64) -> Chore {
    Chore {
        id: id.to_owned(),
        text: format!("Do {id}"),
        minutes_milli: minutes * 1000,
        per_hour_milli: 0,
        cap_milli: None,
        hands: 1,
        after: Vec::new(),
        gear: None,
        when: When::Always,
    }
}

/// Makes a chore longer with use: so many thousandths of a minute an hour, up to so many minutes.
pub(crate) fn growing(chore: Chore, per_hour_milli: i64, cap_minutes: i64) -> Chore {
    Chore { per_hour_milli, cap_milli: Some(cap_minutes * 1000), ..chore }
}

pub(crate) fn hands(chore: Chore, hands: u32) -> Chore {
    Chore { hands, ..chore }
}

pub(crate) fn after(chore: Chore, first: &[&str]) -> Chore {
    Chore { after: first.iter().map(|&first| first.to_owned()).collect(), ..chore }
}

pub(crate) fn vac(chore: Chore) -> Chore {
    Chore { gear: Some("vac".into()), ..chore }
}

pub(crate) fn last_out(chore: Chore) -> Chore {
    Chore { when: When::LastOut, ..chore }
}
