//! Bad rulebooks as a table of data: what the steward is told, line by line; and that no text whatever breaks reading.

mod hazards;

use expect_test::{Expect, expect};
use proptest::prelude::*;

use super::members_file::read_members;
use super::parse::{book_id, read};

const DEMO: &str = include_str!("../../../hub/demo/shop.toml");
const DEMO_MEMBERS: &str = include_str!("../../../hub/demo/members.toml");
const CASES: [&str; 2] = [
    include_str!("../../../tests/data/case-log-1-shop.toml"),
    include_str!("../../../tests/data/case-plan-1-shop.toml"),
];

/// A rulebook without a problem, of 11 lines: what is appended starts at line 12.
const SOUND: &str = r#"[shop]
name = "Yard"
time_zone = "UTC"
session_hours_max = 12
[[statement]]
id = "eyes"
text = "Eye protection is on."
decline = "Come back with eye protection."
[[room]]
id = "bay"
name = "Bay"
"#;

#[expect(clippy::needless_pass_by_value, reason = "an expectation is written in place")]
fn check(toml: &str, expected: Expect) {
    let (book, problems) = read(toml);
    assert_eq!(book.is_none(), !problems.is_empty(), "either a rulebook or a problem");
    let told: Vec<String> = problems.iter().map(ToString::to_string).collect();
    expected.assert_eq(&told.join("\n"));
}

fn check_with_sound(addition: &str, expected: Expect) {
    check(&format!("{SOUND}{addition}"), expected);
}

#[test]
fn sound_rulebooks_have_no_problem() {
    for toml in CASES.iter().chain([&SOUND, &DEMO]) {
        assert_eq!(read(toml).1, []);
    }
}

/// The demo's signs are drawn for a fixed set of words, and its members are signed off on trainings that exist.
#[test]
fn the_demo_keeps_to_its_own_words() {
    let (book, _) = read(DEMO);
    let book = book.expect("the demo is sound");
    assert!(book.shop.demo);
    let wear = ["eyes", "ears", "face", "toes", "sleeves", "gloves", "mask", "weld_shade"];
    let never = ["gloves", "loose", "rings"];
    for machine in &book.machines {
        assert!(machine.wear.iter().all(|word| wear.contains(&word.as_str())), "{:?}", machine.wear);
        assert!(machine.never_wear.iter().all(|word| never.contains(&word.as_str())), "{:?}", machine.never_wear);
        assert!(!machine.start_checks.is_empty() && !machine.chores.is_empty(), "{}", machine.id);
    }
    let signs: Vec<_> = book.statements.iter().map(|statement| statement.sign.as_deref()).collect();
    assert_eq!(signs, [Some("loose"), Some("eyes"), Some("sober")]);
    let (members, problems) = read_members(DEMO_MEMBERS, &book.trainings());
    assert_eq!(problems, []);
    assert!(members.is_some_and(|members| members.iter().any(|member| member.steward)));
}

/// The worked cases that stand beside a checkout, where there are any; two of them are copied into `tests/data`.
#[test]
fn worked_cases_have_no_problem() {
    let beside = concat!(env!("CARGO_MANIFEST_DIR"), "/../../shared/cases");
    for case in std::fs::read_dir(beside).into_iter().flatten().flatten() {
        if let Ok(toml) = std::fs::read_to_string(case.path().join("shop.toml")) {
            assert_eq!(read(&toml).1, [], "{}", case.path().display());
        }
    }
}

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
            6:1: `id` is not a key of a rulebook (it is a key of [[statement]], [[gear]], [[room.chore]], [[machine.chore]], [[machine]], [[round]], [[stop]], [[extinguisher]], [[exit]])"#]],
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

