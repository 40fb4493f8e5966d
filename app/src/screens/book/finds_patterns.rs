//! What repeats: machines and chores first, then people by name; each number with its interval.
//!
//! Never a ranking of people, and no bar that would make one of it.

use leptos::prelude::*;
use shared_core::view::finds::{Finds, PATTERN_DAYS, Pattern};

use crate::parts::lines::said;
use crate::words::finds as say;

/// The section; nothing where nothing repeats.
pub fn patterns(finds: &Finds) -> AnyView {
    let groups = [(say::machines(), &finds.machines), (say::chores(), &finds.chores), (say::people(), &finds.people)];
    if groups.iter().all(|(_, rows)| rows.is_empty()) {
        return ().into_any();
    }
    let people = !finds.people.is_empty();
    view! {
        <section>
            <h2>{say::patterns(PATTERN_DAYS)}</h2>
            {groups.map(|(title, rows)| group(title, rows)).into_iter().collect_view()}
            {people.then(|| said("soft", say::people_how().to_owned()))}
            <p class="soft">{say::interval()}</p>
        </section>
    }
    .into_any()
}

fn group(title: &'static str, rows: &[Pattern]) -> AnyView {
    if rows.is_empty() {
        return ().into_any();
    }
    let row = |row: &Pattern| {
        let whole = |count: u64| i64::try_from(count).unwrap_or(i64::MAX);
        let share = say::share(i64::from(row.high_pct), i64::from(row.low_pct), whole(row.of), whole(row.times));
        view! {
            <li class="row">
                <p>{row.name.clone()}</p>
                <p class="row-detail">{share}</p>
            </li>
        }
        .into_any()
    };
    view! {
        <h3>{title}</h3>
        <ul class="rows">{rows.iter().map(row).collect_view()}</ul>
    }
    .into_any()
}
