//! Book: the ways to its pages; what waits to sync, this phone's log line by line, the phone itself with its card, and who else
//! may join.
//!
//! Being offline is a quiet fact here, not an error. What the hub would not take stands first, with the reason.

mod card;
mod day;
mod evenings;
mod figures;
mod finds;
mod finds_patterns;
mod incidents;
mod kept;
mod lines;
mod mine;
mod off;
mod pages;
mod people;
mod phone;
mod phones;
mod picture;
mod posted;
mod repairs;
mod rules;
mod saying;
mod sign_offs;
mod sync;
mod today;
mod walk;

use leptos::prelude::*;

use self::evenings::Evenings;
use self::lines::Lines;
use self::mine::Mine;
use self::off::Off;
use self::pages::Pages;
use self::phone::Phone;
use self::phones::OwnPhones;
use self::sync::Sync;
use super::wants::wants;
use crate::intent::Wanted;
use crate::words::book as say;

pub use self::pages::page;
pub use self::phones::answered;

/// The screen.
pub fn screen() -> AnyView {
    wants(Box::new(|| Wanted::Book));
    view! {
        <main class="screen is-plain">
            <div class="screen-body">
                <h1>{say::title()}</h1>
                <Pages />
                <Off />
                <Sync />
                <Evenings />
                <Lines />
                <Phone />
                <OwnPhones />
                <Mine />
            </div>
        </main>
    }
    .into_any()
}
