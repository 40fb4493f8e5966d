//! A value that tells of itself only when it changed, set from outside or following from others: small on a phone.
//!
//! Memos and signals of the reactive graph are compiled anew for each type that they hold, at 2 KB apiece. Here one of
//! each holds them all, behind a pointer; what is compiled for a type is how to compare it and how to take it out again.

use std::any::Any;
use std::marker::PhantomData;
use std::sync::Arc;

use leptos::prelude::*;

/// A value kept until it changes. Copies are the same value.
pub struct Kept<T> {
    source: Source,
    of: PhantomData<fn() -> T>,
}

/// Where a kept value comes from.
#[derive(Clone, Copy)]
enum Source {
    /// It follows from others.
    Memo(Memo<Same>),
    /// It is set by whoever holds its [`Setter`].
    Signal(ReadSignal<Same>),
}

impl<T> Copy for Kept<T> {}

impl<T> Clone for Kept<T> {
    fn clone(&self) -> Self {
        *self
    }
}

/// Keeps what `of` says, and asks it again when a signal that it read has changed.
pub fn kept<T: PartialEq + Send + Sync + 'static>(of: impl Fn() -> T + Send + Sync + 'static) -> Kept<T> {
    Kept { source: Source::Memo(memo(Box::new(move || Same::of(of())))), of: PhantomData }
}

/// A value to be set from outside, and what sets it.
pub fn settable<T: PartialEq + Send + Sync + 'static>(value: T) -> (Kept<T>, Setter<T>) {
    let (read, write) = signal(Same::of(value));
    (Kept { source: Source::Signal(read), of: PhantomData }, Setter { write, of: PhantomData })
}

/// Sets a kept value. Copies set the same value.
pub struct Setter<T> {
    write: WriteSignal<Same>,
    of: PhantomData<fn(T)>,
}

impl<T> Copy for Setter<T> {}

impl<T> Clone for Setter<T> {
    fn clone(&self) -> Self {
        *self
    }
}

impl<T: Clone + PartialEq + Send + Sync + 'static> Setter<T> {
    /// Sets the value if it differs, and wakes its readers only then.
    pub fn set(self, next: &T) {
        write(self.write, &|value| (seen::<T>(value) != next).then(|| Same::of(next.clone())));
    }
}

impl<T: 'static> Kept<T> {
    /// Looks at it, and follows it.
    pub fn with<U>(self, look: impl FnOnce(&T) -> U) -> U {
        look(seen(&*now(self.source)))
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
pub struct Same {
    value: Arc<dyn Any + Send + Sync>,
    same: fn(&dyn Any, &dyn Any) -> bool,
}

impl Same {
    /// The value, if it is of this type.
    pub fn seen<T: 'static>(&self) -> Option<&T> {
        self.value.downcast_ref()
    }

    /// Any value.
    pub fn of<T: PartialEq + Send + Sync + 'static>(value: T) -> Self {
        Self { value: Arc::new(value), same: same::<T> }
    }
}

impl PartialEq for Same {
    fn eq(&self, other: &Self) -> bool {
        (self.same)(&*self.value, &*other.value)
    }
}

fn same<T: PartialEq + 'static>(a: &dyn Any, b: &dyn Any) -> bool {
    a.downcast_ref::<T>() == b.downcast_ref::<T>()
}

fn seen<T: 'static>(value: &dyn Any) -> &T {
    value.downcast_ref().expect("a memo holds what its maker put in")
}

/// The one memo that is compiled.
fn memo(of: Box<dyn Fn() -> Same + Send + Sync>) -> Memo<Same> {
    Memo::new(move |_| of())
}

fn now(source: Source) -> Arc<dyn Any + Send + Sync> {
    match source {
        Source::Memo(memo) => memo.with(|same| same.value.clone()),
        Source::Signal(signal) => signal.with(|same| same.value.clone()),
    }
}

/// Writes what `differs` makes of the value, if anything.
fn write(signal: WriteSignal<Same>, differs: &dyn Fn(&dyn Any) -> Option<Same>) {
    signal.maybe_update(|same| {
        let next = differs(&*same.value);
        let written = next.is_some();
        if let Some(next) = next {
            *same = next;
        }
        written
    });
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

    #[test]
    fn what_is_set_is_told_once() {
        let owner = Owner::new();
        owner.set();
        let (room, set) = settable("forge".to_owned());
        let asked = RwSignal::new(0);
        let loud = kept(move || {
            asked.update_untracked(|asked| *asked += 1);
            room.with(|room| room.to_uppercase())
        });
        for (next, said, times_asked) in [("forge", "FORGE", 1), ("fitting", "FITTING", 2), ("fitting", "FITTING", 2)] {
            set.set(&next.to_owned());
            assert_eq!((loud.get().as_str(), room.get().as_str()), (said, next));
            assert_eq!(asked.get_untracked(), times_asked, "{next}");
        }
    }
}
