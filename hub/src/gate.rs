//! Whether what arrives may be said: asked of each line that says what somebody else is to the shop, or that rules were published, under the store's lock, in
//! the order in which lines come in. What its giver may not say is set aside, for good; what came in stands, whatever becomes
//! of the giver (`shared_core::standing`).

use shared_core::entry::{Entry, Fact};
use shared_core::members::Members;
use shared_core::rulebook::Rulebook;
use shared_core::standing::{Words, said_by};

use crate::store::{Change, StoreError};

/// Whether anything has to be asked before a fact is taken in: those that not every member may say.
pub(crate) fn is_asked(fact: &Fact) -> bool {
    matches!(fact, Fact::RulesPublished { .. }) || said_by(fact).is_some()
}

/// Who may say what, kept up with what is taken in.
#[derive(Debug)]
pub(crate) struct Gate<'a> {
    book: &'a Rulebook,
    members: Members,
    words: Words,
}

impl<'a> Gate<'a> {
    /// The gate as a change finds it. `members` is the members file.
    pub(crate) async fn open(change: &mut Change, book: &'a Rulebook, members: &Members) -> Result<Self, StoreError> {
        let (words, mut members) = (change.standing().await?, members.clone());
        words.apply(&mut members);
        Ok(Self { book, members, words })
    }

    /// Whether this may be said now. If so it counts for what comes next.
    pub(crate) fn may_say(&mut self, entry: &Entry) -> bool {
        if matches!(entry.fact, Fact::RulesPublished { .. }) {
            return self.members.get(&entry.who).is_some_and(|member| member.steward);
        }
        if said_by(&entry.fact).is_none() {
            return true;
        }
        let may = Words::may_give(&entry.who, &entry.fact, self.book, &self.members).is_ok();
        if may {
            self.words.take(entry);
            self.words.apply(&mut self.members);
        }
        may
    }
}
