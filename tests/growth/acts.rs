//! What is timed: taps, from the command to the picture; the pages of Book; a line that comes in.
//!
//! A tap is what the app's loop does for one: the times before it, the decision, the folding of what follows, what that moved, and
//! the screen on which it happened. Writing and signing it costs the same whatever the log is, and are not here.

use shared_core::attestation::Arriving;
use shared_core::command::Command;
use shared_core::decide::decide;
use shared_core::entry::{Condition, Entry, Place};
use shared_core::ids::{PersonId, SessionId};
use shared_core::state::fold;
use shared_core::time::Span;
use shared_core::view::{bench, buddy, door, moved, room, sweep};
use shared_core::viewer::Viewer;
use tests::large_shop::{PAGES, Reckon, stay};
use tests::parity::Dice;

use crate::shop::Shop;

type Tap = fn(&mut Shop) -> usize;

/// Each by what it is called in the plots; what they return depends on all that was reckoned.
pub(crate) const TAPS: &[(&str, Tap)] = &[
    ("a tap on Bench", on_bench),
    ("a tap in Room", in_room),
    ("a tap on Sweep", on_sweep),
    ("a tap at Door", at_door),
];

/// The pages of Book and the board.
pub(crate) fn pages() -> impl Iterator<Item = &'static (&'static str, Reckon)> {
    // Door and Room are timed with a tap.
    PAGES.iter().filter(|(name, _)| !matches!(*name, "door" | "room"))
}

/// Lines of one stay that nobody has heard of yet.
pub(crate) fn lines(shop: &Shop) -> Vec<Entry> {
    let mut lines = Vec::new();
    let (members, from) = (shop.members.iter().count() as u64, shop.now + Span::from_minutes(60));
    stay((&shop.book, members), &mut Dice(9), &"heard".into(), from, &mut lines);
    lines
}

/// Takes them in, as a stay of its own each time.
pub(crate) fn take_in(shop: &mut Shop, lines: &[Entry]) -> usize {
    shop.done += 1;
    let session = SessionId::new(format!("heard{:011x}", shop.done));
    for line in lines {
        fold(&mut shop.state, &Entry { session: session.clone(), ..line.clone() });
    }
    lines.len()
}

/// Somebody looks who is here and begins; so that there are as many the next time, they leave again.
fn at_door(shop: &mut Shop) -> usize {
    shop.done += 1;
    let (me, session) = (PersonId::from("p1"), SessionId::new(format!("door{:012x}", shop.done)));
    let viewer = shop.outside(&me);
    let room = shop.book.rooms[0].id.clone();
    let mut arriving = Arriving::at(room.clone(), shop.now);
    for statement in &shop.book.statements {
        arriving.attest(&shop.book, &statement.id, shop.now);
    }
    let seen = usize::from(door::door(&viewer, None) != door::door(&viewer, Some(&arriving)));
    let out_by = shop.now + Span::from_minutes(60);
    let arrive =
        Command::Arrive { session: session.clone(), room, entered_at: shop.now, out_by, attested: arriving.attested };
    let mut entries = decide(&viewer, arrive).expect("they may");
    // Whatever else is open of theirs stays open, for the next time.
    entries.retain(|entry| entry.session == session);
    take_up(shop, &entries);
    let inside = Viewer { session: Some(&session), ..shop.outside(&me) };
    let left = decide(&inside, Command::Leave).expect("never blocked");
    take_up(shop, &left);
    seen + entries.len()
}

/// Out-by is moved, and moved back the next time.
fn on_bench(shop: &mut Shop) -> usize {
    let out_by = shop.now + Span::from_minutes(110 + shop.done % 2);
    let moved = act(shop, Command::MoveOutBy { out_by });
    moved + bench::bench(&shop.steward()).map_or(0, |shown| shown.machines.len() + shown.buddies.len())
}

/// Something is said to be clean.
fn in_room(shop: &mut Shop) -> usize {
    let place = Place::Machine(shop.book.machines[0].id.clone());
    let moved = act(shop, Command::ReportFound { place, condition: Condition::Clean, note: None });
    let shown = room::room(&shop.steward());
    moved + shown.rooms.len() + shown.candidates.len() + shown.found.len()
}

/// The crew is said again, and whom one covers is looked at.
fn on_sweep(shop: &mut Shop) -> usize {
    let crew = 1 + u32::from(shop.done % 2 == 0);
    let moved = act(shop, Command::StartSweep { crew });
    let covering = buddy::covering(&shop.steward()).len();
    moved + covering + sweep::sweep(&shop.steward()).map_or(0, |shown| shown.chores.len())
}

/// What the loop does with a command.
fn act(shop: &mut Shop, command: Command) -> usize {
    shop.done += 1;
    let before = moved::marks(&shop.steward());
    let entries = decide(&shop.steward(), command).expect("they may");
    take_up(shop, &entries);
    let moved = before.and_then(|before| moved::moved(&before, &shop.steward(), entries.iter()));
    moved.map_or(0, |moved| moved.times.len())
}

fn take_up(shop: &mut Shop, entries: &[Entry]) {
    for entry in entries {
        fold(&mut shop.state, entry);
    }
}
