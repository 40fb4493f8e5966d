//! The sheet of a round whose code was scanned where it is done: what to do, who asks for it, and one touch that says that it
//! was done. Any member's, in a session or outside one.

use leptos::attr::custom::custom_attribute;
use leptos::prelude::*;
use shared_core::command::Command;
use shared_core::view::rounds::RoundRow;

use crate::intent::{Ui, use_dispatch};
use crate::parts::button::BigButton;
use crate::parts::sheet::Sheet;
use crate::screens::notice_bar::NoticeBar;
use crate::screens::room::round_stands;
use crate::screens::time::Minutes;
use crate::words::{door, kept as say, room, time};

/// The sheet.
pub fn sheet(row: RoundRow) -> AnyView {
    let dispatch = use_dispatch();
    let after = dispatch.clone();
    let close = move |()| after.ui(Ui::LeaveRound);
    let RoundRow { id, room: place, text, source, standing, done } = row;
    let act = move |()| dispatch.act(Command::FinishRound { round: id.clone() });
    view! {
        <Sheet title=say::scan_title() close_label=door::not_today() on_close=close>
            <div class="sheet-body" {..custom_attribute("tabindex", "0")}>
                <NoticeBar />
                <p class="row-detail">{place}</p>
                <p class="statement">{text}</p>
                <p class="row-detail">{round_stands(standing)}</p>
                {done
                    .map(|(at, by)| {
                        view! {
                            <p class="row-detail">
                                {room::round_done(&by)} <Minutes at=Signal::stored(at) since=true says=time::ago />
                            </p>
                        }
                            .into_any()
                    })}
                {source.map(|source| view! { <p class="soft">{source}</p> }.into_any())}
                <p>{say::scan_how()}</p>
            </div>
            <div class="acts">
                <BigButton label=say::scan_act() on_press=act />
            </div>
        </Sheet>
    }
    .into_any()
}
