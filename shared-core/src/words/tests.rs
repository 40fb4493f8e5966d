//! The reader against what `shared-core/words/` writes, and plural forms against an independent library.

use icu_plurals::{PluralCategory, PluralRules};

use super::*;

fn of(catalogue: &'static str) -> Words {
    Words::read(catalogue).expect("a catalogue of this build")
}

#[test]
fn every_language_is_read_and_no_other_build() {
    for (catalogue, tag) in [(EN, "en"), (ES, "es"), (NL, "nl")] {
        assert_eq!(of(catalogue).tag(), tag);
    }
    let other: &str = Box::leak(EN.replacen(said::HEAD, "0123456789abcdef", 1).into_boxed_str());
    let (short, _) = EN.rsplit_once('\n').expect("more than one message");
    for broken in [other, short, "", "en", "en ltr", "\n"] {
        assert!(Words::read(broken).is_none(), "{:?}", broken.get(..40));
    }
}

#[track_caller]
fn check(line: &'static str, args: &[Arg], want: &str) {
    let words = Words { tag: "es", texts: vec![Text(line)] };
    assert_eq!(words.fill(0, args), want, "{line:?}");
}

#[test]
fn arguments_go_where_the_language_has_them() {
    use Arg::{Number, Text};
    check("{1} de {0}", &[Text("la forja"), Number(-3)], "-3 de la forja");
    check("{0}{0}", &[Text("a")], "aa");
    // What somebody wrote is never taken for a place.
    check("{0}!", &[Text("{0}{1}")], "{0}{1}!");
    // A name that runs from right to left turns no number beside it.
    check(
        "{0}: {1}",
        &[Text("\u{5e0}\u{5d5}\u{5e2}\u{5d4}"), Number(12)],
        "\u{2068}\u{5e0}\u{5d5}\u{5e2}\u{5d4}\u{2069}: 12",
    );
    let choice = "\u{1}00nada\u{1}o{0} día\u{1}m{0} de días\u{1}*{0} días";
    for (count, want) in [(0, "nada"), (1, "1 día"), (-1, "-1 día"), (2, "2 días"), (1_000_000, "1000000 de días")]
    {
        check(choice, &[Number(count)], want);
    }
}

/// Unicode CLDR's cardinal rules, as the ICU4X library has them.
#[test]
fn plural_forms_are_those_of_cldr() {
    for tag in ["en", "es", "nl"] {
        let locale: icu_locale_core::Locale = tag.parse().expect("a language");
        let rules = PluralRules::try_new_cardinal(locale.into()).expect("rules are compiled in");
        let steps = (0..=10_000_000_i64).step_by(997).chain((0..=30).map(|millions| millions * 1_000_000));
        for count in (0..=100_000).chain(steps) {
            let want = match rules.category_for(count) {
                PluralCategory::One => b'o',
                PluralCategory::Many => b'm',
                PluralCategory::Other => b'*',
                category => panic!("{tag} has {category:?} of {count}, which no file may hold"),
            };
            assert_eq!(form(tag, count), want, "{tag} {count}");
        }
    }
}
