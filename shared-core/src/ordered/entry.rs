//! A key's place in a map, looked for once.

use super::{Map, Place};

/// A key's place, filled or not.
pub struct Entry<'a, K, V> {
    map: &'a mut Map<K, V>,
    place: Result<Place, Place>,
    key: K,
}

impl<'a, K: Ord, V> Entry<'a, K, V> {
    pub(super) fn of(map: &'a mut Map<K, V>, key: K) -> Self {
        let place = map.place(&key);
        Self { map, place, key }
    }

    /// The value that is there, or `value`, put there.
    pub fn or_insert(self, value: V) -> &'a mut V {
        self.or_insert_with(|| value)
    }

    /// The value that is there, or what `make` makes, put there.
    pub fn or_insert_with(self, make: impl FnOnce() -> V) -> &'a mut V {
        match self.place {
            Ok(Place { chunk, at }) => &mut self.map.chunks[chunk][at].1,
            Err(place) => self.map.put(place, (self.key, make())),
        }
    }

    /// The value that is there, or the default one, put there.
    pub fn or_default(self) -> &'a mut V
    where
        V: Default,
    {
        self.or_insert_with(V::default)
    }
}
