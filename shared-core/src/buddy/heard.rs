//! What buddies said lately and where they were, by person: gathered once, so that nobody walks all that was heard for each of many.
//!
//! What is older than it reaches is fetched when a question needs it; answers are the same. Decides nothing.

use crate::ids::PersonId;
use crate::state::{Confirmation, Session, State};
use crate::time::{Instant, Span};
use crate::viewer::Viewer;

/// How far back it reaches at first: longer than people stand by each other without a pause.
const LATELY: Span = Span::from_minutes(12 * 60);

/// Stays and words of everybody who was here lately.
pub struct Heard<'s> {
    pub(super) state: &'s State,
    pub(super) since: Instant,
    /// By person; of each their stays, then their words in order.
    rows: Vec<Row<'s>>,
}

/// A stay of somebody, or a word that they gave in another's session.
pub(super) struct Row<'s> {
    whose: &'s PersonId,
    pub(super) session: &'s Session,
    pub(super) word: Option<&'s Confirmation>,
    /// Whether it is a word that counts and holds now.
    pub(super) holds: bool,
}

impl Row<'_> {
    /// When the word was given.
    pub(super) fn at(&self) -> Instant {
        self.word.map_or(self.session.from, |word| word.at)
    }
}

impl<'s> Heard<'s> {
    /// With all that was said at an instant or later.
    pub fn since(state: &'s State, since: Instant) -> Self {
        let mut rows = Vec::new();
        for session in state.sessions.since(since) {
            rows.push(Row { whose: &session.who, session, word: None, holds: false });
            for word in session.confirmations.iter().filter(|word| word.buddy != session.who) {
                rows.push(Row { whose: &word.buddy, session, word: Some(word), holds: false });
            }
        }
        rows.sort_by(|a: &Row, b: &Row| {
            let at = |row: &Row| row.word.map(|word| word.at);
            a.whose
                .cmp(b.whose)
                .then_with(|| (at(a), &a.session.who, &a.session.id).cmp(&(at(b), &b.session.who, &b.session.id)))
        });
        Self { state, since, rows }
    }

    /// Of all that was ever said.
    pub fn all(state: &'s State) -> Self {
        Self::since(state, Instant::from_ms(i64::MIN))
    }

    /// The same, farther back.
    pub(super) fn wider(&self, than: Instant) -> Self {
        Self::since(self.state, than - LATELY)
    }

    /// As it is now: of the words in open sessions it is known which hold.
    pub fn now(viewer: &Viewer<'s>) -> Self {
        let mut heard = Self::since(viewer.state, viewer.now - LATELY);
        for session in viewer.state.sessions.open() {
            for (word, _) in super::standing_of(viewer.book, &heard, session, viewer.now) {
                let (from, to) = heard.place(&word.buddy);
                let said = heard.rows[from..to].iter_mut();
                said.filter(|row| row.word.is_some_and(|said| std::ptr::eq(said, word)))
                    .for_each(|row| row.holds = true);
            }
        }
        heard
    }

    /// The stays and words of a person.
    pub(super) fn of(&self, who: &PersonId) -> &[Row<'s>] {
        let (from, to) = self.place(who);
        &self.rows[from..to]
    }

    fn place(&self, who: &PersonId) -> (usize, usize) {
        let from = self.rows.partition_point(|row| row.whose < who);
        let to = self.rows[from..].iter().take_while(|row| row.whose == who).count();
        (from, from + to)
    }
}
