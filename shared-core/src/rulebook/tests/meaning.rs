//! What each key allows and all together do not: names twice, references that lead nowhere, rings, times that leave none.

use expect_test::expect;

use super::{SOUND, check, check_with_sound, read};

#[test]
fn ids_twice() {
    check_with_sound(
        r#"[[statement]]
id = "eyes"
text = "Again."
decline = "No."
[[room]]
id = "bay"
name = "Another"
[[machine]]
id = "bay"
name = "Saw"
room = "bay"
training = "saw"
[[machine.chore]]
id = "brush"
text = "Brush."
minutes = 1
[[machine.chore]]
id = "brush"
text = "Brush."
minutes = 1
[[gear]]
id = "vac"
count = 1
[[gear]]
id = "vac"
count = 2
"#,
        expect![[r#"
            13:6: `eyes` is the id of another statement
            17:6: `bay` is the id of another room or machine
            20:6: `bay` is the id of another room or machine
            29:6: `brush` is the id of another chore of `bay`
            36:6: `vac` is the id of another gear"#]],
    );
}

#[test]
fn references_that_lead_nowhere() {
    check_with_sound(
        r#"[[gear]]
id = "vacuum"
count = 1
[[machine]]
id = "saw"
name = "Saw"
room = "bya"
training = "saw"
[[machine.chore]]
id = "brush"
text = "Brush."
minutes = 1
gear = "vacum"
after = ["machines", "wype", "mill/wipe", "fllor"]
[[machine.chore]]
id = "wipe"
text = "Wipe."
minutes = 1
after = ["floor"]
[[round]]
id = "bin"
room = "forge"
text = "Empty the bin."
every = "daily"
[[stop]]
id = "door"
room = "bay2"
text = "Here."
"#,
        expect![[r#"
            18:8: there is no room `bya` (did you mean `bay`?)
            24:8: there is no gear `vacum` (did you mean `vacuum`?)
            25:10: there is no chore `machines` to come after (that word is for a room's chores)
            25:22: there is no chore `wype` to come after (did you mean `wipe`?)
            25:30: there is no chore `mill/wipe` to come after
            25:43: there is no chore `fllor` to come after
            30:10: there is no chore `floor` to come after
            33:8: there is no room `forge` (there is `bay`)
            35:9: `daily` is not how often (an ISO 8601 duration: `P1D` is a day, `P1M` a month, `PT12H` twelve hours)
            38:8: there is no room `bay2` (did you mean `bay`?)"#]],
    );
}

#[test]
fn rings() {
    check_with_sound(
        r#"[[machine]]
id = "saw"
name = "Saw"
room = "bay"
training = "saw"
[[machine.chore]]
id = "brush"
text = "Brush."
minutes = 1
after = ["wipe"]
[[machine.chore]]
id = "wipe"
text = "Wipe."
minutes = 1
after = ["bay/last"]
[[machine.chore]]
id = "alone"
text = "Alone."
minutes = 1
after = ["alone"]
[[room]]
id = "annex"
name = "Annex"
[[room.chore]]
id = "fine"
text = "Fine."
minutes = 1
after = ["machines"]
"#,
        expect![[r#"
            26:10: there is no chore `bay/last` to come after
            31:9: these chores wait for each other: `saw/alone` after `saw/alone`"#]],
    );
}

#[test]
fn a_ring_through_all_machines() {
    check_with_sound(
        r#"[[room.chore]]
id = "mop"
text = "Mop."
minutes = 1
after = ["machines"]
[[machine]]
id = "saw"
name = "Saw"
room = "bay"
training = "saw"
[[machine.chore]]
id = "brush"
text = "Brush."
minutes = 1
after = ["bay/mop"]
"#,
        expect!["16:9: these chores wait for each other: `bay/mop` after `saw/brush` after `bay/mop`"],
    );
}

#[test]
fn nothing_at_the_door() {
    check(
        "statement = []\nroom = []\n[shop]\nname = \"Yard\"\ntime_zone = \"UTC\"\nsession_hours_max = 12\n",
        expect![[r#"
            1:13: there is no [[statement]] (a shop asks something at its door)
            2:8: there is no [[room]] (a session happens in a room)"#]],
    );
}

#[test]
fn a_reserved_word() {
    check_with_sound(
        r#"[[room.chore]]
id = "machines"
text = "x"
minutes = 1
"#,
        expect!["13:6: `machines` cannot be a chore's id (in a room chore's `after` it means all machine chores)"],
    );
}

#[test]
fn times_of_rooms_and_rounds() {
    check_with_sound(
        r#"[[room.chore]]
id = "lights"
text = "Lights."
minutes = 1
when = "last_out"
[[round]]
id = "bin"
room = "bay"
text = "Empty the bin."
every = "P0D"
"#,
        expect![[r#"
            16:8: `last_out` is not a time for a chore (write `always` or `last-out`)
            21:9: `P0D` is not how often (an ISO 8601 duration: `P1D` is a day, `P1M` a month, `PT12H` twelve hours)"#]],
    );
}

#[test]
fn worn_and_never_worn() {
    check_with_sound(
        r#"[[machine]]
id = "saw"
name = "Saw"
room = "bay"
training = "saw"
wear = ["eyes", "gloves"]
never_wear = ["rings", "gloves"]
"#,
        expect!["18:24: `gloves` is both worn and never worn at Saw"],
    );
}

#[test]
fn no_time_left() {
    check_with_sound(
        r#"[reserve]
floor_minutes = 720
[fire_watch]
minutes = 720
[[machine]]
id = "torch"
name = "Torch"
room = "bay"
training = "torch"
hot_work = true
"#,
        expect![[r#"
            13:17: a floor of 720 minutes leaves no time to work (a session is 720 minutes at most)
            15:11: a watch of 720 minutes leaves no time for hot work (a session is 720 minutes at most)"#]],
    );
}

/// The zone's shape alone is looked at here: the hub has the database.
#[test]
fn zones_and_numbers_to_call() {
    for (key, value, fits) in [
        ("time_zone", "UTC", true),
        ("time_zone", "Europe/Amsterdam", true),
        ("time_zone", "America/Argentina/Buenos_Aires", true),
        ("time_zone", "Etc/GMT+1", true),
        ("time_zone", "amsterdam", false),
        ("time_zone", "+01:00", false),
        ("time_zone", "Europe/", false),
        ("time_zone", "Europe / Amsterdam", false),
        ("emergency", "112", true),
        ("emergency", "+31 (0)20-555", true),
        ("emergency", "ask Ilse", false),
        ("emergency", "++", false),
    ] {
        let zone = if key == "time_zone" { value } else { "UTC" };
        let emergency = if key == "emergency" { value } else { "112" };
        let toml = SOUND.replace("\"UTC\"", &format!("\"{zone}\"\nemergency = \"{emergency}\""));
        assert_eq!(read(&toml).0.is_some(), fits, "{key} {value}");
    }
}
