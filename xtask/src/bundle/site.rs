//! From files with the names that people gave them to the site that is served.
//!
//! A file is named by its content after every file that it names has been, so that equal names mean equal bytes all
//! the way down. The page, the manifest and the service worker keep their names, because browsers come back for
//! exactly those. Pure: bytes in, bytes out.

use std::collections::{BTreeMap, BTreeSet};
use std::fmt::Write as _;

use anyhow::{Context, Result, bail};
use sha2::{Digest, Sha256};

use super::references::rewrite;
use super::sources::Files;

/// Where files named by their content live; the hub lets them be cached for ever.
const ASSETS: &str = "/assets/";
/// The page, filled in last but one.
const PAGE: &str = "/index.html";
/// The service worker, filled in last.
const WORKER: &str = "/sw.js";
/// What starts the app; what it names is worth fetching early.
const START: &str = "/start.js";
/// How the paths of what the page gets later begin.
const LATER: &str = "/later";
/// Files that keep their names.
const NAMED: &[&str] = &[PAGE, WORKER, "/manifest.webmanifest", "/favicon.ico", "/robots.txt"];
/// Files that can name others.
const TEXT: &[&str] = &["html", "css", "js", "mjs", "webmanifest"];
/// In these a full path that leads nowhere is a mistake. Scripts also name what the hub answers.
const STRICT: &[&str] = &["html", "css", "webmanifest"];

/// Names and fills in everything; the result is by path on the site.
pub(super) fn assemble(sources: &Files) -> Result<Files> {
    let mut naming = Naming { sources, named: BTreeMap::new(), under_way: BTreeSet::new(), files: Files::new() };
    for path in sources.keys() {
        naming.name(path)?;
    }
    let Naming { named, mut files, .. } = naming;
    let build = build_of(&files);
    let page = text(&files, PAGE)?;
    let page = fill(PAGE, &page, &[("{{build}}", &build), ("{{preloads}}", &preloads(sources, &named)?)])?;
    files.insert(PAGE.to_owned(), page.into_bytes());

    let kept: Vec<String> = files.keys().filter(|path| *path != WORKER).map(|path| format!("\"{path}\"")).collect();
    let worker = text(&files, WORKER)?;
    let worker = fill(WORKER, &worker, &[("{{build}}", &build), ("{{files}}", &format!("[{}]", kept.join(",")))])?;
    files.insert(WORKER.to_owned(), worker.into_bytes());
    Ok(files)
}

/// The work of naming, as far as it has come.
struct Naming<'a> {
    sources: &'a Files,
    named: BTreeMap<String, String>,
    under_way: BTreeSet<String>,
    files: Files,
}

impl Naming<'_> {
    /// The name of a file on the site, having named all that it names.
    fn name(&mut self, path: &str) -> Result<String> {
        if let Some(name) = self.named.get(path) {
            return Ok(name.clone());
        }
        let bytes = self.sources.get(path).with_context(|| format!("{path} is not there"))?;
        if !self.under_way.insert(path.to_owned()) {
            bail!("{path} names itself by way of others, so it cannot be named by its content");
        }
        let bytes = if TEXT.contains(&extension(path)) { self.renamed(path, bytes)? } else { bytes.clone() };
        let name = if NAMED.contains(&path) { path.to_owned() } else { named_by_content(path, &bytes) };
        self.files.insert(name.clone(), bytes);
        self.named.insert(path.to_owned(), name.clone());
        Ok(name)
    }

    /// The bytes of a text file with the names in it made anew.
    fn renamed(&mut self, own: &str, bytes: &[u8]) -> Result<Vec<u8>> {
        let text = std::str::from_utf8(bytes).with_context(|| format!("{own} is not UTF-8"))?;
        let text = rewrite(text, own, |path, meant| {
            if NAMED.contains(&path) {
                return Ok(None);
            }
            if self.sources.contains_key(path) {
                return self.name(path).map(Some);
            }
            if meant && STRICT.contains(&extension(own)) {
                bail!("{own} names {path}, which is not there");
            }
            Ok(None)
        })?;
        Ok(text.into_bytes())
    }
}

/// `/styles/app.css` and its bytes into `/assets/app-0123456789abcdef.css`.
fn named_by_content(path: &str, bytes: &[u8]) -> String {
    let file = path.rsplit('/').next().unwrap_or(path);
    let stem = file.split('.').next().unwrap_or(file);
    format!("{ASSETS}{stem}-{}.{}", digest(bytes), extension(path))
}

/// One name for the whole: any byte of any file changes it.
fn build_of(files: &Files) -> String {
    let all = files.iter().fold(String::new(), |all, (path, bytes)| all + path + " " + &digest(bytes) + "\n");
    digest(all.as_bytes())
}

/// The first 64 bits of SHA-256, in hexadecimal: enough to tell builds apart; nothing is secured by it.
fn digest(bytes: &[u8]) -> String {
    hexadecimal(&Sha256::digest(bytes)[..8])
}

pub(super) fn hexadecimal(bytes: &[u8]) -> String {
    bytes.iter().fold(String::new(), |mut text, byte| {
        let _ = write!(text, "{byte:02x}");
        text
    })
}

/// Tags that let the browser fetch the module and its glue while it still reads the page.
fn preloads(sources: &Files, named: &BTreeMap<String, String>) -> Result<String> {
    let mut reached = BTreeSet::new();
    reach(sources, START, &mut reached)?;
    let tag = |path: &String| {
        if path.starts_with(LATER) {
            return None;
        }
        let href = named.get(path)?;
        match extension(path) {
            "js" => Some(format!("<link rel=\"modulepreload\" href=\"{href}\">")),
            "wasm" => Some(format!(
                "<link rel=\"preload\" href=\"{href}\" as=\"fetch\" type=\"application/wasm\" crossorigin>"
            )),
            _ => None,
        }
    };
    Ok(reached.iter().filter_map(tag).collect::<Vec<_>>().join("\n"))
}

