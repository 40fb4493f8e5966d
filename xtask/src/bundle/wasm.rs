//! The module itself: compiled, bound to JavaScript, shrunk.
//!
//! `wasm-bindgen` runs as a library of the version that the app is built with, so that the two cannot disagree.

use std::collections::{BTreeMap, BTreeSet};
use std::fs;
use std::ops::Range;
use std::path::{Path, PathBuf};

use anyhow::{Context, Result, bail};
use walrus::Module;
use wasm_bindgen_cli_support::Bindgen;
use wasmparser::{ExternalKind, Parser, Payload, RefType};

use super::split::{self, FIRST, Parts};
use super::{Build, linked, names, order, unused};
use crate::debian;
use crate::program::{program, run};
use crate::root::web_target;
use crate::toolchain::{TARGET, Toolchain};

/// What the compiler may have used, which the optimiser is to be told: older ones refuse what they are not told of.
const FEATURES: &[&str] = &[
    "--enable-bulk-memory",
    "--enable-nontrapping-float-to-int",
    "--enable-sign-ext",
    "--enable-mutable-globals",
    "--enable-reference-types",
    "--enable-multivalue",
];

/// What the app exports for its later part: the function alone by which that is reached.
pub(super) const LATER: &str = "later";

/// Compiles the app and returns where the module is.
pub(super) fn compile(toolchain: Toolchain, build: Build) -> Result<PathBuf> {
    let (profile, features) = match build {
        Build::Release => ("web", ""),
        Build::Dev => ("web-dev", "gallery"),
        Build::Gallery => ("web", "gallery"),
    };
    let mut cargo = toolchain.cargo("rustc");
    cargo.args(["--package", "app", "--profile", profile, "--features", features]);
    if build == Build::Release {
        // Says what names what: `split` asks.
        cargo.args(["--", "-Clink-arg=--emit-relocs"]);
    }
    run(&mut cargo)?;
    Ok(web_target().join(TARGET).join(profile).join("app.wasm"))
}

/// Writes `app.js`, `app_bg.wasm` and the snippets of the crates into an emptied folder.
pub(super) fn bind(module: &Path, glue: &Path, build: Build) -> Result<()> {
    if glue.exists() {
        fs::remove_dir_all(glue)?;
    }
    let mut bindgen = Bindgen::new();
    bindgen.input_path(module).web(true)?.out_name("app").typescript(false).remove_producers_section(true);
    // Names of functions make a developer's traces readable and a phone's download larger.
    bindgen.remove_name_section(build == Build::Release);
    bindgen.generate(glue).context("the module cannot be bound to JavaScript")
}

/// Compiles the reader of codes, which a worker of the app has for itself, and puts it beside the glue.
pub(super) fn reader(toolchain: Toolchain, build: Build, glue: &Path) -> Result<()> {
    let profile = if build == Build::Dev { "web-dev" } else { "web" };
    run(toolchain.cargo("rustc").args([
        "--package",
        "reader",
        "--lib",
        "--crate-type",
        "cdylib",
        "--profile",
        profile,
    ]))?;
    let module = web_target().join(TARGET).join(profile).join("reader.wasm");
    let sent = glue.join("later_reader.wasm");
    if build == Build::Release {
        let made = ["-Os", "--low-memory-unused", "--strip-producers", "--strip-target-features"];
        return run(program("wasm-opt").args(made).args(FEATURES).arg(&module).arg("-o").arg(&sent));
    }
    fs::copy(&module, &sent).map(drop).with_context(|| format!("{} cannot be copied", module.display()))
}

/// Makes sure that the optimiser is there.
pub(super) fn need_optimiser() -> Result<()> {
    debian::need(&["wasm-opt"], &["binaryen"])
}

/// Makes the bound module as small to send as the optimiser can, in place: `-Oz` leaves fewer bytes, which compress to
/// more. It may take it that nothing lies at the first 1,024 addresses: the linker puts the stack there first, and it
/// grows down towards them only to overflow. What it leaves is not written anew by another library, only put in order:
/// it has the shorter way of counting locals.
pub(super) fn shrink(module: &Path, glue: &Path) -> Result<()> {
    let needs = linked::graph(&fs::read(module).context("the linked module cannot be read")?)?.needs(LATER)?;
    let (bound, small) = (glue.join("app_bg.wasm"), glue.join("small.wasm"));
    let mut whole = Module::from_file(&bound).context("the module cannot be read back")?;
    // What the linker wrote is of the module as it was then.
    let of_linker: Vec<String> = whole.customs.iter().map(|(_, custom)| custom.name().to_owned()).collect();
    for name in of_linker.iter().filter(|name| name.starts_with("reloc.") || *name == "linking") {
        whole.customs.remove_raw(name);
    }
    unused::drop_exports(&mut whole);
    let mut short = names::shorten(&mut whole);
    let exports = names::shorten_exports(&mut whole);
    let before = whole.emit_wasm();
    fs::write(&bound, &before)?;
    run(program("wasm-opt").args(["-Os", "--low-memory-unused"]).args(FEATURES).arg(&bound).arg("-o").arg(&small))?;
    let after = fs::read(&small)?;
    fs::remove_file(&small)?;
    let tables = mended(&before, &after)?;
    let left = imports(&after)?;
    short.retain(|_, name| left.contains(name));
    let script = glue.join("app.js");
    let used = unused::without(&fs::read_to_string(&script)?, &short);
    short.extend(exports);
    let later = split::later_functions(&after, &needs, LATER)?;
    let parts = split::split(&order::reordered(&after, tables, &later)?, &later, &needs, LATER)?;
    for part in [&parts.first, &parts.later] {
        wasmparser::validate(part).context("a part of the module is not one")?;
    }
    fs::write(&script, names::shortened(&fetching(&used, &parts)?, &short))?;
    fs::write(&bound, parts.first)?;
    fs::write(glue.join("later_bg.wasm"), parts.later)?;
    Ok(())
}

