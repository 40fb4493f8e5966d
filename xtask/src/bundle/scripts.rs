//! The app's own scripts as one file: small files compress badly one by one, and each is a request.
//!
//! They import nothing of each other, so one after the other is the same as each by itself, as long as no two have a
//! name at their top in common; where two have, the bundle stops. Nothing in them is rewritten.

use std::collections::BTreeMap;

use anyhow::{Context, Result, bail};

use super::sources::Files;

/// Where they are together.
const ONE: &str = "/own.js";
const GLUE: &str = "/app.js";

/// Puts the glue's snippets into one script, and lets the glue import that.
pub(super) fn join(files: &mut Files) -> Result<()> {
    let own: Vec<String> = files.keys().filter(|path| path.starts_with("/snippets/")).cloned().collect();
    let (mut one, mut tops) = (String::new(), BTreeMap::new());
    let mut glue = text(files.get(GLUE).context("the glue is not there")?)?.to_owned();
    for path in own {
        let script = files.remove(&path).unwrap_or_default();
        let script = text(&script)?;
        for name in tops_of(script) {
            if let Some(other) = tops.insert(name.to_owned(), path.clone()) {
                bail!("`{name}` stands at the top of {other} and of {path}: the scripts of app/js are sent as one");
            }
        }
        one.push_str(script);
        one.push('\n');
        for quote in ['\'', '"'] {
            glue = glue.replace(&format!("from {quote}.{path}{quote}"), &format!("from {quote}.{ONE}{quote}"));
        }
    }
    files.insert(GLUE.to_owned(), once(&glue).into_bytes());
    files.insert(ONE.to_owned(), one.into_bytes());
    Ok(())
}

fn text(bytes: &[u8]) -> Result<&str> {
    std::str::from_utf8(bytes).context("a script is not UTF-8")
}

/// The names that a script declares at its top.
fn tops_of(script: &str) -> impl Iterator<Item = &str> {
    script.lines().filter_map(|line| {
        let line = line.strip_prefix("export ").unwrap_or(line);
        let line = line.strip_prefix("async ").unwrap_or(line);
        let kind = ["function ", "function* ", "const ", "let ", "class "];
        let name = kind.iter().find_map(|kind| line.strip_prefix(kind))?;
        name.split(|letter: char| !letter.is_alphanumeric() && letter != '_').next()
    })
}

/// The glue with one name for the script instead of one for each file that it was.
fn once(glue: &str) -> String {
    let alias = |line: &str| -> Option<String> {
        let (name, path) = line.strip_prefix("import * as ")?.split_once(" from ")?;
        path.contains(ONE).then(|| name.to_owned())
    };
    let names: Vec<String> = glue.lines().filter_map(alias).collect();
    let Some((first, others)) = names.split_first() else { return glue.to_owned() };
    let mut out = String::with_capacity(glue.len());
    for line in glue.lines().filter(|line| alias(line).is_none_or(|name| name == *first)) {
        let other = others.iter().find(|name| line.ends_with(&format!("\": {name},")));
        match other.and_then(|name| line.strip_suffix(&format!("{name},"))) {
            Some(label) => out.extend([label, first, ",\n"]),
            None => out.extend([line, "\n"]),
        }
    }
    out
}

#[cfg(test)]
mod tests {
    use super::*;

    fn files(bell: &str) -> Files {
        let glue = "import { path } from './snippets/a/js/address.js';
import * as import1 from \"./snippets/a/js/bell.js\"
import * as import2 from \"./snippets/a/js/keys.js\"
        \"./snippets/a/js/bell.js\": import1,
        \"./snippets/a/js/keys.js\": import2,
";
        let scripts = [
            ("/app.js", glue),
            ("/snippets/a/js/address.js", "export const path = 1;"),
            ("/snippets/a/js/bell.js", bell),
            ("/snippets/a/js/keys.js", "async function sign(path) {}"),
        ];
        scripts.into_iter().map(|(path, script)| (path.to_owned(), script.as_bytes().to_vec())).collect()
    }

    #[test]
    fn the_glue_imports_one_script() {
        let mut files = files("export function ring() {}");
        join(&mut files).expect("no name stands twice");
        let of = |path: &str| String::from_utf8(files[path].clone()).expect("text");
        assert_eq!(of(ONE), "export const path = 1;\nexport function ring() {}\nasync function sign(path) {}\n");
        let want = "import { path } from './own.js';
import * as import1 from \"./own.js\"
        \"./snippets/a/js/bell.js\": import1,
        \"./snippets/a/js/keys.js\": import1,
";
        assert_eq!(of(GLUE), want);
        assert_eq!(files.len(), 2);
    }

    #[test]
    fn a_name_at_the_top_of_two_stops_the_bundle() {
        let fault = join(&mut files("let path = 2;")).expect_err("the name is taken").to_string();
        assert!(fault.contains("`path`") && fault.contains("bell.js"), "{fault}");
    }
}
