//! Finding where one file names another, and naming it anew.
//!
//! A name counts only as a whole: all that stands between two quotes, or between the brackets of `url()`. That holds
//! for HTML, CSS, JavaScript and the manifest alike, so none of them is parsed. Nothing else in a file is touched.

use anyhow::Result;

/// The longest name that is looked at.
const NAME_MAX: usize = 200;

/// Returns `text` with every name replaced for which `anew` knows another.
///
/// `own` is the path of the file itself, from which relative names are read. `anew` is given the full path and
/// whether it was written as one (`/a`, `./a`, `../a`), rather than being a bare word that may be no name at all.
pub(super) fn rewrite(
    text: &str,
    own: &str,
    mut anew: impl FnMut(&str, bool) -> Result<Option<String>>,
) -> Result<String> {
    let mut out = String::with_capacity(text.len());
    let mut rest = text;
    while let Some(open) = rest.find(['"', '\'', '(']) {
        let (before, from) = rest.split_at(open);
        out.push_str(before);
        let close = match from.as_bytes()[0] {
            b'(' => ')',
            quote => char::from(quote),
        };
        out.push_str(&from[..1]);
        rest = &from[1..];
        // `:not(.plain)` names no file.
        if close == ')' && !before.ends_with("url") {
            continue;
        }
        let Some(token) = name_before(rest, close) else { continue };
        // A key of an object is a label: wasm-bindgen lists its imports under the names that the module itself asks for.
        if rest[token.len() + 1..].starts_with(':') {
            continue;
        }
        let end = token.find(['?', '#']).unwrap_or(token.len());
        let (name, suffix) = token.split_at(end);
        let meant = ["/", "./", "../"].iter().any(|start| name.starts_with(start));
        if let Some(new) = anew(&join(own, name), meant)? {
            out.push_str(&new);
            out.push_str(suffix);
            rest = &rest[token.len()..];
        }
    }
    out.push_str(rest);
    Ok(out)
}

/// What stands before `close`, if it can be a file's name.
fn name_before(rest: &str, close: char) -> Option<&str> {
    let can_be = |c: char| c.is_ascii_alphanumeric() || "._-/?#=".contains(c);
    let end = rest.find(|c| !can_be(c))?;
    let token = &rest[..end];
    (rest[end..].starts_with(close) && token.contains('.') && token.len() <= NAME_MAX).then_some(token)
}

/// The full path of `name` as written in the file `own`.
fn join(own: &str, name: &str) -> String {
    if name.starts_with('/') {
        return name.to_owned();
    }
    let mut parts: Vec<&str> = own.split('/').skip(1).collect();
    parts.pop();
    for part in name.split('/') {
        match part {
            "" | "." => {}
            ".." => drop(parts.pop()),
            part => parts.push(part),
        }
    }
    parts.iter().fold(String::new(), |path, part| path + "/" + part)
}

#[cfg(test)]
mod tests {
    use super::*;

    /// One known file, `/a/x.js`, is renamed; everything else must come back as it was.
    fn check(own: &str, text: &str, expected: &str) {
        let done = rewrite(text, own, |path, _| Ok((path == "/a/x.js").then(|| "/assets/x-1.js".to_owned())));
        assert_eq!(done.expect("nothing here fails"), expected, "{text}");
    }

    #[test]
    fn whole_names_are_replaced_and_nothing_else() {
        for (own, text, expected) in [
            ("/index.html", r#"<script src="/a/x.js"></script>"#, r#"<script src="/assets/x-1.js"></script>"#),
            ("/b.js", "import('./a/x.js')", "import('/assets/x-1.js')"),
            ("/a/b.js", "from './x.js'; from \"../a/x.js\"", "from '/assets/x-1.js'; from \"/assets/x-1.js\""),
            ("/a/b.js", "new URL('x.js', import.meta.url)", "new URL('/assets/x-1.js', import.meta.url)"),
            ("/a/b.css", "url(x.js?v#y) url( x.js)", "url(/assets/x-1.js?v#y) url( x.js)"),
            ("/index.html", "'/a/x.jsx' '/b/a/x.js' \"/a/x.js", "'/a/x.jsx' '/b/a/x.js' \"/a/x.js"),
            ("/index.html", "it's /a/x.js, isn't it", "it's /a/x.js, isn't it"),
            ("/index.html", "„ünï\" '/a/x.js'", "„ünï\" '/assets/x-1.js'"),
            ("/index.html", "'../../a/x.js'", "'/assets/x-1.js'"),
            ("/b.js", "{ './a/x.js': import1 }", "{ './a/x.js': import1 }"),
        ] {
            check(own, text, expected);
        }
    }
}
