//! Today: who is in, and what needs the steward, each with its next step and the way to it.

use leptos::prelude::*;
use shared_core::time::Instant;
use shared_core::view::repairs::{OutRow, Standing, ThreadLine};
use shared_core::view::rounds::RoundRow;
use shared_core::view::today::{Left, Need, Today, late_since};

use super::saying::{drawn as reckoned, seen_to, when};
use crate::parts::lines::said;
use crate::parts::live::live;
use crate::parts::notice::{Notice, Tone};
use crate::route::{Page, Route};
use crate::screens::room::field;
use crate::screens::time::{Minutes, shop_clock};
use crate::store::{AppView, use_app_view};
use crate::words::{count, facts, room, today as say};

/// The page.
pub fn drawn() -> AnyView {
    let view = use_app_view();
    let rooms = field(view, |room| room.rooms.clone());
    let person = move |(name, out_by): (String, Instant)| {
        view! { <li>{say::is_in(&name, &shop_clock(view, out_by))}</li> }.into_any()
    };
    let in_room = move |room: shared_core::view::room::RoomNow| {
        let people = room.people.into_iter().map(|one| (one.name, one.out_by)).map(person).collect_view();
        view! {
            <li class="row">
                <p class="row-name">{room.name}</p>
                <ul class="plain">{people}</ul>
            </li>
        }
        .into_any()
    };
    let who = move || {
        let taken: Vec<_> = rooms.get().into_iter().filter(|room| !room.people.is_empty()).collect();
        if taken.is_empty() {
            return said("soft", room::nobody().to_owned());
        }
        view! {
            <ul class="rows">{taken.into_iter().map(in_room).collect_view()}</ul>
            <a class="plain-link" href=Route::Room.href()>
                {room::muster()}
            </a>
        }
        .into_any()
    };
    view! {
        <section>
            <h2>{say::who_is_in()}</h2>
            {live(who)}
        </section>
        <section>
            <h2>{say::needs()}</h2>
            {reckoned(needs)}
        </section>
    }
    .into_any()
}

fn needs(view: AppView, today: Today) -> AnyView {
    if today.needs.is_empty() {
        return said("soft", say::none().to_owned());
    }
    let rows = today.needs.into_iter().map(|need| need_row(view, need)).collect_view();
    view! { <ol class="rows needs">{rows}</ol> }.into_any()
}

fn need_row(view: AppView, need: Need) -> AnyView {
    match need {
        Need::PastOutBy { name, room, out_by, heard, .. } => {
            let reason = Signal::derive(move || say::past_out_by(&name, &shop_clock(view, out_by), &room));
            view! {
                <li class="row">
                    <Notice tone=Tone::Trouble reason next_step=say::past_out_by_next() />
                    <p class="row-detail">
                        <Minutes at=Signal::stored(heard) since=true says=room::heard />
                    </p>
                </li>
            }
            .into_any()
        }
        Need::Incident(row) => {
            let facts = vec![when(view, row.at)];
            let acts = way(Page::Incidents.href(), say::to_incident());
            stands(say::incident(&row.note), facts, say::incident_next().to_owned(), acts)
        }
        Need::Evening(left) => evening(view, left),
        Need::Out(row) => out(row),
        Need::Rounds(rows) => rounds(view, rows),
        Need::Mess { of, at, place, note, asked } => {
            let next = if asked { say::mess_asked() } else { say::mess_next() };
            let facts = note.into_iter().chain([when(view, at)]).collect();
            let seen = seen_to(of, say::seen_to(), &place);
            let acts = view! { {way(Page::Finds.href(), say::to_find())} {seen} }.into_any();
            stands(say::mess(&place), facts, next.to_owned(), acts)
        }
    }
}

/// A need that is not about somebody's safety now: what, what is known of it, what to do, and the ways there.
fn stands(what: String, facts: Vec<String>, next: String, acts: AnyView) -> AnyView {
    view! {
        <li class="row">
            <p class="row-name">{what}</p>
            {facts.into_iter().map(|fact| said("row-detail", fact)).collect_view()}
            <p class="next-step">{next}</p>
            <div class="looks">{acts}</div>
        </li>
    }
    .into_any()
}

/// Late or due, each with its room and, if it is late, since when.
fn rounds(view: AppView, rows: Vec<RoundRow>) -> AnyView {
    let how_many = count(rows.len());
    let is_late = rows.first().is_some_and(|row| late_since(row).is_some());
    let title = if is_late { say::rounds_late(how_many) } else { say::rounds(how_many) };
    let fact = |row: RoundRow| {
        let since = late_since(&row).map(|due| say::round_since(&when(view, due)));
        [[row.room, row.text].join(": ")].into_iter().chain(since).collect::<Vec<_>>().join(" ")
    };
    let acts = way(Page::Rounds.href(), say::to_rounds());
    stands(title, rows.into_iter().map(fact).collect(), say::round_next().to_owned(), acts)
}

fn way(href: &'static str, label: &'static str) -> AnyView {
    view! { <a class="quiet-button" href=href>{label}</a> }.into_any()
}

fn evening(view: AppView, left: Left) -> AnyView {
    let title = say::evening(&left.name, &left.room, &when(view, left.left));
    let mut facts = Vec::new();
    if left.watch_short_minutes > 0 {
        facts.push(say::watch_short(left.watch_short_minutes));
    }
    facts.extend(
        left.gaps.iter().map(|(machine, from, to)| say::gap(&shop_clock(view, *from), machine, &shop_clock(view, *to))),
    );
    if !left.missing.is_empty() {
        facts.push(say::missing(&left.missing.join(" ")));
    }
    facts.extend(left.undone.map(|why| say::they_say(facts::undone(why))));
    let next = if left.watch_short_minutes > 0 { say::fire_next() } else { say::evening_next() };
    let acts = seen_to(left.of, say::seen_to(), &title);
    stands(title, facts, next.to_owned(), acts)
}

fn out(row: OutRow) -> AnyView {
    let next = match &row.standing {
        Standing::Out => say::out_next().to_owned(),
        Standing::Waits { until: Some(until) } => {
            facts::step(shared_core::entry::Step::WaitsForPart { until: Some(*until) })
        }
        Standing::Waits { until: None } => say::out_waits().to_owned(),
        Standing::Mended { by, .. } => say::out_check(by),
    };
    let problems = row.thread.iter().rev().find_map(|line| match line {
        ThreadLine::Tagged { problem, .. } => Some(problem.as_str()),
        ThreadLine::Noted(_) => None,
    });
    let title = say::out(&row.name, problems.unwrap_or_default());
    stands(title, vec![row.room], next, way(Page::Repairs.href(), say::to_thread()))
}
