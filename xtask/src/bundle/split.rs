//! The module in two: what is needed at once, and what is seldom opened and comes later.
//!
//! Done last, on the module as the optimiser left it. The first part is what the page calls, what the first part's slots
//! of the table hold (`graph` says which those are), and all that these call; what is left over is the later part's. That
//! imports the first part's memory, tables and functions, puts its own functions into their slots and its data at its
//! addresses. Neither is compiled otherwise than as one module: no instruction changes but the numbers of functions.
//! A slot whose function has not come holds a function that traps.

use std::collections::{BTreeMap, BTreeSet};
use std::ops::Range;

use anyhow::{Context, Result, bail, ensure};
use wasm_encoder::reencode::{self, Reencode};
use wasm_encoder::{
    CodeSection, ConstExpr, DataSection, ElementSection, Elements, EntityType, ExportKind, ExportSection, Function,
    FunctionSection, GlobalSection, ImportSection, MemorySection, Module, StartSection, TableSection,
};
use wasmparser::{ExternalKind, TableType, TypeRef};

use super::graph::Needs;
use super::whole::{Exports, Whole};

/// The name by which the later part imports from the first.
pub(super) const FIRST: &str = "first";

/// Both parts, and where the first hands out its functions.
pub(super) struct Parts {
    pub(super) first: Vec<u8>,
    pub(super) later: Vec<u8>,
    /// The slots in which the later part finds the functions that it imports: `0` in the first of them, and so on.
    pub(super) handed: Range<u32>,
    /// The name under which the table of functions is exported.
    pub(super) table: String,
}

/// The functions, imported ones not counted, that are the later part's.
pub(super) fn later_functions(module: &[u8], needs: &Needs, entry: &str) -> Result<BTreeSet<u32>> {
    let whole = Whole::read(module)?;
    let mut next: Vec<u32> = whole.start.into_iter().collect();
    for export in whole.exports.iter().filter(|export| export.kind == ExternalKind::Func && export.name != entry) {
        next.push(export.index);
    }
    next.extend(whole.slots.iter().filter(|(slot, _)| needs.first_slots.contains(slot)).map(|(_, function)| *function));
    let mut first = BTreeSet::new();
    while let Some(function) = next.pop() {
        if first.insert(function) {
            next.extend(whole.calls_of(function)?);
        }
    }
    ensure!(!first.contains(&whole.entry(entry)?), "the optimiser called `{entry}` from the first part");
    let own = whole.imported()..whole.imported() + u32::try_from(whole.bodies.len())?;
    Ok(own.filter(|function| !first.contains(function)).map(|function| function - whole.imported()).collect())
}

/// The parts of a module in which the later part's functions come last.
pub(super) fn split(module: &[u8], later: &BTreeSet<u32>, needs: &Needs, entry: &str) -> Result<Parts> {
    let whole = Whole::read(module)?;
    let functions = whole.imported() + u32::try_from(whole.bodies.len())?;
    let boundary = functions - u32::try_from(later.len())?;
    let (mut first_calls, mut later_calls) = (BTreeSet::new(), BTreeSet::new());
    for function in whole.imported()..functions {
        if function < boundary { &mut first_calls } else { &mut later_calls }.extend(whole.calls_of(function)?);
    }
    ensure!(first_calls.iter().all(|called| *called < boundary), "the first part calls the later one");
    ensure!(whole.entry(entry)? >= boundary, "`{entry}` is in the first part");
    for export in whole.exports.iter().filter(|export| export.kind == ExternalKind::Func && export.name != entry) {
        ensure!(export.index < boundary, "`{}` is exported by the later part", export.name);
        first_calls.insert(export.index);
    }
    first_calls.extend(whole.slots.values().filter(|function| **function < boundary));
    // What the page gives is imported by whichever part calls it; what else the later part calls of the first is handed on.
    let handed: Vec<u32> = later_calls.range(whole.imported()..boundary).copied().collect();
    let table = whole.functions_table()?;
    let from = u32::try_from(whole.tables[table as usize].initial)?;
    let handed_slots = from..from + u32::try_from(handed.len())?;
    let exports = whole.shared_exports(entry);
    let plan = |used| Plan { boundary, table, used, handed: &handed, exports: &exports, needs };
    let first = whole.first(&plan(&first_calls))?;
    let later = whole.later(&plan(&later_calls), entry)?;
    let table = exports.iter().find(|(kind, index, _)| (*kind, *index) == (ExportKind::Table, table));
    Ok(Parts { first, later, handed: handed_slots, table: table.context("no table is exported")?.2.clone() })
}

