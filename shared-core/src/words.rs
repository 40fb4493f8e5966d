//! The words of one language, read from its catalogue, and the functions that say each of them.
//!
//! Words are an argument, like the clock: nothing here or below knows which language is spoken. A phone is sent the
//! catalogue of its own language and hands it in; [`EN`], [`ES`] and [`NL`] are linked only by who names them, the hub's
//! command. The catalogues and the functions of `said` are made from the Fluent files of `shared-core/words/` when this crate is
//! built, so they agree; a catalogue of another build is not read. The reader is as small as it can be, because every
//! phone carries it: see `shared-core/words/src/catalogue.rs` for what a line looks like.

#[cfg(test)]
mod tests;

/// What shared-core says itself.
pub(crate) mod said {
    use super::{Arg, Words};

    include!(concat!(env!("OUT_DIR"), "/said.rs"));

    pub(super) const HEAD: &str = FINGERPRINT;
    pub(super) const LINES: usize = MESSAGES;
}

/// The catalogue of English.
pub const EN: &str = include_str!(concat!(env!("OUT_DIR"), "/en.txt"));
/// The catalogue of Spanish.
pub const ES: &str = include_str!(concat!(env!("OUT_DIR"), "/es.txt"));
/// The catalogue of Dutch.
pub const NL: &str = include_str!(concat!(env!("OUT_DIR"), "/nl.txt"));

/// Begins a choice and parts its variants.
const MARK: char = '\u{1}';

/// The words of a language.
#[derive(Debug)]
pub struct Words {
    tag: &'static str,
    texts: Vec<Text>,
}

/// A message as its language has it. Handed out by where it stands: that is one word to return and not two, and is
/// done in hundreds of places.
#[derive(Debug)]
pub struct Text(&'static str);

impl Text {
    /// What it says.
    #[inline]
    pub const fn said(&self) -> &'static str {
        self.0
    }
}

/// What goes into a text.
#[derive(Clone, Copy, Debug)]
pub enum Arg<'a> {
    /// A text, as it is.
    Text(&'a str),
    /// A whole number, which may choose between forms.
    Number(i64),
}

impl Words {
    /// Reads a catalogue; `None` if it is not one of this build.
    pub fn read(catalogue: &'static str) -> Option<Self> {
        let mut lines = catalogue.split('\n');
        let mut head = lines.next()?.split(' ');
        let tag = head.next()?;
        let texts: Vec<Text> = lines.map(Text).collect();
        (head.nth(1) == Some(said::HEAD) && texts.len() == said::LINES).then_some(Self { tag, texts })
    }

    /// English, which is always there for who links [`EN`].
    pub fn english() -> Self {
        Self { tag: "en", texts: EN.split('\n').skip(1).map(Text).collect() }
    }

    /// The language's tag (BCP 47).
    pub const fn tag(&self) -> &'static str {
        self.tag
    }

    /// The message of a number, which has no arguments.
    #[inline(never)]
    pub fn text(&self, number: usize) -> &Text {
        self.texts.get(number).unwrap_or(&Text(""))
    }

    /// The message of a number with its arguments put in.
    #[inline(never)]
    pub fn fill(&self, number: usize, args: &[Arg]) -> String {
        let mut pieces = self.chosen(self.text(number).0, args).split('{');
        let mut out = pieces.next().unwrap_or_default().to_owned();
        for piece in pieces {
            match of_digit(args, piece) {
                Some(Arg::Text(text)) if text.chars().any(runs_left) => out.extend([FIRST_STRONG, text, END]),
                Some(Arg::Text(text)) => out.push_str(text),
                Some(Arg::Number(number)) => out.push_str(&number.to_string()),
                None => {}
            }
            // Behind the digit and the brace.
            out.push_str(piece.get(2..).unwrap_or_default());
        }
        out
    }

    /// The variant for the number that a choice is made by; a line without a choice is itself.
    fn chosen(&self, line: &'static str, args: &[Arg]) -> &'static str {
        let Some(choice) = line.strip_prefix(MARK) else { return line };
        let Some(Arg::Number(count)) = of_digit(args, choice) else { return "" };
        let form = form(self.tag, count);
        let fits = |variant: &&str| {
            let key = variant.as_bytes().first().copied().unwrap_or_default();
            key == b'*' || key == form || (key.is_ascii_digit() && i64::from(key - b'0') == count)
        };
        choice
            .get(1..)
            .unwrap_or_default()
            .split(MARK)
            .find(fits)
            .and_then(|variant| variant.get(1..))
            .unwrap_or_default()
    }
}

/// Unicode's isolates (UAX #9): what stands between them is laid out by its own letters, and turns nothing around it.
const FIRST_STRONG: &str = "\u{2068}";
const END: &str = "\u{2069}";

/// Whether a letter is of a script that is written from right to left: Unicode's blocks of those.
const fn runs_left(c: char) -> bool {
    matches!(c, '\u{590}'..='\u{8ff}' | '\u{fb1d}'..='\u{fdff}' | '\u{fe70}'..='\u{fefe}' | '\u{10800}'..='\u{10fff}'
        | '\u{1e800}'..='\u{1efff}')
}

/// The argument that a digit at the start of a text names.
fn of_digit<'a>(args: &[Arg<'a>], text: &str) -> Option<Arg<'a>> {
    let digit = text.as_bytes().first()?.wrapping_sub(b'0');
    args.get(usize::from(digit)).copied()
}

/// The plural form of a whole number: `o` one, `m` many, `*` other. Unicode CLDR's rules for cardinal numbers, of which
/// whole numbers need these: in all three languages 1 is `one`; in Spanish whole millions are `many`. A test holds them
/// against an independent library.
fn form(tag: &str, count: i64) -> u8 {
    let count = count.unsigned_abs();
    match count {
        1 => b'o',
        _ if tag == "es" && count != 0 && count.is_multiple_of(1_000_000) => b'm',
        _ => b'*',
    }
}
