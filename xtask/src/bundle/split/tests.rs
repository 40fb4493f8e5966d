//! A small module, linked by hand, in two parts.

use std::borrow::Cow;

use wasm_encoder::{
    CodeSection, ConstExpr, CustomSection, DataSection, DataSymbolDefinition, ElementSection, Elements, EntityType,
    ExportKind, ExportSection, FunctionSection, GlobalSection, GlobalType, ImportSection, LinkingSection,
    MemorySection, MemoryType, Module, RefType, SymbolTable, TableSection, TableType, TypeSection, ValType,
};

use super::*;
use crate::bundle::{linked, order};

/// The relocation kinds that are used here, by their numbers in the conventions.
const TABLE_INDEX_SLEB: u8 = 1;
const TABLE_INDEX_I32: u8 = 2;
const MEMORY_ADDR_SLEB: u8 = 4;

/// Functions: 0 and 1 are imported (`page.both`, `page.late`); `main` calls `page.both` and names the slot of `shown`;
/// `later` names the data `parts`, in which lies the slot of `book`; `book` calls `page.late`, `page.both` and `shared`,
/// which `shown` calls too. With `leak`, `main` names the slot of `book` as well.
fn module(leak: bool) -> Vec<u8> {
    let (main, later, shown, book, shared) = (2_u32, 3_u32, 4_u32, 5_u32, 6_u32);
    let (slot_shown, slot_book) = (1_u32, 2_u32);
    let (address_text, address_parts) = (1024_u32, 1032_u32);
    let mut code = CodeSection::new();
    // Where each number that is relocated stands, from the start of the section.
    let mut relocations: Vec<(u8, usize, u32)> = Vec::new();
    let mut at = 1;
    let mut body = |parts: &[Part]| {
        let mut bytes = vec![0];
        for part in parts {
            match *part {
                Part::Call(function) => bytes.extend([0x10, low(function)]),
                Part::Names(kind, symbol, value) => {
                    bytes.push(0x41);
                    // One byte says how long the body is.
                    relocations.push((kind, at + 1 + bytes.len(), symbol));
                    bytes.extend([low(value) | 0x80, low(value >> 7) | 0x80, 0x80, 0x80, 0x00]);
                    bytes.push(0x1a);
                }
            }
        }
        bytes.push(0x0b);
        at += 1 + bytes.len();
        code.raw(&bytes);
    };
    let mut of_main = vec![
        Part::Call(0),
        Part::Names(TABLE_INDEX_SLEB, 2, slot_shown),
        Part::Names(MEMORY_ADDR_SLEB, 5, address_text),
    ];
    if leak {
        of_main.push(Part::Names(TABLE_INDEX_SLEB, 3, slot_book));
    }
    body(&of_main);
    body(&[Part::Names(MEMORY_ADDR_SLEB, 6, address_parts)]);
    body(&[Part::Call(shared)]);
    body(&[Part::Call(1), Part::Call(0), Part::Call(shared)]);
    body(&[]);

    let (mut types, mut imports, mut functions) = (TypeSection::new(), ImportSection::new(), FunctionSection::new());
    types.ty().function([], []);
    imports.import("page", "both", EntityType::Function(0)).import("page", "late", EntityType::Function(0));
    for _ in main..=shared {
        functions.function(0);
    }
    let (mut tables, mut memories, mut globals) = (TableSection::new(), MemorySection::new(), GlobalSection::new());
    let of = |element_type, minimum| TableType { element_type, minimum, maximum: None, table64: false, shared: false };
    tables.table(of(RefType::FUNCREF, 3)).table(of(RefType::EXTERNREF, 8));
    memories.memory(MemoryType { minimum: 1, maximum: None, memory64: false, shared: false, page_size_log2: None });
    let stack = GlobalType { val_type: ValType::I32, mutable: true, shared: false };
    globals.global(stack, &ConstExpr::i32_const(1024));
    let mut exports = ExportSection::new();
    exports.export("memory", ExportKind::Memory, 0).export("main", ExportKind::Func, main);
    exports.export("later", ExportKind::Func, later).export("objects", ExportKind::Table, 1);
    let mut elements = ElementSection::new();
    elements.active(None, &ConstExpr::i32_const(1), Elements::Functions(Cow::from(vec![shown, book])));
    let mut data = DataSection::new();
    data.active(0, &ConstExpr::i32_const(address_text.cast_signed()), *b"for all\0\x02\0\0\0only");

    let mut symbols = SymbolTable::new();
    for (index, name) in (main..=shared).zip(["main", "later", "shown", "book", "shared"]) {
        symbols.function(0, index, Some(name));
    }
    let piece = |offset, size| Some(DataSymbolDefinition { index: 0, offset, size });
    symbols.data(0, "text", piece(0, 7)).data(0, "parts", piece(8, 8));
    let mut linking = LinkingSection::new();
    linking.symbol_table(&symbols);
    let mut of_code = vec![8, u8::try_from(relocations.len()).expect("few")];
    for (kind, offset, symbol) in relocations {
        of_code.extend([kind, u8::try_from(offset).expect("few"), u8::try_from(symbol).expect("few")]);
        if kind == MEMORY_ADDR_SLEB {
            of_code.push(0);
        }
    }
    // In the data section: a count, then the segment's kind, offset of four bytes and length before its bytes.
    let of_data = [9, 1, TABLE_INDEX_I32, 1 + 1 + 4 + 1 + 8, 3];
    let mut module = Module::new();
    module.section(&types).section(&imports).section(&functions).section(&tables).section(&memories).section(&globals);
    module.section(&exports).section(&elements).section(&code).section(&data).section(&linking);
    module.section(&CustomSection { name: "reloc.CODE".into(), data: Cow::from(&of_code) });
    module.section(&CustomSection { name: "reloc.DATA".into(), data: Cow::from(&of_data[..]) });
    module.finish()
}

