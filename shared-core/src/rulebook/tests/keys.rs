//! Keys: missing, unknown, of the wrong type, out of range, empty.

use expect_test::expect;

use super::{check, check_with_sound};

#[test]
fn missing_keys() {
    check(
        r#"[shop]
[[statement]]
[[gear]]
[[room]]
[[room.chore]]
[[machine]]
[[machine.chore]]
[[round]]
[[stop]]
"#,
        expect![[r#"
            1:1: `name` is missing from [shop]
            1:1: `session_hours_max` is missing from [shop]
            1:1: `time_zone` is missing from [shop]
            2:1: `decline` is missing from [[statement]]
            2:1: `id` is missing from [[statement]]
            2:1: `text` is missing from [[statement]]
            3:1: `count` is missing from [[gear]]
            3:1: `id` is missing from [[gear]]
            4:1: `id` is missing from [[room]]
            4:1: `name` is missing from [[room]]
            5:1: `id` is missing from [[room.chore]]
            5:1: `minutes` is missing from [[room.chore]]
            5:1: `text` is missing from [[room.chore]]
            6:1: `id` is missing from [[machine]]
            6:1: `name` is missing from [[machine]]
            6:1: `room` is missing from [[machine]]
            6:1: `training` is missing from [[machine]]
            7:1: `id` is missing from [[machine.chore]]
            7:1: `minutes` is missing from [[machine.chore]]
            7:1: `text` is missing from [[machine.chore]]
            8:1: `every` is missing from [[round]]
            8:1: `id` is missing from [[round]]
            8:1: `room` is missing from [[round]]
            8:1: `text` is missing from [[round]]
            9:1: `id` is missing from [[stop]]
            9:1: `room` is missing from [[stop]]
            9:1: `text` is missing from [[stop]]"#]],
    );
}

#[test]
fn unknown_keys() {
    check_with_sound(
        r#"[reserv]
floor_minutes = 5
[[machine]]
id = "saw"
name = "Saw"
roon = "bay"
training = "saw"
hot_wrok = true
colour = "blue"
floor_minutes = 3
[[machine.chore]]
id = "brush"
text = "Brush."
minutes = 3
when = "always"
[[room.chore]]
id = "x"
text = "x"
minutes = 1
per_hour = 2
"#,
        expect![[r#"
            12:2: `reserv` is not a key of a rulebook (did you mean `reserve`?)
            17:1: `roon` is not a key of [[machine]] (did you mean `room`?)
            19:1: `hot_wrok` is not a key of [[machine]] (did you mean `hot_work`?)
            20:1: `colour` is not a key of [[machine]]
            21:1: `floor_minutes` is not a key of [[machine]] (it is a key of [reserve])
            26:1: `when` is not a key of [[machine.chore]] (it is a key of [[room.chore]])
            31:1: `per_hour` is not a key of [[room.chore]] (it is a key of [[machine.chore]])"#]],
    );
}

#[test]
fn wrong_types() {
    check_with_sound(
        r#"[buddy]
renew_minutes = "15"
covers = 1.5
buddy_may_operate = "false"
[reserve]
quantile = true
[[machine]]
id = 7
name = ["Saw"]
room = "bay"
training = "saw"
pedal = 1
noise_dba = "loud"
wear = "eyes"
refuses = ["brass", 3]
[machine.chore]
id = "brush"
"#,
        expect![[r#"
            13:17: `renew_minutes` of [buddy] must be a whole number, not text (without quotes)
            14:10: `covers` of [buddy] must be a whole number, not a number with a point
            15:21: `buddy_may_operate` of [buddy] must be true or false, not text (without quotes)
            17:12: `quantile` of [reserve] must be a number, not true or false
            19:6: `id` of [[machine]] must be text, not a whole number (put it between quotes)
            20:8: `name` of [[machine]] must be text, not a list
            23:9: `pedal` of [[machine]] must be true or false, not a whole number
            24:13: `noise_dba` of [[machine]] must be a number, not text (without quotes)
            25:8: `wear` of [[machine]] must be a list of texts, not text (put it between square brackets)
            26:21: `refuses` must be a list of texts, not of a whole number
            27:1: `chore` of [[machine]] must be a list of tables, not a table (write `[[machine.chore]]`: there can be several)"#]],
    );
}

#[test]
fn table_or_list_of_tables() {
    check_with_sound(
        r#"[[reserve]]
floor_minutes = 3
[gear]
id = "vac"
count = 1
"#,
        expect![[r#"
            12:1: `reserve` of a rulebook must be a table, not a list (write `[reserve]`, with one bracket: there is one)
            14:1: `gear` of a rulebook must be a list of tables, not a table (write `[[gear]]`: there can be several)"#]],
    );
}

#[test]
fn out_of_range() {
    check_with_sound(
        r#"[reserve]
floor_minutes = -1
first_bell_minutes = 99999999999999999999
quantile = 1.5
prior_weight = 1001
[buddy]
renew_minutes = 0
covers = 0
[fire_watch]
minutes = 1441
[[gear]]
id = "vac"
count = 0
[[machine]]
id = "saw"
name = "Saw"
room = "bay"
training = "saw"
noise_dba = nan
vibration_ms2 = -2.5
[[machine.chore]]
id = "brush"
text = "Brush."
minutes = inf
per_hour = -1
hands = -1
[[machine.chore]]
id = "wipe"
text = "Wipe."
minutes = 5
cap = 4.9
"#,
        expect![[r#"
            13:17: `floor_minutes` of [reserve] must be 0 to 1440
            14:22: `first_bell_minutes` of [reserve] must be 0 to 1440
            15:12: `quantile` of [reserve] must be 0 to 1
            16:16: `prior_weight` of [reserve] must be 0 to 1000
            18:17: `renew_minutes` of [buddy] must be 1 to 1440
            19:10: `covers` of [buddy] must be 1 to 100
            21:11: `minutes` of [fire_watch] must be 0 to 1440
            24:9: `count` of [[gear]] `vac` must be 1 to 1000
            30:13: `noise_dba` of [[machine]] `saw` must be 0 to 194
            31:17: `vibration_ms2` of [[machine]] `saw` must be 0 to 200
            35:11: `minutes` of [[machine.chore]] `brush` must be 0 to 1440
            36:12: `per_hour` of [[machine.chore]] `brush` must be 0 to 1440
            37:9: `hands` of [[machine.chore]] `brush` must be 0 to 100
            42:7: `cap` is less than `minutes` (a cap is the most that the chore may grow to)"#]],
    );
}

#[test]
fn empty_words() {
    check_with_sound(
        r#"[[statement]]
id = ""
text = " "
decline = ""
[[machine]]
id = "drill/press"
name = "Drill"
room = "bay"
training = "drill"
wear = ["eyes", ""]
"#,
        expect![[r#"
            13:6: `id` of [[statement]] is empty
            14:8: `text` of [[statement]] is empty
            15:11: `decline` of [[statement]] is empty
            17:6: `drill/press` cannot be an id (letters, digits, `_` and `-`, at most 64 of them)
            21:17: `wear` of [[machine]] `drill/press` holds an empty text"#]],
    );
}
