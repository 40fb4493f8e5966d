//! WCAG 2.2 of the stylesheet's tokens: contrast of what is read, and of what tells one thing from another, in every theme.
//!
//! Success criteria 1.4.6 (7:1, what matters), 1.4.3 (4.5:1) and 1.4.11 (3:1, the shapes of acts, signs and marks), with
//! the relative luminance that WCAG 2.2 defines. What a token is for is written down here; that it is used so is axe-core's
//! to find, in `tests/browser/accessibility.spec.js`.

use std::collections::BTreeMap;

/// The tokens of a theme, by name.
type Theme = BTreeMap<String, String>;

/// `(ink, ground, least)`: what stands on what, and how far apart they are at least.
const PAIRS: &[(&str, &str, f64)] = &[
    // What is read.
    ("ink", "ground", 7.0),
    ("ink-soft", "ground", 7.0),
    ("ink", "ground-foot", 7.0),
    ("ink-soft", "ground-foot", 7.0),
    ("brass-ink", "brass", 7.0),
    ("brass-ink", "brass-deep", 4.5),
    ("engraved", "steel", 7.0),
    ("engraved", "steel-brushed", 7.0),
    ("engraved", "steel-watch", 7.0),
    ("scribed", "layout-blue", 7.0),
    ("warn-ink", "warn", 7.0),
    ("sign-black", "sign-white", 7.0),
    // What tells one thing from another. The ring of the focus stands off what it rings, so it is seen on the ground.
    ("focus", "ground", 7.0),
    ("focus", "ground-foot", 7.0),
    ("brass-line", "ground-foot", 3.0),
    ("brass", "layout-blue", 3.0),
    ("sign-white", "must", 3.0),
    ("sign-white", "never", 3.0),
    ("sign-white", "safe", 3.0),
    ("sign-white", "fire", 3.0),
    ("sign-black", "warn", 3.0),
];

/// A colour's relative luminance: WCAG 2.2, "relative luminance".
fn luminance(hex: &str) -> f64 {
    let part = |at: usize| {
        let byte = u8::from_str_radix(&hex[at..at + 2], 16).expect("two hexadecimal digits");
        let share = f64::from(byte) / 255.0;
        if share <= 0.04045 { share / 12.92 } else { ((share + 0.055) / 1.055).powf(2.4) }
    };
    assert_eq!(hex.len(), 7, "#rrggbb, not {hex}");
    0.2126 * part(1) + 0.7152 * part(3) + 0.0722 * part(5)
}

/// WCAG 2.2, "contrast ratio".
fn contrast(one: &str, other: &str) -> f64 {
    let (a, b) = (luminance(one), luminance(other));
    (a.max(b) + 0.05) / (a.min(b) + 0.05)
}

/// The tokens that a rule of the stylesheet sets, with what it says before its brace.
fn rules() -> Vec<(String, Theme)> {
    let css = include_str!("../../public/styles/tokens.css");
    let mut rules = Vec::new();
    let (mut outer, mut inner): (String, Option<(String, Theme)>) = (String::new(), None);
    for line in css.lines().map(str::trim) {
        if let Some(opens) = line.strip_suffix('{') {
            if opens.starts_with('@') && !opens.starts_with("@font-face") {
                opens.trim().clone_into(&mut outer);
            } else {
                inner = Some((format!("{outer} {}", opens.trim()).trim().to_owned(), Theme::new()));
            }
        } else if line == "}" {
            match inner.take() {
                Some(rule) => rules.push(rule),
                None => outer.clear(),
            }
        } else if let (Some((_, theme)), Some((name, value))) = (&mut inner, line.split_once(": "))
            && let Some(name) = name.strip_prefix("--")
        {
            theme.insert(name.to_owned(), value.trim_end_matches(';').to_owned());
        }
    }
    rules
}

/// Everything that holds where these rules do, later ones over earlier ones.
fn theme(of: &[&str]) -> Theme {
    let rules = rules();
    let mut theme = Theme::new();
    for wanted in of {
        let (_, tokens) = rules.iter().find(|(rule, _)| rule == wanted).unwrap_or_else(|| panic!("no rule {wanted}"));
        theme.extend(tokens.clone());
    }
    theme
}

const PAPER: &str = ":root";
const DARK: &str = "@media (prefers-color-scheme: dark) :root:not([data-theme=\"light\"])";
const DARK_CHOSEN: &str = ":root[data-theme=\"dark\"]";
const MORE: &str = "@media (prefers-contrast: more) :root";
const MORE_DARK_CHOSEN: &str = "@media (prefers-contrast: more) :root[data-theme=\"dark\"]";
const MORE_DARK: &str =
    "@media (prefers-contrast: more) and (prefers-color-scheme: dark) :root:not([data-theme=\"light\"])";

/// Each way that a phone can be set, with the rules that then hold, in their order.
const THEMES: &[(&str, &[&str])] = &[
    ("paper", &[PAPER]),
    ("dark steel", &[PAPER, DARK]),
    ("dark steel, chosen", &[PAPER, DARK_CHOSEN]),
    ("paper, more contrast", &[PAPER, MORE]),
    ("dark steel, more contrast", &[PAPER, MORE, DARK, MORE_DARK]),
    ("dark steel, chosen, more contrast", &[PAPER, MORE, DARK_CHOSEN, MORE_DARK_CHOSEN]),
];

#[test]
fn what_is_read_and_what_is_told_apart_has_its_contrast_in_every_theme() {
    let mut wrong = Vec::new();
    for (name, of) in THEMES {
        let theme = theme(of);
        for (ink, ground, least) in PAIRS {
            let (one, other) = (&theme[*ink], &theme[*ground]);
            let is = contrast(one, other);
            if is < *least {
                wrong.push(format!("{name}: {ink} {one} on {ground} {other} is {is:.2}, not {least}"));
            }
        }
    }
    assert_eq!(wrong, Vec::<String>::new());
}

/// More contrast is never less: every pair that is read is at 7 or more already, and goes up.
#[test]
fn more_contrast_is_more() {
    for (plain, more) in [(0, 3), (1, 4), (2, 5)] {
        let (plain, more) = (theme(THEMES[plain].1), theme(THEMES[more].1));
        for (ink, ground, _) in
            PAIRS.iter().filter(|(_, ground, _)| ["ground", "ground-foot", "steel"].contains(ground))
        {
            let of = |theme: &Theme| contrast(&theme[*ink], &theme[*ground]);
            assert!(of(&more) >= of(&plain), "{ink} on {ground}");
        }
    }
}

/// What the phone chose and what its owner chose look the same.
#[test]
fn a_theme_is_one_theme_however_it_was_chosen() {
    assert_eq!(theme(THEMES[1].1), theme(THEMES[2].1));
    assert_eq!(theme(THEMES[4].1), theme(THEMES[5].1));
}

/// WCAG 2.2: black on white is 21:1; #767676 on white is 4.54:1, #777777 falls short of 4.5 (both from memory, as commonly
/// quoted); a colour on itself is 1:1.
#[test]
fn contrast_is_as_wcag_reckons_it() {
    for (one, other, ratio) in [
        ("#000000", "#ffffff", 21.0),
        ("#767676", "#ffffff", 4.54),
        ("#777777", "#ffffff", 4.48),
        ("#c1121f", "#c1121f", 1.0),
    ] {
        assert!((contrast(one, other) - ratio).abs() < 0.005, "{one} on {other}: {}", contrast(one, other));
    }
}
