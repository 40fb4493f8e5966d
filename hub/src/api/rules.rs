//! `GET /api/rules`, `POST /api/rules/check`, `POST /api/rules`: the rulebook, read, tried and published by a steward.
//!
//! Written over something that is in force no longer it is refused, so that of two stewards' edits none is lost unseen.

use std::sync::Arc;

use axum::Json;
use axum::extract::State;
use shared_core::ids::MachineId;
use shared_core::rulebook::{Rulebook, parse};
use shared_core::sync::rules::{
    RulesFound, RulesHeld, RulesProblem, RulesPublish, RulesPublished, RulesRoom, RulesStart, RulesTried, RulesVersion,
};
use shared_core::time::Span;

use super::body::Body;
use crate::auth::Steward;
use crate::clock;
use crate::hub::Hub;
use crate::problem::Problem;
use crate::rules::{STARTS, changes, evening, read};
use crate::shop::Rules;
use crate::store::{Published, StoreError};

/// So long a machine is thought to run that nobody stopped: a session is no longer than a week.
const RUNS_AT_MOST: Span = Span::from_minutes(7 * 24 * 60);
/// The longest reason, in characters.
const NOTE_CHARS_MOST: usize = 500;

/// What is in force, and what was.
pub(crate) async fn held(State(hub): State<Arc<Hub>>, _caller: Steward) -> Result<Json<RulesHeld>, Problem> {
    let versions = hub.store.published().await?;
    let rules = hub.rules().await?;
    let version = |one: Published| {
        let Published { number, text, book, note, by, at, .. } = one;
        RulesVersion { number, book, at, by, note, text }
    };
    let start = |(name, text): (&str, &str)| RulesStart { name: name.to_owned(), text: text.to_owned() };
    Ok(Json(RulesHeld {
        text: rules.text,
        book: rules.book,
        versions: versions.into_iter().map(version).collect(),
        starts: STARTS.map(start).to_vec(),
    }))
}

/// What is wrong with a text, what it changes, and what an evening would be like.
pub(crate) async fn check(
    State(hub): State<Arc<Hub>>,
    _caller: Steward,
    Body(asked): Body<RulesTried>,
) -> Result<Json<RulesFound>, Problem> {
    let (rulebook, problems) = read(&asked.text);
    let problem = |one: shared_core::rulebook::problem::Problem| RulesProblem {
        line: one.line,
        column: one.column,
        what: one.what,
        hint: one.hint,
    };
    let tried = rulebook.as_ref().zip(asked.evening.as_ref()).map(|(book, asked)| evening(book, asked));
    let (evening, impossible) = match tried {
        Some(Ok(planned)) => (Some(planned), None),
        Some(Err(why)) => (None, Some(why)),
        None => (None, None),
    };
    Ok(Json(RulesFound {
        problems: problems.into_iter().map(problem).collect(),
        changes: changes(&hub.rules().await?.text, &asked.text),
        orphans: orphans(&hub, rulebook.as_ref()).await?,
        rooms: rulebook.iter().flat_map(rooms).collect(),
        evening,
        impossible,
        turn: asked.turn,
    }))
}

/// Puts it in force.
pub(crate) async fn publish(
    State(hub): State<Arc<Hub>>,
    Steward(caller): Steward,
    Body(asked): Body<RulesPublish>,
) -> Result<Json<RulesPublished>, Problem> {
    let (rulebook, problems) = read(&asked.text);
    if let Some(first) = problems.first() {
        return Err(Problem::UnfitRules(first.to_string()));
    }
    if asked.note.chars().count() > NOTE_CHARS_MOST {
        return Err(Problem::UnfitRules(format!("the reason is over {NOTE_CHARS_MOST} characters")));
    }
    let running = orphans(&hub, rulebook.as_ref()).await?;
    if let Some(first) = running.first().filter(|_| !asked.anyway) {
        return Err(Problem::OrphanedMachine(first.to_string()));
    }
    let mut change = hub.store.change().await?;
    // Asked under the lock of all changes: of two who publish at once the second is told.
    let before = hub.rules().await?;
    if before.book != asked.over {
        return Err(Problem::RulesMoved);
    }
    let book = parse::book_id(asked.text.as_bytes());
    let one = Published {
        number: 0,
        text: asked.text,
        book: book.clone(),
        over: before.file,
        note: asked.note.trim().to_owned(),
        by: caller.member,
        at: clock::now(),
    };
    // For its mistakes alone: once it is published it is read in its turn.
    Rules::read(&hub.config.source, Some(&one), one.at)
        .map_err(|mistakes| Problem::UnfitRules(mistakes.to_string()))?;
    let number = change.publish(&one).await?;
    change.commit().await?;
    hub.reread_rules().await?;
    tracing::info!(number, book = book.as_str(), "a steward published a rulebook");
    Ok(Json(RulesPublished { number, book }))
}

/// Machines that run and that a rulebook does not have where they stand; of none, none.
async fn orphans(hub: &Hub, book: Option<&Rulebook>) -> Result<Vec<MachineId>, StoreError> {
    let Some(book) = book else { return Ok(Vec::new()) };
    let running = hub.store.machines_running(clock::now() - RUNS_AT_MOST).await?;
    let now = hub.shop.get();
    let room = |book: &Rulebook, id: &MachineId| book.machine(id).map(|machine| machine.room.clone());
    Ok(running.into_iter().filter(|id| room(book, id) != room(&now.rulebook, id)).collect())
}

fn rooms(book: &Rulebook) -> Vec<RulesRoom> {
    let machines = |room: &shared_core::rulebook::Room| {
        let there = book.machines.iter().filter(|machine| machine.room == room.id);
        there.map(|machine| (machine.id.clone(), machine.name.clone())).collect()
    };
    let room = |room: &shared_core::rulebook::Room| RulesRoom {
        id: room.id.clone(),
        name: room.name.clone(),
        machines: machines(room),
    };
    book.rooms.iter().map(room).collect()
}
