//! Checks across files: what must be where, and what must agree with what.

use super::Finding;
use super::files::File;

/// What lies at the root, as DEVELOPERS.md maps it.
const TOP: &[&str] = &[
    "Cargo.toml",
    "README.md",
    "DEVELOPERS.md",
    "LICENSE",
    "index.html",
    ".cargo/config.toml",
    ".ci/run",
    "shared-core/src/lib.rs",
    "app/src/main.rs",
    "hub/src/main.rs",
    "public/sw.js",
    "tests/Cargo.toml",
    "shared-core/words/en.ftl",
    "xtask/src/main.rs",
];

/// The names of files in a crate's or folder's root that nobody declares.
const ROOTS: &[&str] = &["main.rs", "lib.rs", "mod.rs", "build.rs"];

/// Every module is declared by the one above it.
pub(super) fn forgotten_files(files: &[File]) -> Vec<Finding> {
    let mut found = Vec::new();
    for file in files.iter().filter(|file| file.is_rust()) {
        let (folder, name) = file.path.rsplit_once('/').unwrap_or(("", &file.path));
        let Some((above, module)) = declared_by(folder, name) else { continue };
        let parents: Vec<_> = files.iter().filter(|other| above.contains(&other.path)).collect();
        // A folder without a root holds programs of their own: tests, examples.
        if !parents.is_empty() && !parents.iter().any(|parent| declares(parent, module)) {
            found.push(Finding::new(file, 0, format!("no `mod {module};` above it")));
        }
    }
    found
}

/// Which files may declare this one, and by what name.
fn declared_by<'a>(folder: &'a str, name: &'a str) -> Option<(Vec<String>, &'a str)> {
    let (of, module) = match name {
        "mod.rs" => folder.rsplit_once('/')?,
        name if ROOTS.contains(&name) => return None,
        name => (folder, name.strip_suffix(".rs")?),
    };
    let mut above: Vec<_> = ["mod.rs", "lib.rs", "main.rs"].iter().map(|root| format!("{of}/{root}")).collect();
    above.push(format!("{of}.rs"));
    Some((above, module))
}

fn declares(parent: &File, module: &str) -> bool {
    let declaration = format!("mod {module};");
    parent.text.lines().any(|line| {
        let line = line.trim();
        line == declaration || line.ends_with(&format!(" {declaration}"))
    })
}

/// Everything of [`TOP`] is there.
pub(super) fn top_level(files: &[File]) -> Vec<Finding> {
    let missing = TOP.iter().filter(|path| !files.iter().any(|file| file.path == **path));
    missing.map(|path| Finding { path: (*path).to_owned(), line: 0, what: "is not there".to_owned() }).collect()
}

/// DEVELOPERS.md has every `pub mod` of shared-core in code marks.
pub(super) fn mapped_modules(files: &[File]) -> Vec<Finding> {
    let file = |path: &str| files.iter().find(|file| file.path == path);
    let (Some(core), Some(map)) = (file("shared-core/src/lib.rs"), file("DEVELOPERS.md")) else { return Vec::new() };
    let modules = core.lines().filter_map(|(_, line)| line.strip_prefix("pub mod ")?.strip_suffix(';'));
    let named = |module: &str| ["`", "/`", ".rs`"].iter().any(|end| map.text.contains(&format!("`{module}{end}")));
    let missing = modules.filter(|module| !named(module));
    missing.map(|module| Finding::new(map, 0, format!("does not say what `{module}` is for"))).collect()
}

/// The most parts that screens are built of.
const PARTS_MAX: usize = 12;
/// What lies beside them, and what parts and screens are drawn with.
const NO_PARTS: &[&str] = &["pub mod kept;", "pub mod live;"];

/// The app has no more parts than [`PARTS_MAX`].
pub(super) fn a_dozen_parts(files: &[File]) -> Vec<Finding> {
    let Some(file) = files.iter().find(|file| file.path == "app/src/parts/mod.rs") else {
        return vec![Finding { path: "app/src/parts/mod.rs".into(), line: 0, what: "is not there".into() }];
    };
    let parts = file.lines().filter(|(_, line)| line.starts_with("pub mod ") && !NO_PARTS.contains(line));
    parts
        .skip(PARTS_MAX)
        .map(|(number, _)| Finding::new(file, number, "a thirteenth part: make it one of the twelve"))
        .collect()
}

