//! The figures, a section each: a heading, what is counted, and the table with its pictures.

use leptos::prelude::*;
use shared_core::figures::{Figures, LATE_BINS, PlaceFound};
use shared_core::view::figures::{FiguresShown, name_of};

use super::engraved::{bar, columns};
use super::table::{Row, table};
use crate::words::{count, figures as say, time};

/// No list of machines or places is longer, for the one sheet of paper; what is past it is counted in one line.
const ROWS_MOST: usize = 12;
/// Hours that one column of a table stands for.
const HOURS: usize = 3;

/// All of them.
pub fn all(said: &Figures, names: &FiguresShown) -> Vec<AnyView> {
    vec![
        sessions(said),
        busy(said),
        machines(said, names),
        sweeps(said, names),
        reserve(said, names.asked_of_100),
        safety(said),
        found(said, names),
        tagged(said, names),
        rounds(said, names),
    ]
}

fn section(heading: &'static str, how: Option<String>, body: AnyView) -> AnyView {
    view! {
        <section class="figure-of">
            <h2>{heading}</h2>
            {how.map(|how| view! { <p class="soft">{how}</p> }.into_any())}
            {body}
        </section>
    }
    .into_any()
}

fn nothing() -> AnyView {
    view! { <p class="soft">{say::none()}</p> }.into_any()
}

/// So many more, in one line.
fn the_rest(rows: usize, cells: Vec<String>) -> Option<Row> {
    (rows > 0).then(|| Row::plain(["+ ", &rows.to_string()].concat(), cells))
}

fn number(number: u32) -> String {
    number.to_string()
}

fn sessions(said: &Figures) -> AnyView {
    let of = &said.sessions;
    let mut rows = vec![
        Row::plain(say::sessions(), vec![number(of.begun)]),
        Row::plain(say::people(), vec![number(of.people)]),
        Row::plain(say::there(), vec![time::short(of.minutes)]),
    ];
    if of.open > 0 {
        rows.push(Row::plain(say::open(), vec![number(of.open)]));
    }
    section(say::sessions(), None, table(say::sessions(), &[say::what(), say::times()], rows))
}

/// Hours of each weekday, three to a column; each row drawn by the hour above its numbers.
fn busy(said: &Figures) -> AnyView {
    const DAYS: [fn() -> &'static str; 7] =
        [say::monday, say::tuesday, say::wednesday, say::thursday, say::friday, say::saturday, say::sunday];
    let most = said.sessions.hours.iter().flatten().copied().max().unwrap_or(0);
    if most == 0 {
        return section(say::busy(), None, nothing());
    }
    let rows = said.sessions.hours.iter().zip(DAYS).map(|(hours, day)| {
        let cells = blocks(hours).map(nearest_hours).collect();
        Row::plain(day(), cells).with(columns(hours, most, HOURS, None))
    });
    let body = table(say::busy(), &hours_of_the_day(say::weekday()), rows.collect());
    view! { <div class="by-hour">{section(say::busy(), Some(say::busy_how().to_owned()), body)}</div> }.into_any()
}

/// What each three hours come to.
fn blocks(hours: &[i64]) -> impl Iterator<Item = i64> + '_ {
    hours.chunks(HOURS).map(|some| some.iter().sum())
}

/// Whole hours, to the nearest; what is less than half of one is not none.
fn nearest_hours(minutes: i64) -> String {
    match (minutes + 30) / 60 {
        0 if minutes > 0 => "<1".to_owned(),
        hours => hours.to_string(),
    }
}

fn hours_of_the_day(first: &'static str) -> [&'static str; 9] {
    [first, "0", "3", "6", "9", "12", "15", "18", "21"]
}

fn machines(said: &Figures, names: &FiguresShown) -> AnyView {
    let mut used = said.machines.clone();
    used.sort_by_key(|one| std::cmp::Reverse(one.minutes));
    let most = used.first().map_or(0, |one| one.minutes);
    if used.is_empty() {
        return section(say::machines(), None, nothing());
    }
    let more = used.split_off(used.len().min(ROWS_MOST));
    let mut rows: Vec<Row> = Vec::new();
    for one in used {
        let name = name_of(&names.machines, one.machine.as_str());
        let cells = vec![number(one.uses), time::short(one.minutes)];
        rows.push(Row::plain(name, cells).with(bar(one.minutes, 0, most, 60)));
    }
    if !more.is_empty() {
        let (times, minutes) = (more.iter().map(|one| one.uses).sum(), more.iter().map(|one| one.minutes).sum());
        rows.push(Row::plain(say::more_machines(count(more.len())), vec![number(times), time::short(minutes)]));
    }
    let heads = [say::machine(), say::uses(), say::time()];
    section(say::machines(), None, table(say::machines(), &heads, rows))
}

