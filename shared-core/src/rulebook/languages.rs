//! Texts that members read, in one language or in several: `text = "…"`, or `text = { en = "…", es = "…" }`.
//!
//! A table holds the shop's own language, which is the plain text, and any others that Sweepbell speaks. An unknown
//! language is a problem at its place, and so is a plain text that has two translations: phones look it up by itself.

use toml::Spanned;
use toml::de::{DeTable, DeValue};

use super::fields::Fields;
use super::spoken::LANGUAGES;
use super::suggest::nearest;

impl<'t> Fields<'_, 't, '_> {
    /// Text in one language or several, which must be there and say something.
    pub(super) fn said(&self, key: &'static str) -> String {
        self.required(key, None);
        self.said_if(key).unwrap_or_default()
    }

    /// Text in one language or several, which may be absent, but not empty.
    pub(super) fn said_if(&self, key: &'static str) -> Option<String> {
        match self.get(key)?.get_ref() {
            DeValue::Table(languages) => self.plain(key, &self.path(key), languages),
            _ => self.text_if(key),
        }
    }

    /// A list of such texts; absent, an empty list.
    pub(super) fn said_list(&self, key: &'static str) -> Vec<String> {
        let Some(items) = self.get(key).and_then(|value| value.get_ref().as_array()) else { return self.texts(key) };
        if !items.iter().any(|item| item.get_ref().is_table()) {
            return self.texts(key);
        }
        let plain = |(number, item): (usize, &'t Spanned<DeValue<'_>>)| {
            let path = self.remember_item(key, number, &item.span());
            match item.get_ref() {
                DeValue::Table(languages) => self.plain(key, &path, languages),
                DeValue::String(text) if !text.trim().is_empty() => Some(text.to_string()),
                _ => {
                    let what = format!("`{key}` of {} holds neither a text nor texts by language", self.name());
                    self.reading().problem_at(&path, what, None);
                    None
                }
            }
        };
        items.iter().enumerate().filter_map(plain).collect()
    }

    /// The plain text of several; the others are kept beside it.
    fn plain(&self, key: &str, path: &str, languages: &DeTable<'_>) -> Option<String> {
        let mut texts = Vec::new();
        for (language, text) in languages {
            let (tag, at): (&str, _) = (language.get_ref(), language.span().start);
            if !LANGUAGES.contains(&tag) {
                let hint = nearest(tag, LANGUAGES.iter().copied()).map(|tag| format!("did you mean `{tag}`?"));
                let hint = hint.or_else(|| Some(format!("Sweepbell speaks {}", LANGUAGES.join(", "))));
                self.reading().problem(at, format!("`{tag}` is not a language that is known here"), hint);
            }
            match text.get_ref().as_str() {
                Some(text) if !text.trim().is_empty() => texts.push((tag, text)),
                _ => self.reading().problem(at, format!("`{key}` of {} says nothing in `{tag}`", self.name()), None),
            }
        }
        let own = self.reading().language();
        let Some((_, plain)) = texts.iter().find(|(tag, _)| *tag == own) else {
            let hint = "`language` of [shop] says which language that is; it is `en` unless told".to_owned();
            let what = format!("`{key}` of {} is missing in the shop's own language, `{own}`", self.name());
            self.reading().problem_at(path, what, Some(hint));
            return None;
        };
        for (tag, text) in texts.iter().filter(|(tag, _)| *tag != own) {
            if !self.reading().translate(tag, plain, text) {
                let what = format!("`{plain}` is said otherwise in `{tag}` at another place");
                self.reading().problem_at(path, what, Some("one text has one translation".to_owned()));
            }
        }
        Some((*plain).to_owned())
    }
}
