//! Short names between the module and its glue, and scripts without what only their writers read.
//!
//! The binder names each import by what it does and a hash, once in the module and once in the script. Nobody reads
//! them on a phone, nor comments and indentation. Nothing else of a script is touched: it stays one that can be read.

use std::collections::BTreeMap;

use anyhow::Result;
use walrus::Module;

use super::site::extension;
use super::sources::Files;

/// Gives the module's imports short names; answers what each is called now.
pub(super) fn shorten(module: &mut Module) -> BTreeMap<String, String> {
    let mut short = BTreeMap::new();
    for import in module.imports.iter_mut().filter(|import| import.name.starts_with("__wb")) {
        let next = format!("_{:x}", short.len());
        import.name.clone_from(short.entry(import.name.clone()).or_insert(next));
    }
    short
}

/// Gives the exports that the binder named short names too; answers what each is called now.
pub(super) fn shorten_exports(module: &mut Module) -> BTreeMap<String, String> {
    let mut short = BTreeMap::new();
    let of_binder = |name: &str| name.starts_with("__wb") || name.starts_with("__externref");
    for export in module.exports.iter_mut().filter(|export| of_binder(&export.name)) {
        let next = format!("_x{:x}", short.len());
        short.insert(std::mem::replace(&mut export.name, next.clone()), next);
    }
    short
}

/// Takes comments and indentation out of every script.
pub(super) fn lean(files: &mut Files) -> Result<()> {
    for (_, bytes) in files.iter_mut().filter(|(path, _)| extension(path) == "js") {
        *bytes = shortened(std::str::from_utf8(bytes)?, &BTreeMap::new()).into_bytes();
    }
    Ok(())
}

/// The script with those names in place of the long ones, without documentation and indentation.
pub(super) fn shortened(script: &str, short: &BTreeMap<String, String>) -> String {
    let mut out = String::with_capacity(script.len());
    let mut documents = false;
    for line in script.lines().map(str::trim).filter(|line| !line.is_empty()) {
        documents |= line.starts_with("/**");
        if !documents && !line.starts_with("//") {
            rename(line, short, &mut out);
            out.push('\n');
        }
        documents &= !line.ends_with("*/");
    }
    out
}

/// Copies a line word by word.
fn rename(line: &str, short: &BTreeMap<String, String>, out: &mut String) {
    let of_word = |letter: char| letter.is_alphanumeric() || letter == '_' || letter == '$';
    let mut rest = line;
    while !rest.is_empty() {
        let word = rest.find(|letter| !of_word(letter)).unwrap_or(rest.len());
        out.push_str(short.get(&rest[..word]).map_or(&rest[..word], String::as_str));
        let gap = rest[word..].find(of_word).map_or(rest.len(), |gap| word + gap);
        out.push_str(&rest[word..gap]);
        rest = &rest[gap..];
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn words_are_renamed_whole_and_nothing_else_is_lost() {
        let short = BTreeMap::from([("__wbg_now_0a".to_owned(), "_0".to_owned())]);
        for (script, shorter) in [
            ("    __wbg_now_0a: function(a) {", "_0: function(a) {\n"),
            ("x__wbg_now_0a __wbg_now_0ab $__wbg_now_0a", "x__wbg_now_0a __wbg_now_0ab $__wbg_now_0a\n"),
            ("/**\n * @param {string} __wbg_now_0a\n */\nexport f;", "export f;\n"),
            ("/** one line */\nf();\n\n// said\ng();", "f();\ng();\n"),
            ("'ä', __wbg_now_0a.b", "'ä', _0.b\n"),
        ] {
            assert_eq!(shortened(script, &short), shorter, "{script}");
        }
    }
}