#[test]
fn what_is_not_written_has_its_default() {
    let (book, _) = read(&format!(
        "{SOUND}[[room.chore]]\nid = \"floor\"\ntext = \"Floor.\"\nminutes = 2.5\n[[machine]]\nid = \"saw\"\nname = \"Saw\"\n\
         room = \"bay\"\ntraining = \"saw\"\n[[machine.chore]]\nid = \"brush\"\ntext = \"Brush.\"\nminutes = 1\nper_hour = 0.3333\ncap = 9\n"
    ));
    let book = book.expect("a sound rulebook");
    let parts = [
        format!("{:?}", book.shop),
        format!("{:?}", book.reserve),
        format!("{:?}", book.buddy),
        format!("{:?}", book.fire_watch),
        format!("{:?}", book.rooms),
        format!("{:?}", book.machines),
    ];
    expect![[r#"
        Shop { name: "Yard", time_zone: "UTC", session_hours_max: 12, demo: false, emergency: None }
        Reserve { floor_minutes: 10, first_bell_minutes: 10, quantile: 0.8, prior_weight: 5 }
        BuddyRule { renew_minutes: 15, covers: 1, may_operate: false }
        FireWatchRule { minutes: 30, exclusive: true }
        [Room { id: RoomId("bay"), name: "Bay", chores: [Chore { id: "floor", text: "Floor.", minutes_milli: 2500, per_hour_milli: 0, cap_milli: None, hands: 1, after: [], gear: None, when: Always }], voc: None }]
        [Machine { id: MachineId("saw"), name: "Saw", room: RoomId("bay"), training: "saw", buddy: false, hot_work: false, pedal: false, noise_dba: None, vibration_ms2: None, wear: [], never_wear: [], refuses: [], start_checks: [], voc: None, chores: [Chore { id: "brush", text: "Brush.", minutes_milli: 1000, per_hour_milli: 333, cap_milli: Some(9000), hands: 1, after: [], gear: None, when: Always }] }]"#]].assert_eq(&parts.join("\n"));
}

/// FIPS 180-4: the SHA-256 of no bytes and of `abc`, here in base64url (RFC 4648 section 5) without padding.
#[test]
fn a_book_is_named_by_its_bytes() {
    assert_eq!(book_id(b"").as_str(), "47DEQpj8HBSa-_TImW-5JCeuQeRkm5NMpJWZG3hSuFU");
    assert_eq!(book_id(b"abc").as_str(), "ungWv48Bz-pBQUDeXa4iI7ADYaOWF3qctBD_YfIAFa0");
}

#[test]
fn depth_and_length_are_only_problems() {
    for times in [1000, 20_000] {
        for toml in [
            "[".repeat(times),
            format!("a = {}", "[".repeat(times)),
            format!("a = {}", "{a=".repeat(times)),
            format!("{}b = 1", "a.".repeat(times)),
            "[[room]]\n".repeat(times / 10),
            "x = = 1\n".repeat(times / 10),
            format!("{SOUND}{} = 1", "x".repeat(times)),
        ] {
            assert_eq!(read(&toml).0, None);
            either_a_book_or_problems_within(&toml);
        }
    }
}

/// A text made of the demo rulebook by a few cuts and insertions.
fn mutated() -> impl Strategy<Value = String> {
    let cut = (any::<prop::sample::Index>(), 0..40_usize, "[\\[\\]\"'=,a-z0-9_.\n# -]{0,12}");
    prop::collection::vec(cut, 1..6).prop_map(|cuts| {
        let mut letters: Vec<char> = DEMO.chars().collect();
        for (at, length, insertion) in cuts {
            let at = at.index(letters.len() + 1);
            let end = (at + length).min(letters.len());
            letters.splice(at..end, insertion.chars());
        }
        letters.into_iter().collect()
    })
}

fn either_a_book_or_problems_within(toml: &str) {
    let (book, problems) = read(toml);
    assert_eq!(book.is_none(), !problems.is_empty());
    let lines = u32::try_from(toml.split('\n').count()).expect("a short text");
    for problem in problems {
        assert!((1..=lines).contains(&problem.line) && problem.column >= 1, "{problem} of {lines} lines");
        assert!(!problem.what.trim().is_empty());
    }
}

proptest! {
    #[test]
    fn any_text_is_a_rulebook_or_has_problems(toml in any::<String>()) {
        either_a_book_or_problems_within(&toml);
    }

    #[test]
    fn any_text_of_toml_letters_is_a_rulebook_or_has_problems(toml in "([\\[\\]{}\"'=,a-z0-9_.\n# -]|\\[\\[machine\\]\\]\n|after = |id = ){0,80}") {
        either_a_book_or_problems_within(&toml);
    }

    #[test]
    fn any_mutation_of_the_demo_is_a_rulebook_or_has_problems(toml in mutated()) {
        either_a_book_or_problems_within(&toml);
    }
}