/// Everything that a script names, directly or by way of others.
fn reach(sources: &Files, path: &str, reached: &mut BTreeSet<String>) -> Result<()> {
    let Some(bytes) = sources.get(path) else { return Ok(()) };
    if !reached.insert(path.to_owned()) || !TEXT.contains(&extension(path)) {
        return Ok(());
    }
    let text = std::str::from_utf8(bytes)?;
    rewrite(text, path, |named, _| {
        if !NAMED.contains(&named) {
            reach(sources, named, reached)?;
        }
        Ok(None)
    })?;
    Ok(())
}

fn text(files: &Files, path: &str) -> Result<String> {
    let bytes = files.get(path).with_context(|| format!("{path} is not there"))?;
    Ok(String::from_utf8(bytes.clone())?)
}

/// Puts values in the place of marks; a mark that is missing is a mistake in the template.
fn fill(path: &str, template: &str, values: &[(&str, &str)]) -> Result<String> {
    values.iter().try_fold(template.to_owned(), |text, (mark, value)| {
        anyhow::ensure!(text.contains(mark), "{path} has no {mark}");
        Ok(text.replace(mark, value))
    })
}

pub(super) fn extension(path: &str) -> &str {
    path.rsplit_once('.').map_or("", |(_, extension)| extension)
}

#[cfg(test)]
mod tests {
    use super::*;

    fn sources(extra: &[(&str, &str)]) -> Files {
        let base = [
            (PAGE, "<meta content=\"{{build}}\">{{preloads}}<script src=\"/start.js\"></script><link href=\"/a.css\">"),
            (WORKER, "const BUILD = '{{build}}', FILES = JSON.parse('{{files}}'), PAGE = '/index.html';"),
            (START, "import('/app.js')"),
            ("/app.js", "from './snippets/s/x.js'; new URL('app_bg.wasm', import.meta.url); fetch('/api/x.json')"),
            ("/snippets/s/x.js", "export const x = 1;"),
            ("/app_bg.wasm", "\0asm"),
            ("/a.css", "@font-face { src: url(/fonts/f.woff2) } a:not(.is-plain) {}"),
            ("/fonts/f.woff2", "font"),
        ];
        base.iter().chain(extra).map(|(path, text)| ((*path).to_owned(), text.as_bytes().to_vec())).collect()
    }

    fn get<'a>(files: &'a Files, start: &str) -> (&'a str, &'a str) {
        let found: Vec<_> = files.iter().filter(|(path, _)| path.starts_with(start)).collect();
        assert_eq!(found.len(), 1, "one {start} in {:?}", files.keys());
        (found[0].0, std::str::from_utf8(found[0].1).expect("text"))
    }

    #[test]
    fn every_name_leads_to_a_file() {
        let files = assemble(&sources(&[])).expect("sound sources");
        let (font, _) = get(&files, "/assets/f-");
        assert!(get(&files, "/assets/a-").1.contains(&format!("url({font})")));
        let (snippet, _) = get(&files, "/assets/x-");
        let (module, _) = get(&files, "/assets/app_bg-");
        let (glue, glue_text) = get(&files, "/assets/app-");
        assert_eq!(glue_text, format!("from '{snippet}'; new URL('{module}', import.meta.url); fetch('/api/x.json')"));
        assert_eq!(get(&files, "/assets/start-").1, format!("import('{glue}')"));
        let page = get(&files, PAGE).1;
        for early in [glue, snippet, get(&files, "/assets/start-").0] {
            assert!(page.contains(&format!("<link rel=\"modulepreload\" href=\"{early}\">")), "{early}: {page}");
        }
        assert!(page.contains(&format!("<link rel=\"preload\" href=\"{module}\" as=\"fetch\"")), "{page}");
    }

    #[test]
    fn the_worker_keeps_every_file_but_itself() {
        let files = assemble(&sources(&[])).expect("sound sources");
        let worker = get(&files, WORKER).1;
        for path in files.keys().filter(|path| *path != WORKER) {
            assert!(worker.contains(&format!("\"{path}\"")), "{path}: {worker}");
        }
        assert!(!worker.contains("\"/sw.js\"") && !worker.contains("{{"), "{worker}");
    }

    #[test]
    fn a_change_anywhere_below_changes_every_name_above() {
        let before = assemble(&sources(&[])).expect("sound sources");
        let after = assemble(&sources(&[("/fonts/f.woff2", "another font")])).expect("sound sources");
        assert_ne!(get(&before, "/assets/f-").0, get(&after, "/assets/f-").0);
        assert_ne!(get(&before, "/assets/a-").0, get(&after, "/assets/a-").0);
        assert_eq!(get(&before, "/assets/app-").0, get(&after, "/assets/app-").0);
        assert_ne!(get(&before, WORKER).1, get(&after, WORKER).1, "the build's name");
    }

    #[test]
    fn mistakes_are_named() {
        for (path, content, why) in [
            ("/a.css", "url(/fonts/gone.woff2)", "/a.css names /fonts/gone.woff2, which is not there"),
            ("/snippets/s/x.js", "import '/app.js'", "names itself by way of others"),
            (WORKER, "'{{build}}'", "/sw.js has no {{files}}"),
            (PAGE, "{{preloads}}", "/index.html has no {{build}}"),
        ] {
            let error = assemble(&sources(&[(path, content)])).expect_err(why);
            assert!(format!("{error:#}").contains(why), "{error:#}");
        }
    }
}
