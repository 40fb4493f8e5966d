//! The induction walk and trainings: what is right is read, and what the steward is told of the rest.

use expect_test::expect;

use super::{SOUND, check_with_sound, read};

const MACHINE: &str = "[[machine]]\nid = \"saw\"\nname = \"Saw\"\nroom = \"bay\"\ntraining = \"sawing\"\n";

#[test]
fn what_is_right_is_read() {
    let (book, problems) = read(&format!(
        "{SOUND}{MACHINE}[[training]]\nid = \"sawing\"\nname = \"Sawing\"\nchecklist = [\"Clamp it.\"]\nvalid_days = 200\n\
         use_within_days = 60\nsigners = [\"noor\"]\n[[stop]]\nid = \"bin\"\nroom = \"bay\"\ntext = \"The bin.\"\n\
         says = [\"Lid shut.\"]\nsign = \"fire\"\nask = \"Where do rags go?\"\nanswers = [\"Here\", \"There\"]\nright = 1\n\
         because = \"They can catch fire.\"\n[[stop]]\nid = \"wall\"\nroom = \"bay\"\ntext = \"The wall.\"\n"
    ));
    assert_eq!(problems, []);
    let book = book.expect("a sound rulebook");
    expect![[r#"
        [Training { id: "sawing", name: "Sawing", checklist: ["Clamp it."], valid_days: 200, use_within_days: Some(60), signers: [PersonId("noor")] }]
        365
        Some(Question { text: "Where do rags go?", answers: ["Here", "There"], right: 1, because: "They can catch fire." })
        None"#]]
    .assert_eq(&format!(
        "{:?}\n{}\n{:?}\n{:?}",
        book.trainings, book.shop.induction_days, book.stops[0].question, book.stops[1].question
    ));
}

/// A mark follows the plain words alone, whatever language a phone speaks.
#[test]
fn a_mark_changes_with_the_words_and_not_with_the_language() {
    let marked = |stop: &str, tag: &str| {
        let (book, problems) = read(&format!("{SOUND}[[stop]]\nid = \"bin\"\nroom = \"bay\"\n{stop}"));
        assert_eq!(problems, []);
        let mut book = book.expect("a sound rulebook");
        book.speak(tag);
        (book.stops[0].mark.clone(), book.stops[0].text.clone())
    };
    let two = "text = { en = \"The bin.\", es = \"El cubo.\" }\n";
    assert_eq!(marked(two, "en").0, marked(two, "es").0);
    assert_ne!(marked(two, "en").1, marked(two, "es").1);
    assert_eq!(marked(two, "en").0, marked("text = \"The bin.\"\n", "en").0);
    assert_ne!(marked(two, "en").0, marked("text = \"The bin.\"\nsays = [\"Shut it.\"]\n", "en").0);
}

#[test]
fn a_question_is_whole_or_it_is_not_there() {
    check_with_sound(
        r#"[[stop]]
id = "one"
room = "bay"
text = "One."
answers = ["A", "B"]
right = 1
[[stop]]
id = "two"
room = "bay"
text = "Two."
ask = "Which?"
answers = ["A"]
right = 2
[[stop]]
id = "three"
room = "bay"
text = "Three."
ask = "Which?"
answers = ["A", "B"]
wright = 2
"#,
        expect![[r#"
            16:11: `answers` without `ask` (write what is asked)
            17:9: `right` without `ask` (write what is asked)
            18:1: `because` is missing from [[stop]] `two` (whoever picks another answer is told why)
            23:11: 1 is not how many answers a question has (from 2 to 5 of them)
            24:9: there is no answer 2 (the first is 1)
            25:1: `because` is missing from [[stop]] `three` (whoever picks another answer is told why)
            31:1: `wright` is not a key of [[stop]] (did you mean `right`?)"#]],
    );
}

#[test]
fn a_training_is_one_that_a_machine_asks_for_and_is_remembered_long_enough() {
    check_with_sound(
        &format!(
            "{MACHINE}[[training]]\nid = \"sawin\"\nname = \"Sawing\"\nuse_within_days = 91\n\
             [[training]]\nid = \"sawing\"\nname = \"Sawing\"\nvalid_days = 0\n[[training]]\nid = \"sawing\"\n"
        ),
        expect![[r#"
            18:6: no machine asks for the training `sawin` (did you mean `sawing`?)
            20:19: the log is kept for 90 days, and would have forgotten the last use (`retention_days` of [shop])
            24:14: `valid_days` of [[training]] `sawing` must be 1 to 3650
            25:1: `name` is missing from [[training]] `sawing`
            26:6: `sawing` is the id of another training"#]],
    );
}
