//! Checks of words: what a file must not say, each word with its reason or its replacement.

use super::Finding;
use super::files::File;

/// This folder names the words that it looks for.
const OWN: &str = "xtask/src/tidy/";

/// A word that must not be there.
struct Word {
    word: &'static str,
    instead: &'static str,
}

/// Ways to have a test that says nothing.
const SILENCED: &[Word] = &[
    Word { word: "#[ignore", instead: "assert what it does today and say why that is wrong" },
    Word { word: "#[should_panic", instead: "assert the error" },
    Word { word: "test.skip(", instead: "assert what it does today and say why that is wrong" },
    Word { word: "test.fixme(", instead: "assert what it does today and say why that is wrong" },
    Word { word: "test.only(", instead: "run one test with `-g`" },
    Word { word: "#[allow(", instead: "`#[expect(.., reason = \"..\")]`, which complains once it is stale" },
    Word { word: "#![allow(", instead: "`#[expect(.., reason = \"..\")]`, which complains once it is stale" },
];

/// Beginnings of a comment that was a test.
const WAS_TEST: &[&str] = &["#[test]", "proptest!", "#[cfg(test)]", "assert!(", "assert_eq!(", "test("];

const FORBIDDEN: &[Word] = &[
    Word { word: "TODO", instead: "do it, or file it as an issue" },
    Word { word: "FIXME", instead: "do it, or file it as an issue" },
    Word { word: "XXX", instead: "do it, or file it as an issue" },
    Word { word: "/work/", instead: "a path from the repository's root" },
    Word { word: "/tmp/", instead: "a temporary folder of the system's choice" },
    Word { word: "/root/", instead: "a path from the repository's root" },
    Word { word: "/home/", instead: "a path from the repository's root" },
    Word { word: "crates.io", instead: "the package's name" },
    Word { word: "docs.rs", instead: "the package's name" },
    Word { word: "npmjs", instead: "the package's name" },
    Word { word: "pypi", instead: "the package's name" },
    Word { word: "rust-lang.org", instead: "the tool's name" },
    Word { word: "deb.debian", instead: "the package's name" },
];

/// What the rules must not reach for. Clocks and hash maps are clippy's part; see shared-core/clippy.toml.
const IMPURE: &[Word] = &[
    Word { word: "web_sys", instead: "the app's shell" },
    Word { word: "js_sys", instead: "the app's shell" },
    Word { word: "wasm_bindgen", instead: "the app's shell" },
    Word { word: "gloo", instead: "the app's shell" },
    Word { word: "leptos", instead: "the app's views" },
    Word { word: "tokio", instead: "the hub" },
    Word { word: "axum", instead: "the hub" },
    Word { word: "sqlx", instead: "the hub" },
    Word { word: "std::fs", instead: "text as an argument" },
    Word { word: "std::net", instead: "messages as arguments" },
    Word { word: "std::env", instead: "an argument" },
    Word { word: "std::process", instead: "a value" },
    Word { word: "println!", instead: "a value" },
    Word { word: "getrandom", instead: "entropy as an argument" },
    Word { word: "thread_rng", instead: "entropy as an argument" },
];

/// What costs kilobytes for each type or place, or a blocked page, and what stands for it.
const DEAR: &[(&str, &str)] = &[
    ("Memo::new(", "`kept` of parts/kept.rs"),
    ("Effect::new(move |_|", "`whenever` of parts/live.rs"),
    ("{move ||", "`live` of parts/live.rs"),
    ("<For ", "`rows` of parts/live.rs"),
    (".show_modal(", "`shown_dialog` of shell/dialog.rs"),
];

/// Where those are.
const DEAR_AT_HOME: &[&str] = &["app/src/parts/kept.rs", "app/src/parts/live.rs"];

/// Lines whose sentences nobody but a developer reads.
const FOR_DEVELOPERS: &[&str] = &["#[error(", ".expect(", "reason = \"", "assert", "#[doc"];

/// Writing by way of a field of the store: a call upon a call, which a signal of a widget's own is not.
const STORE_WRITES: &[&str] = &[").set(", ").update(", ".patch("];
/// Only who draws reads it.
const GALLERY: &str = "app/src/screens/gallery.rs";
const STORE: &str = "app/src/store.rs";