/// `wasm-bindgen` of the app and `wasm-bindgen-cli-support` of xtask are pinned to one version.
pub(super) fn one_bindgen(files: &[File]) -> Vec<Finding> {
    let pin = |path: &str, package: &str| {
        let file = files.iter().find(|file| file.path == path)?;
        let start = format!("{package} = \"=");
        file.lines().find_map(|(number, line)| Some((file, number, line.strip_prefix(&start)?.strip_suffix('"')?)))
    };
    let (bound, binder) = (pin("Cargo.toml", "wasm-bindgen"), pin("xtask/Cargo.toml", "wasm-bindgen-cli-support"));
    match (bound, binder) {
        (Some((_, _, bound)), Some((_, _, binder))) if bound == binder => Vec::new(),
        (_, Some((file, line, binder))) => vec![Finding::new(file, line, format!("{binder} is not what the app pins"))],
        _ => vec![Finding { path: "xtask/Cargo.toml".into(), line: 0, what: "both must be pinned with `=`".into() }],
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn files(list: &[(&str, &str)]) -> Vec<File> {
        list.iter().map(|(path, text)| File::new(path, text)).collect()
    }

    fn paths(findings: &[Finding]) -> Vec<&str> {
        findings.iter().map(|finding| finding.path.as_str()).collect()
    }

    #[test]
    fn forgotten_files_are_seen() {
        let list = files(&[
            ("a/src/lib.rs", "pub mod b;\npub(crate) mod c;\n#[cfg(test)]\nmod tests;"),
            ("a/src/b.rs", "mod inner;"),
            ("a/src/b/inner.rs", ""),
            ("a/src/b/lost.rs", ""),
            ("a/src/c/mod.rs", "mod d;"),
            ("a/src/c/d.rs", ""),
            ("a/src/c/e.rs", ""),
            ("a/src/tests.rs", ""),
            ("a/src/f/mod.rs", ""),
            ("a/tests/alone.rs", ""),
            ("t/standards/main.rs", "mod osha;"),
            ("t/standards/osha.rs", ""),
            ("t/standards/niosh.rs", ""),
        ]);
        let found = forgotten_files(&list);
        assert_eq!(paths(&found), ["a/src/b/lost.rs", "a/src/c/e.rs", "a/src/f/mod.rs", "t/standards/niosh.rs"]);
    }

    #[test]
    fn the_thirteenth_part_is_seen() {
        let of = |parts: usize| {
            let text = "pub mod part;\n".repeat(parts) + "pub mod kept;\npub mod live;\n";
            a_dozen_parts(&files(&[("app/src/parts/mod.rs", &text)])).len()
        };
        assert_eq!([of(12), of(13), a_dozen_parts(&[]).len()], [0, 1, 1]);
    }

    #[test]
    fn the_map_is_whole() {
        let core = ("shared-core/src/lib.rs", "pub mod plan;\npub mod log;\nmod inner;\n");
        for (map, found) in [("`plan` and `log/`", 0), ("`plan.rs`, `log`", 0), ("plan and `log`", 1), ("", 2)] {
            assert_eq!(mapped_modules(&files(&[core, ("DEVELOPERS.md", map)])).len(), found, "{map}");
        }
        assert_eq!(top_level(&files(&[core])).len(), TOP.len() - 1);
    }

    #[test]
    fn versions_agree() {
        for (bound, binder, found) in [
            ("wasm-bindgen = \"=0.2.1\"", "wasm-bindgen-cli-support = \"=0.2.1\"", 0),
            ("wasm-bindgen = \"=0.2.1\"", "wasm-bindgen-cli-support = \"=0.2.2\"", 1),
            ("wasm-bindgen = \"0.2.1\"", "wasm-bindgen-cli-support = \"=0.2.1\"", 1),
            ("", "", 1),
        ] {
            let list = files(&[("Cargo.toml", bound), ("xtask/Cargo.toml", binder)]);
            assert_eq!(one_bindgen(&list).len(), found, "{bound} {binder}");
        }
    }
}