fn sweeps(said: &Figures, names: &FiguresShown) -> AnyView {
    let of = &said.sweeps;
    let whole = bar(i64::from(of.complete), i64::from(of.incomplete), i64::from(of.complete + of.incomplete), 5);
    let rows = vec![
        Row::plain(say::complete(), vec![number(of.complete)]).with(whole),
        Row::plain(say::incomplete(), vec![number(of.incomplete)]),
        Row::plain(say::not_begun(), vec![number(of.not_begun)]),
    ];
    let left = of.chores_left.iter().take(ROWS_MOST / 2);
    let left: Vec<Row> =
        left.map(|one| Row::plain(name_of(&names.chores, one.chore.as_str()), vec![number(one.times)])).collect();
    let chores = (!left.is_empty()).then(|| table(say::left(), &[say::left(), say::times()], left));
    let body = view! {
        {table(say::sweeps(), &[say::how(), say::times()], rows)}
        {chores}
    };
    section(say::sweeps(), None, body.into_any())
}

fn reserve(said: &Figures, asked_of_100: i64) -> AnyView {
    let of = &said.reserve;
    if of.of == 0 {
        return section(say::reserve(), Some(say::reserve_none().to_owned()), ().into_any());
    }
    let how = say::reserve_said(
        asked_of_100,
        i64::from(of.chores_of),
        i64::from(of.chores_within),
        i64::from(of.of),
        i64::from(of.within),
    );
    let drawn: Vec<i64> = of.late.iter().map(|sweeps| i64::from(*sweeps)).collect();
    let most = drawn.iter().copied().max().unwrap_or(0);
    let on_time = LATE_BINS.iter().position(|bound| *bound == 0).map(|place| place + 1);
    let mut rows: Vec<Row> = Vec::new();
    for (place, sweeps) in of.late.iter().enumerate() {
        rows.push(Row::plain(ended(place), vec![number(*sweeps)]));
    }
    if let Some(row) = rows.pop() {
        rows.push(row.with(columns(&drawn, most, usize::MAX, on_time)));
    }
    section(say::reserve(), Some(how), table(say::reserve(), &[say::ended(), say::sweeps_of()], rows))
}

/// What a bin of [`LATE_BINS`] holds.
fn ended(place: usize) -> String {
    let (low, high) = (place.checked_sub(1).and_then(|place| LATE_BINS.get(place)), LATE_BINS.get(place));
    match (low.copied(), high.copied()) {
        (None, Some(high)) => say::early_over(-high),
        (Some(low), Some(0)) => say::on_time(-low),
        (Some(low), Some(high)) if high < 0 => say::early(-high, -low),
        (Some(0), Some(high)) => say::late_up_to(high),
        (Some(low), Some(high)) => say::late(low, high),
        (low, None) => say::late_over(low.unwrap_or(0)),
    }
}

fn safety(said: &Figures) -> AnyView {
    let (cover, watches) = (&said.cover, &said.watches);
    let bare = bar(cover.minutes - cover.gap_minutes, cover.gap_minutes, cover.minutes, 60);
    let cut = watches.needed - watches.kept;
    let kept = bar(i64::from(watches.kept), i64::from(cut), i64::from(watches.needed), 5);
    let rows = vec![
        Row::plain(say::buddy_uses(), vec![number(cover.uses), time::short(cover.minutes)]),
        Row::plain(say::buddy_gaps(), vec![number(cover.gaps), time::short(cover.gap_minutes)]).with(bare),
        Row::plain(say::watches_needed(), vec![number(watches.needed), String::new()]),
        Row::plain(say::watches_kept(), vec![number(watches.kept), String::new()]).with(kept),
        Row::plain(say::watches_cut(), vec![number(cut), time::short(watches.cut_short_minutes)]),
    ];
    section(say::safety(), None, table(say::safety(), &[say::what(), say::times(), say::time()], rows))
}