/// What one part is made by.
struct Plan<'a> {
    /// The first of the later part's functions.
    boundary: u32,
    /// The table of functions.
    table: u32,
    /// Functions that the part calls, exports or holds in a slot.
    used: &'a BTreeSet<u32>,
    /// Functions of the first part that the later one finds in its slots.
    handed: &'a [u32],
    exports: &'a Exports,
    needs: &'a Needs,
}

/// Gives functions the numbers that they have in a part.
struct Numbers(BTreeMap<u32, u32>);

impl Reencode for Numbers {
    type Error = Missing;

    fn function_index(&mut self, old: u32) -> Result<u32, reencode::Error<Missing>> {
        self.0.get(&old).copied().ok_or(reencode::Error::UserError(Missing(old)))
    }
}

/// A part names a function that it does not have.
#[derive(Debug)]
struct Missing(u32);

impl std::fmt::Display for Missing {
    fn fmt(&self, out: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        write!(out, "function {} is in neither part", self.0)
    }
}

impl std::error::Error for Missing {}

impl Whole<'_> {
    fn first(&self, plan: &Plan<'_>) -> Result<Vec<u8>> {
        let (mut imports, mut numbers) = (ImportSection::new(), BTreeMap::new());
        self.import_used(plan.used, &mut imports, &mut numbers)?;
        let own: Vec<u32> = (self.imported()..plan.boundary).collect();
        number(&mut numbers, &own);
        let trap = u32::try_from(numbers.len())?;
        let mut numbers = Numbers(numbers);

        let mut functions = FunctionSection::new();
        let mut code = CodeSection::new();
        self.own(&own, &mut numbers, &mut functions, &mut code)?;
        functions.function(self.empty_type()?);
        let mut traps = Function::new([]);
        traps.instructions().unreachable().end();
        code.function(&traps);

        let mut tables = TableSection::new();
        for (index, table) in (0..).zip(&self.tables) {
            let mut table = numbers.table_type(*table)?;
            if index == plan.table {
                table.minimum += plan.handed.len() as u64;
                table.maximum = table.maximum.map(|maximum| maximum + plan.handed.len() as u64);
            }
            tables.table(table);
        }
        let mut memories = MemorySection::new();
        for memory in &self.memories {
            memories.memory(numbers.memory_type(*memory)?);
        }
        let mut globals = GlobalSection::new();
        for global in &self.globals {
            let ty = numbers.global_type(global.ty)?;
            globals.global(ty, &numbers.const_expr(global.init_expr.clone())?);
        }
        let mut exports = ExportSection::new();
        for export in &self.exports {
            let number = numbers.0.get(&export.index).filter(|_| export.kind == ExternalKind::Func);
            if let Some(number) = number {
                exports.export(export.name, ExportKind::Func, *number);
            }
        }
        for (kind, index, name) in plan.exports {
            exports.export(name, *kind, *index);
        }

        let slots = self.slots_of_first(plan, &numbers, trap)?;
        let mut data = DataSection::new();
        for (address, bytes) in &self.data {
            let mut bytes = bytes.to_vec();
            for moved in within(*address, &bytes, &plan.needs.later_data) {
                bytes[moved].fill(0);
            }
            data.active(0, &ConstExpr::i32_const(address.cast_signed()), bytes);
        }

        let mut module = Module::new();
        module.section(&self.type_section()?).section(&imports).section(&functions).section(&tables).section(&memories);
        module.section(&globals).section(&exports);
        if let Some(start) = self.start {
            module.section(&StartSection { function_index: numbers.function_index(start)? });
        }
        module.section(&filled(plan.table, &slots)).section(&code).section(&data);
        Ok(module.finish())
    }

    /// What the first part's slots hold: its own functions, the trap in place of the later part's, and what it hands out.
    fn slots_of_first(&self, plan: &Plan<'_>, numbers: &Numbers, trap: u32) -> Result<BTreeMap<u32, u32>> {
        let from = u32::try_from(self.tables[plan.table as usize].initial)?;
        let known = self.slots.iter().map(|(slot, function)| (*slot, *function));
        let mut slots = BTreeMap::new();
        for (slot, function) in known.chain((from..).zip(plan.handed.iter().copied())) {
            let number = if function < plan.boundary { numbers.0.get(&function).copied() } else { Some(trap) };
            slots.insert(slot, number.context("a slot holds what is in neither part")?);
        }
        Ok(slots)
    }

    fn later(&self, plan: &Plan<'_>, entry: &str) -> Result<Vec<u8>> {
        let (mut imports, mut numbers) = (ImportSection::new(), BTreeMap::new());
        self.import_used(plan.used, &mut imports, &mut numbers)?;
        for (name, function) in plan.handed.iter().enumerate() {
            let ty = self.own_types[(function - self.imported()) as usize];
            imports.import(FIRST, &name.to_string(), EntityType::Function(ty));
        }
        number(&mut numbers, plan.handed);
        let own: Vec<u32> =
            (plan.boundary..).take(self.bodies.len() - (plan.boundary - self.imported()) as usize).collect();
        number(&mut numbers, &own);
        let mut numbers = Numbers(numbers);
        for (kind, index, name) in plan.exports {
            let at = *index as usize;
            let ty = match kind {
                ExportKind::Memory => EntityType::Memory(numbers.memory_type(self.memories[at])?),
                ExportKind::Global => EntityType::Global(numbers.global_type(self.globals[at].ty)?),
                _ => {
                    EntityType::Table(numbers.table_type(TableType { initial: 0, maximum: None, ..self.tables[at] })?)
                }
            };
            imports.import(FIRST, name, ty);
        }

        let (mut functions, mut code) = (FunctionSection::new(), CodeSection::new());
        self.own(&own, &mut numbers, &mut functions, &mut code)?;
        let mut exports = ExportSection::new();
        exports.export(entry, ExportKind::Func, numbers.function_index(self.entry(entry)?)?);
        let own_slots = self.slots.iter().filter(|(_, function)| **function >= plan.boundary);
        let mut slots = BTreeMap::new();
        for (slot, function) in own_slots {
            slots.insert(*slot, numbers.function_index(*function)?);
        }
        let mut data = DataSection::new();
        for (address, bytes) in &self.data {
            for moved in within(*address, bytes, &plan.needs.later_data) {
                let at = address + u32::try_from(moved.start)?;
                data.active(0, &ConstExpr::i32_const(at.cast_signed()), bytes[moved].iter().copied());
            }
        }

        let mut module = Module::new();
        module.section(&self.type_section()?).section(&imports).section(&functions).section(&exports);
        module.section(&filled(plan.table, &slots)).section(&code).section(&data);
        Ok(module.finish())
    }

    /// Imports what the page gives and a part uses.
    fn import_used(
        &self,
        used: &BTreeSet<u32>,
        imports: &mut ImportSection,
        numbers: &mut BTreeMap<u32, u32>,
    ) -> Result<()> {
        for (function, import) in (0..).zip(&self.imports) {
            if used.contains(&function) {
                number(numbers, &[function]);
                let TypeRef::Func(ty) = import.ty else { bail!("`{}` is no function", import.name) };
                imports.import(import.module, import.name, EntityType::Function(ty));
            }
        }
        Ok(())
    }

    fn own(
        &self,
        own: &[u32],
        numbers: &mut Numbers,
        functions: &mut FunctionSection,
        code: &mut CodeSection,
    ) -> Result<()> {
        for function in own {
            let at = (function - self.imported()) as usize;
            functions.function(self.own_types[at]);
            reencode::utils::parse_function_body(numbers, code, self.bodies[at].clone())?;
        }
        Ok(())
    }
}

