//! Texts in several languages: what is read, what is put in place, what the steward is told.

use expect_test::expect;

use super::{SOUND, check_with_sound, read};

const SEVERAL: &str = r#"[[machine]]
id = "saw"
name = { en = "Saw", es = "Sierra" }
room = "bay"
training = "saw"
start_checks = ["Guard on.", { nl = "Zwaard schoon.", en = "Blade clean." }]
[[machine.chore]]
id = "brush"
text = { es = "Cepíllala.", en = "Brush it.", nl = "Borstel hem." }
minutes = 2
[[round]]
id = "bin"
room = "bay"
text = { en = "Brush it.", es = "Cepíllala." }
every = "P1W"
"#;

#[test]
fn a_text_is_said_in_its_language_or_plainly() {
    for (tag, said) in [
        ("en", ["Saw", "Guard on.", "Blade clean.", "Brush it.", "Brush it."]),
        ("es", ["Sierra", "Guard on.", "Blade clean.", "Cepíllala.", "Cepíllala."]),
        ("nl", ["Saw", "Guard on.", "Zwaard schoon.", "Borstel hem.", "Borstel hem."]),
        ("en-x-pseudo", ["Saw", "Guard on.", "Blade clean.", "Brush it.", "Brush it."]),
    ] {
        let (book, problems) = read(&format!("{SOUND}{SEVERAL}"));
        assert_eq!(problems, []);
        // As phones are handed it.
        let json = serde_json::to_string(&book.expect("a sound rulebook")).expect("JSON");
        let mut book: crate::rulebook::Rulebook = serde_json::from_str(&json).expect("the same rulebook");
        book.speak(tag);
        let (saw, bin) = (&book.machines[0], &book.rounds[0]);
        let told = [&saw.name, &saw.start_checks[0], &saw.start_checks[1], &saw.chores[0].text, &bin.text];
        assert_eq!(told, said, "{tag}");
        assert!(book.translations.is_empty(), "they are put in place once");
    }
}

#[test]
fn plain_texts_are_in_the_shops_own_language() {
    let dutch = SOUND.replace("name = \"Yard\"\n", "name = \"Yard\"\nlanguage = \"nl\"\n");
    let (book, problems) = read(&format!(
        "{dutch}{}",
        r#"[[stop]]
id = "one"
room = "bay"
text = { en = "Two ways out.", nl = "Twee uitgangen." }
"#
    ));
    assert_eq!(problems, []);
    let mut book = book.expect("a sound rulebook");
    assert_eq!(book.stops[0].text, "Twee uitgangen.");
    book.speak("en");
    assert_eq!(book.stops[0].text, "Two ways out.");
}

/// A rulebook without translations is handed out as it always was.
#[test]
fn without_translations_nothing_is_added() {
    let (book, _) = read(SOUND);
    let json = serde_json::to_string(&book.expect("a sound rulebook")).expect("JSON");
    assert!(!json.contains("translations"), "{json}");
}

#[test]
fn a_language_that_nobody_speaks_here_is_told() {
    check_with_sound(
        r#"[[stop]]
id = "one"
room = "bay"
text = { en = "Two ways out.", sp = "Dos salidas.", nl = "" }
[[stop]]
id = "two"
room = "bay"
text = { es = "Dos salidas." }
[[round]]
id = "three"
room = "bay"
text = { en = "Two ways out.", es = "Dos puertas." }
every = "P1D"
[[round]]
id = "four"
room = "bay"
text = { en = "Two ways out.", es = "Dos salidas." }
every = "P1D"
[[machine]]
id = "saw"
name = ["Saw"]
room = "bay"
training = { en = "saw" }
start_checks = [{ en = "Guard on.", es = 3 }, 4]
"#,
        expect![[r#"
            15:32: `sp` is not a language that is known here (Sweepbell speaks en, es, nl)
            15:53: `text` of [[stop]] `one` says nothing in `nl`
            19:8: `text` of [[stop]] `two` is missing in the shop's own language, `en` (`language` of [shop] says which language that is; it is `en` unless told)
            28:8: `Two ways out.` is said otherwise in `es` at another place (one text has one translation)
            32:8: `name` of [[machine]] `saw` must be text, not a list
            34:12: `training` of [[machine]] `saw` must be text, not a table
            35:37: `start_checks` of [[machine]] `saw` says nothing in `es`
            35:47: `start_checks` of [[machine]] `saw` holds neither a text nor texts by language"#]],
    );
    check_with_sound(
        "[shop]\nlanguage = \"de\"\n",
        expect![[r#"
        12:2: `shop` is here a second time
        13:12: `de` is not a language that is known here (write one of en, es, nl)"#]],
    );
}
