//! Whatever is done to a map, it answers as the standard library's does.

#![expect(clippy::disallowed_types, reason = "it is compared with it")]

use std::collections::{BTreeMap, BTreeSet};

use proptest::collection::vec;
use proptest::prelude::*;

use super::{CHUNK_MOST, Map, Set};

/// Something done to a map.
#[derive(Clone, Debug)]
enum Act {
    Insert(u16, u8),
    Remove(u16),
    AddTo(u16, u8),
    Keep(u16),
}

fn act() -> impl Strategy<Value = Act> {
    // Few enough keys that they meet again, and enough for many chunks.
    let key = 0_u16..1_000;
    prop_oneof![
        8 => (key.clone(), any::<u8>()).prop_map(|(key, value)| Act::Insert(key, value)),
        3 => key.clone().prop_map(Act::Remove),
        2 => (key, any::<u8>()).prop_map(|(key, more)| Act::AddTo(key, more)),
        1 => (2_u16..50).prop_map(Act::Keep),
    ]
}

fn whole(map: &Map<u16, u8>) {
    assert!(map.chunks.iter().all(|chunk| (1..=CHUNK_MOST).contains(&chunk.len())), "no chunk is empty or too long");
    assert_eq!(map.chunks.iter().map(Vec::len).sum::<usize>(), map.len());
}

proptest! {
    #[test]
    fn it_answers_as_the_tree_does(first in vec((0_u16..1_000, any::<u8>()), 0..600), acts in vec(act(), 0..300)) {
        let mut ours: Map<u16, u8> = first.iter().copied().collect();
        let mut tree: BTreeMap<u16, u8> = first.into_iter().collect();
        for act in acts {
            match act {
                Act::Insert(key, value) => prop_assert_eq!(ours.insert(key, value), tree.insert(key, value)),
                Act::Remove(key) => prop_assert_eq!(ours.remove(&key), tree.remove(&key)),
                Act::AddTo(key, more) => {
                    for value in [ours.entry(key).or_default(), tree.entry(key).or_default()] {
                        *value = value.wrapping_add(more);
                    }
                    if let Some(value) = ours.get_mut(&key) {
                        *value ^= 1;
                    }
                    tree.entry(key).and_modify(|value| *value ^= 1);
                }
                Act::Keep(part) => {
                    ours.retain(|key, value| { *value ^= 1; key % part != 0 });
                    tree.retain(|key, value| { *value ^= 1; key % part != 0 });
                }
            }
            whole(&ours);
            prop_assert!(ours.iter().eq(tree.iter()) && ours.iter().rev().eq(tree.iter().rev()));
        }
        for key in 0..1_000 {
            prop_assert_eq!(ours.get(&key), tree.get(&key));
        }
        prop_assert!(ours.keys().eq(tree.keys()) && ours.values().eq(tree.values()));
        prop_assert_eq!(serde_json::to_string(&ours).ok(), serde_json::to_string(&tree).ok());
        let bytes = borsh::to_vec(&ours).expect("it is written");
        prop_assert_eq!(&bytes, &borsh::to_vec(&tree).expect("it is written"));
        let again: Map<u16, u8> = borsh::from_slice(&bytes).expect("it is read");
        prop_assert_eq!(&again, &ours, "whatever the chunks");
        prop_assert!(ours.into_iter().eq(tree));
    }

    #[test]
    fn sets_are_ordered_as_trees_are(one in vec(0_u16..500, 0..300), other in vec(0_u16..500, 0..300)) {
        let (a, b): (Set<u16>, Set<u16>) = (one.iter().copied().collect(), other.iter().copied().collect());
        let (x, y): (BTreeSet<u16>, BTreeSet<u16>) = (one.into_iter().collect(), other.into_iter().collect());
        prop_assert!(a.iter().eq(x.iter()) && a.difference(&b).eq(x.difference(&y)));
        prop_assert_eq!((a.cmp(&b), a == b, a.is_subset(&b)), (x.cmp(&y), x == y, x.is_subset(&y)));
        prop_assert_eq!((a.first(), a.last(), a.len()), (x.first(), x.last(), x.len()));
    }
}

#[test]
fn what_comes_in_order_lies_dense() {
    let map: Map<u32, ()> = (0..10_000).map(|key| (key, ())).collect();
    assert_eq!(map.chunks.len(), 10_000_usize.div_ceil(CHUNK_MOST));
}
