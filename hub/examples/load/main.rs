//! The phones of `cargo xtask bench --hub`: thousands that have joined, asking one hub or two over real HTTP when they are told.
//!
//! As cheap as it can be, because it shares the machine with the hub: what is pushed is signed before the time counts,
//! connections are kept, and of an answer only its numbers are read. Nothing of it ships.

mod crowd;
mod evening;
mod http;
mod phone;
mod store;
mod streams;
mod sync;
mod tally;

use std::io::{BufRead as _, Write as _};
use std::path::Path;
use std::time::{Instant as Steady, SystemTime, UNIX_EPOCH};

use anyhow::{Context, Result, bail};
use shared_core::log::jws;
use shared_core::time::Instant;
use tokio::runtime;

use crate::crowd::Crowd;
use crate::phone::Phone;

/// Lines that are opened to know what one takes, and how often.
const OPENED: u32 = 500;
const RUNS: u32 = 40;

fn main() -> Result<()> {
    let words: Vec<String> = std::env::args().skip(1).collect();
    // One core is enough for what phones do here; the rest is the hub's.
    let runtime = runtime::Builder::new_current_thread().enable_all().build()?;
    match words.iter().map(String::as_str).collect::<Vec<_>>().as_slice() {
        ["members", phones] => print!("{}", store::members(phones.parse()?)),
        ["fill", file, phones, entries] => {
            runtime.block_on(store::fill(Path::new(file), phones.parse()?, entries.parse()?, now()))?;
        }
        ["check"] => println!("check us={:.2}", check()),
        ["phones", phones, hubs @ ..] => {
            let hubs = hubs.iter().map(|hub| hub.parse()).collect::<Result<Vec<_>, _>>()?;
            let mut crowd = Crowd::new(phones.parse()?, hubs);
            told(|cue| runtime.block_on(obey(&mut crowd, cue)))?;
        }
        other => bail!("{other:?}: members PHONES, fill FILE PHONES ENTRIES, check, or phones PHONES ADDRESS.."),
    }
    Ok(())
}

fn now() -> Instant {
    let since = SystemTime::now().duration_since(UNIX_EPOCH).unwrap_or_default();
    Instant::from_ms(i64::try_from(since.as_millis()).unwrap_or_default())
}

/// Does what each line on standard input says, and answers each with one line.
fn told(mut obey: impl FnMut(&str) -> Result<String>) -> Result<()> {
    println!("ready");
    for cue in std::io::stdin().lock().lines() {
        let cue = cue?;
        let said = obey(&cue).with_context(|| cue.clone())?;
        println!("{}{said}", cue.split(' ').next().unwrap_or_default());
        std::io::stdout().flush()?;
    }
    Ok(())
}

async fn obey(crowd: &mut Crowd, cue: &str) -> Result<String> {
    match cue.split(' ').collect::<Vec<_>>().as_slice() {
        ["first"] => crowd.first().await,
        ["meet"] => crowd.meet().await,
        ["sign", syncs, of_thousand] => Ok(crowd.sign(syncs.parse()?, of_thousand.parse()?)),
        ["sync", rate, seconds, from] => crowd.open_loop(rate.parse()?, seconds.parse()?, *from == "own").await,
        ["hurry", at_once, seconds] => crowd.hurry(at_once.parse()?, seconds.parse()?).await,
        ["listen", streams] => crowd.listen(streams.parse()?).await,
        ["tell"] => crowd.tell().await,
        _ => bail!("nobody knows what that is"),
    }
}

/// Microseconds that one line takes to be opened, its signature among them, by one core with nothing around it: the least of some
/// runs, because others may be at work on the machine.
fn check() -> f64 {
    let mut phone = Phone::new(0);
    let who = phone.member.clone();
    let lines: Vec<String> =
        (0..OPENED).map(|nth| phone.sign(&evening::round(&who, nth.into(), Instant::from_ms(0))).jws).collect();
    let once = || {
        let began = Steady::now();
        let opened = lines.iter().filter(|line| jws::open(line).is_ok()).count();
        assert_eq!(opened, lines.len(), "our own signatures");
        began.elapsed().as_secs_f64() * 1e6 / f64::from(OPENED)
    };
    (0..RUNS).map(|_| once()).fold(f64::INFINITY, f64::min)
}
