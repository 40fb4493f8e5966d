//! The module itself: compiled, bound to JavaScript, shrunk.
//!
//! `wasm-bindgen` runs as a library of the version that the app is built with, so that the two cannot disagree.

use std::fs;
use std::path::{Path, PathBuf};

use anyhow::{Context, Result, bail};
use walrus::{Export, ExportItem, Module, RefType, Table};
use wasm_bindgen_cli_support::Bindgen;

use super::{Build, names, order, unused};
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

/// Compiles the app and returns where the module is.
pub(super) fn compile(toolchain: Toolchain, build: Build) -> Result<PathBuf> {
    let (profile, features) = match build {
        Build::Release => ("web", ""),
        Build::Dev => ("web-dev", "gallery"),
        Build::Gallery => ("web", "gallery"),
    };
    run(toolchain.cargo("build").args(["--package", "app", "--profile", profile, "--features", features]))?;
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

/// Makes sure that the optimiser is there.
pub(super) fn need_optimiser() -> Result<()> {
    debian::need(&["wasm-opt"], &["binaryen"])
}

/// Makes the bound module as small to send as the optimiser can, in place: `-Oz` leaves fewer bytes, which compress to
/// more. It may take it that nothing lies at the first 1,024
/// addresses: the linker puts the stack there first, and it grows down towards them only to overflow.
pub(super) fn shrink(glue: &Path) -> Result<()> {
    let (bound, small) = (glue.join("app_bg.wasm"), glue.join("small.wasm"));
    let mut whole = Module::from_file(&bound).context("the module cannot be read back")?;
    unused::drop_exports(&mut whole);
    whole.emit_wasm_file(&bound).context("the module cannot be written")?;
    run(program("wasm-opt").args(["-Os", "--low-memory-unused"]).args(FEATURES).arg(&bound).arg("-o").arg(&small))?;
    let mut module = mended(&fs::read(&bound)?, &fs::read(&small)?)?;
    let short = names::shorten(&mut module);
    let script = glue.join("app.js");
    let used = unused::without(&fs::read_to_string(&script)?, &short);
    fs::write(&script, names::shortened(&used, &short))?;
    fs::write(&bound, order::reordered(&module.emit_wasm())?)?;
    fs::remove_file(&small)?;
    Ok(())
}

/// The optimised module with every exported table being the one that it was before.
///
/// Debian 12's optimiser (108) writes each table export as the export of table 0, which is the table of functions. The
/// glue then puts the page's objects into it, and the app does not start.
fn mended(before: &[u8], after: &[u8]) -> Result<Module> {
    let read = |bytes: &[u8]| Module::from_buffer(bytes).context("the module cannot be read back");
    let (before, mut after) = (read(before)?, read(after)?);
    for (name, kind) in exported_tables(&before) {
        let export = after.exports.iter().find(|export| export.name == name).map(Export::id);
        let same_kind: Vec<_> = after.tables.iter().filter(|table| table.element_ty == kind).map(Table::id).collect();
        let (Some(export), [table]) = (export, &same_kind[..]) else {
            bail!("the optimiser lost the table `{name}`, or there are two that it could be");
        };
        after.exports.get_mut(export).item = ExportItem::Table(*table);
    }
    Ok(after)
}

/// The exported tables of a module, with what they hold.
fn exported_tables(module: &Module) -> Vec<(String, RefType)> {
    let table = |export: &Export| match export.item {
        ExportItem::Table(table) => Some((export.name.clone(), module.tables.get(table).element_ty)),
        _ => None,
    };
    module.exports.iter().filter_map(table).collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    /// A table of functions and one of objects; `exported` picks which of them goes out as `objects`.
    fn module(exported: RefType) -> Vec<u8> {
        let mut module = Module::default();
        let functions = module.tables.add_local(false, 1, None, RefType::FUNCREF);
        let objects = module.tables.add_local(false, 8, None, RefType::EXTERNREF);
        module.exports.add("objects", if exported == RefType::FUNCREF { functions } else { objects });
        module.emit_wasm()
    }

    #[test]
    fn an_exported_table_stays_what_it_was() {
        let right = module(RefType::EXTERNREF);
        for optimised in [RefType::FUNCREF, RefType::EXTERNREF] {
            let mended = mended(&right, &module(optimised)).expect("both tables are there");
            let exported = exported_tables(&mended);
            assert_eq!(exported, [("objects".to_owned(), RefType::EXTERNREF)]);
        }
    }
}
