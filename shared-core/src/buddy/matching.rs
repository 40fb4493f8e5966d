//! Who in the room could be whose buddy, when several ask at once: a maximum matching.
//!
//! Those who ask stand on one side, those who may serve on the other with as many places as the rules leave them. Somebody who
//! asks is about to run a machine that asks for a buddy, so they stand on the other side as well only where the shop
//! lets a buddy run one; the graph has two sides either way, and augmenting paths (Berge 1957; Ford and Fulkerson 1956,
//! from memory) find the most that can be served. Earlier askers never lose their place to later ones, only whom.
//!
//! Knows numbers alone: no person, no rule, no time.

/// The one who serves each asker, as many askers served as can be. `may[a]` lists who may serve asker `a`, dearest
/// first; `places[s]` is how many `s` can serve, and a server without an entry has none.
pub fn most_served(may: &[Vec<usize>], places: &[usize]) -> Vec<Option<usize>> {
    let mut served_by = vec![None; may.len()];
    for asker in 0..may.len() {
        let mut tried = vec![false; places.len()];
        place(asker, may, places, &mut served_by, &mut tried);
    }
    served_by
}

/// Finds a server for `asker`, moving others to another of theirs if that makes room.
fn place(
    asker: usize,
    may: &[Vec<usize>],
    places: &[usize],
    served_by: &mut [Option<usize>],
    tried: &mut [bool],
) -> bool {
    for &server in may.get(asker).into_iter().flatten() {
        let Some(&room) = places.get(server) else { continue };
        if std::mem::replace(&mut tried[server], true) {
            continue;
        }
        let served: Vec<usize> = (0..served_by.len()).filter(|other| served_by[*other] == Some(server)).collect();
        let makes_room = |other: &usize| place(*other, may, places, served_by, tried);
        if served.len() < room || served.iter().any(makes_room) {
            served_by[asker] = Some(server);
            return true;
        }
    }
    false
}
