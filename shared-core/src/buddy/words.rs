//! Which of the buddies' words count, and until when each holds.
//!
//! A word counts if its speaker was in the room, and if they did not cover `covers` other operators already: phones
//! that could not hear each other may both take down the same buddy, and then the earlier word is the one that counts.
//! The later one never comes to life, not even when the earlier lapses: it was given to somebody who was not free.
//!
//! Asks the log alone, so that two phones that know the same say the same. Knows no machine but those that ask for a
//! buddy, and no `now`.

use super::heard::{Heard, Row};
use crate::ids::PersonId;
use crate::rulebook::Rulebook;
use crate::state::{Confirmation, Session};
use crate::time::{Instant, Span};

/// A word that counts, with until when it holds.
pub(super) type Word<'a> = (&'a Confirmation, Instant);

/// The words of a session that count, in order, each with until when it holds.
pub(super) fn that_count<'a>(book: &Rulebook, heard: &Heard<'a>, session: &Session) -> Vec<Word<'a>> {
    let mut words: Vec<Word<'a>> = Vec::new();
    for (place, word) in session.confirmations.iter().enumerate() {
        let heard_before = session.confirmations.iter().take(place).any(|earlier| earlier.buddy == word.buddy);
        if word.buddy != session.who && !heard_before {
            of_buddy(book, heard, session, &word.buddy, &mut words);
        }
    }
    words.sort_by_key(|(word, _)| word.at);
    words
}

/// Adds the words of one buddy to one session that count. Of what they said to anybody nothing matters that was said before they
/// were last free, before they said anything to this session, or after the last that they said to it.
fn of_buddy<'a>(book: &Rulebook, heard: &Heard<'a>, session: &Session, buddy: &PersonId, words: &mut Vec<Word<'a>>) {
    let rows = heard.of(buddy);
    let (own, said) = rows.split_at(rows.partition_point(|row| row.word.is_none()));
    let here = |row: &Row| row.session.id == session.id;
    let (Some(mut begin), Some(last)) = (said.iter().position(here), said.iter().rposition(here)) else { return };
    // Back to a word that stands a term or more behind the one before it.
    while begin > 0 && said[begin].at() < said[begin - 1].at() + term(book) {
        begin -= 1;
    }
    let free = said[begin].at() - term(book);
    if free < heard.since {
        return of_buddy(book, &heard.wider(free), session, buddy, words);
    }
    let mut holding: Vec<(&Session, Instant)> = Vec::new();
    for Row { session: operator, word, .. } in &said[begin..=last] {
        let Some(word) = word else { continue };
        holding.retain(|(_, until)| *until > word.at);
        let mut others: Vec<&Session> =
            holding.iter().map(|(other, _)| *other).filter(|other| other.id != operator.id).collect();
        others.dedup_by_key(|other| &other.id);
        let until = holds_until(book, own, operator, word);
        if others.len() >= book.buddy.covers as usize || until <= word.at {
            continue;
        }
        // Whoever has gone needs no buddy.
        holding.push((operator, operator.left().map_or(until, |left| until.min(left))));
        holding.sort_by_key(|(other, _)| &other.id);
        if operator.id == session.id {
            words.push((word, until));
        }
    }
}

/// When a word stops to hold: its term, the buddy's leaving, the end of the buddy's own session in the room, their
/// going into another room, or their starting a machine that asks for a buddy (unless the shop lets them). `own` are the
/// buddy's sessions.
fn holds_until(book: &Rulebook, own: &[Row], session: &Session, word: &Confirmation) -> Instant {
    let mut until = word.at + term(book);
    for (buddy, at) in &session.departures {
        if *buddy == word.buddy && *at >= word.at {
            until = until.min(*at);
        }
    }
    let mut latest: Option<&Session> = None;
    for own in own.iter().map(|row| row.session) {
        let left = own.left().filter(|left| *left >= word.at);
        if own.room == session.room {
            until = left.map_or(until, |left| until.min(left));
        }
        if own.room != session.room && own.from > word.at {
            until = until.min(own.from);
        }
        if own.from <= word.at && (own.is_open() || left.is_some_and(|left| left > word.at)) {
            latest = latest.filter(|known| known.from > own.from).or(Some(own));
        }
        if !book.buddy.may_operate {
            for use_ in own.uses.iter().filter(|use_| super::asks_for_buddy(book, &use_.machine)) {
                if use_.to.or(own.left()).is_none_or(|to| to > word.at) {
                    until = until.min(use_.from);
                }
            }
        }
    }
    // Where somebody entered last is where they are: who was elsewhere gave a word about a room they were not in.
    let elsewhere = latest.is_some_and(|own| own.room != session.room);
    if elsewhere { word.at } else { until.max(word.at) }
}

fn term(book: &Rulebook) -> Span {
    Span::from_minutes(i64::from(book.buddy.renew_minutes))
}
