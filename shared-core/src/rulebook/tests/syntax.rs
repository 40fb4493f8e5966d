//! What is no TOML, or the same twice: every mistake told at its place, and the other lines read.

use expect_test::expect;

use super::check;

#[test]
fn syntax_every_mistake_is_told() {
    check(
        r#"[shop]
name = Canal
time_zone = "UTC
session_hours_max = 12 hours
[[machine]
id = "lathe"
"#,
        expect![[r#"
            2:8: string values must be quoted, expected literal string
            3:17: invalid basic string, expected `"`
            4:21: string values must be quoted, expected literal string
            5:11: unclosed array table, expected `]`
            6:1: `id` is not a key of a rulebook (it is a key of [[statement]], [[gear]], [[room.chore]], [[machine.chore]], [[machine]], [[round]], [[stop]], [[training]], [[extinguisher]], [[exit]])"#]],
    );
}

#[test]
fn syntax_other_lines_are_still_read() {
    check(
        r#"[shop]
name = "Yard"
time_zone == "UTC"
session_hours_max = "12"
[[statement]]
id = "eyes"
txet = "On."
decline = "No."
"#,
        expect![[r#"
            3:12: extra `=`, expected nothing
            3:14: unexpected key or value, expected newline, `#`
            4:21: `session_hours_max` of [shop] must be a whole number, not text (without quotes)
            7:1: `txet` is not a key of [[statement]] (did you mean `text`?)"#]],
    );
}

#[test]
fn twice_the_same_key() {
    check(
        r#"[shop]
name = "a"
name = "b"
[shop]
"#,
        expect![[r#"
            3:1: `name` is here a second time
            4:2: `shop` is here a second time"#]],
    );
}

#[test]
fn empty_file() {
    check(
        "",
        expect![[r#"
            1:1: `room` is missing from a rulebook (a session happens in a room)
            1:1: `shop` is missing from a rulebook (a shop has a name, a time zone and a longest session)
            1:1: `statement` is missing from a rulebook (a shop without statements asks nothing at its door)"#]],
    );
}

#[test]
fn not_toml_at_all() {
    check(
        r#"Dear steward,

the shop is open.
"#,
        expect![[r#"
            1:6: key with no value, expected `=`
            3:5: key with no value, expected `=`"#]],
    );
}
