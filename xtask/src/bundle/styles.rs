//! The styles as one file, without what only their writers read.
//!
//! Small files compress badly one by one, and each is a request before anything can be drawn. They are joined in the order
//! in which the page names them, which is the order in which they hold; comments and indentation go, and nothing else.

use anyhow::{Context, Result, ensure};

use super::sources::Files;

/// Where they are together.
const ONE: &str = "/styles.css";
/// Those of the later part, which come with it.
const LATER: &str = "/later.css";
const PAGE: &str = "/index.html";

/// Puts the page's styles into one, and lets the page name that.
pub(super) fn join(files: &mut Files) -> Result<()> {
    let page = text(files.get(PAGE).context("the page is not there")?)?.to_owned();
    let (mut one, mut rest) = (String::new(), String::new());
    for line in page.lines() {
        let named =
            line.trim().strip_prefix("<link rel=\"stylesheet\" href=\"").and_then(|rest| rest.strip_suffix("\">"));
        let Some(path) = named else {
            rest.extend([line, "\n"]);
            continue;
        };
        if one.is_empty() {
            rest.extend(["<link rel=\"stylesheet\" href=\"", ONE, "\">\n"]);
        }
        let style = files.remove(path).with_context(|| format!("{PAGE} names {path}, which is not there"))?;
        let style = text(&style)?;
        // One file's names of others are read from where it stood.
        ensure!(!style.contains("url(.") && !style.contains("@import"), "{path} names files from where it is");
        lean(style, &mut one);
    }
    if let Some(style) = files.remove(LATER) {
        let mut bare = String::new();
        lean(text(&style)?, &mut bare);
        files.insert(LATER.to_owned(), bare.into_bytes());
    }
    files.insert(PAGE.to_owned(), rest.into_bytes());
    files.insert(ONE.to_owned(), one.into_bytes());
    Ok(())
}

fn text(bytes: &[u8]) -> Result<&str> {
    std::str::from_utf8(bytes).context("a style is not UTF-8")
}

/// Copies a style without comments, indentation and empty lines. No string here holds what begins a comment.
fn lean(style: &str, out: &mut String) {
    let mut bare = String::with_capacity(style.len());
    let mut rest = style;
    while let Some((before, from)) = rest.split_once("/*") {
        bare.push_str(before);
        rest = from.split_once("*/").map_or("", |(_, after)| after);
    }
    bare.push_str(rest);
    for line in bare.lines().map(str::trim).filter(|line| !line.is_empty()) {
        out.extend([line, "\n"]);
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn joined(page: &str, a: &str, b: &str) -> Result<Files> {
        let sources = [(PAGE, page), ("/styles/a.css", a), ("/styles/b.css", b)];
        let mut files: Files =
            sources.iter().map(|(path, text)| ((*path).to_owned(), text.as_bytes().to_vec())).collect();
        join(&mut files).map(|()| files)
    }

    const BOTH: &str = "<head>\n  <link rel=\"stylesheet\" href=\"/styles/b.css\">\n  <link rel=\"stylesheet\" href=\"/styles/a.css\">\n</head>\n";

    #[test]
    fn the_page_names_one_style_in_the_order_of_both() {
        let files =
            joined(BOTH, "/* why */\na {\n  x: url(/f.woff2); /* here */\n}\n", "b{}\n\n").expect("both are there");
        let of = |path: &str| String::from_utf8(files[path].clone()).expect("text");
        assert_eq!(of(ONE), "b{}\na {\nx: url(/f.woff2);\n}\n");
        assert_eq!(of(PAGE), "<head>\n<link rel=\"stylesheet\" href=\"/styles.css\">\n</head>\n");
        assert_eq!(files.len(), 2);
    }

    #[test]
    fn what_would_be_lost_stops_the_bundle() {
        let gone = "<link rel=\"stylesheet\" href=\"/styles/c.css\">";
        for (page, a, why) in
            [(gone, "", "/styles/c.css, which is not there"), (BOTH, "a{x:url(../f)}", "from where it is")]
        {
            let fault = joined(page, a, "").expect_err(why).to_string();
            assert!(fault.contains(why), "{fault}");
        }
    }
}
