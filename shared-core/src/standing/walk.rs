//! The induction walk: its points in order, which of them somebody has behind them, and which have changed since.
//!
//! A point is a stop of the rulebook, or a statement of its door. What it says has a mark, a digest of its words that the hub
//! makes with the rulebook, so that it is the same in every language; a point counts as walked while its mark is the one that
//! was walked. So the first walk and the refresher after the rules changed are one thing: what is left to walk. A wrong answer
//! is kept nowhere.

use sha2::{Digest as _, Sha256};

use crate::base64url;
use crate::entry::Point;
use crate::ids::PersonId;
use crate::rulebook::Rulebook;
use crate::state::State;

/// So many characters of a digest make a mark: 96 bits.
const MARK_CHARS: usize = 16;

/// The points of the walk, each with its mark, in the order in which it is walked.
pub fn points(book: &Rulebook) -> Vec<(Point, &str)> {
    let stops = book.stops.iter().map(|stop| (Point::Stop(stop.id.clone()), &stop.mark));
    let statements = book.statements.iter().map(|statement| (Point::Statement(statement.id.clone()), &statement.mark));
    // A hub of an earlier release makes no marks.
    stops.chain(statements).map(|(point, mark)| (point, mark.as_deref().unwrap_or("-"))).collect()
}

/// The mark of the whole walk.
pub fn mark_of_all(book: &Rulebook) -> String {
    mark(points(book).into_iter().map(|(point, mark)| {
        let (kind, id) = match &point {
            Point::Stop(stop) => ("stop", stop.as_str()),
            Point::Statement(statement) => ("statement", statement.as_str()),
        };
        [kind, " ", id, " ", mark].concat()
    }))
}

/// The mark of some texts, in their order.
pub fn mark<T: AsRef<str>>(texts: impl IntoIterator<Item = T>) -> String {
    let mut digest = Sha256::new();
    for text in texts {
        let text = text.as_ref();
        digest.update((text.len() as u64).to_be_bytes());
        digest.update(text);
    }
    let mut mark = base64url::encode(&digest.finalize());
    mark.truncate(MARK_CHARS);
    mark
}

/// How a point stands for somebody.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Walked {
    /// Not yet.
    Ahead,
    /// As it says now.
    Behind,
    /// It said something else then.
    Changed,
}

/// How a point with that mark stands for somebody.
pub fn walked(state: &State, who: &PersonId, point: &Point, mark: &str) -> Walked {
    match state.walked.get(&(who.clone(), point.clone())) {
        None => Walked::Ahead,
        Some((_, then)) if then == mark => Walked::Behind,
        Some(_) => Walked::Changed,
    }
}

/// Whether somebody has all of the walk behind them, as it stands, but for some point.
pub fn is_done_but_for(book: &Rulebook, state: &State, who: &PersonId, but: Option<&Point>) -> bool {
    let is_behind =
        |(point, mark): (Point, &str)| Some(&point) == but || walked(state, who, &point, mark) == Walked::Behind;
    points(book).into_iter().all(is_behind)
}