/// Seven bits of a number.
fn low(number: u32) -> u8 {
    u8::try_from(number & 0x7f).expect("seven bits")
}

/// A piece of a function's body.
enum Part {
    Call(u32),
    /// A kind of relocation, a symbol, and the number that is there.
    Names(u8, u32, u32),
}

/// Functions without the imported ones, as `later_functions` counts them: `later` and `book`.
const LATER: [u32; 2] = [1, 3];

fn needs(leak: bool) -> anyhow::Result<Needs> {
    linked::graph(&module(leak))?.needs("later")
}

#[test]
fn what_the_later_part_alone_names_is_its_own() {
    let needs = needs(false).expect("nothing leaks");
    assert_eq!(needs.first_slots.iter().copied().collect::<Vec<_>>(), [1], "the slot of `shown`");
    assert_eq!(needs.later_data, vec![Range { start: 1032, end: 1040 }], "the data `parts`");
    let later = later_functions(&module(false), &needs, "later").expect("a module");
    assert_eq!(later.into_iter().collect::<Vec<_>>(), LATER);
}

#[test]
fn what_leaks_into_the_first_part_stops_the_build_and_is_named() {
    let fault = needs(true).err().expect("`main` names `book`").to_string();
    assert!(fault.contains("needed in the first: main\n    -> book"), "{fault}");
}

#[test]
fn relocations_that_disagree_with_the_module_are_refused() {
    let mut spoilt = module(false);
    let text = spoilt.windows(7).position(|bytes| bytes == b"for all").expect("the data");
    spoilt[text + 8] = 1;
    let fault = linked::graph(&spoilt).err().expect("the slot is another").to_string();
    assert!(fault.contains("a relocation of") && fault.contains("says 2, and the module 1"), "{fault}");
}

#[test]
fn both_parts_are_modules_and_hold_what_is_theirs() {
    let whole = module(false);
    let needs = needs(false).expect("nothing leaks");
    let later = BTreeSet::from(LATER);
    let ordered = order::reordered(&whole, BTreeMap::from([("objects".to_owned(), 1)]), &later).expect("a module");
    let parts = split(&ordered, &later, &needs, "later").expect("two parts");
    for part in [&parts.first, &parts.later] {
        wasmparser::validate(part).expect("a valid module");
    }
    let (first, second) =
        (Whole::read(&parts.first).expect("a module"), Whole::read_part(&parts.later).expect("a module"));
    let names = |whole: &Whole<'_>| whole.imports.iter().map(|import| import.name.to_owned()).collect::<Vec<_>>();
    assert_eq!(names(&first), ["both"], "what only the later part calls is not imported");
    assert_eq!(names(&second)[..3], ["both", "late", "0"]);
    assert_eq!(parts.handed, 3..4, "`shared` is handed out behind all slots");
    assert_eq!(first.slots.keys().copied().collect::<Vec<_>>(), [1, 2, 3]);
    let trap = first.bodies.len() + first.imports.len() - 1;
    assert_eq!(first.slots[&2] as usize, trap, "nobody calls `book` before it is here");
    assert_eq!(second.slots.keys().copied().collect::<Vec<_>>(), [2]);
    assert_eq!(first.data, [(1024, &b"for all\0\0\0\0\0\0\0\0\0"[..])]);
    assert_eq!(second.data, [(1032, &b"\x02\0\0\0only"[..])]);
}
