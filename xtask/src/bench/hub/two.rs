//! One hub and two on one PostgreSQL database: how many syncs go through.
//!
//! All of it shares the machine: with few cores one hub has as much of them as two, and the second takes from the database what it
//! needs itself. So it is asked twice: as they run by themselves, and with each hub held to the same small share of a core, as
//! on a small machine of its own, so that database and phones have what they need. Where the time went is printed beside.

use std::fs;

use anyhow::{Context, Result};

use super::crowd::Crowd;
use super::serving::Hub;
use super::shop::{Programs, Shop};
use super::table::load;
use super::{LAP_S, RATE};
use crate::bench::account::cpu_s;
use crate::bench::table::Spread;
use crate::postgres::Postgres;
use crate::program::{program, run as run_program};
use crate::steps::step;

/// How often each.
const RUNS: usize = 3;
const HURRY_S: u32 = 10;
/// Thousandths of one core: of two cores database and phones are left more than two such hubs have them do.
const HELD: u32 = 200;
/// Phones that ask at once.
const AT_ONCE: u32 = 32;
/// What is tried: how many of a thousand syncs bring lines.
const MIXES: [(&str, u32); 2] = [("nothing is new", 0), ("3 in 10 bring 1 to 3 lines", 300)];

/// Runs them in turn and prints.
pub(crate) fn run(programs: &Programs) -> Result<()> {
    let shop = Shop::kept(programs, 0)?;
    let server = Postgres::start()?;
    let (database, process) = (server.address(), server.process().context("PostgreSQL is gone")?);
    step("moving the shop into PostgreSQL", || {
        let mut moving = program(&programs.sweepbell);
        moving.arg("move").arg(shop.data()).arg("-").env("SWEEPBELL_DATABASE", &database);
        run_program(moving.stdout(std::process::Stdio::null()))
    })?;
    println!("\nsyncs a second through one hub and two on one PostgreSQL, {AT_ONCE} phones at once, runs in turn");
    for held in [Some(HELD), None] {
        compare(&shop, &database, process, held)?;
    }
    Ok(())
}

fn compare(shop: &Shop<'_>, database: &str, server: u32, held: Option<u32>) -> Result<()> {
    let how = held.map_or_else(
        || "hubs held to nothing, all on the same cores".to_owned(),
        |held| format!("each hub held to {held} thousandths of one core"),
    );
    println!("  {how}:");
    // By mix, for one hub and for two.
    let mut rates: Vec<[Vec<f64>; 2]> = MIXES.iter().map(|_| [Vec::new(), Vec::new()]).collect();
    for _ in 0..RUNS {
        for count in [1, 2] {
            let hubs = (0..count).map(|_| Hub::start(shop, Some(database))).collect::<Result<Vec<_>>>()?;
            let mut crowd = Crowd::start(shop, &hubs)?;
            crowd.tell("first")?;
            crowd.tell("meet")?;
            let shares = hubs.iter().filter_map(|hub| Some(hub.hold(held?))).collect::<Result<Vec<_>>>()?;
            for ((what, of_thousand), rates) in MIXES.iter().zip(&mut rates) {
                crowd.tell(&format!("sign {} {of_thousand}", RATE * LAP_S))?;
                let before = server_cpu_s(server)?;
                let took = crowd.measure(&hubs, &format!("hurry {AT_ONCE} {HURRY_S}"))?;
                let (rate, server_s) =
                    (took.said.get("done") / took.said.get("seconds"), server_cpu_s(server)? - before);
                println!(
                    "    {count} {what:<28}{rate:>6.0} a second, {:.0} failed, p99 {:.0} ms; of {:.1} s on each core: hubs {:.1}, \
                     PostgreSQL {server_s:.1}, phones {:.1} s; load {}",
                    took.said.get("failed"),
                    took.said.get("p99"),
                    took.seconds,
                    took.hubs_s,
                    took.phones_s,
                    load()
                );
                rates[count - 1].push(rate);
            }
            drop(crowd);
            hubs.into_iter().try_for_each(|hub| hub.stop().map(drop))?;
            drop(shares);
        }
    }
    for ((what, _), [one, two]) in MIXES.iter().zip(rates) {
        let (one, two) = (Spread::of(one.into_iter()).median, Spread::of(two.into_iter()).median);
        println!("    {what}: one {one:.0} a second, two {two:.0}, {:.2} times as many ({how})", two / one);
    }
    Ok(())
}

/// Processor seconds of the server: its first process, those that it began, and those that ended.
fn server_cpu_s(first: u32) -> Result<f64> {
    let mut seconds = 0.0;
    for process in fs::read_dir("/proc")?.flatten() {
        let Some(id) = process.file_name().to_str().and_then(|name| name.parse::<u32>().ok()) else { continue };
        let stat = fs::read_to_string(process.path().join("stat")).unwrap_or_default();
        let parent = stat.rsplit_once(") ").and_then(|(_, behind)| behind.split(' ').nth(1)).map(str::to_owned);
        if id == first || parent.is_some_and(|parent| parent == first.to_string()) {
            // One that ended meanwhile used what it used before.
            seconds += cpu_s(id).unwrap_or_default();
        }
    }
    Ok(seconds)
}