/// No test is switched off.
pub(super) fn silenced_tests(files: &[File]) -> Vec<Finding> {
    let code = files.iter().filter(|file| file.is_rust() || file.has_extension("js") || file.has_extension("ts"));
    let mut found = Vec::new();
    for file in code.filter(|file| !file.path.starts_with(OWN)) {
        found.extend(said(file, SILENCED));
        for (number, line) in file.lines() {
            let comment = line.trim_start().strip_prefix("//").map(str::trim_start);
            if comment.is_some_and(|comment| WAS_TEST.iter().any(|start| comment.starts_with(start))) {
                found.push(Finding::new(file, number, "a test in a comment: run it or remove it"));
            }
        }
    }
    found
}

/// No file says what only one person or one machine understands.
pub(super) fn forbidden(files: &[File]) -> Vec<Finding> {
    files.iter().filter(|file| !file.path.starts_with(OWN)).flat_map(|file| said(file, FORBIDDEN)).collect()
}

/// `shared-core` names nothing of the world outside.
pub(super) fn impure_core(files: &[File]) -> Vec<Finding> {
    // What builds the rules is not the rules.
    let rules = |file: &&File| !file.is_test() && !file.path.ends_with("/build.rs");
    // What makes the words is run by a build, never by a phone.
    let of_core = |file: &&File| file.path.starts_with("shared-core/") && !file.path.starts_with("shared-core/words/");
    let core = files.iter().filter(of_core).filter(rules);
    core.filter(|file| file.is_rust() || file.path.ends_with("/Cargo.toml"))
        .flat_map(|file| said(file, IMPURE))
        .collect()
}

/// Only the store's own file writes to it.
pub(super) fn store_writes(files: &[File]) -> Vec<Finding> {
    let mut found = Vec::new();
    for file in files.iter().filter(|file| file.path.starts_with("app/src/") && file.is_rust() && file.path != STORE) {
        for (number, line) in file.code() {
            if STORE_WRITES.iter().any(|write| line.contains(write)) {
                found.push(Finding::new(file, number, format!("only {STORE} writes; send an intention instead")));
            }
        }
    }
    found
}

/// What the renderer compiles anew for each place goes through the parts that compile it once, and dialogs through what spreads their work.
pub(super) fn dear_views(files: &[File]) -> Vec<Finding> {
    let mut found = Vec::new();
    for file in files.iter().filter(|file| file.path.starts_with("app/src/") && file.is_rust()) {
        if DEAR_AT_HOME.contains(&file.path.as_str()) {
            continue;
        }
        for (number, line) in file.code() {
            for (dear, instead) in DEAR.iter().filter(|(dear, _)| line.contains(dear)) {
                found.push(Finding::new(
                    file,
                    number,
                    format!("`{dear}` is paid for by each phone; instead: {instead}"),
                ));
            }
        }
    }
    found
}

/// No file of the app holds a sentence: sentences are in the Fluent files, so that every language has them.
pub(super) fn sentences(files: &[File]) -> Vec<Finding> {
    let mut found = Vec::new();
    let said = |file: &&File| file.path.starts_with("app/src/") && file.is_rust() && !file.is_test();
    let app = files.iter().filter(said).filter(|file| file.path != GALLERY);
    for file in app {
        for (number, line) in file.code() {
            let for_developers = FOR_DEVELOPERS.iter().any(|sign| line.contains(sign));
            if !for_developers && !line.trim_start().starts_with("//") {
                let literals = line.split('"').skip(1).step_by(2).filter(|literal| is_sentence(literal));
                found.extend(literals.map(|literal| {
                    Finding::new(file, number, format!("`{literal}`; instead: a message of shared-core/words/en.ftl"))
                }));
            }
        }
    }
    found
}

/// A capital, small letters, a blank: what is neither a class nor a name nor markup.
fn is_sentence(literal: &str) -> bool {
    let mut letters = literal.chars();
    letters.next().is_some_and(char::is_uppercase)
        && letters.next().is_some_and(|letter| letter.is_lowercase() || letter == ' ')
        && literal.contains(' ')
}

/// Where a file says any of the words.
fn said(file: &File, words: &[Word]) -> Vec<Finding> {
    let mut found = Vec::new();
    for (number, line) in file.lines() {
        for Word { word, instead } in words.iter().filter(|word| has(line, word.word)) {
            found.push(Finding::new(file, number, format!("`{word}`; instead: {instead}")));
        }
    }
    found
}

