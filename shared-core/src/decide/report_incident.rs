//! Tell the steward that something happened. Never refused to anybody who has words for it.

use crate::entry::Fact;
use crate::refusal::Refusal;

pub(super) fn decide(note: &str) -> Result<Vec<Fact>, Refusal> {
    Ok(vec![Fact::Incident { note: super::words(note)? }])
}
