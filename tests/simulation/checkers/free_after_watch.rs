//! Nobody is shown as free before the fire watch is over, nor told to be free while sparks may fly.
//!
//! When sparks ended is read plainly from the entries; the minutes are the rulebook's.

use shared_core::time::Span;
use shared_core::view::bench::BenchView;
use shared_core::view::sweep::sweep;

use super::plain::{Log, Stay};
use crate::world::World;

pub(crate) fn check(world: &mut World, phone: usize, bench: &BenchView) {
    let one = &world.phones[phone];
    let Some(page) = &one.page else { return };
    let Some(session) = &page.session else { return };
    let stay = Stay { session: session.clone(), who: one.me.clone() };
    let said = page.entries.iter().filter(|entry| entry.session == *session && entry.who == one.me);
    let (book, now) = (&world.shop.books[page.book].rules, page.steady.now());
    let Some(spark) = Log::of(said).last_spark(book, &stay, now) else { return };
    let over = spark + Span::from_minutes(i64::from(book.fire_watch.minutes));
    if let Ok(times) = &bench.times {
        let free_at = times.free_at.expect("now was said");
        assert!(free_at >= over, "phone {phone} is free at {free_at}, and the watch is over at {over}");
        assert!(free_at >= now, "phone {phone} is free at {free_at}, before now");
        let (from, until) = times.watch.expect("there was hot work");
        assert!(until - from == Span::from_minutes(i64::from(book.fire_watch.minutes)));
    }
    let view = one.viewer(&world.shop).and_then(|viewer| sweep(&viewer));
    if let Some(Ok(free_at)) = view.map(|view| view.free_at) {
        assert!(free_at >= over, "phone {phone} sweeps until {free_at}, and the watch is over at {over}");
    }
    world.tally.count("watch: looked at");
}
