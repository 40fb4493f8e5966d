//! Rounds: what is late, what is due, who did it last; one act to say that it was done.
//!
//! A round that is not due has no act: it could be done all the same, and nobody needs to be told so here.

use leptos::prelude::*;
use shared_core::command::Command;
use shared_core::ids::RoundId;
use shared_core::round::Standing;
use shared_core::view::rounds::RoundRow;

use super::field;
use crate::intent::use_dispatch;
use crate::parts::button::QuietButton;
use crate::parts::kept::Kept;
use crate::parts::live::live;
use crate::screens::time::Minutes;
use crate::store::use_app_view;
use crate::words::{bench, room as say, time};

/// The rounds of this phone's room, or of all rooms.
#[component]
pub fn Rounds(
    /// Whether there is a session, to which what is done can be written.
    inside: Kept<bool>,
) -> impl IntoView {
    let (view, dispatch) = (use_app_view(), use_dispatch());
    let rows = field(view, |room| room.rounds.clone());
    let done = Callback::new(move |round| dispatch.act(Command::FinishRound { round }));
    live(move || {
        let rows = rows.get();
        (!rows.is_empty()).then(|| {
            view! {
                <section class="rounds">
                    <h2>{say::rounds()}</h2>
                    <ul class="rows">
                        {rows.into_iter().map(|row| view! { <Row row inside=inside.get() done /> }.into_any()).collect_view()}
                    </ul>
                </section>
            }.into_any()
        })
    })
}

#[component]
fn Row(row: RoundRow, inside: bool, done: Callback<RoundId>) -> impl IntoView {
    let RoundRow { id, room, text, source, standing, done: last } = row;
    let pressing = !matches!(standing, Standing::Done { .. });
    let act = (inside && pressing).then(|| {
        let spoken = bench::act_on(say::round_act(), &text);
        view! { <QuietButton label=say::round_act() spoken on_press=move |()| done.run(id.clone()) /> }.into_any()
    });
    view! {
        <li class="row with-act">
            <div>
                <p class="row-name">{text}</p>
                {(!inside).then(|| view! { <p class="row-detail">{room}</p> }.into_any())}
                <p class="row-detail">{stands(standing)}</p>
                {last
                    .map(|(at, by)| {
                        view! {
                            <p class="row-detail">
                                {say::round_done(&by)} <Minutes at=Signal::stored(at) since=true says=time::ago />
                            </p>
                        }.into_any()
                    })}
                {source.filter(|_| pressing).map(|source| view! { <p class="row-detail">{source}</p> }.into_any())}
            </div>
            {act}
        </li>
    }
    .into_any()
}

/// How it stands.
pub fn stands(standing: Standing) -> AnyView {
    match standing {
        Standing::NeverDone => say::round_never().into_any(),
        Standing::Overdue { due } => view! {
            <strong>
                <Minutes at=Signal::stored(due) since=true says=say::round_late />
            </strong>
        }
        .into_any(),
        Standing::Due { due } | Standing::Done { due } => {
            view! { <Minutes at=Signal::stored(due) says=say::round_due /> }.into_any()
        }
    }
}