/// The script with a way to get the later part in place of a call to it. What the first part exports and hands out by its
/// slots is what the later one imports; nothing happened if it could not be had, so it may be asked for again.
fn fetching(script: &str, parts: &Parts) -> Result<String> {
    let call = format!("export function {LATER}() {{\n    wasm.{LATER}();\n}}\n");
    anyhow::ensure!(script.contains(&call), "the script does not call `{LATER}` as it did");
    let (table, Range { start, end }) = (&parts.table, &parts.handed);
    let fetched = format!(
        "export async function {LATER}() {{
const imports = __wbg_get_imports();
const first = imports.{FIRST} = {{ ...wasm }};
for (let slot = {start}; slot < {end}; slot++) first[slot - {start}] = wasm.{table}.get(slot);
const answer = await fetch(new URL('{LATER}_bg.wasm', import.meta.url));
if (!answer.ok) throw new Error(`the later part: ${{answer.status}}`);
const {{ instance }} = await WebAssembly.instantiateStreaming(answer, imports);
instance.exports.{LATER}();
}}
"
    );
    Ok(script.replace(&call, &fetched))
}

/// The table that each exported table is, by the name of its export.
///
/// Debian 12's optimiser (108) writes each table export as the export of table 0, which is the table of functions. The
/// glue then puts the page's objects into it, and the app does not start.
fn mended(before: &[u8], after: &[u8]) -> Result<BTreeMap<String, u32>> {
    let (kinds, exported) = tables(before)?;
    let (left, _) = tables(after)?;
    let mut mended = BTreeMap::new();
    for (name, table) in exported {
        let kind = kinds.get(table as usize);
        let same_kind: Vec<u32> = (0..).zip(&left).filter(|(_, left)| Some(*left) == kind).map(|(at, _)| at).collect();
        let [table] = same_kind[..] else {
            bail!("the optimiser lost the table `{name}`, or there are two that it could be");
        };
        mended.insert(name, table);
    }
    Ok(mended)
}

/// The names of exported tables, and which tables they are.
type Exported = Vec<(String, u32)>;

/// What each table of a module holds, and its exported tables.
fn tables(module: &[u8]) -> Result<(Vec<RefType>, Exported)> {
    let (mut kinds, mut exported) = (Vec::new(), Vec::new());
    for payload in Parser::new(0).parse_all(module) {
        match payload.context("the module cannot be read back")? {
            Payload::TableSection(tables) => {
                for table in tables {
                    kinds.push(table?.ty.element_type);
                }
            }
            Payload::ExportSection(exports) => {
                for export in exports {
                    let export = export?;
                    if export.kind == ExternalKind::Table {
                        exported.push((export.name.to_owned(), export.index));
                    }
                }
            }
            _ => {}
        }
    }
    Ok((kinds, exported))
}

/// The names of what a module imports.
fn imports(module: &[u8]) -> Result<BTreeSet<String>> {
    let mut names = BTreeSet::new();
    for payload in Parser::new(0).parse_all(module) {
        if let Payload::ImportSection(imports) = payload.context("the module cannot be read back")? {
            for import in imports.into_imports() {
                names.insert(import?.name.to_owned());
            }
        }
    }
    Ok(names)
}

#[cfg(test)]
mod tests {
    use super::*;

    /// A table of functions and one of objects; `exported` picks which of them goes out as `objects`.
    fn module(exported: walrus::RefType) -> Vec<u8> {
        let mut module = Module::default();
        let functions = module.tables.add_local(false, 1, None, walrus::RefType::FUNCREF);
        let objects = module.tables.add_local(false, 8, None, walrus::RefType::EXTERNREF);
        let table = if exported == walrus::RefType::FUNCREF { functions } else { objects };
        module.exports.add("objects", table);
        module.emit_wasm()
    }

    #[test]
    fn an_exported_table_stays_what_it_was() {
        let right = module(walrus::RefType::EXTERNREF);
        for optimised in [walrus::RefType::FUNCREF, walrus::RefType::EXTERNREF] {
            let after = module(optimised);
            let mended = mended(&right, &after).expect("both tables are there");
            let ordered = order::reordered(&after, mended, &BTreeSet::new()).expect("a module");
            let (kinds, exported) = tables(&ordered).expect("a module");
            let exported: Vec<_> = exported.into_iter().map(|(name, table)| (name, kinds[table as usize])).collect();
            assert_eq!(exported, [("objects".to_owned(), RefType::EXTERNREF)]);
        }
    }
}
