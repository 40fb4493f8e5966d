//! What one rulebook says otherwise than another, in words: by the TOML of both, so that no key is forgotten.
//!
//! Tables of a list are told apart by their `id`, not by their place: moving a machine up in the file changes nothing.

use std::collections::BTreeSet;

use toml::{Table, Value};

/// One line for each change, in the order of the keys; of a text that is no TOML, none.
pub(crate) fn changes(old: &str, new: &str) -> Vec<String> {
    let (Ok(old), Ok(new)) = (old.parse::<Table>(), new.parse::<Table>()) else { return Vec::new() };
    let mut lines = Vec::new();
    tables("", &old, &new, &mut lines);
    lines
}

fn tables(at: &str, old: &Table, new: &Table, lines: &mut Vec<String>) {
    let keys: BTreeSet<&String> = old.keys().chain(new.keys()).collect();
    for key in keys {
        let place = if at.is_empty() { key.clone() } else { format!("{at}, {key}") };
        values(&place, old.get(key), new.get(key), lines);
    }
}

fn values(place: &str, old: Option<&Value>, new: Option<&Value>, lines: &mut Vec<String>) {
    match (old, new) {
        (Some(old), Some(new)) if old == new => {}
        (Some(Value::Table(old)), Some(Value::Table(new))) => tables(place, old, new, lines),
        (Some(Value::Array(old)), Some(Value::Array(new))) if has_ids(old) && has_ids(new) => {
            let ids: BTreeSet<&str> = old.iter().chain(new).filter_map(id).collect();
            for id in ids {
                let (old, new) = (by_id(old, id), by_id(new, id));
                let place = format!("{place} `{id}`");
                match (old, new) {
                    (Some(_), None) => lines.push(format!("{place}: taken out")),
                    (None, Some(_)) => lines.push(format!("{place}: new")),
                    _ => values(&place, old, new, lines),
                }
            }
        }
        (Some(old), Some(new)) => lines.push(format!("{place}: {}, was {}", short(new), short(old))),
        (None, Some(new)) => lines.push(format!("{place}: {}, was not set", short(new))),
        (Some(old), None) => lines.push(format!("{place}: no longer set, was {}", short(old))),
        (None, None) => {}
    }
}

fn has_ids(list: &[Value]) -> bool {
    !list.is_empty() && list.iter().all(|one| id(one).is_some())
}

fn id(value: &Value) -> Option<&str> {
    value.get("id")?.as_str()
}

fn by_id<'a>(list: &'a [Value], wanted: &str) -> Option<&'a Value> {
    list.iter().find(|one| id(one) == Some(wanted))
}

/// A value as it is written, cut after a line's length.
fn short(value: &Value) -> String {
    const CHARS_MOST: usize = 80;
    let text = value.to_string();
    if text.chars().count() <= CHARS_MOST {
        return text;
    }
    text.chars().take(CHARS_MOST).chain(['\u{2026}']).collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[track_caller]
    fn check(old: &str, new: &str, expected: &[&str]) {
        assert_eq!(changes(old, new), expected, "{old} -> {new}");
    }

    #[test]
    fn what_differs_is_said_and_what_only_moved_is_not() {
        check("a = 1", "a = 1 # why", &[]);
        check("[shop]\nname = 'A'", "[shop]\nname = 'B'", &["shop, name: \"B\", was \"A\""]);
        check("", "[reserve]\nfloor_minutes = 5", &["reserve: { floor_minutes = 5 }, was not set"]);
        let two = "[[machine]]\nid = 'a'\nbuddy = true\n[[machine]]\nid = 'b'";
        check(two, "[[machine]]\nid = 'b'\n[[machine]]\nid = 'a'\nbuddy = true", &[]);
        check(two, "[[machine]]\nid = 'b'", &["machine `a`: taken out"]);
        check(
            two,
            "[[machine]]\nid = 'a'\n[[machine]]\nid = 'c'\n[[machine]]\nid = 'b'",
            &["machine `a`, buddy: no longer set, was true", "machine `c`: new"],
        );
        let chores = |minutes| format!("[[room]]\nid = 'r'\n[[room.chore]]\nid = 'floor'\nminutes = {minutes}");
        check(&chores(4), &chores(6), &["room `r`, chore `floor`, minutes: 6, was 4"]);
        check("a = ", "a = 1", &[]);
    }
}
