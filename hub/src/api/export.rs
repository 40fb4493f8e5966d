//! `GET /api/export/{file}`: the whole log as a file for other programs, to a steward: `sessions.csv` and its like,
//! `log.jsonl`, `calendar.ics`.

use std::sync::Arc;

use axum::extract::{Path, State};
use axum::http::header::{CONTENT_DISPOSITION, CONTENT_TYPE};
use axum::response::{IntoResponse, Response};

use crate::auth::Steward;
use crate::export::{Kind, entries_of};
use crate::hub::Hub;
use crate::problem::Problem;

/// One of the files.
pub(crate) async fn export(
    State(hub): State<Arc<Hub>>,
    Steward(caller): Steward,
    Path(file): Path<String>,
) -> Result<Response, Problem> {
    let kind = Kind::named(&file).ok_or(Problem::NotFound)?;
    let (lines, shop) = (hub.store.handed_out().await?, hub.shop.get());
    tracing::info!(by = %caller.member, %file, "the log is taken along");
    let written = tokio::task::spawn_blocking(move || kind.write(&shop.rulebook, &entries_of(&lines), None));
    let text = written.await.map_err(|error| Problem::Fault(error.to_string()))?;
    let name = format!("attachment; filename=\"{file}\"");
    Ok(([(CONTENT_TYPE, kind.media_type()), (CONTENT_DISPOSITION, name.as_str())], text).into_response())
}
