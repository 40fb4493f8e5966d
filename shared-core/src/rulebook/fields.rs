//! One table of a TOML file, read key by key; what is not as it should be becomes a problem.
//!
//! Each getter gives a usable stand-in when it notes a problem, so that reading goes on and finds the next one. A
//! stand-in never reaches a rulebook: a file with any problem gives none. Unknown keys are refused at once, with the
//! nearest valid key, because a misspelt `hot_work` that is silently ignored costs a fire watch.

use std::ops::{Range, RangeInclusive};

use toml::Spanned;
use toml::de::{DeTable, DeValue};

use super::keys::Table;
use super::reading::Reading;
use super::suggest::nearest;

use crate::ordered::Set;

/// A table being read. One that is absent altogether reads as empty and asks for nothing.
pub(super) struct Fields<'r, 't, 'i> {
    reading: &'r Reading<'i>,
    table: Option<&'t DeTable<'i>>,
    schema: &'static Table,
    path: String,
    /// Valid keys that an unknown one was taken for: they are not reported as missing too.
    meant: Set<&'static str>,
}

impl<'r, 't, 'i> Fields<'r, 't, 'i> {
    /// The whole file.
    pub(super) fn of_file(
        reading: &'r Reading<'i>,
        table: &'t DeTable<'i>,
        schema: &'static Table,
        elsewhere: &[&Table],
    ) -> Self {
        Self::new(reading, Some(table), schema, String::new(), elsewhere)
    }

    fn new(
        reading: &'r Reading<'i>,
        table: Option<&'t DeTable<'i>>,
        schema: &'static Table,
        path: String,
        elsewhere: &[&Table],
    ) -> Self {
        let mut fields = Self { reading, table, schema, path, meant: Set::new() };
        for (key, _) in table.into_iter().flatten() {
            let word: &str = key.get_ref();
            if schema.keys.contains(&word) {
                continue;
            }
            let absent =
                schema.keys.iter().copied().filter(|valid| table.is_some_and(|table| !table.contains_key(*valid)));
            let suggestion = nearest(word, absent).or_else(|| nearest(word, schema.keys.iter().copied()));
            fields.meant.extend(suggestion);
            let owners: Vec<_> =
                elsewhere.iter().filter(|other| other.keys.contains(&word)).map(|other| other.label).collect();
            let hint = match suggestion {
                Some(valid) => Some(format!("did you mean `{valid}`?")),
                None if owners.is_empty() => None,
                None => Some(format!("it is a key of {}", owners.join(", "))),
            };
            reading.problem(key.span().start, format!("`{}` is not a key of {}", shortened(word), schema.label), hint);
        }
        fields
    }

    /// Remembers where a key inside of `key` stands; gives its path within this table.
    pub(super) fn remember(&self, key: &str, inner: &str, span: &Range<usize>) -> String {
        let path = format!("{key}.{inner}");
        self.reading.remember(self.path(&path), span);
        path
    }

    /// The path of a key, for looking its place up later.
    pub(super) fn path(&self, key: &str) -> String {
        if self.path.is_empty() { key.to_owned() } else { format!("{}.{key}", self.path) }
    }

    /// Notes a problem with a key that this table has, or with the table.
    pub(super) fn problem(&self, key: &str, what: impl Into<String>, hint: Option<String>) {
        self.reading.problem_at(&self.path(key), what, hint);
    }

