//! That no text whatever breaks reading: a book, or problems at places that exist.

use proptest::prelude::*;

use super::{DEMO, SOUND, read};

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
