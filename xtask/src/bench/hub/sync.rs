//! Ten thousand phones that sync when they are due, with nothing new and with something.

use anyhow::Result;

use super::crowd::{Crowd, check_us};
use super::serving::Hub;
use super::shop::Shop;
use super::table::{head, load, syncs};
use super::{LAP_S, RATE};

/// What the phones bring, how many of a thousand syncs, and from where they ask.
const MIXES: [(&str, u32, &str); 4] = [
    ("nothing is new", 0, "newest"),
    ("3 in 10 bring 1 to 3 lines, others' heard already", 300, "newest"),
    ("each is handed 200 lines that it missed", 2, "own"),
    ("1 in 500 brings 1 to 3, each hears all it missed", 2, "own"),
];
/// Phones that ask at once when as many as possible do.
const AT_ONCE: u32 = 32;
const HURRY_S: u32 = 10;

/// Serves them and prints.
pub(crate) fn run(shop: &Shop<'_>) -> Result<()> {
    let check_us = check_us(shop.programs)?;
    let hubs = [Hub::start(shop, None)?];
    let mut crowd = Crowd::start(shop, &hubs)?;
    let first = crowd.measure(&hubs, "first")?;
    println!(
        "\na phone that has heard nothing: {:.0} lines of the last day and what holds, {:.0} questions in {:.1} s",
        first.said.get("out"),
        first.said.get("done"),
        first.said.get("seconds")
    );
    head("10,000 phones, SQLite");
    syncs("the first after a start", Some(RATE), &crowd.measure(&hubs, &format!("sync {RATE} {LAP_S} newest"))?);
    for (what, of_thousand, from) in MIXES {
        crowd.tell(&format!("sign {} {of_thousand}", RATE * LAP_S))?;
        let took = crowd.measure(&hubs, &format!("sync {RATE} {LAP_S} {from}"))?;
        syncs(what, Some(RATE), &took);
        let checks_s = took.said.get("in") * check_us / 1e6;
        if checks_s > 0.0 {
            println!("    signatures: {:.1} in 100 of the hub's time", 100.0 * checks_s / took.hubs_s);
        }
    }
    println!("  the hub's peak memory so far: {:.0} MiB", hubs[0].peak_mib()?);
    for (what, of_thousand) in [("as many as it can, nothing new", 0), ("as many as it can, 3 in 10 bring 1 to 3", 300)]
    {
        crowd.tell(&format!("sign {} {of_thousand}", RATE * LAP_S))?;
        syncs(what, None, &crowd.measure(&hubs, &format!("hurry {AT_ONCE} {HURRY_S}"))?);
    }
    println!("  the hub's peak memory: {:.0} MiB, load {}", hubs[0].peak_mib()?, load());
    drop(crowd);
    hubs.into_iter().try_for_each(|hub| hub.stop().map(drop))
}
