//! Rust functions from messages: a module for each prefix, a function for each message, its English as its doc.
//!
//! A text without arguments is a `&'static str`, one with arguments a `String`. Where the words come from is the
//! caller's: the rules are handed them, the app has chosen them in one place.

use std::collections::BTreeMap;
use std::fmt::Write as _;

use crate::message::{Form, Key, Kind, Message, Piece};
use crate::{Book, Language};

/// Modules of words that the rules say themselves, on a phone and in the hub's command alike. All others are the app's.
const CORE: &[&str] = &["refusal", "because", "plan", "answer", "code", "entry"];

/// Modules that only the page's own script says, before there is any Rust.
const PAGE: &[&str] = &["page"];

/// Modules that only the service worker says, which has no Rust: what the hub calls out.
const WORKER: &[&str] = &["call"];
/// The bells' own words, which the worker says as well.
const WORKER_TOO: &[&str] = &[
    "bell-first",
    "bell-first-next",
    "bell-sweep",
    "bell-sweep-next",
    "bell-last",
    "bell-last-next",
    "bell-last-spark",
    "bell-last-spark-next",
    "bell-clear",
    "bell-clear-next",
];

/// Who says a message.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Home {
    /// shared-core: functions take the words as their first argument.
    Core,
    /// The app: functions ask `text` and `fill`, which stand beside where they are included.
    App,
    /// The script that starts the page.
    Page,
    /// The service worker.
    Worker,
}

impl Home {
    fn of(message: &Message) -> Self {
        match message.module() {
            module if CORE.contains(&module) => Self::Core,
            module if PAGE.contains(&module) => Self::Page,
            module if WORKER.contains(&module) => Self::Worker,
            _ => Self::App,
        }
    }

    /// The rules are a library, of whose words nobody else has a use; the app is a program.
    const fn visibility(self) -> &'static str {
        match self {
            Self::Core => "pub(crate)",
            Self::App | Self::Page | Self::Worker => "pub",
        }
    }
}

impl Book {
    /// The functions of one home. Each is named once and unused ones are found by the compiler.
    pub fn rust(&self, home: Home) -> String {
        let mut modules: BTreeMap<&str, String> = BTreeMap::new();
        for (number, message) in self.english().iter().enumerate().filter(|(_, message)| Home::of(message) == home) {
            modules.entry(message.module()).or_default().push_str(&function(number, message, home));
        }
        let mut out = String::new();
        for (module, functions) in modules {
            let (seen, uses) = (home.visibility(), uses(&functions, home));
            let _ = write!(out, "/// Words of `{module}`.\n{seen} mod {module} {{\n{uses}{functions}}}\n");
        }
        if home == Home::Core {
            let _ = writeln!(out, "/// What every catalogue of this build begins with, after its language.");
            let _ = writeln!(out, "const FINGERPRINT: &str = {:?};", self.fingerprint());
            let _ =
                writeln!(out, "/// How many messages there are.\nconst MESSAGES: usize = {};", self.english().len());
        }
        out
    }

    /// The messages of the page's own script: their names without the prefix, and their texts.
    pub fn page(&self, language: crate::Language) -> Vec<(String, String)> {
        let messages = &self.texts[language as usize];
        let own = messages.iter().filter(|message| Home::of(message) == Home::Page);
        own.map(|message| (message.name(), said(message))).collect()
    }
}

impl Book {
    /// The service worker's words in all languages, as a script: texts by message, or by CLDR's name of the number.
    pub fn worker(&self) -> String {
        let mut out = String::from("self.SAID = {\n");
        for (language, messages) in Language::ALL.into_iter().zip(&self.texts) {
            let _ = writeln!(out, "{}: {{", language.tag());
            let own =
                |message: &&Message| Home::of(message) == Home::Worker || WORKER_TOO.contains(&message.id.as_str());
            for message in messages.iter().filter(own) {
                let _ = writeln!(out, "{:?}: {},", message.id, literal(message));
            }
            out.push_str("},\n");
        }
        out.push_str("};\n");
        out
    }
}

/// A message as JavaScript. Debug's escapes of a text without control characters are JavaScript's too.
fn literal(message: &Message) -> String {
    match &message.form {
        Form::Plain(pieces) => format!("{:?}", told(pieces)),
        Form::Counted { variants, .. } => {
            let variant = |(key, pieces): &(Key, Vec<Piece>)| format!("{}: {:?}", name_of(*key), told(pieces));
            format!("{{ {} }}", variants.iter().map(variant).collect::<Vec<_>>().join(", "))
        }
    }
}

fn name_of(key: Key) -> String {
    match key {
        Key::Exactly(digit) => digit.to_string(),
        Key::One => "one".to_owned(),
        Key::Many => "many".to_owned(),
        Key::Other => "other".to_owned(),
    }
}

fn uses(functions: &str, home: Home) -> String {
    let own = if home == Home::Core {
        [("words: &Words", "Words"), ("", "")]
    } else {
        [("fill(", "fill"), ("{ text(", "text")]
    };
    let all = [("Arg::", "Arg"), own[0], own[1]];
    let names: Vec<&str> = all
        .into_iter()
        .filter(|(sign, name)| !name.is_empty() && functions.contains(sign))
        .map(|(_, name)| name)
        .collect();
    match &names[..] {
        [name] => format!("use super::{name};\n"),
        names => format!("use super::{{{}}};\n", names.join(", ")),
    }
}

fn function(number: usize, message: &Message, home: Home) -> String {
    let mut parameters: Vec<String> = Vec::new();
    if home == Home::Core {
        parameters.push("words: &Words".into());
    }
    let from = if home == Home::Core { "words." } else { "" };
    let mut given: Vec<String> = Vec::new();
    for (argument, kind) in &message.arguments {
        let argument = argument.replace('-', "_");
        let (kind, wrapped) = match kind {
            Kind::Text => ("&str", format!("Arg::Text({argument})")),
            Kind::Number => ("i64", format!("Arg::Number({argument})")),
        };
        parameters.push(format!("{argument}: {kind}"));
        given.push(wrapped);
    }
    let (result, body) = if given.is_empty() {
        ("&'static str", format!("{from}text({number}).said()"))
    } else {
        ("String", format!("{from}fill({number}, &[{}])", given.join(", ")))
    };
    let (said, name, parameters) = (said(message), message.name(), parameters.join(", "));
    let seen = home.visibility();
    format!("/// `{said}`\n#[inline]\n{seen} fn {name}({parameters}) -> {result} {{ {body} }}\n")
}

/// The text, or the one for most numbers, with the arguments as Fluent writes them.
fn said(message: &Message) -> String {
    let pieces = match &message.form {
        Form::Plain(pieces) => pieces,
        Form::Counted { variants, .. } => variants.last().map_or(&[][..], |(_, pieces)| pieces),
    };
    told(pieces).replace('`', "'")
}

fn told(pieces: &[Piece]) -> String {
    let told = pieces.iter().map(|piece| match piece {
        Piece::Text(text) => text.clone(),
        Piece::Argument(name) => format!("{{ ${name} }}"),
    });
    told.collect()
}
