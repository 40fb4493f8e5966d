//! Rounds on the screen of Room: what is late, what is due, who did it last.
//!
//! What nobody has written down as done is not called late: it is called that.

use crate::ids::RoundId;
use crate::round::{self, Every, Standing};
use crate::rulebook::Round;
use crate::time::Instant;
use crate::view::Viewer;

/// One round.
#[derive(Clone, Debug, PartialEq)]
pub struct RoundRow {
    /// Its id.
    pub id: RoundId,
    /// The name of its room.
    pub room: String,
    /// What to do.
    pub text: String,
    /// Who says so: the clause, or that there is none.
    pub source: Option<String>,
    /// How it stands.
    pub standing: Standing,
    /// When it was last done, and by whom, by name.
    pub done: Option<(Instant, String)>,
}

/// The rounds: of the room that the viewer is in, or all of them; late ones first, then those that nobody has done, then
/// those that are due, then the rest; the nearest first in each.
pub fn rounds(viewer: &Viewer) -> Vec<RoundRow> {
    let here = viewer.open_session().map(|session| &session.room);
    sorted(viewer.book.rounds.iter().filter(|round| here.is_none_or(|here| *here == round.room)), viewer)
}

/// The rounds of all rooms, wherever the viewer is.
pub fn rounds_everywhere(viewer: &Viewer) -> Vec<RoundRow> {
    sorted(viewer.book.rounds.iter(), viewer)
}

fn sorted<'a>(rounds: impl Iterator<Item = &'a Round>, viewer: &Viewer) -> Vec<RoundRow> {
    let mut rows: Vec<RoundRow> = rounds.filter_map(|round| row(viewer, round)).collect();
    rows.sort_by_key(|row| pressing(row.standing));
    rows
}

/// One round as the viewer sees it; none whose duration cannot be read, which never reaches a phone.
pub fn row(viewer: &Viewer, round: &Round) -> Option<RoundRow> {
    let every = Every::parse(&round.every)?;
    let done = viewer.state.rounds.get(&round.id);
    Some(RoundRow {
        id: round.id.clone(),
        room: super::door::room_name(viewer, &round.room),
        text: round.text.clone(),
        source: round.source.clone(),
        standing: round::standing(every, done.map(|done| done.at), viewer.now),
        done: done.map(|done| (done.at, viewer.members.name(&done.by).to_owned())),
    })
}

fn pressing(standing: Standing) -> (u8, Instant) {
    match standing {
        Standing::Overdue { due } => (0, due),
        Standing::NeverDone => (1, Instant::from_ms(0)),
        Standing::Due { due } => (2, due),
        Standing::Done { due } => (3, due),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::command::Command;
    use crate::ids::PersonId;
    use crate::testing::{World, at};

    const DAY: i64 = 24 * 60;

    /// What noor sees at `now`: each round with a letter for how it stands, and who did it last.
    #[track_caller]
    fn check(done: &[(&str, i64, &str)], inside: bool, now: i64, expected: &[(&str, char, &str)]) {
        let mut world = World::new();
        for (who, minute, round) in done {
            assert_eq!(world.act(who, *minute, Command::FinishRound { round: (*round).into() }), Ok(()));
        }
        if inside {
            assert_eq!(world.enter("noor", now, now + 60), Ok(()));
        }
        let me = PersonId::from("noor");
        let rows = rounds(&world.viewer(&me, at(now)));
        let letter = |standing| match standing {
            Standing::NeverDone => 'n',
            Standing::Done { .. } => 'd',
            Standing::Due { .. } => 's',
            Standing::Overdue { .. } => 'o',
        };
        let told: Vec<(&str, char, &str)> = rows
            .iter()
            .map(|row| (row.id.as_str(), letter(row.standing), row.done.as_ref().map_or("", |(_, by)| by)))
            .collect();
        assert_eq!(told, expected);
    }

    #[test]
    fn the_most_pressing_stands_first_with_who_did_it_last() {
        check(&[], false, 0, &[("bin", 'n', ""), ("wash", 'n', ""), ("fans", 'n', "")]);
        check(&[], true, 0, &[("bin", 'n', ""), ("wash", 'n', "")]);
        let done = [("ilse", 0, "bin"), ("bram", 10, "wash")];
        check(&done, true, 60, &[("bin", 'd', "ILSE"), ("wash", 'd', "BRAM")]);
        check(&done, false, 60, &[("fans", 'n', ""), ("bin", 'd', "ILSE"), ("wash", 'd', "BRAM")]);
        check(&done, true, DAY - 1, &[("bin", 's', "ILSE"), ("wash", 'd', "BRAM")]);
        check(&done, true, DAY, &[("bin", 'o', "ILSE"), ("wash", 'd', "BRAM")]);
        check(&done, true, 7 * DAY, &[("bin", 'o', "ILSE"), ("wash", 's', "BRAM")]);
        check(&done, true, 8 * DAY, &[("bin", 'o', "ILSE"), ("wash", 'o', "BRAM")]);
        check(
            &[done[0], done[1], ("noor", 8 * DAY, "wash")],
            true,
            8 * DAY,
            &[("bin", 'o', "ILSE"), ("wash", 'd', "NOOR")],
        );
    }
}
