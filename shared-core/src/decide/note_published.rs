//! Say that the hub has rules of this steward's in force. That it took them is the hub's word, asked before this; that this
//! member wanted them is what the entry signs.

use crate::entry::Fact;
use crate::ids::BookId;
use crate::refusal::Refusal;
use crate::viewer::Viewer;

pub(super) fn decide(viewer: &Viewer, number: u32, book: BookId, note: Option<&str>) -> Result<Vec<Fact>, Refusal> {
    let member = viewer.members.get(viewer.me).ok_or(Refusal::NotAMember)?;
    if !member.steward {
        return Err(Refusal::StewardsAct);
    }
    Ok(vec![Fact::RulesPublished { number, book, note: super::maybe_words(note)? }])
}
