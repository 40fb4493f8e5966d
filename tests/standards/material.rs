//! Metals against handbook densities; doubt against a Monte Carlo by the guides to uncertainty (JCGM 100 and 101).

use shared_core::material::density::{Density, Reading, Size, density};
use shared_core::material::identify::{Caveat, Seen, caveats, identify};
use shared_core::material::metals::{METALS, Magnet};

use crate::table::{Row, rows};

fn readings(row: &Row) -> Vec<Reading> {
    let read = |text: &str| {
        let (value, off) = text.split_once(':').expect("a value and how far off");
        Reading { value: value.parse().expect("a number"), off: off.parse().expect("a number") }
    };
    row.text("readings").split(' ').map(read).collect()
}

fn magnet(row: &Row) -> &'static [Magnet] {
    match row.text("magnet") {
        "holds" => &[Magnet::Holds],
        "lets" => &[Magnet::Lets],
        _ => &[Magnet::Holds, Magnet::Lets],
    }
}

#[test]
fn the_table_of_metals_is_the_handbooks() {
    let table = rows(include_str!("../data/metals.csv"), METALS.len());
    for (metal, row) in METALS.iter().zip(&table) {
        assert_eq!(metal.word, row.text("metal"));
        let printed = (row.number("least"), row.number("most"));
        assert_eq!((f64::from(metal.least), f64::from(metal.most)), printed, "{}", row.name());
        assert_eq!(metal.magnet, magnet(row), "{}", row.name());
    }
}

#[test]
fn doubt_is_carried_through() {
    for row in rows(include_str!("../data/density.csv"), 9) {
        let read = readings(&row);
        let size = match row.text("shape") {
            "block" => Size::Block(read[1], read[2], read[3]),
            "round" => Size::Round(read[1], read[2]),
            _ => Size::Water(read[1]),
        };
        let Density { value, doubt } = density(read[0], size).expect("a density");
        let (drawn, spread) = (row.number("kg_m3"), row.number("doubt_kg_m3"));
        assert!((value - drawn).abs() < 0.1 * spread, "{}: {value}", row.name());
        assert!((doubt / spread - 1.0).abs() < 0.02, "{}: {doubt}", row.name());
    }
}

#[test]
fn handbook_pieces_are_among_the_candidates() {
    for row in rows(include_str!("../data/metal-pieces.csv"), 9) {
        let (grams, ml) = (row.number("grams"), row.number("millilitres"));
        let exact = |value: f64| Reading { value, off: 0.01 * value };
        let density = density(exact(grams), Size::Water(exact(ml))).expect("a density");
        let seen = Seen { magnet: Some(magnet(&row)[0]), colour: None, density: Some(density) };
        let found = identify(&seen);
        let words: Vec<&str> = found.iter().map(|candidate| candidate.metal.word).collect();
        for wanted in row.text("among").split(';') {
            assert!(words.contains(&wanted), "{}: {words:?}", row.name());
        }
        assert!(found.iter().all(|one| one.metal.magnet.contains(&magnet(&row)[0])), "{}", row.name());
        let both = words.contains(&"brass") && words.contains(&"bronze");
        assert_eq!(caveats(&seen, &found).contains(&Caveat::BrassOrBronze), both, "{}", row.name());
    }
}

/// Brass lies inside bronze: no density whatever leaves brass alone while a magnet lets go and the colour is yellow.
#[test]
fn density_never_parts_brass_from_bronze() {
    for kg_m3 in 8400..=8730_u32 {
        let density = Density { value: f64::from(kg_m3), doubt: 1.0 };
        let words: Vec<&str> = identify(&Seen { magnet: Some(Magnet::Lets), colour: None, density: Some(density) })
            .iter()
            .map(|candidate| candidate.metal.word)
            .collect();
        assert_eq!(words.len(), 2, "{kg_m3}: {words:?}");
        assert!(words.contains(&"brass") && words.contains(&"bronze"), "{kg_m3}: {words:?}");
    }
}
