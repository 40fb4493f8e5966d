//! Bad words of fire and air: what the steward is told.

use expect_test::expect;

use super::{SOUND, check_with_sound, read};

#[test]
fn what_is_right_is_read() {
    let (book, problems) = read(&format!(
        "{SOUND}voc_limit_g_per_l = 130\nvoc_source = \"house rule\"\n[fire]\nletters = \"US\"\n[[extinguisher]]\n\
         id = \"one\"\nroom = \"bay\"\nplace = \"By the door\"\nagent = \"co2\"\nclasses = [\"B\", \"C\"]\n[[exit]]\n\
         id = \"door\"\nroom = \"bay\"\ntext = \"The door\"\n"
    ));
    assert_eq!(problems, []);
    let book = book.expect("a sound rulebook");
    expect![[r#"
        Some(VocLimit { g_per_l: 130, source: "house rule" })
        Some(FireRule { letters: Us, gather: None })
        [Extinguisher { id: "one", room: RoomId("bay"), place: "By the door", agent: Co2, classes: ["B", "C"], live_electrics: false }]
        [Exit { id: "door", room: RoomId("bay"), text: "The door", way_out: true }]"#]]
    .assert_eq(&format!("{:?}\n{:?}\n{:?}\n{:?}", book.rooms[0].voc, book.fire, book.extinguishers, book.exits));
}

#[test]
fn a_limit_has_a_number_and_a_source() {
    check_with_sound(
        r#"voc_limit_g_per_l = 130
[[room]]
id = "annex"
name = "Annex"
voc_source = "house rule"
[[machine]]
id = "hood"
name = "Hood"
room = "bay"
training = "hood"
voc_limit_g_per_l = 130.5
voc_sorce = "house rule"
"#,
        expect![[r#"
            9:1: `voc_source` is missing from [[room]] `bay` (limits differ by region: say whose number it is, or `house rule`)
            13:1: `voc_limit_g_per_l` is missing from [[room]] `annex` (`voc_source` says whose limit it is)
            22:21: `voc_limit_g_per_l` of [[machine]] `hood` must be a whole number, not a number with a point
            23:1: `voc_sorce` is not a key of [[machine]] (did you mean `voc_source`?)"#]],
    );
}

#[test]
fn letters_without_a_region() {
    check_with_sound(
        r#"[[extinguisher]]
id = "one"
room = "bay"
place = "By the door"
agent = "powder"
classes = ["A", "B", "C"]
"#,
        expect![[
            r#"12:1: class letters without a region: C differs (write `[fire]` with `letters = "US"` (NFPA 10) or `letters = "EN"` (EN 2))"#
        ]],
    );
}

#[test]
fn what_would_take_a_cylinder_to_the_wrong_fire() {
    check_with_sound(
        r#"[fire]
letters = "EN"
[[extinguisher]]
id = "water"
room = "bay"
place = "By the door"
agent = "water"
classes = ["A", "D"]
live_electrics = true
[[extinguisher]]
id = "co2"
room = "bay"
place = "By the saw"
agent = "co2"
classes = ["B", "C", "K"]
[[extinguisher]]
id = "metal"
room = "bya"
place = "By the mill"
agent = "metal-powdr"
classes = ["A"]
[[extinguisher]]
id = "empty"
room = "bay"
place = "By the mill"
agent = "foam"
classes = []
[[extinguisher]]
id = "metal"
room = "bay"
place = "By the mill"
agent = "metal-powder"
classes = ["A", "D"]
"#,
        expect![[r#"
            19:17: water is never for class D
            20:18: water is never for live electrics
            26:17: co2 is never for class C (in EN 2, C is gases; for live electrics write `live_electrics = true`)
            26:22: `K` is not a class (EN 2 has A, B, C, D and F; for live electrics write `live_electrics = true`)
            29:8: there is no room `bya` (did you mean `bay`?)
            31:9: `metal-powdr` is not known as `agent` of [[extinguisher]] `metal` (did you mean `metal-powder`?)
            38:11: an extinguisher without a class is for nothing (the letters on its label, such as `["A", "B"]`)
            40:6: `metal` is the id of another extinguisher
            44:12: metal-powder is never for class A"#]],
    );
}

#[test]
fn the_other_region_has_a_letter_for_electrics() {
    check_with_sound(
        r#"[fire]
letters = "us"
[fyre]
[[extinguisher]]
id = "powder"
place = "By the door"
room = "bay"
agent = "powder"
class = ["A"]
[[extinguisher]]
id = "oil"
place = "By the stove"
room = "bay"
agent = "halon"
classes = ["F"]
"#,
        expect![[r#"
            13:11: `us` is not known as `letters` of [fire] (did you mean `US`?)
            14:2: `fyre` is not a key of a rulebook (did you mean `fire`?)
            15:1: `classes` is missing from [[extinguisher]] `powder` (the letters on its label, such as `["A", "B"]`)
            20:1: `class` is not a key of [[extinguisher]]
            25:9: `halon` is not known as `agent` of [[extinguisher]] `oil` (write one of water, foam, powder, co2, clean-gas, wet-chemical, metal-powder, dry-sand)"#]],
    );
    check_with_sound(
        r#"[fire]
letters = "US"
[[extinguisher]]
id = "powder"
place = "By the door"
room = "bay"
agent = "powder"
classes = ["A", "F"]
live_electrics = true
"#,
        expect![[r#"
            19:17: `F` is not a class (NFPA 10 has A, B, C, D and K)
            20:18: NFPA 10 has a letter for that (write class `C`)"#]],
    );
}

#[test]
fn a_room_with_doors_has_a_way_out() {
    check_with_sound(
        r#"[[exit]]
id = "store"
room = "bay"
text = "The store"
way_out = false
[[exit]]
id = "store"
room = "bay"
text = "The cupboard"
way_out = false
"#,
        expect![[r#"
            12:1: no way out of room `bay` is written down (one of them has `way_out = true`)
            18:6: `store` is the id of another exit"#]],
    );
}
