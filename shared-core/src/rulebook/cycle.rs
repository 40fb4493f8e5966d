//! Chores that wait for each other: every ring of `after`, named chore by chore.
//!
//! A ring can never be swept, so it is refused when the rulebook is read and not when somebody wants to go home.
//! Knows nothing of minutes or of people.

use crate::ids::ChoreId;
use crate::ordered::{Map, Set};

/// For each chore, the chores that must be finished before it.
pub(super) type Before = Map<ChoreId, Set<ChoreId>>;

/// Disjoint rings, each from its least chore on, in the order in which one waits for the next. Empty if none.
pub(super) fn rings(before: &Before) -> Vec<Vec<ChoreId>> {
    let mut left = before.clone();
    let mut rings = Vec::new();
    loop {
        prune(&mut left);
        let Some(ring) = walk(&left) else { return rings };
        left.retain(|chore, _| !ring.contains(chore));
        rings.push(ring);
    }
}

/// Drops chores that wait for nothing that is left, until all that are left wait for one another.
fn prune(left: &mut Before) {
    loop {
        let kept: Set<ChoreId> = left.keys().cloned().collect();
        left.retain(|_, earlier| {
            earlier.retain(|chore| kept.contains(chore));
            !earlier.is_empty()
        });
        if left.len() == kept.len() {
            return;
        }
    }
}

/// Goes from a chore to one it waits for until a chore comes round again.
fn walk(left: &Before) -> Option<Vec<ChoreId>> {
    let mut path: Vec<&ChoreId> = Vec::new();
    let mut chore = left.keys().next()?;
    loop {
        if let Some(start) = path.iter().position(|seen| *seen == chore) {
            let mut ring: Vec<ChoreId> = path.split_off(start).into_iter().cloned().collect();
            let least = ring.iter().enumerate().min_by_key(|(_, chore)| *chore).map_or(0, |(at, _)| at);
            ring.rotate_left(least);
            return Some(ring);
        }
        path.push(chore);
        chore = left.get(chore)?.first()?;
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn check(edges: &[(&str, &str)], expected: &[&[&str]]) {
        let mut before = Before::new();
        for (chore, earlier) in edges {
            before.entry(ChoreId::new(*chore)).or_default().insert(ChoreId::new(*earlier));
        }
        let found: Vec<Vec<String>> =
            rings(&before).into_iter().map(|ring| ring.iter().map(ToString::to_string).collect()).collect();
        assert_eq!(found, expected, "{edges:?}");
    }

    #[test]
    fn finds_each_ring() {
        check(&[], &[]);
        check(&[("b", "a"), ("c", "b"), ("c", "a")], &[]);
        check(&[("a", "a")], &[&["a"]]);
        check(&[("a", "b"), ("b", "a")], &[&["a", "b"]]);
        check(&[("z", "a"), ("a", "b"), ("b", "c"), ("c", "a"), ("c", "x")], &[&["a", "b", "c"]]);
        check(&[("a", "b"), ("b", "a"), ("c", "d"), ("d", "c"), ("d", "a")], &[&["a", "b"], &["c", "d"]]);
    }
}
