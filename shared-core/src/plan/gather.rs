//! From a request to a problem: which chores are left, how long each takes, what it holds and what it waits for.
//!
//! The one place where the plan reads the rulebook, and the one that finds what cannot be planned at all. Solves
//! nothing.

use super::model::{Need, PEOPLE, Problem, Task};
use super::{Impossible, Request};
use crate::chores::{self, DueChore};
use crate::estimate;
use crate::ids::{GearId, MachineId};
use crate::ordered::Map;
use crate::time::Span;

/// More people than this fit no room and count as so many; it keeps sums of work far from overflow.
const CREW_MAX: u32 = 1000;
/// A chore of more minutes (about two years) counts as so long, for the same reason.
const MINUTES_MAX: i64 = 1_000_000;

/// The chores left to do, and the problem of doing them, task by task the same.
pub(super) struct Gathered<'a> {
    pub(super) due: Vec<DueChore<'a>>,
    pub(super) problem: Problem,
    /// The tasks so that each comes after all that it waits for.
    pub(super) order: Vec<usize>,
}

pub(super) fn gather<'a>(request: &Request<'a>) -> Result<Gathered<'a>, Impossible> {
    let book = request.book;
    if book.room(request.room).is_none() {
        return Err(Impossible::UnknownRoom { room: request.room.clone() });
    }
    if request.crew == 0 {
        return Err(Impossible::NoCrew);
    }
    let mut used: Map<&MachineId, Span> = Map::new();
    for one in request.uses {
        if book.machine(&one.machine).is_none() {
            return Err(Impossible::UnknownMachine { machine: one.machine.clone() });
        }
        let sum = used.entry(&one.machine).or_default();
        *sum = *sum + one.used;
    }
    let machines = request.uses.iter().map(|one| &one.machine);
    let mut due = chores::of_session(book, request.room, machines, request.last_out);
    due.retain(|due| !request.done.contains(&due.id));

    let crew = request.crew.min(CREW_MAX);
    let mut pools = vec![crew];
    let mut gear: Map<&GearId, usize> = Map::new();
    let mut tasks = Vec::with_capacity(due.len());
    for one in &due {
        let mut needs = Vec::with_capacity(2);
        if one.chore.hands > crew {
            return Err(Impossible::TooFewPeople { chore: one.id.clone(), hands: one.chore.hands, crew });
        }
        if one.chore.hands > 0 {
            needs.push(Need { pool: PEOPLE, amount: one.chore.hands });
        }
        if let Some(id) = &one.chore.gear {
            let count = book.gear_count(id);
            if count == 0 {
                return Err(Impossible::NoGear { chore: one.id.clone(), gear: id.clone() });
            }
            let pool = *gear.entry(id).or_insert_with(|| {
                pools.push(count);
                pools.len() - 1
            });
            needs.push(Need { pool, amount: 1 });
        }
        let spent = one.machine.and_then(|machine| used.get(machine)).copied().unwrap_or_default();
        tasks.push(Task { length_ms: length_ms(request, one, spent), needs, after: waits_for(one, &due) });
    }
    let problem = Problem { tasks, pools, held: None };
    let order = problem.in_order().map_err(|task| Impossible::Cycle { chore: due[task].id.clone() })?;
    Ok(Gathered { due, problem, order })
}

fn length_ms(request: &Request, one: &DueChore, used: Span) -> i64 {
    let formula = chores::minutes(one.chore, used).min(MINUTES_MAX);
    let observed = request.history.minutes_of(&one.id);
    let minutes = estimate::chore_minutes(formula, &observed, &request.book.reserve);
    Span::from_minutes(minutes.clamp(0, MINUTES_MAX)).ms()
}

/// The tasks that come first. What is named but not owed, or done already, counts as met.
fn waits_for(one: &DueChore, due: &[DueChore]) -> Vec<usize> {
    let named = |other: &DueChore| one.chore.after.iter().any(|after| chores::names(after, one, other));
    due.iter().enumerate().filter(|(_, other)| named(other)).map(|(index, _)| index).collect()
}
