//! What only one screen shows is asked of the loop while that screen is there, and no longer.
//!
//! What lies over a screen may want something else: once it has gone, what is wanted below it is asked for again.

use std::cell::RefCell;

use leptos::prelude::*;

use crate::intent::{Dispatch, Ui, Wanted, use_dispatch};
use crate::parts::live::whenever;

/// What each of those that are there wants, by number, the topmost last.
#[derive(Default)]
struct All {
    count: u32,
    wanted: Vec<(u32, Wanted)>,
}

thread_local! {
    static ALL: RefCell<All> = RefCell::default();
}

/// Asks for it from now until what calls this is left, anew whenever it is another.
pub fn wants(wanted: Box<dyn Fn() -> Wanted + Send + Sync>) {
    let dispatch = use_dispatch();
    let after = dispatch.clone();
    let number = ALL.with_borrow_mut(|all| {
        all.count += 1;
        all.wanted.push((all.count, Wanted::Nothing));
        all.count
    });
    whenever(move || set(&dispatch, number, Some(wanted())));
    on_cleanup(move || set(&after, number, None));
}

/// It wants that now, or has gone; what is topmost then is asked for.
fn set(dispatch: &Dispatch, number: u32, wanted: Option<Wanted>) {
    let top = ALL.with_borrow_mut(|all| {
        match (wanted, all.wanted.iter().position(|(own, _)| *own == number)) {
            (Some(wanted), Some(place)) => all.wanted[place].1 = wanted,
            (None, Some(place)) => drop(all.wanted.remove(place)),
            (_, None) => {}
        }
        all.wanted.last().map(|(_, wanted)| wanted.clone()).unwrap_or_default()
    });
    dispatch.ui(Ui::Want(top));
}
