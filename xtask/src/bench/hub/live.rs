//! Thousands of live streams that are open at once, how soon all of them hear of an entry, and what syncs feel of them.

use anyhow::Result;

use super::crowd::Crowd;
use super::serving::Hub;
use super::shop::Shop;
use super::table::{head, load, syncs};
use super::{LAP_S, RATE};

/// Streams.
const STREAMS: u32 = 5_000;
/// How often something is said that all of them hear of.
const TOLD: u32 = 5;

/// Opens them, tells them, and prints.
pub(crate) fn run(shop: &Shop<'_>) -> Result<()> {
    let hubs = [Hub::start(shop, None)?];
    let mut crowd = Crowd::start(shop, &hubs)?;
    crowd.tell("first")?;
    let before_mib = hubs[0].peak_mib()?;
    let opened = crowd.measure(&hubs, &format!("listen {STREAMS}"))?;
    println!(
        "\n{STREAMS} live streams opened in {:.1} s; the hub's peak memory before {before_mib:.0}, then {:.0} MiB",
        opened.said.get("seconds"),
        hubs[0].peak_mib()?
    );
    for _ in 0..TOLD {
        // Those that come soon after another wait, by design: each by itself here.
        std::thread::sleep(std::time::Duration::from_secs(1));
        let told = crowd.measure(&hubs, "tell")?;
        println!(
            "  an entry taken after {:.1} ms, heard by half after {:.0}, by 99 in 100 after {:.0}, by all after {:.0} ms; \
             hub {:.2} s, phones {:.2} s, load {}",
            told.said.get("answered"),
            told.said.get("p50"),
            told.said.get("p99"),
            told.said.get("most"),
            told.hubs_s,
            told.phones_s,
            load()
        );
    }
    head("10,000 phones, SQLite, 5,000 streams open");
    crowd.tell(&format!("sync {RATE} {LAP_S} newest"))?;
    for (what, of_thousand) in [("nothing is new", 0), ("1 in 500 brings 1 to 3", 2), ("1 in 50 brings 1 to 3", 20)] {
        crowd.tell(&format!("sign {} {of_thousand}", RATE * LAP_S))?;
        let took = crowd.measure(&hubs, &format!("sync {RATE} {LAP_S} newest"))?;
        syncs(what, Some(RATE), &took);
        println!("    {:.0} events to streams", took.said.get("told"));
    }
    println!("  the hub's peak memory: {:.0} MiB, load {}", hubs[0].peak_mib()?, load());
    drop(crowd);
    hubs.into_iter().try_for_each(|hub| hub.stop().map(drop))
}
