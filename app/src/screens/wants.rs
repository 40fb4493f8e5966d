//! What only one screen shows is asked of the loop while that screen is there, and no longer.

use leptos::prelude::*;

use crate::intent::{Ui, Wanted, use_dispatch};
use crate::parts::live::whenever;

/// Asks for it from now until what calls this is left, anew whenever it is another.
pub fn wants(wanted: Box<dyn Fn() -> Wanted + Send + Sync>) {
    let dispatch = use_dispatch();
    let after = dispatch.clone();
    whenever(move || dispatch.ui(Ui::Want(wanted())));
    on_cleanup(move || after.ui(Ui::Want(Wanted::Nothing)));
}
