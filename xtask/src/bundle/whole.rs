//! A whole module, read into its pieces, and what may be asked of them.
//!
//! What the compiler, the binder and the optimiser are not known to make is refused here, so that nothing is lost silently.

use std::collections::{BTreeMap, BTreeSet};

use anyhow::{Context, Result, bail, ensure};
use wasm_encoder::{ExportKind, TypeSection, reencode};
use wasmparser::{
    CompositeInnerType, DataKind, Export, ExternalKind, FunctionBody, Global, Import, MemoryType, Operator, Parser,
    Payload, TableInit, TableType, TypeRef, TypeSectionReader,
};

use super::linked::{constant, slots};

/// What a part exports besides functions: what kind, which, and under what name.
pub(super) type Exports = Vec<(ExportKind, u32, String)>;

/// A module, read.
#[derive(Default)]
pub(super) struct Whole<'a> {
    pub(super) types: Option<TypeSectionReader<'a>>,
    pub(super) imports: Vec<Import<'a>>,
    pub(super) own_types: Vec<u32>,
    pub(super) tables: Vec<TableType>,
    pub(super) memories: Vec<MemoryType>,
    pub(super) globals: Vec<Global<'a>>,
    pub(super) exports: Vec<Export<'a>>,
    pub(super) start: Option<u32>,
    pub(super) slots: BTreeMap<u32, u32>,
    pub(super) bodies: Vec<FunctionBody<'a>>,
    /// Addresses, and what lies there.
    pub(super) data: Vec<(u32, &'a [u8])>,
}

impl<'a> Whole<'a> {
    /// Reads a module that imports functions alone.
    pub(super) fn read(module: &'a [u8]) -> Result<Self> {
        let whole = Self::read_part(module)?;
        for import in &whole.imports {
            ensure!(matches!(import.ty, TypeRef::Func(_)), "`{}` is imported and no function", import.name);
        }
        Ok(whole)
    }

    /// Reads a module that may import anything.
    pub(super) fn read_part(module: &'a [u8]) -> Result<Self> {
        let mut whole = Self::default();
        for payload in Parser::new(0).parse_all(module) {
            match payload.context("the module cannot be read back")? {
                Payload::TypeSection(types) => whole.types = Some(types),
                Payload::ImportSection(imports) => {
                    whole.imports = imports.into_imports().collect::<Result<_, _>>()?;
                }
                Payload::FunctionSection(types) => whole.own_types = types.into_iter().collect::<Result<_, _>>()?,
                Payload::TableSection(tables) => {
                    for table in tables {
                        let table = table?;
                        ensure!(matches!(table.init, TableInit::RefNull), "a table is filled at its making");
                        whole.tables.push(table.ty);
                    }
                }
                Payload::MemorySection(memories) => whole.memories = memories.into_iter().collect::<Result<_, _>>()?,
                Payload::GlobalSection(globals) => whole.globals = globals.into_iter().collect::<Result<_, _>>()?,
                Payload::ExportSection(exports) => whole.exports = exports.into_iter().collect::<Result<_, _>>()?,
                Payload::StartSection { func, .. } => whole.start = Some(func),
                Payload::ElementSection(elements) => whole.slots = slots(elements)?,
                Payload::CodeSectionEntry(body) => whole.bodies.push(body),
                Payload::DataSection(segments) => {
                    for segment in segments {
                        let segment = segment?;
                        let DataKind::Active { offset_expr, .. } = &segment.kind else {
                            bail!("data is placed by hand")
                        };
                        whole.data.push((constant(offset_expr)?, segment.data));
                    }
                }
                Payload::TagSection(_) => bail!("the module throws exceptions"),
                _ => {}
            }
        }
        Ok(whole)
    }

    pub(super) fn imported(&self) -> u32 {
        u32::try_from(self.imports.len()).unwrap_or(u32::MAX)
    }

    /// The functions that a function calls by their numbers; an imported one calls none that is known.
    pub(super) fn calls_of(&self, function: u32) -> Result<BTreeSet<u32>> {
        let mut called = BTreeSet::new();
        let Some(own) = function.checked_sub(self.imported()) else { return Ok(called) };
        let body = self.bodies.get(own as usize).context("a function is not there")?;
        for operator in body.get_operators_reader()? {
            match operator? {
                Operator::Call { function_index } => drop(called.insert(function_index)),
                Operator::RefFunc { .. } | Operator::ReturnCall { .. } => bail!("a function is named in a new way"),
                _ => {}
            }
        }
        Ok(called)
    }

    pub(super) fn entry(&self, name: &str) -> Result<u32> {
        let named = self.exports.iter().find(|export| export.kind == ExternalKind::Func && export.name == name);
        named.map(|export| export.index).with_context(|| format!("nothing exports `{name}`"))
    }

    /// Which table holds functions.
    pub(super) fn functions_table(&self) -> Result<u32> {
        let mut of_functions = (0..).zip(&self.tables).filter(|(_, table)| table.element_type.is_func_ref());
        match (of_functions.next(), of_functions.next()) {
            (Some((table, _)), None) => Ok(table),
            _ => bail!("there is not one table of functions"),
        }
    }

    /// Every memory, table and global, under the name that it has already or a new one.
    pub(super) fn shared_exports(&self, entry: &str) -> Exports {
        let kinds = [
            (ExportKind::Memory, ExternalKind::Memory, self.memories.len()),
            (ExportKind::Table, ExternalKind::Table, self.tables.len()),
            (ExportKind::Global, ExternalKind::Global, self.globals.len()),
        ];
        let mut out = Exports::new();
        for (kind, as_read, count) in kinds {
            for index in (0..).take(count) {
                let named = self.exports.iter().find(|export| (export.kind, export.index) == (as_read, index));
                let name = named.map_or_else(|| format!("{entry}_{}", out.len()), |export| export.name.to_owned());
                out.push((kind, index, name));
            }
        }
        out
    }

    pub(super) fn type_section(&self) -> Result<TypeSection> {
        let mut types = TypeSection::new();
        let read = self.types.clone().context("a module without types")?;
        reencode::utils::parse_type_section(&mut reencode::RoundtripReencoder, &mut types, read)
            .map_err(|fault| anyhow::anyhow!("the types cannot be copied: {fault}"))?;
        Ok(types)
    }

    /// The type of a function that takes and returns nothing.
    pub(super) fn empty_type(&self) -> Result<u32> {
        let types = self.types.clone().context("a module without types")?;
        for (index, group) in (0..).zip(types) {
            let group = group?;
            let mut types = group.types();
            if let (Some(one), None) = (types.next(), types.next()) {
                let of_function = matches!(&one.composite_type.inner,
                    CompositeInnerType::Func(of) if of.params().is_empty() && of.results().is_empty());
                if of_function {
                    return Ok(index);
                }
            }
        }
        bail!("no function takes and returns nothing")
    }
}
