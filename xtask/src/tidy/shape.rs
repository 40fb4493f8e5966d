//! Checks of a file's outward shape: its head, its length, its functions' length, its blanks.

use super::Finding;
use super::files::File;

/// The longest file, tests aside. STYLE: median at most 150.
const FILE_LINES_MAX: usize = 600;
/// The longest function.
const FUNCTION_LINES_MAX: usize = 70;

/// Every Rust file begins with a `//!` line that says something.
pub(super) fn headers(files: &[File]) -> Vec<Finding> {
    let says = |file: &File| file.text.lines().next().and_then(|line| line.strip_prefix("//! ")).is_some();
    let silent = files.iter().filter(|file| file.is_rust() && !says(file));
    silent.map(|file| Finding::new(file, 1, "the first line must be `//! ` and what the file is for")).collect()
}

/// No Rust or JavaScript file is longer than [`FILE_LINES_MAX`], tests aside.
pub(super) fn long_files(files: &[File]) -> Vec<Finding> {
    let code = files.iter().filter(|file| (file.is_rust() || file.has_extension("js")) && !file.is_test());
    let long = code.map(|file| (file, file.code().count())).filter(|(_, lines)| *lines > FILE_LINES_MAX);
    long.map(|(file, lines)| Finding::new(file, 0, format!("{lines} lines, at most {FILE_LINES_MAX}"))).collect()
}

/// No function is longer than [`FUNCTION_LINES_MAX`], tests aside. Formatted code closes a function with a brace that
/// is indented as its first line is.
pub(super) fn long_functions(files: &[File]) -> Vec<Finding> {
    let mut found = Vec::new();
    for file in files.iter().filter(|file| file.is_rust() && !file.is_test()) {
        // Since which line a function is open, and its indent.
        let mut open: Option<(usize, String)> = None;
        for (number, line) in file.code() {
            let indent: String = line.chars().take_while(|c| *c == ' ').collect();
            match &open {
                // It had no body after all: what stands in an `extern` block or a trait.
                Some((_, indent)) if line.starts_with(&format!("{indent})")) && line.ends_with(';') => open = None,
                Some((from, indent)) if line == format!("{indent}}}") => {
                    let lines = number - from + 1;
                    if lines > FUNCTION_LINES_MAX {
                        let what = format!("a function of {lines} lines, at most {FUNCTION_LINES_MAX}");
                        found.push(Finding::new(file, *from, what));
                    }
                    open = None;
                }
                None if begins_function(line.trim_start()) => open = Some((number, indent)),
                _ => {}
            }
        }
    }
    found
}

fn begins_function(line: &str) -> bool {
    let after_visibility = line.strip_prefix("pub ").or_else(|| line.strip_prefix("pub(").and_then(after_bracket));
    let rest = after_visibility.unwrap_or(line);
    let rest = ["const ", "async ", "unsafe ", "extern \"C\" "]
        .iter()
        .fold(rest, |rest, word| rest.strip_prefix(word).unwrap_or(rest));
    // What ends on its own line has no body to measure.
    rest.starts_with("fn ") && !line.ends_with([';', '}'])
}

fn after_bracket(rest: &str) -> Option<&str> {
    rest.split_once(") ").map(|(_, rest)| rest)
}

/// No blank at the end of a line, no tab to indent, and exactly one line end at the end.
pub(super) fn blanks(files: &[File]) -> Vec<Finding> {
    let mut found = Vec::new();
    // Drawings and data come from elsewhere and are kept byte for byte.
    let given = |file: &&File| file.has_extension("svg") || file.path.starts_with("tests/data/");
    for file in files.iter().filter(|file| !given(file)) {
        for (number, line) in file.lines() {
            if line.ends_with([' ', '\t', '\r']) {
                found.push(Finding::new(file, number, "blanks at the line's end"));
            }
            if line.starts_with('\t') {
                found.push(Finding::new(file, number, "a tab; spaces indent here"));
            }
        }
        if !file.text.is_empty() && (!file.text.ends_with('\n') || file.text.ends_with("\n\n")) {
            found.push(Finding::new(file, 0, "must end with one line end"));
        }
    }
    found
}

/// One line about how long sources are, tests aside.
pub(super) fn sizes(files: &[File]) -> String {
    let code = files.iter().filter(|file| file.is_rust() && !file.is_test());
    let mut lines: Vec<usize> = code.map(|file| file.code().count()).collect();
    lines.sort_unstable();
    let at = |share: usize| lines.get((lines.len().max(1) - 1) * share / 100).copied().unwrap_or(0);
    format!("{} sources; lines: median {}, nine in ten up to {}, longest {}", lines.len(), at(50), at(90), at(100))
}

#[cfg(test)]
mod tests {
    use super::*;

    /// How many findings a check has for one file of that text.
    fn check(run: fn(&[File]) -> Vec<Finding>, path: &str, text: &str, found: usize) {
        let findings = run(&[File::new(path, text)]);
        assert_eq!(findings.len(), found, "{path}: {text:?}: {findings:?}");
    }

    #[test]
    fn heads() {
        for (path, text, found) in [
            ("a.rs", "//! What it is for.\n", 0),
            ("a.rs", "//!\n", 1),
            ("a.rs", "// A comment.\n", 1),
            ("a.rs", "", 1),
            ("a.js", "", 0),
        ] {
            check(headers, path, text, found);
        }
    }

    #[test]
    fn lengths() {
        let lines = |count| "let a = 1;\n".repeat(count);
        let tests = format!("\n#[cfg(test)]\nmod tests {{\n{}}}\n", lines(700));
        check(long_files, "a.rs", &lines(600), 0);
        check(long_files, "a.rs", &lines(601), 1);
        check(long_files, "tests/a.rs", &lines(601), 0);
        check(long_files, "a.rs", &(lines(600) + &tests), 0);
        for (head, body, found) in [
            ("fn a() {", 68, 0),
            ("fn a() {", 69, 1),
            ("pub(crate) async fn a(", 69, 1),
            ("pub const fn a() {", 69, 1),
            ("struct A {", 69, 0),
            ("fn a();", 69, 0),
            ("fn a(\n        b: u8,\n    ) -> u8;", 69, 0),
        ] {
            let text = format!("    {head}\n{}    }}\n", "        b();\n".repeat(body));
            check(long_functions, "a.rs", &text, found);
        }
    }

    #[test]
    fn blanks_are_seen() {
        for (text, found) in [("a\n", 0), ("", 0), ("a \n", 1), ("a\t\n", 1), ("\ta\n", 1), ("a", 1), ("a\n\n", 1)] {
            check(blanks, "a.css", text, found);
        }
    }

    #[test]
    fn sizes_are_told() {
        let files: Vec<_> = (1..=11).map(|n| File::new(&format!("{n}.rs"), &"x\n".repeat(n * 10))).collect();
        assert_eq!(sizes(&files), "11 sources; lines: median 60, nine in ten up to 100, longest 110");
        assert_eq!(sizes(&[]), "0 sources; lines: median 0, nine in ten up to 0, longest 0");
    }
}
