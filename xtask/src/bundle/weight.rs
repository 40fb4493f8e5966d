//! `cargo xtask weigh`: where the bytes of the app's two parts come from, module by module.
//!
//! What the linker left is weighed, names and all, before the optimiser and compression: the shares are what a change is
//! looked for by, the sizes that count are the bundle's own table. A generic function counts for the module of the code that
//! it was written in, so that `core` and `alloc` stand for what the app made of them.

use std::collections::BTreeMap;
use std::fmt::Write as _;
use std::fs;

use anyhow::{Context, Result};

use super::graph::{Graph, Node};
use super::wasm::LATER;
use super::{Build, linked, wasm};
use crate::toolchain::Toolchain;

/// Lines of each part; what is less is counted in one.
const ROWS_MOST: usize = 70;

/// Builds the module and prints both tables. With a `filter`, the functions whose names have it, one by one.
pub(crate) fn run(filter: Option<&str>) -> Result<()> {
    let module = wasm::compile(Toolchain::find()?, Build::Release)?;
    let graph = linked::graph(&fs::read(&module).context("the linked module cannot be read")?)?;
    let (first, later) = graph.parts(LATER)?;
    for (part, nodes) in [("first", first), ("later", later)] {
        let mut weights: BTreeMap<String, usize> = BTreeMap::new();
        for node in &nodes {
            let name = named(&graph, *node);
            if filter.is_none_or(|filter| name.contains(filter)) {
                let row = if filter.is_some() { name } else { module_of(&name) };
                *weights.entry(row).or_default() += graph.weight(*node);
            }
        }
        print!("{}", table(part, weights));
    }
    Ok(())
}

fn named(graph: &Graph, node: Node) -> String {
    match node {
        Node::Data(_) => format!("data {}", rustc_demangle::demangle(graph.name(node))),
        Node::Function(_) | Node::Slot(_) => format!("{:#}", rustc_demangle::demangle(graph.name(node))),
    }
}

/// The crate and two modules of it that a name begins in: of `<a::b::C as d::E>::f`, `a::b`.
fn module_of(name: &str) -> String {
    if name.starts_with("data ") {
        return "data".to_owned();
    }
    let path = name.trim_start_matches(['<', '&', '(', '[', '*']).trim_start_matches("mut ").trim_start_matches("dyn ");
    let end = path.find(['<', ' ', '>', '(', '{']).unwrap_or(path.len());
    let parts: Vec<&str> = path.get(..end).unwrap_or_default().split("::").filter(|part| !part.is_empty()).collect();
    // The last is the thing itself.
    let modules = parts.len().saturating_sub(1).clamp(1, 3);
    parts.get(..modules).unwrap_or(&parts).join("::")
}

fn table(part: &str, weights: BTreeMap<String, usize>) -> String {
    let all: usize = weights.values().sum();
    let mut rows: Vec<(String, usize)> = weights.into_iter().collect();
    rows.sort_by_key(|(_, bytes)| std::cmp::Reverse(*bytes));
    let rest: usize = rows.iter().skip(ROWS_MOST).map(|(_, bytes)| bytes).sum();
    let mut out = format!("{part}: {all} bytes as linked\n");
    for (row, bytes) in rows.into_iter().take(ROWS_MOST).chain([("the rest".to_owned(), rest)]) {
        let share = bytes * 1000 / all.max(1);
        let _ = writeln!(out, "{bytes:>9} {:>3}.{} %  {row}", share / 10, share % 10);
    }
    out
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_function_counts_for_the_module_that_it_was_written_in() {
        for (name, module) in [
            ("app::screens::bench::drawn", "app::screens::bench"),
            ("<shared_core::state::State as core::clone::Clone>::clone", "shared_core::state"),
            ("core::slice::sort::stable::drift::sort", "core::slice::sort"),
            ("<&mut serde_json::de::Deserializer<R> as serde::Deserializer>::x", "serde_json::de"),
            ("memcpy", "memcpy"),
            ("data anon.5", "data"),
        ] {
            assert_eq!(module_of(name), module);
        }
    }
}
