//! Fire: leave first; then the doors, and for what burns the extinguisher of this room. Two touches from any screen.

use leptos::attr::custom::custom_attribute;
use leptos::prelude::*;
use shared_core::view::look::{LookView, RoomFire};

use crate::parts::lines::{Line, beside, lines};
use crate::parts::live::live;
use crate::parts::sheet::Sheet;
use crate::parts::sign::Sign;
use crate::screens::room::{call_act, field};
use crate::store::use_app_view;
use crate::words::{frame, look as say};

/// The sheet.
#[component]
pub fn FireSheet(on_close: Callback<()>) -> impl IntoView {
    let view = use_app_view();
    let number = field(view, |room| room.emergency.clone());
    view! {
        <Sheet title=say::fire() close_label=frame::back() on_close>
            <div class="sheet-body" {..custom_attribute("tabindex", "0")}>
                <p class="statement">
                    <strong>{say::leave_first()}</strong>
                    " "
                    {say::small_only()}
                </p>
                {live(move || view.room.with(|room| room.as_ref().map(|room| everything(&room.look))))}
            </div>
            <div class="acts">{live(move || call_act(number.get()))}</div>
        </Sheet>
    }
    .into_any()
}

/// This phone's room first: its doors, where to gather, and only then what may be taken up.
fn everything(look: &LookView) -> AnyView {
    let gather = look.gather.iter().map(|place| line(Sign::Muster, place, String::new()));
    let mut gather = lines(say::gather().into(), gather.collect());
    let mut parts = Vec::new();
    for room in &look.fire {
        parts.extend([doors(room), std::mem::replace(&mut gather, ().into_any()), burns(room)]);
    }
    parts.into_any()
}

fn doors(room: &RoomFire) -> AnyView {
    let ways = room.exits.iter().map(|exit| line(Sign::Exit, exit, say::way_out().into()));
    let none = room.not_exits.iter().map(|exit| line(Sign::NoExit, exit, say::no_way_out().into()));
    lines(say::doors(&room.room), ways.chain(none).collect())
}

fn burns(room: &RoomFire) -> AnyView {
    if room.with.is_empty() {
        return beside(say::none_written(&room.room));
    }
    let one = room.with.iter().map(|(burning, with)| {
        let places: Vec<String> = with.iter().map(say::extinguisher).collect();
        if places.is_empty() {
            return line(Sign::Never, say::burning(*burning), say::nothing_for_it().to_owned());
        }
        line(Sign::Extinguisher, say::burning(*burning), [places.join(" "), say::first(*burning).to_owned()].join(" "))
    });
    lines(say::burns(&room.room), one.collect())
}

fn line(sign: Sign, name: &str, detail: String) -> Line {
    Line { sign: Some(sign), name: name.to_owned(), detail }
}