/// Gives functions the next numbers.
fn number(numbers: &mut BTreeMap<u32, u32>, functions: &[u32]) {
    for function in functions {
        let next = u32::try_from(numbers.len()).unwrap_or(u32::MAX);
        numbers.insert(*function, next);
    }
}

/// A table filled, one segment for each run of slots.
fn filled(table: u32, slots: &BTreeMap<u32, u32>) -> ElementSection {
    let mut runs: Vec<(u32, Vec<u32>)> = Vec::new();
    for (slot, function) in slots {
        match runs.last_mut().filter(|(from, run)| from + u32::try_from(run.len()).unwrap_or(u32::MAX) == *slot) {
            Some((_, run)) => run.push(*function),
            None => runs.push((*slot, vec![*function])),
        }
    }
    let mut elements = ElementSection::new();
    for (from, run) in &runs {
        let table = Some(table).filter(|table| *table != 0);
        elements.active(table, &ConstExpr::i32_const(from.cast_signed()), Elements::Functions(run.into()));
    }
    elements
}

/// The places in a segment's bytes that lie in one of the ranges of addresses.
fn within(address: u32, bytes: &[u8], ranges: &[Range<u32>]) -> Vec<Range<usize>> {
    let end = address + u32::try_from(bytes.len()).unwrap_or(u32::MAX - address);
    let cut = |range: &Range<u32>| range.start.max(address)..range.end.min(end);
    let inside = ranges.iter().map(cut).filter(|range| range.start < range.end);
    inside.map(|range| (range.start - address) as usize..(range.end - address) as usize).collect()
}

#[cfg(test)]
mod tests;
