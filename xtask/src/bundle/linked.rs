//! Reads what names what from a module that was linked with its relocations kept.
//!
//! By the tool conventions for linking (WebAssembly tool-conventions, `Linking.md`). Each relocation is held against the
//! bytes that it is about, and each call is read from the code besides: a module that disagrees with its relocations, or
//! that places things in a way which is not known here, is refused.

use std::collections::BTreeMap;
use std::ops::Range;

use anyhow::{Context, Result, bail, ensure};
use wasmparser::{
    BinaryReader, ConstExpr, CustomSectionReader, DataKind, ElementItems, ElementKind, ExternalKind, KnownCustom,
    Linking, Operator, Parser, Payload, RelocationEntry, RelocationType, SymbolInfo, TypeRef,
};

use super::graph::{Graph, Node};
use super::unused;

/// Exports by which the binder learns what is passed; it takes them out.
const DESCRIPTIONS: &str = "__wbindgen_describe";

/// What names what in a linked module.
pub(super) fn graph(module: &[u8]) -> Result<Graph> {
    let mut graph = Graph::default();
    let linked = Linked::read(module, &mut graph)?;
    ensure!(
        !linked.symbols.is_empty() && !linked.relocations.is_empty(),
        "the linker kept no relocations: the app is linked with `--emit-relocs`"
    );
    linked.place(&mut graph);
    linked.join(&mut graph, module)?;
    Ok(graph)
}

/// What a module's sections say, before it is put together.
#[derive(Default)]
struct Linked<'a> {
    imported: u32,
    bodies: Vec<Range<usize>>,
    calls: Vec<(u32, u32)>,
    code_start: usize,
    data_start: usize,
    /// Where each data segment's bytes are in the file, and its address.
    segments: Vec<(Range<usize>, u32)>,
    /// What each slot of the table holds.
    slots: BTreeMap<u32, u32>,
    symbols: Vec<SymbolInfo<'a>>,
    /// Relocations, each with the section that it is in.
    relocations: Vec<(usize, RelocationEntry)>,
    section_starts: Vec<usize>,
}

impl<'a> Linked<'a> {
    fn read(module: &'a [u8], graph: &mut Graph) -> Result<Self> {
        let mut linked = Self::default();
        for payload in Parser::new(0).parse_all(module) {
            let payload = payload.context("the linked module cannot be read")?;
            if let Some((_, range)) = payload.as_section() {
                linked.section_starts.push(range.start);
            }
            linked.take_up(payload, graph)?;
        }
        Ok(linked)
    }

    fn take_up(&mut self, payload: Payload<'a>, graph: &mut Graph) -> Result<()> {
        match payload {
            Payload::ImportSection(imports) => {
                for import in imports.into_imports() {
                    self.imported += u32::from(matches!(import?.ty, TypeRef::Func(_)));
                }
            }
            Payload::ExportSection(exports) => {
                for export in exports {
                    let export = export?;
                    let stays = !export.name.starts_with(DESCRIPTIONS) && !unused::of_class(export.name);
                    if export.kind == ExternalKind::Func && stays {
                        graph.exports.insert(export.name.to_owned(), export.index);
                        graph.roots.insert(Node::Function(export.index));
                    }
                }
            }
            Payload::StartSection { func, .. } => drop(graph.roots.insert(Node::Function(func))),
            Payload::ElementSection(elements) => self.slots = slots(elements)?,
            Payload::CodeSectionStart { range, .. } => self.code_start = range.start,
            Payload::CodeSectionEntry(body) => {
                let function = self.imported + u32::try_from(self.bodies.len())?;
                for operator in body.get_operators_reader()? {
                    if let Operator::Call { function_index } = operator? {
                        self.calls.push((function, function_index));
                    }
                }
                self.bodies.push(body.range());
            }
            Payload::DataSection(segments) => {
                self.data_start = segments.range().start;
                for segment in segments {
                    let segment = segment?;
                    let DataKind::Active { offset_expr, .. } = &segment.kind else { bail!("data is placed by hand") };
                    let end = segment.range.end;
                    self.segments.push((end - segment.data.len()..end, constant(offset_expr)?));
                }
            }
            Payload::CustomSection(custom) => self.take_up_custom(&custom)?,
            _ => {}
        }
        Ok(())
    }

    fn take_up_custom(&mut self, custom: &CustomSectionReader<'a>) -> Result<()> {
        match custom.as_known() {
            KnownCustom::Linking(linking) => {
                for part in linking.subsections() {
                    match part? {
                        Linking::SymbolTable(symbols) => {
                            self.symbols = symbols.into_iter().collect::<Result<_, _>>()?;
                        }
                        Linking::InitFuncs(functions) => {
                            ensure!(functions.count() == 0, "the module has constructors, which are not known here");
                        }
                        _ => {}
                    }
                }
            }
            KnownCustom::Reloc(relocations) => {
                let section = relocations.section_index() as usize;
                for entry in relocations.entries() {
                    self.relocations.push((section, entry?));
                }
            }
            _ => {}
        }
        Ok(())
    }

    /// Names everything, and says where data lies.
    fn place(&self, graph: &mut Graph) {
        for (slot, function) in &self.slots {
            graph.edges.entry(Node::Slot(*slot)).or_default().insert(Node::Function(*function));
        }
        for (function, body) in (self.imported..).zip(&self.bodies) {
            graph.bodies.insert(function, body.len());
        }
        for (caller, called) in &self.calls {
            graph.edges.entry(Node::Function(*caller)).or_default().insert(Node::Function(*called));
        }
        for (symbol, info) in (0_u32..).zip(&self.symbols) {
            match info {
                SymbolInfo::Func { index, name: Some(name), .. } => {
                    graph.names.entry(Node::Function(*index)).or_insert_with(|| (*name).to_owned());
                }
                SymbolInfo::Data { name, symbol: Some(at), .. } => {
                    graph.names.insert(Node::Data(symbol), (*name).to_owned());
                    if let Some((_, address)) = self.segments.get(at.index as usize) {
                        let start = address + at.offset;
                        graph.addresses.insert(symbol, start..start + at.size);
                    }
                }
                _ => {}
            }
        }
    }