    /// The table under `key`; one that is not there reads as empty.
    pub(super) fn section(
        &self,
        key: &'static str,
        schema: &'static Table,
        elsewhere: &[&Table],
    ) -> Fields<'r, 't, 'i> {
        let table = self.get(key).and_then(|value| {
            let table = value.get_ref().as_table();
            if table.is_none() {
                let hint =
                    value.get_ref().is_array().then(|| format!("write `[{key}]`, with one bracket: there is one"));
                self.wrong_type(key, "a table", value.get_ref(), hint);
            }
            table
        });
        Fields::new(self.reading, table, schema, self.path(key), elsewhere)
    }

    /// The tables under `key`, in the file's order.
    pub(super) fn each(
        &self,
        key: &'static str,
        schema: &'static Table,
        elsewhere: &[&Table],
    ) -> Vec<Fields<'r, 't, 'i>> {
        let Some(value) = self.get(key) else { return Vec::new() };
        let Some(items) = value.get_ref().as_array() else {
            let hint = value.get_ref().is_table().then(|| format!("write `{}`: there can be several", schema.label));
            self.wrong_type(key, "a list of tables", value.get_ref(), hint);
            return Vec::new();
        };
        let mut fields = Vec::new();
        for (number, item) in items.iter().enumerate() {
            let path = self.remember_item(key, number, &item.span());
            let table = item.get_ref().as_table();
            if table.is_none() {
                self.reading.problem_at(
                    &path,
                    format!("`{key}` must be a list of tables, not of {}", kind(item.get_ref())),
                    None,
                );
            }
            fields.push(Fields::new(self.reading, table, schema, path, elsewhere));
        }
        fields
    }

    /// Text that must be there and say something.
    pub(super) fn text(&self, key: &'static str) -> String {
        self.required(key, None);
        self.text_if(key).unwrap_or_default()
    }

    /// Text that may be absent, but not empty.
    pub(super) fn text_if(&self, key: &'static str) -> Option<String> {
        let value = self.get(key)?;
        let Some(text) = value.get_ref().as_str() else {
            let nested = value.get_ref().is_array() || value.get_ref().is_table();
            self.wrong_type(key, "text", value.get_ref(), (!nested).then(|| "put it between quotes".to_owned()));
            return None;
        };
        if text.trim().is_empty() {
            self.problem(key, format!("`{key}` of {} is empty", self.name()), None);
        }
        Some(text.to_owned())
    }

    /// An id that must be there: letters, digits, `_` and `-`, so that it fits a code, an address and `owner/chore`.
    pub(super) fn id(&self) -> String {
        let id = self.text("id");
        let fits = |letter: char| letter.is_ascii_alphanumeric() || letter == '_' || letter == '-';
        if !id.trim().is_empty() && (!id.chars().all(fits) || id.len() > 64) {
            let hint = "letters, digits, `_` and `-`, at most 64 of them".to_owned();
            self.problem("id", format!("`{}` cannot be an id", shortened(&id)), Some(hint));
        }
        id
    }

    /// Yes or no.
    pub(super) fn flag(&self, key: &'static str, default: bool) -> bool {
        let Some(value) = self.get(key) else { return default };
        value.get_ref().as_bool().unwrap_or_else(|| {
            let hint = value.get_ref().is_str().then(|| "without quotes".to_owned());
            self.wrong_type(key, "true or false", value.get_ref(), hint);
            default
        })
    }

    /// A whole number within `range`; without a default it must be there.
    pub(super) fn whole(&self, key: &'static str, range: RangeInclusive<u32>, default: Option<u32>) -> u32 {
        if default.is_none() {
            self.required(key, None);
        }
        let stand_in = default.unwrap_or(*range.start());
        let Some(value) = self.get(key) else { return stand_in };
        let whole = match value.get_ref() {
            DeValue::Integer(digits) => i64::from_str_radix(digits.as_str(), digits.radix()).ok(),
            other => {
                let hint = other.is_str().then(|| "without quotes".to_owned());
                self.wrong_type(key, "a whole number", other, hint);
                return stand_in;
            }
        };
        let fits = whole.and_then(|whole| u32::try_from(whole).ok()).filter(|whole| range.contains(whole));
        fits.unwrap_or_else(|| {
            self.out_of_range(key, &format!("{} to {}", range.start(), range.end()));
            stand_in
        })
    }

    /// A number within `range`, with or without a point.
    pub(super) fn number(&self, key: &'static str, range: RangeInclusive<f64>) -> Option<f64> {
        let value = self.get(key)?;
        let number = match value.get_ref() {
            DeValue::Integer(digits) => whole_as_f64(digits.as_str(), digits.radix()),
            DeValue::Float(digits) => digits.as_str().parse().ok(),
            other => {
                let hint = other.is_str().then(|| "without quotes".to_owned());
                self.wrong_type(key, "a number", other, hint);
                return None;
            }
        };
        let fits = number.filter(|number| range.contains(number));
        if fits.is_none() {
            self.out_of_range(key, &format!("{} to {}", range.start(), range.end()));
        }
        fits
    }

    /// Minutes, 0 to a day, as thousandths of a minute: finer ones are rounded to the nearest.
    pub(super) fn milli(&self, key: &'static str) -> Option<i64> {
        #[expect(clippy::cast_possible_truncation, reason = "a day's minutes in thousandths are far below 2^53")]
        self.number(key, 0.0..=1440.0).map(|minutes| (minutes * 1000.0).round() as i64)
    }

    /// Minutes that must be there.
    pub(super) fn milli_required(&self, key: &'static str) -> i64 {
        self.required(key, None);
        self.milli(key).unwrap_or(0)
    }

    /// A list of texts, none of them empty; absent, an empty list.
    pub(super) fn texts(&self, key: &'static str) -> Vec<String> {
        let Some(value) = self.get(key) else { return Vec::new() };
        let Some(items) = value.get_ref().as_array() else {
            let hint = value.get_ref().is_str().then(|| "put it between square brackets".to_owned());
            self.wrong_type(key, "a list of texts", value.get_ref(), hint);
            return Vec::new();
        };
        let mut texts = Vec::new();
        for (number, item) in items.iter().enumerate() {
            let path = self.remember_item(key, number, &item.span());
            let text = item.get_ref().as_str();
            texts.push(text.unwrap_or_default().to_owned());
            match text {
                Some(text) if !text.trim().is_empty() => {}
                Some(_) => {
                    self.reading.problem_at(&path, format!("`{key}` of {} holds an empty text", self.name()), None);
                }
                None => {
                    let what = format!("`{key}` must be a list of texts, not of {}", kind(item.get_ref()));
                    self.reading.problem_at(&path, what, None);
                }
            }
        }
        texts
    }

    /// The value under `key`, whatever it is; its place is remembered.
    pub(super) fn get(&self, key: &str) -> Option<&'t Spanned<DeValue<'i>>> {
        debug_assert!(self.schema.keys.contains(&key), "{key} is read but is not a key of {}", self.schema.label);
        let value = self.table?.get(key)?;
        self.reading.remember(self.path(key), &value.span());
        Some(value)
    }

    /// The file being read.
    pub(super) fn reading(&self) -> &'r Reading<'i> {
        self.reading
    }

    /// Notes a key that must be there and is not.
    pub(super) fn required(&self, key: &'static str, hint: Option<&str>) {
        let Some(table) = self.table.filter(|_| !self.reading.is_guesswork()) else { return };
        if !table.contains_key(key) && !self.meant.contains(key) {
            let hint = hint.map(str::to_owned);
            self.reading.problem_at(&self.path, format!("`{key}` is missing from {}", self.name()), hint);
        }
    }

    /// Notes a value of the wrong type.
    pub(super) fn wrong_type(&self, key: &str, expected: &str, found: &DeValue<'_>, hint: Option<String>) {
        self.problem(key, format!("`{key}` of {} must be {expected}, not {}", self.name(), kind(found)), hint);
    }

    /// The table as people are told of it: with its id, if it has one.
    pub(super) fn name(&self) -> String {
        match self.table.and_then(|table| table.get("id")).and_then(|id| id.get_ref().as_str()) {
            Some(id) if !id.trim().is_empty() => format!("{} `{}`", self.schema.label, shortened(id)),
            _ => self.schema.label.to_owned(),
        }
    }

    fn out_of_range(&self, key: &str, range: &str) {
        self.problem(key, format!("`{key}` of {} must be {range}", self.name()), None);
    }

    pub(super) fn remember_item(&self, key: &str, number: usize, span: &Range<usize>) -> String {
        let path = format!("{}.{number}", self.path(key));
        self.reading.remember(path.clone(), span);
        path
    }
}

/// A value's type in plain words.
fn kind(value: &DeValue<'_>) -> &'static str {
    match value {
        DeValue::String(_) => "text",
        DeValue::Integer(_) => "a whole number",
        DeValue::Float(_) => "a number with a point",
        DeValue::Boolean(_) => "true or false",
        DeValue::Datetime(written) if written.time.is_some() => "a date with a time",
        DeValue::Datetime(_) => "a date",
        DeValue::Array(_) => "a list",
        DeValue::Table(_) => "a table",
    }
}

fn shortened(word: &str) -> String {
    if word.chars().count() <= 64 { word.to_owned() } else { word.chars().take(63).chain(['…']).collect() }
}

#[expect(clippy::cast_precision_loss, reason = "every range asked for lies far below 2^53")]
fn whole_as_f64(digits: &str, radix: u32) -> Option<f64> {
    i64::from_str_radix(digits, radix).ok().map(|whole| whole as f64)
}
