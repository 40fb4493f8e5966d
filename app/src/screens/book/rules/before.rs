//! What was published before, to be put back; and rulebooks to begin with. Either is only written into the text.

use leptos::prelude::*;
use shared_core::sync::rules::{RulesStart, RulesVersion};

use super::{Desk, reread};
use crate::intent::use_dispatch;
use crate::parts::button::QuietButton;
use crate::parts::figures::date_and_clock;
use crate::parts::kept::kept;
use crate::parts::lines::said;
use crate::parts::live::live;
use crate::screens::time::offset_minutes;
use crate::words::rules as say;

/// Both.
pub(super) fn before(desk: Desk) -> AnyView {
    let versions =
        kept(move || desk.held.with(|held| held.as_ref().map(|held| held.versions.clone()).unwrap_or_default()));
    let starts = kept(move || desk.held.with(|held| held.as_ref().map(|held| held.starts.clone()).unwrap_or_default()));
    view! {
        <h2>{say::before()}</h2>
        {reread(desk)}
        {live(move || versions.with(Vec::is_empty).then(|| said("soft", say::none_before().to_owned())))}
        <ul class="rows">{live(move || Some(versions.get().into_iter().map(|one| version(desk, one)).collect::<Vec<_>>().into_any()))}</ul>
        <h2>{say::starts()}</h2>
        <div class="looks">
            {live(move || Some(starts.get().into_iter().map(|one| start(desk, one)).collect::<Vec<_>>().into_any()))}
        </div>
    }
    .into_any()
}

fn version(desk: Desk, version: RulesVersion) -> AnyView {
    let dispatch = use_dispatch();
    let RulesVersion { number, at, by, note, text, .. } = version;
    let when = date_and_clock(at, offset_minutes(desk.view, at));
    let name = say::version(&desk.person(&by), number, &when);
    let spoken = [say::put_back(), &name].join(": ");
    let back = move |()| desk.write(text.clone(), &dispatch);
    view! {
        <li class="row with-act">
            <div>
                <p class="row-name">{name}</p>
                <p class="row-detail">{note}</p>
            </div>
            <QuietButton label=say::put_back() spoken on_press=back />
        </li>
    }
    .into_any()
}

fn start(desk: Desk, start: RulesStart) -> AnyView {
    let dispatch = use_dispatch();
    let label = match start.name.as_str() {
        "metal" => say::start_metal(),
        "wood" => say::start_wood(),
        _ => say::start_mixed(),
    };
    let text = start.text;
    let begin = move |()| desk.write(text.clone(), &dispatch);
    view! { <QuietButton label on_press=begin /> }.into_any()
}
