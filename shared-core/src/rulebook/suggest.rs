//! Did you mean: the nearest valid word to one that is not valid.
//!
//! Nearness is the number of slips of the keyboard: a letter too many, too few, wrong, or two swapped. A word that
//! is more than a third slips away suggests nothing, because a wild guess misleads more than it helps.

/// Longer words are not compared: nobody mistypes those, and the work grows with the square of the length.
const LENGTH_MAX: usize = 64;

/// The candidate nearest to `word`, the first of equals, if any is near enough.
pub fn nearest<'c>(word: &str, candidates: impl IntoIterator<Item = &'c str>) -> Option<&'c str> {
    let slips_max = (word.chars().count() / 3).clamp(1, 4);
    candidates
        .into_iter()
        .filter_map(|candidate| Some((slips(word, candidate)?, candidate)))
        .filter(|(slips, candidate)| *slips <= slips_max && *slips < candidate.chars().count())
        .min_by_key(|(slips, _)| *slips)
        .map(|(_, candidate)| candidate)
}

/// The optimal string alignment distance, ignoring case; `None` for words too long to be compared.
fn slips(a: &str, b: &str) -> Option<usize> {
    let a: Vec<char> = a.to_lowercase().chars().collect();
    let b: Vec<char> = b.to_lowercase().chars().collect();
    if a.len() > LENGTH_MAX || b.len() > LENGTH_MAX {
        return None;
    }
    let mut before_last: Vec<usize> = vec![0; b.len() + 1];
    let mut last: Vec<usize> = (0..=b.len()).collect();
    for (i, from) in a.iter().enumerate() {
        let mut row = vec![i + 1];
        for (j, to) in b.iter().enumerate() {
            let mut best = (last[j] + usize::from(from != to)).min(last[j + 1] + 1).min(row[j] + 1);
            if i > 0 && j > 0 && *from == b[j - 1] && a[i - 1] == *to {
                best = best.min(before_last[j - 1] + 1);
            }
            row.push(best);
        }
        before_last = std::mem::replace(&mut last, row);
    }
    last.last().copied()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn counts_slips() {
        for (a, b, count) in [
            ("", "", 0),
            ("", "abc", 3),
            ("room", "room", 0),
            ("ROOM", "room", 0),
            ("roon", "room", 1),
            ("hot_wrok", "hot_work", 1),
            ("kitten", "sitting", 3),
            ("ab", "ba", 1),
            ("minute", "minutes", 1),
            ("ä", "a", 1),
        ] {
            assert_eq!(slips(a, b), Some(count), "{a} {b}");
            assert_eq!(slips(b, a), Some(count), "{b} {a}");
        }
    }

    #[test]
    fn suggests_the_nearest_or_nothing() {
        let keys = ["id", "name", "room", "hot_work", "noise_dba", "wear", "never_wear"];
        for (word, suggestion) in [
            ("hot_wrok", Some("hot_work")),
            ("hotwork", Some("hot_work")),
            ("noise_db", Some("noise_dba")),
            ("Room", Some("room")),
            ("nmae", Some("name")),
            ("x", None),
            ("colour", None),
            ("", None),
        ] {
            assert_eq!(nearest(word, keys), suggestion, "{word}");
        }
        assert_eq!(nearest(&"x".repeat(100_000), keys), None);
    }
}
