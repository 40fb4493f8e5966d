//! Extinguisher letters against NFPA 10 and EN 2, what is never offered, and the demo's rooms.

use shared_core::fire::{Burning, may_be_used, of_letter, offered};
use shared_core::rulebook::emergency::{Agent, Extinguisher, Letters, word_in};

use crate::table::{Row, rows};

fn burning(row: &Row) -> Option<Burning> {
    Burning::ALL.into_iter().find(|burning| format!("{burning:?}") == row.text("burning"))
}

#[test]
fn letters_mean_what_their_region_says() {
    let table = rows(include_str!("../data/fire-classes.csv"), 14);
    let mut told = 0;
    for row in &table {
        let letters = word_in(&Letters::WORDS, row.text("letters")).expect("a region");
        let meant = of_letter(letters, row.text("letter"));
        match burning(row) {
            Some(burning) => assert!(meant.contains(&burning), "{}", row.name()),
            None => assert_eq!(meant, [], "{}", row.name()),
        }
        told += usize::from(burning(row).is_some());
    }
    let all = Letters::WORDS.iter().flat_map(|(_, letters)| {
        ('A'..='Z').map(|letter| of_letter(*letters, &letter.to_string()).len()).collect::<Vec<_>>()
    });
    assert_eq!(all.sum::<usize>(), told, "no letter means more than the table says");
}

#[test]
fn what_is_never_offered() {
    for row in rows(include_str!("../data/fire-never.csv"), 18) {
        let agent = word_in(&Agent::WORDS, row.text("agent")).expect("an agent");
        let burning = burning(&row).expect("something that burns");
        for (_, letters) in Letters::WORDS {
            let classes = ["A", "B", "C", "D", "F", "K"].map(str::to_owned).to_vec();
            let (id, room, place) = ("x".into(), "forge".into(), "By the door".into());
            let one = Extinguisher { id, room, place, agent, classes, live_electrics: true };
            assert!(!may_be_used(letters, &one, burning), "{}", row.name());
        }
    }
}

/// Class D units where metal is worked: 29 CFR 1910.157(d)(6). That each room has one and a way out is the demo's own.
#[test]
fn every_room_of_the_demo_has_a_way_out_and_one_for_metal() {
    let (book, _) = shared_core::rulebook::parse::read(include_str!("../../hub/demo/shop.toml"));
    let book = book.expect("the demo rulebook");
    for room in &book.rooms {
        let doors = |way_out| book.exits.iter().filter(|exit| exit.room == room.id && exit.way_out == way_out).count();
        assert!(doors(true) >= 2 && doors(false) >= 1, "{}", room.id);
        for burning in [Burning::Ordinary, Burning::Liquid, Burning::LiveElectrics, Burning::Metal] {
            assert!(!offered(&book, &room.id, burning).is_empty(), "{} {burning:?}", room.id);
        }
        let metal = offered(&book, &room.id, Burning::Metal);
        assert!(metal.iter().all(|one| one.agent == Agent::MetalPowder), "{metal:?}");
    }
}
