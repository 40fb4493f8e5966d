//! From Fluent to messages: what this project does not use of the syntax is a fault at its place.

use std::collections::BTreeMap;

use fluent_syntax::ast::{
    Entry, Expression, InlineExpression, Message as Ast, Pattern, PatternElement, Variant, VariantKey,
};
use fluent_syntax::parser;
use fluent_syntax::unicode::unescape_unicode_to_string;

use crate::message::{Form, Key, Kind, Message, Piece};
use crate::{Fault, Language};

/// Words of Rust that a function cannot be called.
const RUST: &[&str] = &["as", "for", "if", "in", "let", "loop", "match", "move", "ref", "self", "type", "use", "where"];

/// Digits name the arguments in a catalogue.
const ARGUMENTS_MAX: usize = 10;

/// The messages of a file, in its order. What is wrong is added to `faults`.
pub(crate) fn messages(language: Language, text: &str, faults: &mut Vec<Fault>) -> Vec<Message> {
    let resource = match parser::parse(text) {
        Ok(resource) => resource,
        Err((resource, errors)) => {
            let line = |at: usize| text[..at].matches('\n').count() + 1;
            faults.extend(errors.iter().map(|error| Fault::new(language, line(error.pos.start), error.to_string())));
            resource
        }
    };
    let mut found: Vec<Message> = Vec::new();
    for entry in &resource.body {
        match entry {
            Entry::Message(ast) => {
                let line = line_of(text, ast.id.name);
                match message(ast, line) {
                    Ok(message) if found.iter().any(|other| other.id == message.id) => {
                        faults.push(Fault::new(language, line, format!("a second `{}`", message.id)));
                    }
                    Ok(message) => found.push(message),
                    Err(what) => faults.push(Fault::new(language, line, format!("`{}`: {what}", ast.id.name))),
                }
            }
            Entry::Term(term) => {
                let line = line_of(text, &format!("-{}", term.id.name));
                faults.push(Fault::new(language, line, format!("`-{}`: terms are not used here", term.id.name)));
            }
            Entry::Comment(_) | Entry::GroupComment(_) | Entry::ResourceComment(_) | Entry::Junk { .. } => {}
        }
    }
    found
}

/// The line on which an entry begins.
fn line_of(text: &str, id: &str) -> usize {
    let begins = |line: &str| line.strip_prefix(id).is_some_and(|rest| rest.trim_start().starts_with('='));
    text.lines().position(begins).map_or(0, |line| line + 1)
}

fn message(ast: &Ast<&str>, line: usize) -> Result<Message, String> {
    let id = ast.id.name.to_owned();
    let plain = |c: char| c.is_ascii_lowercase() || c.is_ascii_digit() || c == '-';
    if !id.contains('-') || !id.chars().all(plain) {
        return Err("a name is `module-and-more`, in small letters".into());
    }
    if id.split_once('-').is_some_and(|(_, name)| RUST.contains(&name)) {
        return Err("that is a word of Rust; choose another name".into());
    }
    if !ast.attributes.is_empty() {
        return Err("attributes are not used here".into());
    }
    let pattern = ast.value.as_ref().ok_or("it says nothing")?;
    let mut arguments = BTreeMap::new();
    let form = form(pattern, &mut arguments)?;
    if arguments.len() > ARGUMENTS_MAX {
        return Err(format!("more than {ARGUMENTS_MAX} arguments"));
    }
    Ok(Message { id, line, form, arguments })
}

type Arguments = BTreeMap<String, Kind>;

