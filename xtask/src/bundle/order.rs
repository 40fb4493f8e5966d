//! The module's functions in an order that compresses better: like beside like.
//!
//! A compressor finds a repetition anywhere in the module, but says a near one in fewer bits than a far one. Changes
//! which number a function has and nothing else: no instruction, no type, and of exports only which
//! table one is.

use std::collections::{BTreeMap, BTreeSet, HashMap};
use std::convert::Infallible;

use anyhow::{Context, Result};
use wasm_encoder::reencode::{self, Error, Reencode};
use wasm_encoder::{CodeSection, ExportSection, FunctionSection};
use wasmparser::{CodeSectionReader, ExternalKind, FunctionSectionReader, Parser, Payload, TypeRef};

/// A run of this many bytes is what two functions may have in common.
type Run = [u8; 4];

/// Runs in more functions than this say nothing about likeness.
const COMMON: usize = 1_000;

/// The module with its functions reordered, those in `last` after all others, and its table exports as `tables` has
/// them. Imported functions are not counted in `last`.
pub(super) fn reordered(module: &[u8], tables: BTreeMap<String, u32>, last: &BTreeSet<u32>) -> Result<Vec<u8>> {
    let (imported, bodies) = functions(module)?;
    let (ends, starts): (Vec<usize>, Vec<usize>) =
        (0..bodies.len()).partition(|function| u32::try_from(*function).is_ok_and(|function| last.contains(&function)));
    let mut order = Vec::with_capacity(bodies.len());
    for part in [starts, ends] {
        let of_part: Vec<&[u8]> = part.iter().map(|function| bodies[*function]).collect();
        order.extend(by_likeness(&of_part).into_iter().map(|at| part[at]));
    }
    let mut renumber = Renumber::new(imported, order, tables);
    let mut out = wasm_encoder::Module::new();
    renumber
        .parse_core_module(&mut out, Parser::new(0), module)
        .map_err(|fault| anyhow::anyhow!("the module cannot be reordered: {fault}"))?;
    Ok(out.finish())
}

/// How many functions the module imports, and the bodies of its own.
fn functions(module: &[u8]) -> Result<(u32, Vec<&[u8]>)> {
    let (mut imported, mut bodies) = (0, Vec::new());
    for payload in Parser::new(0).parse_all(module) {
        match payload.context("the module cannot be read back")? {
            Payload::ImportSection(imports) => {
                for import in imports.into_imports() {
                    imported += u32::from(matches!(import?.ty, TypeRef::Func(_)));
                }
            }
            Payload::CodeSectionEntry(body) => bodies.push(&module[body.range()]),
            _ => {}
        }
    }
    Ok((imported, bodies))
}

/// An order in which each function follows the one, of those left, that it has most in common with.
fn by_likeness(bodies: &[&[u8]]) -> Vec<usize> {
    let runs: Vec<Vec<Run>> = bodies.iter().map(|body| runs_of(body)).collect();
    let mut holders: HashMap<Run, Vec<usize>> = HashMap::new();
    for (function, runs) in runs.iter().enumerate() {
        for &run in runs {
            holders.entry(run).or_default().push(function);
        }
    }
    let mut shared = vec![0_usize; bodies.len()];
    let mut placed = vec![false; bodies.len()];
    let mut order = Vec::with_capacity(bodies.len());
    let mut unlike: Vec<usize> = (0..bodies.len()).collect();
    unlike.sort_by_key(|&function| std::cmp::Reverse(bodies[function]));
    let mut next = None;
    while let Some(function) = next.or_else(|| std::iter::from_fn(|| unlike.pop()).find(|&rest| !placed[rest])) {
        placed[function] = true;
        order.push(function);
        let mut touched = Vec::new();
        for run in &runs[function] {
            let others = &holders[run];
            for &other in others.iter().filter(|&&other| others.len() <= COMMON && !placed[other]) {
                if shared[other] == 0 {
                    touched.push(other);
                }
                shared[other] += 1;
            }
        }
        // Per mille of the other's own runs; below one in fifty nothing is won.
        let likeness = |&other: &usize| shared[other] * 1_000 / (runs[other].len() + 20);
        next =
            touched.iter().copied().filter(|other| likeness(other) >= 20).max_by_key(|other| (likeness(other), *other));
        for other in touched {
            shared[other] = 0;
        }
    }
    order
}

fn runs_of(body: &[u8]) -> Vec<Run> {
    let mut runs: Vec<Run> = body.windows(4).map(|run| [run[0], run[1], run[2], run[3]]).collect();
    runs.sort_unstable();
    runs.dedup();
    runs
}

