//! The induction walk and trainings, read from TOML, with their problems.
//!
//! What a stop asks is whole or it is not there: a question without a right answer would keep everybody at its stop.

use super::fields::Fields;
use super::lint::one_of;
use super::reading::Reading;
use super::{Question, Rulebook, Stop, Training, VALID_DAYS, keys};
use crate::standing::walk::mark;

/// Ten years: past that a number is a slip of the pen.
pub(super) const VALID_DAYS_MAX: u32 = 3_650;
/// More answers than these are no question for somebody who stands in a workshop.
const ANSWERS_MAX: u32 = 5;

/// The stops of a file.
pub(super) fn stops(file: &Fields<'_, '_, '_>) -> Vec<Stop> {
    file.each("stop", &keys::STOP, keys::RULEBOOK).iter().map(stop).collect()
}

/// The trainings of a file.
pub(super) fn trainings(file: &Fields<'_, '_, '_>) -> Vec<Training> {
    file.each("training", &keys::TRAINING, keys::RULEBOOK).iter().map(training).collect()
}

fn stop(stop: &Fields<'_, '_, '_>) -> Stop {
    let (text, says, question) = (stop.said("text"), stop.said_list("says"), question(stop));
    let asked = question.iter().flat_map(|asked| {
        let texts = [&asked.text, &asked.because].into_iter().chain(&asked.answers).cloned();
        texts.chain([asked.right.to_string()])
    });
    let mark = mark([text.clone()].into_iter().chain(says.clone()).chain(asked));
    Stop {
        id: stop.id().as_str().into(),
        room: stop.text("room").as_str().into(),
        text,
        says,
        sign: stop.text_if("sign"),
        question,
        mark: Some(mark),
    }
}

fn question(stop: &Fields<'_, '_, '_>) -> Option<Question> {
    let Some(text) = stop.said_if("ask") else {
        for key in ["answers", "right", "because"] {
            if stop.get(key).is_some() {
                stop.problem(key, format!("`{key}` without `ask`"), Some("write what is asked".to_owned()));
            }
        }
        return None;
    };
    let answers = stop.said_list("answers");
    let count = u32::try_from(answers.len()).unwrap_or(u32::MAX);
    if !(2..=ANSWERS_MAX).contains(&count) {
        let hint = format!("from 2 to {ANSWERS_MAX} of them");
        stop.problem("answers", format!("{count} is not how many answers a question has"), Some(hint));
    }
    let right = stop.whole("right", 1..=ANSWERS_MAX, None);
    if right > count {
        stop.problem("right", format!("there is no answer {right}"), Some("the first is 1".to_owned()));
    }
    stop.required("because", Some("whoever picks another answer is told why"));
    Some(Question { text, answers, right, because: stop.said_if("because").unwrap_or_default() })
}

fn training(training: &Fields<'_, '_, '_>) -> Training {
    let within = training.get("use_within_days").is_some();
    Training {
        id: training.id(),
        name: training.said("name"),
        checklist: training.said_list("checklist"),
        valid_days: training.whole("valid_days", 1..=VALID_DAYS_MAX, Some(VALID_DAYS)),
        use_within_days: within.then(|| training.whole("use_within_days", 1..=VALID_DAYS_MAX, None)),
        signers: training.texts("signers").iter().map(|member| member.as_str().into()).collect(),
    }
}

/// What these must mean together with the rest of the rulebook.
pub(super) fn check(book: &Rulebook, reading: &Reading<'_>) {
    let asked: Vec<&str> = book.trainings().into_iter().collect();
    for (n, training) in book.trainings.iter().enumerate() {
        if !training.id.is_empty() && !asked.contains(&training.id.as_str()) {
            let what = format!("no machine asks for the training `{}`", training.id);
            reading.problem_at(&format!("training.{n}.id"), what, one_of(&training.id, &asked));
        }
        let kept = book.shop.retention_days;
        if training.use_within_days.is_some_and(|days| days > kept) {
            let what = format!("the log is kept for {kept} days, and would have forgotten the last use");
            reading.problem_at(
                &format!("training.{n}.use_within_days"),
                what,
                Some("`retention_days` of [shop]".to_owned()),
            );
        }
    }
}
