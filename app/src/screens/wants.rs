//! What only one screen shows is asked of the loop while that screen is there, and no longer.

use leptos::prelude::*;

use crate::intent::{Ui, Wanted, use_dispatch};
use crate::parts::kept::Kept;
use crate::parts::live::whenever;

/// Asks for it from now until what calls this is left.
pub fn wants(wanted: Kept<Wanted>) {
    let dispatch = use_dispatch();
    let after = dispatch.clone();
    whenever(move || dispatch.ui(Ui::Want(wanted.get())));
    on_cleanup(move || after.ui(Ui::Want(Wanted::Nothing)));
}
