//! The chores: what is left in the planned order, then what is done. One touch ticks one; a photo is a choice.

use leptos::prelude::*;
use shared_core::command::Command;
use shared_core::view::sweep::{ChoreRow, When};

use super::field;
use crate::intent::{Ui, use_dispatch};
use crate::parts::button::QuietButton;
use crate::parts::chore_row::ChoreRow as RowPart;
use crate::parts::kept::{Kept, kept};
use crate::parts::live::{live, rows};
use crate::screens::time::shop_clock;
use crate::store::{AppView, use_app_view};
use crate::words::{sweep as say, time};

/// The list.
#[component]
pub fn Chores() -> impl IntoView {
    let view = use_app_view();
    let chores = field(view, |sweep| sweep.chores.clone());
    let begun = field(view, |sweep| sweep.began.is_some());
    let ids = kept(move || chores.with(|rows| to_do_first(rows.as_deref().unwrap_or_default())));
    let next = kept(move || {
        chores
            .with(|rows| rows.iter().flatten().find(|row| matches!(row.when, When::Next(_))).map(|row| row.id.clone()))
    });
    let line = move |id: String| {
        let own = id.clone();
        let row = kept(move || chores.with(|rows| rows.iter().flatten().find(|row| row.id.as_str() == own).cloned()));
        let is_next = Signal::derive(move || next.with(|next| next.as_ref().is_some_and(|next| next.as_str() == id)));
        let begun = Signal::derive(move || begun.get() == Some(true));
        view! { <Line row is_next begun /> }.into_any()
    };
    view! {
        {live(move || ids.with(Vec::is_empty).then(|| view! { <p>{say::no_chores()}</p> }.into_any()))}
        <ul class="chores">
            {rows(ids, line)}
        </ul>
    }
}

#[component]
fn Line(row: Kept<Option<ChoreRow>>, is_next: Signal<bool>, begun: Signal<bool>) -> impl IntoView {
    let (view, dispatch) = (use_app_view(), use_dispatch());
    let of = move |field: fn(AppView, &ChoreRow) -> String| {
        Signal::derive(move || row.with(|row| row.as_ref().map(|row| field(view, row)).unwrap_or_default()))
    };
    let done = Signal::derive(move || row.with(|row| matches!(row, Some(ChoreRow { when: When::Done(_), .. }))));
    let id = move || row.with_untracked(|row| row.as_ref().map(|row| row.id.clone()));
    let tick = {
        let dispatch = dispatch.clone();
        move |()| {
            if let Some(chore) = id().filter(|_| begun.get_untracked()) {
                dispatch.act(Command::FinishChore { chore, photo: None });
            }
        }
    };
    let photograph = Callback::new(move |()| {
        if let Some(chore) = id() {
            dispatch.ui(Ui::Photograph(Command::FinishChore { chore, photo: None }));
        }
    });
    view! {
        <li class="chore">
            <RowPart
                text=of(|_, row| row.text.clone())
                detail=of(detail)
                minutes=of(|_, row| time::short(row.minutes))
                done
                is_next
                on_done=tick
            />
            {live(move || {
                (begun.get() && is_next.get() && !done.get())
                    .then(|| {
                        let spoken = row.with_untracked(|row| row.as_ref().map(|row| say::photo_of(&row.text)));
                        view! { <QuietButton label=say::photo() spoken=spoken.unwrap_or_default() on_press=photograph /> }.into_any()
                    })
            })}
        </li>
    }
}

/// What is left in its planned order, then what is done: the next chore is where the thumb is.
fn to_do_first(rows: &[ChoreRow]) -> Vec<String> {
    let is_done = |row: &&ChoreRow| matches!(row.when, When::Done(_));
    let left = rows.iter().filter(|row| !is_done(row));
    left.chain(rows.iter().filter(is_done)).map(|row| row.id.as_str().to_owned()).collect()
}

fn detail(view: AppView, row: &ChoreRow) -> String {
    let when = match &row.when {
        When::Done(at) => say::done_at(&shop_clock(view, *at)),
        When::Next(at) => say::from(&shop_clock(view, *at)),
        When::After { start, first } => format!("{}, {}", say::from(&shop_clock(view, *start)), say::after(first)),
    };
    let owner = &row.owner;
    match row.hands {
        0 => format!("{owner}, {when}, {}", say::unattended()),
        1 => format!("{owner}, {when}"),
        hands => format!("{owner}, {when}, {}", say::hands(i64::from(hands))),
    }
}
