//! Welding shades: the whole published table, short enough to be read and not asked.

use leptos::prelude::*;
use shared_core::shade::{Process, Unit};

use crate::parts::lines::{Line, lines};
use crate::parts::sign::Sign;
use crate::words::look as say;

/// The sheet's body.
pub(super) fn body() -> AnyView {
    view! {
        <p>{say::shades_how()}</p>
        {lines(say::least_shade().into(), Process::ALL.into_iter().map(line).collect())}
    }
    .into_any()
}

fn line(process: Process) -> Line {
    let bands = process.bands();
    let mut said: Vec<String> = bands.iter().map(|band| say::band(*band, process.unit())).collect();
    if let (Unit::Amperes, Some(below)) = (process.unit(), bands.last().and_then(|band| band.below)) {
        said.push(say::table_ends(i64::from(below) - 1));
    }
    Line { sign: Some(Sign::WeldShade), name: say::process(process).to_owned(), detail: said.join("\n") }
}
