//! Reading maps and sets from Borsh bytes, one entry after the other.
//!
//! The library's own reading builds each kind of tree in bulk, which is 40 KB more code on each phone; the bytes are the same.

use std::collections::{BTreeMap, BTreeSet};

use borsh::BorshDeserialize;
use borsh::io::{Read, Result};

/// A map.
pub fn map<K: BorshDeserialize + Ord, V: BorshDeserialize, R: Read>(from: &mut R) -> Result<BTreeMap<K, V>> {
    map_of(from, V::deserialize_reader)
}

/// A map of sets.
pub fn map_of_sets<K, V, R>(from: &mut R) -> Result<BTreeMap<K, BTreeSet<V>>>
where
    K: BorshDeserialize + Ord,
    V: BorshDeserialize + Ord,
    R: Read,
{
    map_of(from, set)
}

/// A set.
pub fn set<V: BorshDeserialize + Ord, R: Read>(from: &mut R) -> Result<BTreeSet<V>> {
    let mut set = BTreeSet::new();
    for _ in 0..u32::deserialize_reader(from)? {
        set.insert(V::deserialize_reader(from)?);
    }
    Ok(set)
}

fn map_of<K, V, R>(from: &mut R, value: impl Fn(&mut R) -> Result<V>) -> Result<BTreeMap<K, V>>
where
    K: BorshDeserialize + Ord,
    R: Read,
{
    let mut map = BTreeMap::new();
    for _ in 0..u32::deserialize_reader(from)? {
        map.insert(K::deserialize_reader(from)?, value(from)?);
    }
    Ok(map)
}
