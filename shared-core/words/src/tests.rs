//! What a file of words may not hold, what languages owe each other, and what comes out.

use crate::message::{Form, Piece};
use crate::{Book, Home, Language};

/// One text for all three languages.
fn same(text: &str) -> Vec<String> {
    vec![text.to_owned(); 3]
}

#[track_caller]
fn check(english: &str, spanish: &str, faults: &[&str]) {
    let texts = [english, spanish, english].map(str::to_owned);
    let found = Book::of(&texts).map_or_else(|faults| faults.0, |_| Vec::new());
    let found: Vec<String> = found.iter().map(ToString::to_string).collect();
    assert_eq!(found, faults);
}

#[test]
fn languages_say_the_same_things_with_the_same_arguments() {
    let english = "a-b = { $x } of { $y }\nb-c = So";
    check(english, "a-b = de { $y }, { $x }\nb-c = Así", &[]);
    check(english, "a-b = { $x } de { $y }", &["words/es.ftl:0: `b-c` is missing"]);
    check(english, "\na-b = { $x }\nb-c = Así", &["words/es.ftl:2: `a-b` has (x), English has (x, y)"]);
    check(
        english,
        "a-b = { $z } { $y } { $x }\nb-c = Así",
        &["words/es.ftl:1: `a-b` has (x, y, z), English has (x, y)"],
    );
    let more = "a-b = { $x } { $y }\nb-c = Así\nb-d = Más";
    check(english, more, &["words/es.ftl:3: English has no `b-d`"]);
}

#[test]
fn what_is_not_used_of_the_syntax_is_a_fault_at_its_place() {
    for (text, line, what) in [
        ("a-b = One\na-b = Two", 1, "a second `a-b`"),
        ("# note\nA-b = One", 2, "`A-b`: a name is `module-and-more`, in small letters"),
        ("a = One", 1, "`a`: a name is `module-and-more`, in small letters"),
        ("a-use = One", 1, "`a-use`: that is a word of Rust; choose another name"),
        ("a-b = One\n    .more = Two", 1, "`a-b`: attributes are not used here"),
        ("-a = One", 1, "`-a`: terms are not used here"),
        ("a-b = One\n    Two", 1, "`a-b`: a message stands on one line and holds no brace"),
        ("a-b = { \"{\" }", 1, "`a-b`: a message stands on one line and holds no brace"),
        ("a-b = { c-d }", 1, "`a-b`: only `{ $text }`, `{ NUMBER($n) }`, `{ \"text\" }` and choices are used here"),
        ("a-b = { NUMBER($n, digits: 2) }", 1, "`a-b`: `NUMBER($n)` takes one argument and no options here"),
        (
            "a-b = { $n ->\n    [few] F\n   *[other] O\n}",
            1,
            "`a-b`: `[few]` is no form that English, Spanish or Dutch has; they have one, many, *other",
        ),
        ("a-b = { $n ->\n    [10] F\n   *[other] O\n}", 1, "`a-b`: `[10]`: single numbers are 0 to 9"),
        ("a-b = { $n ->\n   *[one] O\n}", 1, "`a-b`: the last variant, and no other, is `*[other]`"),
        ("a-b = { $n ->\n   *[other] O\n} { $m ->\n   *[other] O\n}", 1, "`a-b`: one choice in a message at most"),
    ] {
        let found = Book::of(&same(text)).expect_err(text).0;
        assert_eq!(found[0].to_string(), format!("words/en.ftl:{line}: {what}"), "{text}");
    }
    let broken = Book::of(&same("a-b = One\na-c = { $x"));
    assert!(broken.expect_err("no bracket closes it").to_string().contains("words/en.ftl:2: "));
}

#[test]
fn a_wording_moves_no_argument() {
    for text in ["a-b = { $x } of { $y }", "a-b = { $y } of { $x }"] {
        let rust = Book::of(&same(text)).expect("a sound text").rust(Home::App);
        assert!(rust.contains("fn b(x: &str, y: &str) -> String"), "{rust}");
    }
    let texts = ["a-b = { $n } left", "a-b = { $n ->\n    [one] 1\n   *[other] { $n }\n}", "a-b = { $n }"];
    let rust = Book::of(&texts.map(str::to_owned)).expect("sound texts").rust(Home::App);
    assert!(rust.contains("fn b(n: i64)"), "one language needs the number: {rust}");
}

