//! Past one machine: ten thousand shops on one PostgreSQL-compatible distributed database. DEVELOPERS.md has the arithmetic and says what
//! of it is built.
//!
//! A simulation of a day of all of them over nine nodes, and a check that the hub's SQL is what such engines take. What a database
//! costs is assumed here and measured nowhere; the lines and their bytes are the hub's own. `-- --nocapture` prints the numbers.

#![expect(clippy::cast_precision_loss, reason = "counts of a day, told in three digits")]

mod nodes;
mod shops;
mod sql;

use self::nodes::{COPIES, NODES, copies, spread};
use self::shops::{MINUTES, SHOPS, Shop, drawn, line};

/// How long the lock of a shop is held for one change: a commit that two of three nodes have on their disks. Assumed, for nodes of one
/// region.
const COMMIT_MS: u64 = 10;
/// What a row costs besides the signed line: device, hash, session and names, eight numbers, the engine's own, and its place in
/// the indexes. Reckoned from the columns of `entry`.
const ROW_BYTES: u64 = 43 + 43 + 40 + 64 + 24 + 140;
/// What of a row is left once its body was erased: everything but the line, the session and names.
const ERASED_BYTES: u64 = ROW_BYTES - 40 - 60;
const RETENTION_DAYS: u64 = 90;
/// So quickly a node that was lost is copied anew from the others, all together. Assumed.
const COPIED_BYTES_A_S: u64 = 200_000_000;
/// The node that is lost, at eight in the evening.
const LOST: usize = 4;
const LOST_AT: usize = 20 * 60;
const SEED: u64 = 20_261_129;

/// Changes that each node leads, and rows that it writes, minute by minute.
struct Day {
    led: Vec<[u64; NODES]>,
    written: Vec<[u64; NODES]>,
}

/// A day with a node lost at `LOST_AT`, or with all of them up.
fn lived(shops: &[Shop], is_lost: bool) -> Day {
    let (mut led, mut written) = (vec![[0; NODES]; MINUTES], vec![[0; NODES]; MINUTES]);
    for (number, shop) in shops.iter().enumerate() {
        let whole = copies(number, &[true; NODES]);
        let without = copies(number, &std::array::from_fn(|node| node != LOST));
        for minute in shop.said.iter().map(|minute| usize::from(*minute)) {
            let copies = if is_lost && minute >= LOST_AT { &without } else { &whole };
            led[minute][copies[0]] += 1;
            for node in copies {
                written[minute][*node] += 1;
            }
        }
    }
    Day { led, written }
}

/// The busiest minute.
fn peak(minutes: &[[u64; NODES]]) -> (usize, [u64; NODES]) {
    let sum = |at: &usize| minutes[*at].iter().sum::<u64>();
    let at = (0..minutes.len()).max_by_key(sum).expect("a day");
    (at, minutes[at])
}

#[test]
fn ten_thousand_shops_fit_where_no_lock_is_shared() {
    let (bytes, lines) = line();
    let shops = drawn(SEED, lines);
    let said: u64 = shops.iter().map(|shop| shop.said.len() as u64).sum();
    let day = lived(&shops, false);
    assert_eq!(day.led.iter().flatten().sum::<u64>(), said, "each line is taken once");
    assert_eq!(day.written.iter().flatten().sum::<u64>(), said * COPIES as u64);
    let (minute, busiest) = peak(&day.led);
    let a_second = busiest.iter().sum::<u64>() as f64 / 60.0;
    println!(
        "{SHOPS} shops, {said} lines a day of {bytes} bytes, {lines} a stay; {:.0} a second on the average",
        said as f64 / 86_400.0
    );
    println!("busiest minute {}:{:02}: {a_second:.0} lines a second", minute / 60, minute % 60);
    // One lock for all shops: past a half of the time a change waits for longer than it takes (M/M/1, from memory).
    let one_lock = a_second * COMMIT_MS as f64 / 1_000.0;
    println!("one lock for all shops: held {one_lock:.2} s in each second");
    assert!(one_lock > 0.5, "one lock would do: {one_lock}");
    // A lock for each shop is free nearly always, in the hottest shop's busiest minute too.
    let hottest = shops.iter().map(busiest_minute).max().expect("shops");
    let held = hottest as f64 * COMMIT_MS as f64 / 60_000.0;
    println!(
        "a lock for each shop: {hottest} lines in the busiest minute of the hottest, held {:.1} % of it",
        held * 100.0
    );
    assert!(held < 0.05, "the hottest shop waits: {held}");
    let (least, mean, most) = spread(&busiest);
    println!("lines a minute that a node leads then: {least} to {most}, mean {mean:.0}");
    assert!(most as f64 / mean < 1.15, "no node is hot: {most} of {mean}");
}

