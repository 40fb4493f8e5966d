//! What the hub found in the text: each problem at its place, or what it changes.

use leptos::prelude::*;
use shared_core::sync::rules::{RulesFound, RulesProblem};

use super::{Desk, trouble};
use crate::parts::lines::said;
use crate::parts::live::live;
use crate::parts::notice::{Notice, Tone};
use crate::words::rules as say;

/// So many problems are listed at once.
const MOST: usize = 30;

/// The list, drawn anew with each look.
pub(super) fn found(desk: Desk) -> AnyView {
    view! {
        <div role="status">{live(move || desk.found.get().map(|found| drawn(desk, &found)))}</div>
        {trouble(desk)}
    }
    .into_any()
}

fn drawn(desk: Desk, found: &RulesFound) -> AnyView {
    if !found.problems.is_empty() {
        let problems: Vec<AnyView> = found.problems.iter().take(MOST).map(|one| problem(desk, one)).collect();
        return view! {
            <h2>{say::problems()}</h2>
            <ul class="rows">{problems}</ul>
        }
        .into_any();
    }
    let orphans: Vec<&str> = found.orphans.iter().map(shared_core::ids::MachineId::as_str).collect();
    let orphans = (!orphans.is_empty()).then(|| {
        let reason = say::orphans(&orphans.join(", "));
        view! { <Notice tone=Tone::Trouble reason next_step=say::orphans_next() /> }.into_any()
    });
    let changes: Vec<AnyView> =
        found.changes.iter().map(|line| view! { <li class="row" lang="en">{line.clone()}</li> }.into_any()).collect();
    let none = changes.is_empty().then(|| said("soft", say::no_changes().to_owned()));
    view! {
        <p class="fact">{say::no_problem()}</p>
        {orphans}
        <h2>{say::changes()}</h2>
        {none}
        <ul class="rows">{changes}</ul>
    }
    .into_any()
}

/// A touch of it leads to its place in the text.
fn problem(desk: Desk, problem: &RulesProblem) -> AnyView {
    let RulesProblem { line, column, what, hint } = problem.clone();
    let place = say::place(i64::from(column), i64::from(line));
    let go = move |_| {
        let Some(area) = desk.area.get_untracked() else { return };
        let at = desk.text.with_untracked(|text| offset(text, line, column));
        // A browser that sets no mark leaves the finger to find the line.
        let _ = area.focus();
        let _ = area.set_selection_range(at, at);
        // A mark alone moves nothing in sight. How far down it is goes by its share of the text: lines wrap.
        let all = desk.text.with_untracked(|text| text.encode_utf16().count()).max(1);
        let share = f64::from(at) / f64::from(u32::try_from(all).unwrap_or(u32::MAX));
        area.set_scroll_top(down(share, area.scroll_height(), area.client_height()));
    };
    view! {
        <li class="row">
            <button type="button" class="row-act" lang="en" on:click=go>
                <span class="row-name">{what}</span>
                <span class="row-detail">{place} " " {hint}</span>
            </button>
        </li>
    }
    .into_any()
}

/// How far to scroll so that what is at a share of a text is in the middle of what is seen of it, in pixels of the page.
#[expect(clippy::cast_possible_truncation, reason = "a share of a height is within it")]
fn down(share: f64, height: i32, seen: i32) -> i32 {
    ((share * f64::from(height)) as i32 - seen / 2).max(0)
}

/// Where a line and column (both from 1, in characters) are in a text, in UTF-16 units, as the page counts.
fn offset(text: &str, line: u32, column: u32) -> u32 {
    let (mut at, mut row, mut col) = (0_u32, 1_u32, 1_u32);
    for c in text.chars() {
        if row > line || (row == line && col >= column) {
            break;
        }
        at += u32::try_from(c.len_utf16()).unwrap_or(1);
        if c == '\n' {
            (row, col) = (row + 1, 1);
        } else {
            col += 1;
        }
    }
    at
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_place_is_found_in_the_units_of_the_page() {
        let text = "ab\n\u{1f9f9}c\nd";
        for (line, column, at) in [(1, 1, 0), (1, 2, 1), (2, 1, 3), (2, 2, 5), (2, 3, 6), (3, 1, 7), (9, 9, 8)] {
            assert_eq!(offset(text, line, column), at, "{line}:{column}");
        }
    }
}