/// A pattern with its choice, if it has one, moved outside: a whole text for each variant.
fn form(pattern: &Pattern<&str>, arguments: &mut Arguments) -> Result<Form, String> {
    let choice = pattern
        .elements
        .iter()
        .position(|element| matches!(element, PatternElement::Placeable { expression: Expression::Select { .. } }));
    let Some(at) = choice else { return Ok(Form::Plain(pieces(&pattern.elements, arguments)?)) };
    let (before, after) =
        (pieces(&pattern.elements[..at], arguments)?, pieces(&pattern.elements[at + 1..], arguments)?);
    let PatternElement::Placeable { expression: Expression::Select { selector, variants } } = &pattern.elements[at]
    else {
        return Err("a choice was expected".into());
    };
    let by = match selector {
        InlineExpression::VariableReference { id } => id.name.to_owned(),
        _ => return Err("a choice is made by a number: `{ $n -> ...`".into()),
    };
    arguments.insert(by.clone(), Kind::Number);
    let mut whole = Vec::new();
    for variant in variants {
        let own = pieces(&variant.value.elements, arguments)?;
        whole.push((key(variant)?, joined(before.iter().cloned().chain(own).chain(after.iter().cloned()))));
    }
    if whole.iter().filter(|(key, _)| *key == Key::Other).count() != 1
        || whole.last().map(|(key, _)| *key) != Some(Key::Other)
    {
        return Err("the last variant, and no other, is `*[other]`".into());
    }
    Ok(Form::Counted { by, variants: whole })
}

fn key(variant: &Variant<&str>) -> Result<Key, String> {
    match variant.key {
        VariantKey::NumberLiteral { value } => match value.parse() {
            Ok(digit @ 0..=9) => Ok(Key::Exactly(digit)),
            _ => Err(format!("`[{value}]`: single numbers are 0 to 9")),
        },
        VariantKey::Identifier { name: "one" } => Ok(Key::One),
        VariantKey::Identifier { name: "many" } => Ok(Key::Many),
        VariantKey::Identifier { name: "other" } if variant.default => Ok(Key::Other),
        VariantKey::Identifier { name } => {
            Err(format!("`[{name}]` is no form that English, Spanish or Dutch has; they have one, many, *other"))
        }
    }
}

fn pieces(elements: &[PatternElement<&str>], arguments: &mut Arguments) -> Result<Vec<Piece>, String> {
    let mut found = Vec::new();
    for element in elements {
        found.push(match element {
            PatternElement::TextElement { value } => Piece::Text((*value).to_owned()),
            PatternElement::Placeable { expression: Expression::Inline(inline) } => inline_piece(inline, arguments)?,
            PatternElement::Placeable { expression: Expression::Select { .. } } => {
                return Err("one choice in a message at most".into());
            }
        });
    }
    let broken = |piece: &Piece| matches!(piece, Piece::Text(text) if text.contains(['{', '\n', '\u{1}']));
    if found.iter().any(broken) {
        return Err("a message stands on one line and holds no brace".into());
    }
    Ok(joined(found.into_iter()))
}

fn inline_piece(inline: &InlineExpression<&str>, arguments: &mut Arguments) -> Result<Piece, String> {
    match inline {
        InlineExpression::StringLiteral { value } => Ok(Piece::Text(unescape_unicode_to_string(value).into_owned())),
        InlineExpression::VariableReference { id } => {
            arguments.entry(id.name.to_owned()).or_insert(Kind::Text);
            Ok(Piece::Argument(id.name.to_owned()))
        }
        InlineExpression::FunctionReference { id, arguments: given } if id.name == "NUMBER" => {
            match (&given.positional[..], &given.named[..]) {
                ([InlineExpression::VariableReference { id }], []) => {
                    arguments.insert(id.name.to_owned(), Kind::Number);
                    Ok(Piece::Argument(id.name.to_owned()))
                }
                _ => Err("`NUMBER($n)` takes one argument and no options here".into()),
            }
        }
        _ => Err("only `{ $text }`, `{ NUMBER($n) }`, `{ \"text\" }` and choices are used here".into()),
    }
}

/// Neighbouring texts as one.
fn joined(pieces: impl Iterator<Item = Piece>) -> Vec<Piece> {
    let mut whole: Vec<Piece> = Vec::new();
    for piece in pieces {
        match (whole.last_mut(), piece) {
            (Some(Piece::Text(text)), Piece::Text(more)) => text.push_str(&more),
            (_, piece) => whole.push(piece),
        }
    }
    whole
}