fn busiest_minute(shop: &Shop) -> u64 {
    let mut minutes = vec![0; MINUTES];
    for minute in &shop.said {
        minutes[usize::from(*minute)] += 1;
    }
    minutes.into_iter().max().unwrap_or(0)
}

#[test]
fn a_lost_node_moves_its_own_shops_and_stops_none() {
    let (bytes, lines) = line();
    let shops = drawn(SEED, lines);
    let up = std::array::from_fn(|node| node != LOST);
    let (mut moved, mut stands, mut copied) = (0, 0, 0);
    for number in 0..SHOPS {
        let (before, after) = (copies(number, &[true; NODES]), copies(number, &up));
        let left: Vec<_> = before.iter().copied().filter(|node| *node != LOST).collect();
        assert!(left.len() * 2 > COPIES, "a majority is there: shop {number} is written on");
        assert_eq!(&after[..left.len()], left, "what is up stays where it is");
        moved += u64::from(before[0] == LOST);
        copied += u64::from(before.contains(&LOST));
        // With another node lost before the copies are made again, what lay on both stands still until one is back.
        stands += u64::from(before.contains(&LOST) && before.contains(&0));
    }
    let (whole, short) = (lived(&shops, false), lived(&shops, true));
    let at = peak(&whole.led[LOST_AT..]).0 + LOST_AT;
    let (before, after) = (
        spread(&whole.led[at]),
        spread(
            &short.led[at]
                .iter()
                .copied()
                .enumerate()
                .filter(|(node, _)| *node != LOST)
                .map(|(_, led)| led)
                .collect::<Vec<_>>(),
        ),
    );
    let kept_bytes = copied * (bytes as u64 + ROW_BYTES) * RETENTION_DAYS * (said(&shops) / SHOPS as u64);
    println!(
        "a node lost: {moved} shops get another leader, {copied} a new third copy, {} GB, {} min",
        kept_bytes / 1_000_000_000,
        kept_bytes / COPIED_BYTES_A_S / 60
    );
    println!(
        "lines a minute that a node leads: {} at most before, {} after; a second one lost at once: {stands} shops stand still",
        before.2, after.2
    );
    assert!((after.2 as f64) < before.1 * 1.4, "those that are left carry it: {} of {}", after.2, before.1);
    assert!(stands < SHOPS as u64 / 8, "{stands}");
}

fn said(shops: &[Shop]) -> u64 {
    shops.iter().map(|shop| shop.said.len() as u64).sum()
}

#[test]
fn retention_bounds_the_lines_and_not_what_is_left_of_them() {
    let (bytes, lines) = line();
    let a_day = said(&drawn(SEED, lines));
    let stored = |day: u64| {
        let (whole, erased) = (day.min(RETENTION_DAYS), day.saturating_sub(RETENTION_DAYS));
        COPIES as u64 * a_day * (whole * (bytes as u64 + ROW_BYTES) + erased * ERASED_BYTES)
    };
    for day in [30, 90, 365, 5 * 365] {
        println!(
            "after {day} days: {} GB in {COPIES} copies, {} a node",
            stored(day) / 1_000_000_000,
            stored(day) / NODES as u64 / 1_000_000_000
        );
    }
    let (before, after) = (stored(90) - stored(89), stored(365) - stored(364));
    println!(
        "a day adds {} GB before, {} GB after: what is left of erased lines",
        before / 1_000_000_000,
        after / 1_000_000_000
    );
    assert!(after * 2 < before, "most of a line goes");
    assert!(after > 0, "what is left of it stays: who mends that may say so here");
}

#[test]
fn the_same_seed_tells_the_same_day() {
    let said = |seed| drawn(seed, 3).iter().map(|shop| shop.said.clone()).collect::<Vec<_>>();
    assert_eq!(said(1), said(1));
    assert_ne!(said(1), said(2));
}