/// The worker has no reader of catalogues: it is handed its own words, by name.
#[test]
fn the_worker_has_its_words_in_every_language() {
    let text = "a-b = Not its own\nbell-sweep = Start \"now\"\ncall-late = { $n ->\n    [one] one\n   *[other] { $n } of them\n}";
    let script = Book::of(&same(text)).expect("a sound text").worker();
    for language in ["en: {", "es: {", "nl: {"] {
        assert!(script.contains(language), "{script}");
    }
    assert!(script.contains(r#""bell-sweep": "Start \"now\"","#), "{script}");
    assert!(script.contains(r#""call-late": { one: "one", other: "{ $n } of them" },"#), "{script}");
    assert!(!script.contains("a-b"), "{script}");
    let rust = Book::of(&same(text)).expect("a sound text").rust(Home::App);
    assert!(rust.contains("mod bell") && !rust.contains("mod call"), "{rust}");
}

#[test]
fn a_catalogue_is_a_line_for_each_message() {
    let text = "a-b = Plain\na-c = { $y } and { $x }{ \"\\u00A0\" }A\na-d = Before { $n ->\n    [0] none\n    [one] one\n   *[other] { $n }\n} after";
    let book = Book::of(&same(text)).expect("a sound text");
    let catalogue = book.catalogue(Language::Nl);
    let lines: Vec<&str> = catalogue.split('\n').collect();
    assert_eq!(lines[0], format!("nl ltr {}", book.fingerprint()));
    let choice = "\u{1}00Before none after\u{1}oBefore one after\u{1}*Before {0} after";
    assert_eq!(lines[1..], ["Plain", "{1} and {0}\u{a0}A", choice]);
    let pseudo = book.pseudo();
    assert!(pseudo.starts_with("en-x-pseudo rtl "), "{pseudo}");
    assert!(pseudo.contains("\nPłááííññ\n{1} ááññđ {0}\u{a0}Á\n"), "{pseudo}");
    // Another name, another argument, another order: another build, whose numbers mean other texts.
    for other in
        ["a-b = Plain\na-c = { $y }", "a-c = { $y } and { $x }\na-b = Plain", "a-b = Plain\na-d = { $y } { $x }"]
    {
        assert_ne!(Book::of(&same(other)).expect("a sound text").fingerprint(), book.fingerprint());
    }
}

/// A third longer, so that what fits in it fits in most languages; 30 to 40 in 100 over the whole of English.
#[test]
fn the_pseudo_language_is_a_third_longer() {
    let book = Book::open().expect("the words of this repository are sound");
    let (english, pseudo) = (book.catalogue(Language::En).chars().count(), book.pseudo().chars().count());
    let longer = pseudo * 100 / english;
    assert!((130..141).contains(&longer), "{longer} in 100 of English");
}

/// What is the same in a language as in English is so because that is its word, not because nobody translated it.
#[test]
fn nothing_is_left_in_english() {
    const SAME: &[&str] = &[
        "bench-machines",
        "bench-min",
        "buddy-in-room",
        "door-later",
        "facts-buddy",
        "figures-machine",
        "frame-app",
        "incidents-no",
        "look-agent-co2",
        "look-agent-water",
        "look-burning-gas",
        "look-process-tig",
        "metal-aluminium",
        "metal-magnesium",
        "metal-tin",
        "metal-titanium",
        "plan-bound",
        "plan-chore",
        "posted-machines",
        "time-hours-short",
        "time-minutes-short",
    ];
    let book = Book::open().expect("the words of this repository are sound");
    for (language, texts) in Language::ALL.into_iter().zip(&book.texts).skip(1) {
        let both = texts.iter().zip(book.english());
        let same = both.filter(|(own, english)| own.form == english.form && has_words(&own.form));
        let left: Vec<&str> = same.map(|(own, _)| own.id.as_str()).filter(|id| !SAME.contains(id)).collect();
        assert!(left.is_empty(), "{language:?}: {left:?}");
    }
}

/// Whether there is a word in a text, and not only places and points.
fn has_words(form: &Form) -> bool {
    let word = |piece: &Piece| matches!(piece, Piece::Text(text) if text.chars().any(char::is_alphabetic));
    match form {
        Form::Plain(pieces) => pieces.iter().any(word),
        Form::Counted { variants, .. } => variants.iter().any(|(_, pieces)| pieces.iter().any(word)),
    }
}
