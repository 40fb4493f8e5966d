//! Maps and sets in the order of their keys: chunks of sorted pairs, in a list of chunks.
//!
//! Takes the place of the standard library's trees, of which each pair of types costs a phone two to four kilobytes to download;
//! of these it costs some hundred bytes. Finding takes two binary searches. Taking in moves at most one chunk's pairs and, once
//! in [`CHUNK_MOST`] / 2 times, the list of chunks: a million keys in any order take no longer each than a thousand do.
//! Never in the order in which things were put in: that would be another device's order, and another state.

mod bytes;
mod entry;
mod forms;
mod serial;
mod set;
#[cfg(test)]
mod tests;

use std::borrow::Borrow;
use std::iter::Flatten;
use std::slice;

pub use self::entry::Entry;
pub use self::set::Set;

/// The most pairs of a chunk.
const CHUNK_MOST: usize = 64;

/// Values by key, in the order of the keys; each key once.
#[derive(Clone)]
pub struct Map<K, V> {
    /// Sorted, none of them empty, each before the next.
    chunks: Vec<Vec<(K, V)>>,
    len: usize,
}

/// Where a pair stands: its chunk, and its place there.
#[derive(Clone, Copy)]
struct Place {
    chunk: usize,
    at: usize,
}

impl<K, V> Map<K, V> {
    /// Nothing yet.
    pub const fn new() -> Self {
        Self { chunks: Vec::new(), len: 0 }
    }

    /// How many keys there are.
    pub fn len(&self) -> usize {
        self.len
    }

    /// Whether there is none.
    pub fn is_empty(&self) -> bool {
        self.len == 0
    }

    /// All pairs, in the order of the keys.
    pub fn iter(&self) -> Iter<'_, K, V> {
        Iter(self.chunks.iter().flatten())
    }

    /// All keys in order.
    pub fn keys(&self) -> impl DoubleEndedIterator<Item = &K> + Clone {
        self.chunks.iter().flatten().map(|(key, _)| key)
    }

    /// All values, in the order of their keys.
    pub fn values(&self) -> impl DoubleEndedIterator<Item = &V> + Clone {
        self.chunks.iter().flatten().map(|(_, value)| value)
    }

    /// All values without their keys.
    pub fn into_values(self) -> impl DoubleEndedIterator<Item = V> {
        self.chunks.into_iter().flatten().map(|(_, value)| value)
    }

    /// Keeps the pairs that `keep` says are to stay.
    pub fn retain(&mut self, mut keep: impl FnMut(&K, &mut V) -> bool) {
        for chunk in &mut self.chunks {
            chunk.retain_mut(|(key, value)| keep(key, value));
        }
        self.chunks.retain(|chunk| !chunk.is_empty());
        self.len = self.chunks.iter().map(Vec::len).sum();
    }

    /// Puts a pair where [`Map::place`] said that its key is missing, and returns its value.
    fn put(&mut self, Place { chunk, at }: Place, pair: (K, V)) -> &mut V {
        self.len += 1;
        if self.chunks.is_empty() {
            self.chunks.push(Vec::new());
        }
        if self.chunks[chunk].len() < CHUNK_MOST {
            self.chunks[chunk].insert(at, pair);
            return &mut self.chunks[chunk][at].1;
        }
        // What comes in order leaves full chunks behind.
        let is_last = at == CHUNK_MOST && chunk + 1 == self.chunks.len();
        let half = if is_last { CHUNK_MOST } else { CHUNK_MOST / 2 };
        let behind = self.chunks[chunk].split_off(half);
        self.chunks.insert(chunk + 1, behind);
        let (chunk, at) = if is_last || at > half { (chunk + 1, at - half) } else { (chunk, at) };
        self.chunks[chunk].insert(at, pair);
        &mut self.chunks[chunk][at].1
    }
}

impl<K: Ord, V> Map<K, V> {
    /// Where a key stands, or would stand.
    fn place<Q: Ord + ?Sized>(&self, key: &Q) -> Result<Place, Place>
    where
        K: Borrow<Q>,
    {
        let begin_before = self.chunks.partition_point(|chunk| chunk.first().is_some_and(|(k, _)| k.borrow() <= key));
        let chunk = begin_before.saturating_sub(1);
        let found = self.chunks.get(chunk).map_or(Err(0), |chunk| chunk.binary_search_by(|(k, _)| k.borrow().cmp(key)));
        found.map(|at| Place { chunk, at }).map_err(|at| Place { chunk, at })
    }

    /// The value of a key.
    pub fn get<Q: Ord + ?Sized>(&self, key: &Q) -> Option<&V>
    where
        K: Borrow<Q>,
    {
        let Place { chunk, at } = self.place(key).ok()?;
        Some(&self.chunks[chunk][at].1)
    }

    /// The value of a key, to be changed.
    pub fn get_mut<Q: Ord + ?Sized>(&mut self, key: &Q) -> Option<&mut V>
    where
        K: Borrow<Q>,
    {
        let Place { chunk, at } = self.place(key).ok()?;
        Some(&mut self.chunks[chunk][at].1)
    }

    /// Whether a key is there.
    pub fn contains_key<Q: Ord + ?Sized>(&self, key: &Q) -> bool
    where
        K: Borrow<Q>,
    {
        self.place(key).is_ok()
    }

    /// Puts a value to a key, in the place of the one that was there, which is returned.
    pub fn insert(&mut self, key: K, value: V) -> Option<V> {
        match self.place(&key) {
            Ok(Place { chunk, at }) => Some(std::mem::replace(&mut self.chunks[chunk][at].1, value)),
            Err(place) => {
                self.put(place, (key, value));
                None
            }
        }
    }

    /// Takes a key away, and returns its value.
    pub fn remove<Q: Ord + ?Sized>(&mut self, key: &Q) -> Option<V>
    where
        K: Borrow<Q>,
    {
        self.remove_entry(key).map(|(_, value)| value)
    }

    /// Takes a key away, and returns it with its value.
    pub fn remove_entry<Q: Ord + ?Sized>(&mut self, key: &Q) -> Option<(K, V)>
    where
        K: Borrow<Q>,
    {
        let Place { chunk, at } = self.place(key).ok()?;
        let pair = self.chunks[chunk].remove(at);
        if self.chunks[chunk].is_empty() {
            self.chunks.remove(chunk);
        }
        self.len -= 1;
        Some(pair)
    }

    /// A key's place, to be filled if it is empty.
    pub fn entry(&mut self, key: K) -> Entry<'_, K, V> {
        Entry::of(self, key)
    }
}

/// All pairs of a map, in the order of the keys.
pub struct Iter<'a, K, V>(Flatten<slice::Iter<'a, Vec<(K, V)>>>);

impl<K, V> Clone for Iter<'_, K, V> {
    fn clone(&self) -> Self {
        Self(self.0.clone())
    }
}

impl<'a, K, V> Iterator for Iter<'a, K, V> {
    type Item = (&'a K, &'a V);

    fn next(&mut self) -> Option<Self::Item> {
        self.0.next().map(|(key, value)| (key, value))
    }
}

impl<K, V> DoubleEndedIterator for Iter<'_, K, V> {
    fn next_back(&mut self) -> Option<Self::Item> {
        self.0.next_back().map(|(key, value)| (key, value))
    }
}
