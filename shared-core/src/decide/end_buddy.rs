//! A buddy leaves, or is let go: their word stops to hold at once.

use crate::buddy;
use crate::entry::Fact;
use crate::ids::PersonId;
use crate::refusal::Refusal;
use crate::viewer::Viewer;

pub(super) fn decide(viewer: &Viewer, buddy: PersonId) -> Result<Vec<Fact>, Refusal> {
    let session = super::open(viewer)?;
    let standing = buddy::standing(viewer.book, viewer.state, session, viewer.now);
    if !standing.iter().any(|(word, _)| word.buddy == buddy) {
        return Err(Refusal::NotABuddy { buddy });
    }
    Ok(vec![Fact::BuddyLeft { buddy }])
}
