//! Bad rulebooks as a table of data: what the steward is told, line by line; and that no text whatever breaks reading.

mod any_text;
mod hazards;
mod keys;
mod languages;
mod meaning;
mod syntax;
mod walk;

use expect_test::{Expect, expect};

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
        Shop { name: "Yard", time_zone: "UTC", session_hours_max: 12, retention_days: 90, induction_days: 365, demo: false, emergency: None }
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
