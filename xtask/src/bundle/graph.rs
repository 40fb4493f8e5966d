//! What names what in the module as the linker left it, and so what each part of the app needs.
//!
//! The linker, told to keep its relocations, says of each function and each piece of data which functions it calls, which
//! slots of the table and which data it names; `linked` reads it. Nothing is guessed from numbers that look like
//! addresses. What is named by something that has no name counts as needed at once.

use std::collections::{BTreeMap, BTreeSet, VecDeque};
use std::ops::Range;

use anyhow::{Context, Result, bail};

/// A thing that names others.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub(super) enum Node {
    /// A function, by its number.
    Function(u32),
    /// A function by way of its slot in the table.
    Slot(u32),
    /// A piece of data, by the number of its symbol.
    Data(u32),
}

/// What was reached, each with what led to it.
type Reached = BTreeMap<Node, Option<Node>>;

/// Whose a byte of data is.
#[derive(Clone, Copy, PartialEq, Eq)]
enum Owner {
    Nobody,
    First,
    Later,
}

/// What is needed at once, and what only later.
pub(super) struct Needs {
    /// The slots of the table that the first part may call.
    pub(super) first_slots: BTreeSet<u32>,
    /// Addresses of data that the later part alone names.
    pub(super) later_data: Vec<Range<u32>>,
}

/// The linked module, as far as it says what names what.
#[derive(Default)]
pub(super) struct Graph {
    pub(super) edges: BTreeMap<Node, BTreeSet<Node>>,
    pub(super) names: BTreeMap<Node, String>,
    /// Where each piece of data lies; of what is zero at first, nothing.
    pub(super) addresses: BTreeMap<u32, Range<u32>>,
    /// What is needed at once whatever else is: what the page calls, what runs at the start, what nameless data names.
    pub(super) roots: BTreeSet<Node>,
    /// How long each function's body is, in bytes.
    pub(super) bodies: BTreeMap<u32, usize>,
    /// The functions that are called from outside, by name.
    pub(super) exports: BTreeMap<String, u32>,
}

impl Graph {
    /// What is needed before `entry` was called, and what is needed only after.
    pub(super) fn needs(&self, entry: &str) -> Result<Needs> {
        let (entry, first) = self.first(entry)?;
        let later = self.reached([entry], &first);
        self.check_entries(entry, &first)?;
        let first_slots = first.keys().filter_map(|node| if let Node::Slot(slot) = node { Some(*slot) } else { None });
        Ok(Needs { first_slots: first_slots.collect(), later_data: self.data_of(&later, &first) })
    }

    /// Everything of the part that is needed before `entry` was called, and of the one that is needed only after.
    pub(super) fn parts(&self, entry: &str) -> Result<(Vec<Node>, Vec<Node>)> {
        let (entry, first) = self.first(entry)?;
        let later = self.reached([entry], &first);
        Ok((first.into_keys().collect(), later.into_keys().collect()))
    }

    /// The function that is exported as `entry`, and what is reached without it.
    fn first(&self, entry: &str) -> Result<(Node, Reached)> {
        // The compiler adds a hash, which the binder takes away.
        let is_entry = |name: &str| name == entry || name.strip_prefix(entry).is_some_and(|rest| rest.starts_with('_'));
        let named = self.exports.iter().find(|(name, _)| is_entry(name));
        let entry = Node::Function(*named.with_context(|| format!("nothing exports `{entry}`"))?.1);
        let first = self.reached(self.roots.iter().copied().filter(|root| *root != entry), &BTreeMap::new());
        if let Some(way) = first.contains_key(&entry).then(|| self.way(&first, entry)) {
            bail!("the later part's entry is called from the first: {way}");
        }
        Ok((entry, first))
    }

    /// The bytes of a function's body or of a piece of data; a slot's are its function's.
    pub(super) fn weight(&self, node: Node) -> usize {
        match node {
            Node::Function(function) => self.bodies.get(&function).copied().unwrap_or_default(),
            Node::Data(symbol) => self.addresses.get(&symbol).map_or(0, |at| (at.end - at.start) as usize),
            Node::Slot(_) => 0,
        }
    }

    /// What the entry hands out by its slot is called by way of that: each such function belongs to the later part.
    fn check_entries(&self, entry: Node, first: &Reached) -> Result<()> {
        let mut handed: BTreeSet<Node> = self.named_by(entry).collect();
        let tables: Vec<Node> = handed.iter().copied().filter(|node| matches!(node, Node::Data(_))).collect();
        handed
            .extend(tables.into_iter().filter(|table| !first.contains_key(table)).flat_map(|data| self.named_by(data)));
        for node in handed.into_iter().filter(|node| matches!(node, Node::Slot(_))) {
            if first.contains_key(&node) {
                bail!("what belongs in the later part is needed in the first: {}", self.way(first, node));
            }
        }
        Ok(())
    }

    /// All that is reached from `roots` without what is in `without`, each with what led to it.
    fn reached(&self, roots: impl IntoIterator<Item = Node>, without: &Reached) -> Reached {
        let mut from = BTreeMap::new();
        let mut next: VecDeque<(Node, Option<Node>)> = roots.into_iter().map(|root| (root, None)).collect();
        while let Some((node, by)) = next.pop_front() {
            if !without.contains_key(&node) && !from.contains_key(&node) {
                from.insert(node, by);
                next.extend(self.named_by(node).map(|named| (named, Some(node))));
            }
        }
        from
    }

    fn named_by(&self, node: Node) -> impl Iterator<Item = Node> {
        self.edges.get(&node).into_iter().flatten().copied()
    }

    /// What a node is called; a slot as the function that it holds.
    pub(super) fn name(&self, node: Node) -> &str {
        let function = if let Node::Slot(_) = node { self.named_by(node).next() } else { None };
        self.names.get(&function.unwrap_or(node)).map_or("(without a name)", String::as_str)
    }

    /// How a node was reached, from a root on, in names.
    fn way(&self, from: &Reached, node: Node) -> String {
        let back = std::iter::successors(Some(node), |node| from.get(node).copied().flatten());
        let mut names: Vec<&str> = back.map(|node| self.name(node)).collect();
        names.reverse();
        names.dedup();
        names.join("\n    -> ")
    }

    /// Where what only `later` names lies, with the padding between, and nothing that any other name reaches into.
    fn data_of(&self, later: &Reached, first: &Reached) -> Vec<Range<u32>> {
        let end = self.addresses.values().map(|at| at.end).max().unwrap_or_default();
        let mut of = vec![Owner::Nobody; end as usize];
        let whole = |at: &Range<u32>| at.start as usize..at.end as usize;
        let alone =
            |symbol: &u32| later.contains_key(&Node::Data(*symbol)) && !first.contains_key(&Node::Data(*symbol));
        let (moved, kept): (Vec<_>, Vec<_>) = self.addresses.iter().partition(|(symbol, _)| alone(symbol));
        for (pieces, owner) in [(moved, Owner::Later), (kept, Owner::First)] {
            for (_, at) in pieces {
                of[whole(at)].fill(owner);
            }
        }
        let mut out: Vec<Range<u32>> = Vec::new();
        let mut open = false;
        for (address, owner) in (0_u32..).zip(of) {
            match (owner, out.last_mut()) {
                (Owner::Later, Some(last)) if open => last.end = address + 1,
                (Owner::Later, _) => out.push(address..address + 1),
                _ => {}
            }
            open = owner == Owner::Later || (owner == Owner::Nobody && open);
        }
        out
    }
}