fn found(said: &Figures, names: &FiguresShown) -> AnyView {
    let of = &said.mess;
    if of.places.is_empty() {
        return section(say::found(), None, nothing());
    }
    let most = of.places.iter().map(|place| i64::from(place.clean + place.mess)).max().unwrap_or(0);
    let mut rows: Vec<Row> = Vec::new();
    for place in of.places.iter().take(ROWS_MOST) {
        let known = if place.is_room { &names.rooms } else { &names.machines };
        let picture = bar(i64::from(place.clean), i64::from(place.mess), most, 1);
        let cells = vec![number(place.clean), number(place.mess)];
        rows.push(Row::plain(name_of(known, &place.place), cells).with(picture));
    }
    let rest = of.places.get(ROWS_MOST..).unwrap_or_default();
    let sum = |of: fn(&PlaceFound) -> u32| number(rest.iter().map(of).sum());
    rows.extend(the_rest(rest.len(), vec![sum(|place| place.clean), sum(|place| place.mess)]));
    let places = table(say::found(), &[say::place(), say::clean(), say::mess()], rows);
    let drawn = columns(&of.hours, of.hours.iter().copied().max().unwrap_or(0), HOURS, None);
    let hours = Row::plain(say::mess(), blocks(&of.hours).map(|times| times.to_string()).collect()).with(drawn);
    let body = view! {
        {places}
        <h3>{say::mess_hours()}</h3>
        <div class="by-hour">{table(say::mess_hours(), &hours_of_the_day(say::how()), vec![hours])}</div>
    };
    section(say::found(), Some(say::found_how().to_owned()), body.into_any())
}

fn tagged(said: &Figures, names: &FiguresShown) -> AnyView {
    if said.tags.is_empty() {
        return section(say::tagged(), None, nothing());
    }
    let most = said.tags.iter().map(|tag| tag.minutes).max().unwrap_or(0);
    let rows = said.tags.iter().map(|tag| {
        let mut name = name_of(&names.machines, tag.machine.as_str());
        if tag.still_out {
            name = [&name, ", ", say::still_out()].concat();
        }
        Row::plain(name, vec![number(tag.times), days(tag.minutes)]).with(bar(tag.minutes, 0, most, 24 * 60))
    });
    section(say::tagged(), None, table(say::tagged(), &[say::machine(), say::times(), say::days_out()], rows.collect()))
}

/// Days to a tenth, as people say them.
fn days(minutes: i64) -> String {
    const DAY: i64 = 24 * 60;
    let tenths = (minutes * 10 + DAY / 2) / DAY;
    time::decimal(tenths / 10, &(tenths % 10).to_string())
}

fn rounds(said: &Figures, names: &FiguresShown) -> AnyView {
    if said.rounds.is_empty() {
        return section(say::rounds(), None, nothing());
    }
    let rows = said.rounds.iter().map(|round| {
        let mut name = name_of(&names.rounds, round.round.as_str());
        if round.overdue {
            name = [name.trim_end_matches('.'), ", ", say::overdue()].concat();
        }
        Row::plain(name, vec![number(round.done), number(round.late)])
    });
    section(say::rounds(), None, table(say::rounds(), &[say::round(), say::done(), say::done_late()], rows.collect()))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_bin_says_what_it_holds() {
        let said: Vec<String> = (0..=LATE_BINS.len()).map(ended).collect();
        assert_eq!(
            said,
            [
                "over 15 min early",
                "10 to 15 min early",
                "5 to 10 min early",
                "up to 5 min early, or just then",
                "up to 5 min late",
                "5 to 10 min late",
                "over 10 min late"
            ]
        );
    }

    #[test]
    fn hours_and_days_are_rounded_to_be_read() {
        for (minutes, hours, in_days) in
            [(0, "0", "0.0"), (1, "<1", "0.0"), (30, "1", "0.0"), (89, "1", "0.1"), (4_320, "72", "3.0")]
        {
            assert_eq!((nearest_hours(minutes).as_str(), days(minutes).as_str()), (hours, in_days), "{minutes}");
        }
    }
}