/// Copies a module and gives its functions new numbers.
struct Renumber {
    imported: u32,
    /// The old place of what now comes first, second and so on.
    order: Vec<usize>,
    /// The new place of each old one.
    place: Vec<u32>,
    /// What each exported table is.
    tables: BTreeMap<String, u32>,
}

impl Renumber {
    fn new(imported: u32, order: Vec<usize>, tables: BTreeMap<String, u32>) -> Self {
        let mut place = vec![0; order.len()];
        for (new, &old) in (0_u32..).zip(&order) {
            place[old] = new;
        }
        Self { imported, order, place, tables }
    }
}

impl Reencode for Renumber {
    type Error = Infallible;

    fn function_index(&mut self, old: u32) -> Result<u32, Error<Infallible>> {
        let own = old.checked_sub(self.imported).map(|own| self.imported + self.place[own as usize]);
        Ok(own.unwrap_or(old))
    }

    fn parse_export(
        &mut self,
        out: &mut ExportSection,
        mut export: wasmparser::Export<'_>,
    ) -> Result<(), Error<Infallible>> {
        if export.kind == ExternalKind::Table {
            export.index = self.tables.get(export.name).copied().unwrap_or(export.index);
        }
        reencode::utils::parse_export(self, out, export)
    }

    fn parse_function_section(
        &mut self,
        out: &mut FunctionSection,
        section: FunctionSectionReader<'_>,
    ) -> Result<(), Error<Infallible>> {
        let types = section.into_iter().collect::<Result<Vec<u32>, _>>()?;
        for old in self.order.clone() {
            out.function(self.type_index(types[old])?);
        }
        Ok(())
    }

    fn parse_code_section(
        &mut self,
        out: &mut CodeSection,
        section: CodeSectionReader<'_>,
    ) -> Result<(), Error<Infallible>> {
        let bodies = section.into_iter().collect::<Result<Vec<_>, _>>()?;
        for old in self.order.clone() {
            reencode::utils::parse_function_body(self, out, bodies[old].clone())?;
        }
        Ok(())
    }
}

#[cfg(test)]
mod tests {
    use walrus::{FunctionBuilder, Module, ValType};

    use super::*;

    /// A module that exports functions which return 0, 1, 2 and so on, each by way of the next.
    fn module(functions: i32) -> Vec<u8> {
        let mut module = Module::default();
        let mut last = None;
        for number in (0..functions).rev() {
            let mut function = FunctionBuilder::new(&mut module.types, &[], &[ValType::I32]);
            let mut body = function.func_body();
            if let Some(last) = last {
                body.call(last).drop();
            }
            body.i32_const(number);
            let id = function.finish(vec![], &mut module.funcs);
            module.exports.add(&number.to_string(), id);
            last = Some(id);
        }
        module.emit_wasm()
    }

    /// What each export returns.
    fn returned(module: &[u8]) -> Vec<(String, String)> {
        let module = Module::from_buffer(module).expect("a module");
        let constant = |id| {
            let function = module.funcs.get(id).kind.unwrap_local();
            let block = function.block(function.entry_block());
            format!("{:?}", block.instrs.last().expect("a constant").0)
        };
        let mut all: Vec<_> = module
            .exports
            .iter()
            .filter_map(|export| match export.item {
                walrus::ExportItem::Function(id) => Some((export.name.clone(), constant(id))),
                _ => None,
            })
            .collect();
        all.sort();
        all
    }

    #[test]
    fn every_function_keeps_its_name_and_its_body() {
        let before = module(50);
        let after = reordered(&before, BTreeMap::new(), &BTreeSet::new()).expect("reorders");
        assert_eq!(returned(&after), returned(&before));
        assert_eq!(after.len(), before.len());
    }

    #[test]
    fn like_stands_beside_like() {
        let (a, b) = (b"abcdefghijklmnopqrstuvwxyz".repeat(2), b"0123456789zyxwvutsrq".repeat(2));
        let (a2, b2) = ([&a[..], b"!"].concat(), [&b[..], b"!"].concat());
        let order = by_likeness(&[&a, &b, &a2, &b2]);
        let place = |function| order.iter().position(|&placed| placed == function).expect("placed");
        assert_eq!(order.len(), 4);
        assert_eq!((place(0).abs_diff(place(2)), place(1).abs_diff(place(3))), (1, 1), "{order:?}");
    }
}