/// Whether a line has the word, and not as the middle of a longer one.
fn has(line: &str, word: &str) -> bool {
    let letter = |c: char| c.is_alphanumeric() || c == '_';
    line.match_indices(word).any(|(at, _)| {
        let before = line[..at].chars().next_back().is_some_and(letter);
        let after = line[at + word.len()..].chars().next().is_some_and(letter);
        !(before && word.starts_with(letter) || after && word.ends_with(letter))
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    fn check(run: fn(&[File]) -> Vec<Finding>, path: &str, line: &str, found: usize) {
        let findings = run(&[File::new(path, line)]);
        assert_eq!(findings.len(), found, "{path}: {line}: {findings:?}");
    }

    #[test]
    fn silenced_tests_are_seen() {
        for (path, line, found) in [
            ("a.rs", "#[ignore]", 1),
            ("a.rs", "#[ignore = \"slow\"]", 1),
            ("a.rs", "#[should_panic(expected = \"x\")]", 1),
            ("a.rs", "    // proptest! {", 1),
            ("a.rs", "//    #[test]", 1),
            ("a.rs", "// The test above fails without it.", 0),
            ("a.rs", "/// assert_eq!(a, b);", 0),
            ("a.spec.js", "test.skip('x', () => {", 1),
            ("a.spec.js", "// test('x', () => {", 1),
            ("a.md", "#[ignore]", 0),
        ] {
            check(silenced_tests, path, line, found);
        }
    }

    #[test]
    fn forbidden_words_are_seen() {
        for (line, found) in [
            ("// TODO: later", 1),
            ("let todo = 1;", 0),
            ("AUTODOC", 0),
            ("see /tmp/x", 1),
            ("https://crates.io/x", 1),
            ("the crates io needs", 0),
            ("MAXXXL", 0),
        ] {
            check(forbidden, "a.md", line, found);
        }
    }

    #[test]
    fn the_rules_stay_pure() {
        for (path, line, found) in [
            ("shared-core/src/a.rs", "use web_sys::Window;", 1),
            ("shared-core/src/a.rs", "use std::fs;", 1),
            ("shared-core/src/a.rs", "use std::fmt;", 0),
            ("shared-core/Cargo.toml", "wasm_bindgen = \"1\"", 1),
            ("app/src/a.rs", "use web_sys::Window;", 0),
            ("shared-core/build.rs", "println!(\"cargo::error={why}\");", 0),
        ] {
            check(impure_core, path, line, found);
        }
    }

    #[test]
    fn one_door_writes() {
        for (path, line, found) in [
            ("app/src/screens/a.rs", "view.notice().set(None);", 1),
            ("app/src/screens/a.rs", "view.sync().patch(sync);", 1),
            ("app/src/screens/a.rs", "open.set(true);", 0),
            ("app/src/shell/a.rs", "draft.assemble(signature).write()", 0),
            ("app/src/store.rs", "view.notice().set(None);", 0),
        ] {
            check(store_writes, path, line, found);
        }
    }

    #[test]
    fn sentences_are_in_the_words() {
        for (path, line, found) in [
            ("app/src/screens/a.rs", "<p>\"Nobody is in.\"</p>", 1),
            ("app/src/screens/a.rs", "format!(\"A {thing}\")", 1),
            ("app/src/screens/a.rs", "class=\"row with-act\"", 0),
            ("app/src/screens/a.rs", "let s = \"Sweepbell\";", 0),
            ("app/src/shell/a.rs", "#[error(\"No storage at all\")]", 0),
            ("app/src/screens/a.rs", "// \"No storage at all\"", 0),
            ("app/src/screens/tests.rs", "\"Nobody is in.\"", 0),
            ("hub/src/a.rs", "\"Nobody is in.\"", 0),
        ] {
            check(sentences, path, line, found);
        }
    }

    #[test]
    fn dear_views_go_through_the_parts() {
        for (path, line, found) in [
            ("app/src/screens/a.rs", "let open = Memo::new(move |_| gate.get());", 1),
            ("app/src/screens/a.rs", "{move || open.get()}", 1),
            ("app/src/screens/a.rs", "{live(move || open.get())}", 0),
            ("app/src/screens/a.rs", "value=move || open.get()", 0),
            ("app/src/parts/live.rs", "Effect::new(move |_| act());", 0),
        ] {
            check(dear_views, path, line, found);
        }
    }
}
