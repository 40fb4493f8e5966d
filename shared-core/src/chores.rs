//! The chores of a session and how long each takes by the rulebook.
//!
//! A session owes the chores of every machine it started, its room's chores that are always owed, and, when it leaves
//! the room empty, the room's chores of the last one out. Each is owed once.
//!
//! Never learns from what was observed (that is [`crate::estimate`]) and never decides who does what (that is
//! [`crate::plan`]). See DESIGN.md section 4, "Chores of a session" and "Chore minutes".

use crate::ids::{ChoreId, MachineId, RoomId};
use crate::rulebook::{Chore, Rulebook, When};
use crate::time::{HOUR_MS, Span};

/// A chore that a session owes.
#[derive(Clone, Debug, PartialEq)]
pub struct DueChore<'a> {
    /// Its id with its owner.
    pub id: ChoreId,
    /// What the rulebook says of it.
    pub chore: &'a Chore,
    /// The machine it belongs to; none for a room's chore.
    pub machine: Option<&'a MachineId>,
}

/// The chores that a session owes: its machines' in the order of first start, then its room's.
///
/// Machines and rooms that the rulebook does not know owe nothing here.
pub fn of_session<'a, 'm>(
    book: &'a Rulebook,
    room: &RoomId,
    machines: impl IntoIterator<Item = &'m MachineId>,
    last_out: bool,
) -> Vec<DueChore<'a>> {
    let mut started: Vec<&'a MachineId> = Vec::new();
    let mut due = Vec::new();
    for machine in machines.into_iter().filter_map(|id| book.machine(id)) {
        if started.contains(&&machine.id) {
            continue;
        }
        started.push(&machine.id);
        due.extend(machine.chores.iter().map(|chore| DueChore {
            id: ChoreId::of(machine.id.as_str(), &chore.id),
            chore,
            machine: Some(&machine.id),
        }));
    }
    let Some(room) = book.room(room) else { return due };
    let owed = |when: When| room.chores.iter().filter(move |chore| chore.when == when);
    let last = owed(When::LastOut).filter(|_| last_out);
    due.extend(owed(When::Always).chain(last).map(|chore| DueChore {
        id: ChoreId::of(room.id.as_str(), &chore.id),
        chore,
        machine: None,
    }));
    due
}

/// Whether `after`, a name in what `chore` waits for, means `other`: `machines` in a room's chore is every machine
/// chore, an id without a slash is a chore of the same owner.
pub fn names(after: &str, chore: &DueChore, other: &DueChore) -> bool {
    if after == "machines" && chore.machine.is_none() {
        return other.machine.is_some();
    }
    if after.contains('/') { other.id.as_str() == after } else { other.id.is_of(chore.id.owner(), after) }
}

/// Whole minutes that a chore takes by its formula: ceil(min(cap, minutes + `per_hour` x hours used)).
pub fn minutes(chore: &Chore, used: Span) -> i64 {
    /// Thousandths of a minute times milliseconds an hour: the unit in which the sum has no fraction.
    const UNITS_A_MINUTE: i128 = 1000 * HOUR_MS as i128;
    let used_ms = i128::from(used.ms().max(0));
    let whole = i128::from(chore.minutes_milli) * i128::from(HOUR_MS) + i128::from(chore.per_hour_milli) * used_ms;
    let capped = match chore.cap_milli {
        Some(cap) => whole.min(i128::from(cap) * i128::from(HOUR_MS)),
        None => whole,
    };
    let up = capped.div_euclid(UNITS_A_MINUTE) + i128::from(capped.rem_euclid(UNITS_A_MINUTE) != 0);
    i64::try_from(up.max(0)).unwrap_or(i64::MAX)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::plan::tests::shop::{chore, machine, room, shop};

    fn ids(due: &[DueChore]) -> Vec<String> {
        due.iter().map(|due| due.id.to_string()).collect()
    }

    #[test]
    fn machines_come_in_the_order_of_first_start_then_the_room() {
        let last = Chore { when: When::LastOut, ..chore("lights", 1) };
        let mut book = shop(vec![room("bay", vec![last, chore("floor", 8)])]);
        book.machines =
            vec![machine("saw", vec![chore("chips", 2), chore("bin", 3)]), machine("mill", vec![chore("t", 1)])];
        let started: Vec<MachineId> = ["mill", "saw", "mill", "unheard-of"].map(MachineId::from).to_vec();
        let due = of_session(&book, &RoomId::from("bay"), &started, true);
        assert_eq!(ids(&due), ["mill/t", "saw/chips", "saw/bin", "bay/floor", "bay/lights"]);
        assert_eq!(due[0].machine.map(MachineId::as_str), Some("mill"));
        assert_eq!(due[4].machine, None);
        let due = of_session(&book, &RoomId::from("bay"), &[], false);
        assert_eq!(ids(&due), ["bay/floor"]);
        assert_eq!(ids(&of_session(&book, &RoomId::from("elsewhere"), &[], true)), [""; 0]);
    }

    /// DESIGN.md section 4, "Chore minutes"; the sums are worked by hand.
    #[test]
    fn the_formula_is_exact() {
        for (minutes_milli, per_hour_milli, cap_milli, used_ms, want) in [
            (8_000, 0, None, 0, 8),
            (7_500, 0, None, 0, 8),
            (2_000, 1_500, Some(10_000), 0, 2),
            (4_000, 7_000, Some(7_000), 150 * 60_000, 7),
            (1_000, 4_000, Some(4_000), 25 * 60_000, 3),
            (10_000, 7_000, Some(13_000), 25 * 60_000, 13),
            // 0.1 x 30 h is 3 and not 3.0000000000000004.
            (0, 100, None, 30 * 3_600_000, 3),
            (0, 100, None, 30 * 3_600_000 + 1, 4),
            (5_000, 1_000, None, -60_000, 5),
            (i64::MAX, i64::MAX, None, i64::MAX, i64::MAX),
        ] {
            let chore = Chore { minutes_milli, per_hour_milli, cap_milli, ..chore("c", 0) };
            assert_eq!(minutes(&chore, Span::from_ms(used_ms)), want, "{chore:?} {used_ms}");
        }
    }
}
