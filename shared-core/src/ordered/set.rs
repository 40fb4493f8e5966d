//! A set in the order of what is in it: a map without values.

use std::borrow::Borrow;

use super::Map;

/// Things in their order, each once.
#[derive(Clone)]
pub struct Set<T>(pub(super) Map<T, ()>);

impl<T> Set<T> {
    /// Nothing yet.
    pub const fn new() -> Self {
        Self(Map::new())
    }

    /// How many there are.
    pub fn len(&self) -> usize {
        self.0.len()
    }

    /// Whether there is none.
    pub fn is_empty(&self) -> bool {
        self.0.is_empty()
    }

    /// Forgets all.
    pub fn clear(&mut self) {
        *self = Self::new();
    }

    /// All, in order.
    pub fn iter(&self) -> Iter<'_, T> {
        Iter(self.0.iter())
    }

    /// The least.
    pub fn first(&self) -> Option<&T> {
        self.iter().next()
    }

    /// The greatest.
    pub fn last(&self) -> Option<&T> {
        self.iter().next_back()
    }

    /// Keeps those that `keep` says are to stay.
    pub fn retain(&mut self, mut keep: impl FnMut(&T) -> bool) {
        self.0.retain(|one, ()| keep(one));
    }
}

impl<T: Ord> Set<T> {
    /// Whether it is there.
    pub fn contains<Q: Ord + ?Sized>(&self, one: &Q) -> bool
    where
        T: Borrow<Q>,
    {
        self.0.contains_key(one)
    }

    /// Takes one in; whether it was not there before.
    pub fn insert(&mut self, one: T) -> bool {
        self.0.insert(one, ()).is_none()
    }

    /// Takes one away; whether it was there.
    pub fn remove<Q: Ord + ?Sized>(&mut self, one: &Q) -> bool
    where
        T: Borrow<Q>,
    {
        self.0.remove(one).is_some()
    }

    /// Whether all of it is in the other too.
    pub fn is_subset(&self, other: &Self) -> bool {
        self.iter().all(|one| other.contains(one))
    }

    /// What is in it and not in the other, in order.
    pub fn difference<'a>(&'a self, other: &'a Self) -> impl Iterator<Item = &'a T> {
        self.iter().filter(|one| !other.contains(*one))
    }
}

/// All of a set, in order.
pub struct Iter<'a, T>(super::Iter<'a, T, ()>);

impl<T> Clone for Iter<'_, T> {
    fn clone(&self) -> Self {
        Self(self.0.clone())
    }
}

impl<'a, T> Iterator for Iter<'a, T> {
    type Item = &'a T;

    fn next(&mut self) -> Option<Self::Item> {
        self.0.next().map(|(one, ())| one)
    }
}

impl<T> DoubleEndedIterator for Iter<'_, T> {
    fn next_back(&mut self) -> Option<Self::Item> {
        self.0.next_back().map(|(one, ())| one)
    }
}