    /// Adds what the relocations say.
    fn join(&self, graph: &mut Graph, module: &[u8]) -> Result<()> {
        let slot_of: BTreeMap<u32, u32> = self.slots.iter().map(|(slot, function)| (*function, *slot)).collect();
        let placed = graph.addresses.iter().filter(|(_, at)| !at.is_empty());
        let by_address: BTreeMap<(u32, u32), u32> = placed.map(|(symbol, at)| ((at.start, at.end), *symbol)).collect();
        for (section, entry) in &self.relocations {
            let start = *self.section_starts.get(*section).context("a relocation is of no section")?;
            let at = start + entry.offset as usize;
            let Some(named) = self.named(&slot_of, entry)? else { continue };
            agrees(graph, named, entry, module, at)?;
            let namers = if start == self.code_start {
                let function = self.bodies.partition_point(|body| body.end <= at);
                vec![Node::Function(self.imported + u32::try_from(function)?)]
            } else if start == self.data_start {
                let segment = self.segments.iter().find(|(bytes, _)| bytes.contains(&at));
                let (bytes, address) = segment.context("a relocation is of no data")?;
                let address = address + u32::try_from(at - bytes.start)?;
                let around = by_address.range(..=(address, u32::MAX)).filter(|((_, end), _)| address < *end);
                around.map(|(_, symbol)| Node::Data(*symbol)).collect()
            } else {
                // Of a custom section: nothing that runs.
                continue;
            };
            if namers.is_empty() {
                graph.roots.insert(named);
            }
            for namer in namers {
                graph.edges.entry(namer).or_default().insert(named);
            }
        }
        Ok(())
    }

    /// What a relocation names; of types and globals, nothing.
    fn named(&self, slot_of: &BTreeMap<u32, u32>, entry: &RelocationEntry) -> Result<Option<Node>> {
        use RelocationType as Is;
        let symbol = || self.symbols.get(entry.index as usize).context("a relocation is of no symbol");
        Ok(match entry.ty {
            Is::FunctionIndexLeb => match symbol()? {
                SymbolInfo::Func { index, .. } => Some(Node::Function(*index)),
                _ => bail!("a call is of no function"),
            },
            Is::TableIndexSleb | Is::TableIndexI32 => match symbol()? {
                // A function that may be missing has no slot, and is never called.
                SymbolInfo::Func { index, .. } => slot_of.get(index).map(|slot| Node::Slot(*slot)),
                _ => bail!("a slot is of no function"),
            },
            Is::MemoryAddrLeb | Is::MemoryAddrSleb | Is::MemoryAddrI32 => match symbol()? {
                SymbolInfo::Data { symbol: Some(_), .. } => Some(Node::Data(entry.index)),
                _ => None,
            },
            Is::TypeIndexLeb
            | Is::GlobalIndexLeb
            | Is::TableNumberLeb
            | Is::FunctionOffsetI32
            | Is::SectionOffsetI32 => None,
            other => bail!("relocations of the kind {other:?} are not known here"),
        })
    }
}

/// Whether the bytes at a relocation say what it says.
fn agrees(graph: &Graph, named: Node, entry: &RelocationEntry, module: &[u8], at: usize) -> Result<()> {
    use RelocationType::{MemoryAddrI32, MemoryAddrSleb, TableIndexI32, TableIndexSleb};
    let want = match named {
        Node::Function(function) => i64::from(function),
        Node::Slot(slot) => i64::from(slot),
        Node::Data(symbol) => match graph.addresses.get(&symbol) {
            Some(address) => i64::from(address.start) + entry.addend,
            // Of what is zero at first the file holds nothing, and its place is not known.
            None => return Ok(()),
        },
    };
    let bytes = module.get(at..at + entry.ty.extent()).context("a relocation is past the end")?;
    let mut reader = BinaryReader::new(bytes, 0);
    let found = match entry.ty {
        TableIndexI32 | MemoryAddrI32 => i64::from(reader.read_u32()?),
        TableIndexSleb | MemoryAddrSleb => i64::from(reader.read_var_i32()?),
        _ => i64::from(reader.read_var_u32()?),
    };
    let name = graph.names.get(&named).map_or("something", String::as_str);
    ensure!(found == want, "a relocation of {name} says {want}, and the module {found}");
    Ok(())
}

/// What each slot of the one table of functions holds.
pub(super) fn slots(elements: wasmparser::ElementSectionReader<'_>) -> Result<BTreeMap<u32, u32>> {
    let mut slots = BTreeMap::new();
    for element in elements {
        let element = element?;
        let (ElementKind::Active { offset_expr, .. }, ElementItems::Functions(items)) = (element.kind, element.items)
        else {
            bail!("a table is filled by hand, or with more than functions");
        };
        for (slot, function) in (constant(&offset_expr)?..).zip(items) {
            slots.insert(slot, function?);
        }
    }
    Ok(slots)
}

/// The number that an offset is.
pub(super) fn constant(expression: &ConstExpr<'_>) -> Result<u32> {
    match expression.get_operators_reader().read()? {
        Operator::I32Const { value } => Ok(value.cast_unsigned()),
        other => bail!("an offset is no number: {other:?}"),
    }
}
