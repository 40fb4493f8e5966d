//! Repairs: every machine that is out, with its thread; saying more of it, and giving it back after a second person's check.

use leptos::prelude::*;
use shared_core::command::Command;
use shared_core::entry::Step;
use shared_core::ids::MachineId;
use shared_core::refusal::Refusal;
use shared_core::time::Span;
use shared_core::view::repairs::{DAYS_BACK, DaysOut, OutRow, Repairs, Standing, ThreadLine};

use super::picture::{self, Opened, Picture};
use super::saying::{self, drawn as reckoned, told};
use crate::intent::use_dispatch;
use crate::parts::button::{BigButton, QuietButton};
use crate::parts::choice::choice;
use crate::parts::field::{Field, Typed};
use crate::parts::lines::said;
use crate::parts::live::live;
use crate::parts::sheet::Sheet;
use crate::screens::notice_bar::NoticeBar;
use crate::screens::time::Minutes;
use crate::store::{AppView, use_app_view};
use crate::words::{chosen, facts, frame, repairs as say, room};

/// What lies over the page.
#[derive(Clone, Debug, PartialEq)]
enum Over {
    Say(OutRow),
    Check(MachineId, String),
}

/// Weeks that a part may take, in the order in which they are offered.
const WEEKS: [i64; 3] = [1, 2, 4];

/// The page.
pub fn drawn() -> AnyView {
    let over = RwSignal::new(None::<Over>);
    let close = Callback::new(move |()| over.set(None));
    let opened = Opened::new(None);
    view! {
        <NoticeBar />
        {reckoned(move |view, repairs: Repairs| page(view, repairs, over, opened))}
        {picture::over(use_app_view(), opened)}
        {live(move || {
            over.get().map(|what| match what {
                Over::Say(row) => say_sheet(row, close),
                Over::Check(machine, name) => check_sheet(machine, name, close),
            })
        })}
    }
    .into_any()
}

fn page(view: AppView, repairs: Repairs, over: RwSignal<Option<Over>>, opened: Opened) -> AnyView {
    let none = repairs.out.is_empty().then(|| said("soft", say::none().to_owned()));
    let rows = repairs.out.into_iter().map(|row| machine(view, row, over, opened)).collect_view();
    view! {
        {none}
        <ul class="rows">{rows}</ul>
        {days(repairs.days)}
    }
    .into_any()
}

fn machine(view: AppView, row: OutRow, over: RwSignal<Option<Over>>, opened: Opened) -> AnyView {
    let OutRow { machine, name, room: stands_in, since, thread, standing, check, .. } = row.clone();
    let state = match standing {
        Standing::Out => say::nothing_yet().to_owned(),
        Standing::Waits { until } => facts::step(Step::WaitsForPart { until }),
        Standing::Mended { by, .. } => say::mended_by(&by),
    };
    let act = match check {
        Ok(()) => {
            let open = (machine, name.clone());
            let check = move |()| over.set(Some(Over::Check(open.0.clone(), open.1.clone())));
            view! { <QuietButton label=say::check() on_press=check /> }.into_any()
        }
        // That nobody mended it yet is said above.
        Err(Refusal::NotMended { .. }) => ().into_any(),
        Err(why) => said("row-detail", [why.reason(chosen()), why.next_step(chosen())].join(" ")),
    };
    let lines = thread.into_iter().map(|line| thread_line(view, line, &name, opened)).collect_view();
    view! {
        <li class="row">
            <p class="row-name">{name}</p>
            <p class="row-detail">
                {stands_in} ", " <Minutes at=Signal::stored(since) since=true says=room::tagged_since />
            </p>
            <p class="next-step">{state}</p>
            <div class="thread">{lines}</div>
            <div class="looks">
                <QuietButton label=say::say() on_press=move |()| over.set(Some(Over::Say(row.clone()))) />
                {act}
            </div>
        </li>
    }
    .into_any()
}

fn thread_line(view: AppView, line: ThreadLine, name: &str, opened: Opened) -> AnyView {
    match line {
        ThreadLine::Tagged { at, by, problem, photo } => {
            let seen = photo.map(|sha| {
                picture::small(view, Picture { sha, of: name.to_owned(), says: say::picture_of(name) }, opened)
            });
            view! { {told(view, at, say::tagged(&by, &problem), None)} {seen} }.into_any()
        }
        ThreadLine::Noted(note) => saying::line(view, note),
    }
}

fn say_sheet(row: OutRow, on_close: Callback<()>) -> AnyView {
    let (view, dispatch) = (use_app_view(), use_dispatch());
    let (words, weeks) = (RwSignal::new(String::new()), RwSignal::new(0_usize));
    let of = row.of;
    let tell = Callback::new(move |step: Step| {
        let note = Some(words.get_untracked()).filter(|note| !note.trim().is_empty());
        dispatch.act(Command::Note { of: of.clone(), step, note });
        on_close.run(());
    });
    let waits = move |()| {
        let weeks = weeks.get_untracked().checked_sub(1).and_then(|picked| WEEKS.get(picked));
        let until = weeks.map(|weeks| view.now.get_untracked() + Span::from_minutes(weeks * 7 * 24 * 60));
        tell.run(Step::WaitsForPart { until });
    };
    view! {
        <Sheet title=row.name close_label=frame::back() on_close>
            <div class="sheet-body">
                <Field label=say::words() name="saying" value=words typed=Typed::Sentences hint=say::words_hint() ready=true />
                {choice(say::until(), vec![say::week(), say::two_weeks(), say::month()], weeks)}
            </div>
            <div class="acts">
                <QuietButton label=say::remark() on_press=move |()| tell.run(Step::Remarked) />
                <QuietButton label=say::waits() on_press=waits />
                <BigButton label=say::mended() on_press=move |()| tell.run(Step::Mended) />
            </div>
        </Sheet>
    }
    .into_any()
}

fn check_sheet(machine: MachineId, name: String, on_close: Callback<()>) -> AnyView {
    let dispatch = use_dispatch();
    let give_back = move |()| {
        dispatch.act(Command::ClearTag { machine: machine.clone() });
        on_close.run(());
    };
    let lines = [say::check_tools(), say::check_guards(), say::check_clear(), say::check_tag()];
    view! {
        <Sheet title=name close_label=frame::back() on_close>
            <div class="sheet-body">
                <p>{say::check_how()}</p>
                <ol class="check-steps">{lines.map(|line| view! { <li>{line}</li> }.into_any()).into_iter().collect_view()}</ol>
                <p class="soft">{say::check_source()}</p>
            </div>
            <div class="acts">
                <BigButton label=say::check_act() on_press=give_back />
            </div>
        </Sheet>
    }
    .into_any()
}

fn days(rows: Vec<DaysOut>) -> AnyView {
    if rows.is_empty() {
        return ().into_any();
    }
    let row = |row: DaysOut| {
        let times = crate::words::count(row.times);
        view! {
            <li class="row">
                <p class="row-name">{row.name}</p>
                <p class="row-detail">{say::days_row(row.hours / 24, row.hours % 24, times)}</p>
            </li>
        }
        .into_any()
    };
    view! {
        <section>
            <h2>{say::days(DAYS_BACK)}</h2>
            <ul class="rows">{rows.into_iter().map(row).collect_view()}</ul>
        </section>
    }
    .into_any()
}
