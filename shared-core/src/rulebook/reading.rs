//! The state of reading one TOML file: every problem found so far, and where each value stands.
//!
//! A value's place is kept under its path (`machine.3.room`), so that checks made later on the finished types can
//! still point at the line. Nothing is refused here and nothing is known of rulebooks.

use std::cell::RefCell;
use std::ops::Range;

use toml::de::DeTable;

use super::problem::Problem;
use super::spoken::{LANGUAGES, Translations};

use crate::ordered::{Map, Set};

/// One file being read.
pub(super) struct Reading<'i> {
    text: &'i str,
    line_starts: Vec<usize>,
    problems: RefCell<Set<Problem>>,
    /// The language of plain texts.
    language: RefCell<&'static str>,
    translations: RefCell<Translations>,
    places: RefCell<Map<String, usize>>,
    /// Lines with a mistake of syntax: a value there was guessed and is not worth a second complaint.
    mistake_lines: Set<u32>,
}

impl<'i> Reading<'i> {
    /// Parses as much of `text` as can be, and notes each mistake of syntax.
    pub(super) fn begin(text: &'i str) -> (Self, DeTable<'i>) {
        let line_starts = std::iter::once(0).chain(text.match_indices('\n').map(|(at, _)| at + 1)).collect();
        let mut reading = Self {
            text,
            line_starts,
            problems: RefCell::default(),
            language: RefCell::new(LANGUAGES[0]),
            translations: RefCell::default(),
            places: RefCell::default(),
            mistake_lines: Set::new(),
        };
        let (table, mistakes) = DeTable::parse_recoverable(text);
        for mistake in mistakes {
            let span = mistake.span().unwrap_or(0..0);
            let what = mistake.message().lines().collect::<Vec<_>>().join(", ");
            let what = match text.get(span.clone()) {
                Some(key) if what == "duplicate key" => format!("`{key}` is here a second time"),
                _ => what,
            };
            reading.problem(span.start, what, None);
        }
        reading.mistake_lines = reading.problems.borrow().iter().map(|mistake| mistake.line).collect();
        if reading.is_guesswork() {
            // A value that the parser made up stands nowhere, which is the first line.
            reading.mistake_lines.insert(1);
        }
        (reading, table.into_inner())
    }

    /// Notes a problem at a byte of the file.
    pub(super) fn problem(&self, at: usize, what: impl Into<String>, hint: Option<String>) {
        let (line, column) = self.line_and_column(at);
        if self.mistake_lines.contains(&line) {
            return;
        }
        self.problems.borrow_mut().insert(Problem { line, column, what: what.into(), hint });
    }

    /// Notes a problem at a value that was read before, or failing that at what holds it.
    pub(super) fn problem_at(&self, path: &str, what: impl Into<String>, hint: Option<String>) {
        self.problem(self.place(path), what, hint);
    }

    /// Remembers where a value stands.
    pub(super) fn remember(&self, path: String, span: &Range<usize>) {
        self.places.borrow_mut().insert(path, span.start);
    }

    /// The language of plain texts.
    pub(super) fn language(&self) -> &'static str {
        *self.language.borrow()
    }

    /// Says what the language of plain texts is.
    pub(super) fn speak(&self, language: &'static str) {
        *self.language.borrow_mut() = language;
    }

    /// Keeps what a plain text is in another language; `false` if it is something else there already.
    pub(super) fn translate(&self, language: &str, plain: &str, text: &str) -> bool {
        self.translations.borrow_mut().keep(language, plain, text)
    }

    /// All translations that were kept.
    pub(super) fn translations(&self) -> Translations {
        self.translations.borrow().clone()
    }

    /// Whether that value was there.
    pub(super) fn has(&self, path: &str) -> bool {
        self.places.borrow().contains_key(path)
    }

    /// Whether nothing is wrong so far.
    pub(super) fn is_clean(&self) -> bool {
        self.problems.borrow().is_empty()
    }

    /// Whether the parser met mistakes of syntax: what is missing then may only be unreadable.
    pub(super) fn is_guesswork(&self) -> bool {
        !self.mistake_lines.is_empty()
    }

    /// All problems, in the file's order, each once.
    pub(super) fn into_problems(self) -> Vec<Problem> {
        self.problems.into_inner().into_iter().collect()
    }

    fn place(&self, path: &str) -> usize {
        let places = self.places.borrow();
        let mut path = path;
        loop {
            match (places.get(path), path.rsplit_once('.')) {
                (Some(at), _) => return *at,
                (None, Some((holder, _))) => path = holder,
                (None, None) => return 0,
            }
        }
    }

    fn line_and_column(&self, at: usize) -> (u32, u32) {
        let line = self.line_starts.partition_point(|start| *start <= at);
        let start = self.line_starts.get(line.saturating_sub(1)).copied().unwrap_or(0);
        let before = self.text.get(start..at.min(self.text.len())).unwrap_or("");
        let count = |number: usize| u32::try_from(number).unwrap_or(u32::MAX);
        (count(line), count(before.chars().count()).saturating_add(1))
    }
}
