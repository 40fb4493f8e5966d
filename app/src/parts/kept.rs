//! A value that follows from signals and tells of itself only when it changed: a memo, small on a phone.
//!
//! A memo of the reactive graph is compiled anew for each type that it holds, at 2 KB apiece. Here one memo holds them
//! all, behind a pointer; what is compiled for a type is how to compare it and how to take it out again.

use std::any::Any;
use std::marker::PhantomData;
use std::sync::Arc;

use leptos::prelude::*;

/// A value kept until it changes. Copies are the same value.
pub struct Kept<T> {
    memo: Memo<Same>,
    of: PhantomData<fn() -> T>,
}

impl<T> Copy for Kept<T> {}

impl<T> Clone for Kept<T> {
    fn clone(&self) -> Self {
        *self
    }
}

/// Keeps what `of` says, and asks it again when a signal that it read has changed.
pub fn kept<T: PartialEq + Send + Sync + 'static>(of: impl Fn() -> T + Send + Sync + 'static) -> Kept<T> {
    let of: Box<dyn Fn() -> Same + Send + Sync> = Box::new(move || Same { value: Arc::new(of()), same: same::<T> });
    Kept { memo: memo(of), of: PhantomData }
}

impl<T: 'static> Kept<T> {
    /// Looks at it, and follows it.
    pub fn with<U>(self, look: impl FnOnce(&T) -> U) -> U {
        look(seen(&*now(self.memo)))
    }

    /// Looks at it without following it.
    pub fn with_untracked<U>(self, look: impl FnOnce(&T) -> U) -> U {
        untrack(|| self.with(look))
    }
}

impl<T: Clone + 'static> Kept<T> {
    /// Takes a copy, and follows it.
    pub fn get(self) -> T {
        self.with(T::clone)
    }

    /// Takes a copy without following it.
    pub fn get_untracked(self) -> T {
        self.with_untracked(T::clone)
    }
}

impl<T: Clone + Send + Sync + 'static> From<Kept<T>> for Signal<T> {
    fn from(kept: Kept<T>) -> Self {
        Self::derive(move || kept.get())
    }
}

/// A value of some type, with how values of that type are compared.
#[derive(Clone)]
struct Same {
    value: Arc<dyn Any + Send + Sync>,
    same: fn(&dyn Any, &dyn Any) -> bool,
}

impl PartialEq for Same {
    fn eq(&self, other: &Self) -> bool {
        (self.same)(&*self.value, &*other.value)
    }
}

fn same<T: PartialEq + 'static>(a: &dyn Any, b: &dyn Any) -> bool {
    seen::<T>(a) == seen::<T>(b)
}

fn seen<T: 'static>(value: &dyn Any) -> &T {
    value.downcast_ref().expect("a memo holds what its maker put in")
}

/// The one memo that is compiled.
fn memo(of: Box<dyn Fn() -> Same + Send + Sync>) -> Memo<Same> {
    Memo::new(move |_| of())
}

fn now(memo: Memo<Same>) -> Arc<dyn Any + Send + Sync> {
    memo.with(|same| same.value.clone())
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn tells_of_a_change_and_of_nothing_else() {
        let owner = Owner::new();
        owner.set();
        let minutes = RwSignal::new(61);
        let hours = kept(move || minutes.get() / 60);
        let asked = RwSignal::new(0);
        let text = kept(move || {
            asked.update_untracked(|asked| *asked += 1);
            hours.with(|hours| format!("{hours} h"))
        });
        for (set_minutes, said, times_asked) in [(61, "1 h", 1), (119, "1 h", 1), (120, "2 h", 2), (0, "0 h", 3)] {
            minutes.set(set_minutes);
            assert_eq!(text.get(), said, "{set_minutes} min");
            assert_eq!(asked.get_untracked(), times_asked, "{set_minutes} min");
        }
    }
}
