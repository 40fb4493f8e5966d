//! How a line lies in the database. The service worker reads `state` and `jws` of it, so neither changes its name.
//!
//! Fields may be added; an unknown state is read as one that waits, and so is sent again, which harms nobody.

use serde::Serialize;
use shared_core::json::from_json;
use shared_core::time::Instant;

use super::Standing;

const WAITING: &str = "waiting";
const ACKED: &str = "acked";
const REJECTED: &str = "rejected";

#[derive(Serialize)]
pub(super) struct Line {
    seq: u64,
    jws: String,
    at: Instant,
    state: String,
    why: Option<String>,
}

from_json! { Line { seq, jws, at, state, why } }

impl From<Line> for super::Line {
    fn from(Line { seq, jws, at, state, why }: Line) -> Self {
        let standing = match state.as_str() {
            ACKED => Standing::Acked,
            REJECTED => Standing::Rejected { why: why.unwrap_or_default() },
            _ => Standing::Waiting,
        };
        Self { seq, jws, at, standing }
    }
}

impl From<super::Line> for Line {
    fn from(super::Line { seq, jws, at, standing }: super::Line) -> Self {
        let (state, why) = match standing {
            Standing::Waiting => (WAITING, None),
            Standing::Acked => (ACKED, None),
            Standing::Rejected { why } => (REJECTED, Some(why)),
        };
        Self { seq, jws, at, state: state.to_owned(), why }
    }
}

#[cfg(test)]
mod tests {
    use super::super::Line;
    use super::*;

    #[test]
    fn a_line_is_stored_under_the_names_that_the_service_worker_reads() {
        for (standing, json) in [
            (Standing::Waiting, r#"{"seq":3,"jws":"a.b.c","at":"1970-01-01T00:00:01Z","state":"waiting","why":null}"#),
            (Standing::Acked, r#"{"seq":3,"jws":"a.b.c","at":"1970-01-01T00:00:01Z","state":"acked","why":null}"#),
            (
                Standing::Rejected { why: "no".into() },
                r#"{"seq":3,"jws":"a.b.c","at":"1970-01-01T00:00:01Z","state":"rejected","why":"no"}"#,
            ),
        ] {
            let line = Line { seq: 3, jws: "a.b.c".into(), at: Instant::from_ms(1_000), standing };
            assert_eq!(serde_json::to_string(&line).expect("plain data"), json);
            assert_eq!(serde_json::from_str::<Line>(json).expect("reads"), line);
        }
        let newer = r#"{"seq":3,"jws":"a","at":"1970-01-01T00:00:01Z","state":"pinned","more":1}"#;
        assert_eq!(serde_json::from_str::<Line>(newer).expect("reads").standing, Standing::Waiting);
    }
}
