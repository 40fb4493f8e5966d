//! People as Book shows them: who is found by a name, what one of them is to the shop, and what this viewer may say of them.
//!
//! What others are signed off on a steward's phone alone is told by its hub; on a signer's it is unknown, and said to be.

use crate::card::Role;
use crate::entry::Fact;
use crate::ids::PersonId;
use crate::members::Member;
use crate::standing::fresh::{days_span, kept_by};
use crate::standing::walk::mark_of_all;
use crate::standing::{Words, may_sign};
use crate::time::Instant;
use crate::view::Viewer;

/// So many people are shown at once; a shop has thousands.
pub const FOUND_MOST: usize = 12;

/// The page.
#[derive(Clone, Debug, PartialEq)]
pub struct PeopleView {
    /// Whose name holds what was typed, in the order of the members' list.
    pub found: Vec<PersonRow>,
    /// How many more there are.
    pub more: usize,
    /// The one who is looked at.
    pub person: Option<PersonView>,
}

/// Somebody.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct PersonRow {
    /// Who.
    pub who: PersonId,
    /// What they are called.
    pub name: String,
    /// What they are to the shop.
    pub role: Role,
}

/// What somebody is to the shop.
#[derive(Clone, Debug, PartialEq)]
pub struct PersonView {
    /// Who.
    pub row: PersonRow,
    /// Whether this phone knows the rest.
    pub known: bool,
    /// Their induction.
    pub induction: Holds,
    /// Whether this viewer may induct them.
    pub may_induct: bool,
    /// Whether this viewer may give them roles.
    pub may_give_roles: bool,
    /// Each training that a machine asks for.
    pub trainings: Vec<TrainingRow>,
}

/// How an induction or a sign-off stands.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Holds {
    /// There is none.
    No,
    /// Good until then.
    Until(Instant),
    /// Good until then, if the machine is used, or gone through again, before the other instant.
    UseBefore(Instant, Instant),
    /// Over since then.
    Lapsed(Instant),
    /// Not used for longer than this many days.
    Stale(u32),
}

/// A training.
#[derive(Clone, Debug, PartialEq)]
pub struct TrainingRow {
    /// Its id.
    pub id: String,
    /// What it is called.
    pub name: String,
    /// The machines that ask for it.
    pub machines: Vec<String>,
    /// What is done together before it is signed.
    pub checklist: Vec<String>,
    /// How it stands.
    pub holds: Holds,
    /// Who may sign others off on it.
    pub signers: Vec<String>,
    /// Whether this viewer may sign them off.
    pub may_sign: bool,
}

/// Who is found by what was typed, and one of them. Everybody is gone through once: of thousands, that is what it costs.
pub fn people(viewer: &Viewer, typed: &str, who: Option<&PersonId>) -> PeopleView {
    let typed = typed.trim();
    let (mut found, mut more, mut sign) = (Vec::new(), 0, Vec::new());
    for member in viewer.members {
        if signs_anything(member) {
            sign.push(member);
        }
        match holds_text(&member.name, typed) {
            true if found.len() < FOUND_MOST => found.push(row(member)),
            holds => more += usize::from(holds),
        }
    }
    PeopleView { found, more, person: who.and_then(|who| person_of(viewer, who, &sign)) }
}

/// What somebody is to the shop, as this viewer's phone knows.
pub fn person(viewer: &Viewer, who: &PersonId) -> Option<PersonView> {
    let sign: Vec<&Member> = viewer.members.iter().filter(|member| signs_anything(member)).collect();
    person_of(viewer, who, &sign)
}

fn signs_anything(member: &Member) -> bool {
    member.steward || member.signer
}

/// `sign` are those who may sign others off on anything.
fn person_of(viewer: &Viewer, who: &PersonId, sign: &[&Member]) -> Option<PersonView> {
    let member = viewer.members.get(who)?;
    let may = |fact: Fact| Words::may_give(viewer.me, &fact, viewer.book, viewer.members).is_ok();
    let induct = Fact::Inducted { person: who.clone(), until: Some(viewer.now) };
    let steward = viewer.members.get(viewer.me).is_some_and(|me| me.steward);
    let row_of = |training| training_row(viewer, member, training, sign, &may);
    let trainings = viewer.book.trainings().into_iter().map(row_of);
    Some(PersonView {
        row: row(member),
        known: who == viewer.me || steward,
        induction: holds(member.inducted_until, None, viewer.now),
        may_induct: may(induct),
        may_give_roles: steward,
        trainings: trainings.collect(),
    })
}

/// Whether a walk of that mark is the walk as it stands here.
pub fn is_whole(viewer: &Viewer, mark: &str) -> bool {
    mark == mark_of_all(viewer.book)
}

fn row(member: &Member) -> PersonRow {
    let role = match (member.steward, member.signer) {
        (true, _) => Role::Steward,
        (false, true) => Role::Signer,
        (false, false) => Role::Member,
    };
    PersonRow { who: member.id.clone(), name: member.name.clone(), role }
}

fn training_row(
    viewer: &Viewer,
    member: &Member,
    id: &str,
    sign: &[&Member],
    may: &dyn Fn(Fact) -> bool,
) -> TrainingRow {
    let book = viewer.book;
    let fact = Fact::SignedOff { person: member.id.clone(), training: id.to_owned(), until: Some(viewer.now) };
    let signs = |other: &&&Member| may_sign(book, other, id);
    let machines: Vec<String> = book.machines.iter().filter(|it| it.training == id).map(|it| it.name.clone()).collect();
    TrainingRow {
        id: id.to_owned(),
        // Where nothing more is said of it, it is called as its machines are.
        name: book.training(id).map_or_else(|| machines.join(", "), |training| training.name.clone()),
        machines,
        checklist: book.training(id).map(|training| training.checklist.clone()).unwrap_or_default(),
        holds: holds(member.signed_off.get(id).copied(), kept_by(book, viewer.state, member, id), viewer.now),
        signers: sign.iter().filter(signs).take(FOUND_MOST).map(|it| it.name.clone()).collect(),
        may_sign: may(fact),
    }
}

fn holds(until: Option<Instant>, kept: Option<(u32, Option<Instant>)>, now: Instant) -> Holds {
    match (until, kept) {
        (None, _) => Holds::No,
        (Some(until), _) if now >= until => Holds::Lapsed(until),
        (Some(until), None) => Holds::Until(until),
        (Some(until), Some((days, last))) => match last.map(|last| last + days_span(days)) {
            Some(before) if now < before => Holds::UseBefore(until, before),
            _ => Holds::Stale(days),
        },
    }
}

/// Whether a name holds what was typed, capitals of the Latin letters aside.
fn holds_text(name: &str, typed: &str) -> bool {
    let (name, typed) = (name.as_bytes(), typed.as_bytes());
    typed.is_empty() || name.windows(typed.len()).any(|part| part.eq_ignore_ascii_case(typed))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::rulebook::Training;
    use crate::testing::{World, at};

    #[test]
    fn people_are_found_by_a_part_of_their_name() {
        let mut world = World::new();
        for number in 0..40 {
            let (id, name) = (format!("x{number}"), "Same Name".to_owned());
            world.members.put(Member { id: id.as_str().into(), name, ..Member::default() });
        }
        let me = PersonId::from("bram");
        let found = |typed: &str| {
            let view = people(&world.viewer(&me, at(1)), typed, None);
            (view.found.iter().map(|row| row.who.to_string()).collect::<Vec<_>>(), view.more)
        };
        assert_eq!(found("ils"), (vec!["ilse".to_owned()], 0));
        assert_eq!(found(" RA "), (vec!["bram".to_owned()], 0));
        assert_eq!((found("same").0.len(), found("same").1), (FOUND_MOST, 40 - FOUND_MOST));
        assert_eq!(found("nobody"), (vec![], 0));
        assert_eq!(found("").0.len(), FOUND_MOST);
    }

    #[test]
    fn what_holds_and_who_may_say_so() {
        let mut world = World::new();
        world.book.trainings = vec![Training {
            id: "lathe".into(),
            name: "Lathe work".into(),
            checklist: vec!["Chuck key out.".into()],
            valid_days: 30,
            use_within_days: Some(20),
            signers: vec![],
        }];
        let seen = |world: &World, me: &str, who: &str| {
            let me = PersonId::from(me);
            person(&world.viewer(&me, at(60_000)), &who.into()).expect("a member")
        };
        let of_noor = seen(&world, "bram", "noor");
        assert_eq!((of_noor.known, of_noor.may_induct, of_noor.may_give_roles), (true, true, true));
        assert_eq!(of_noor.induction, Holds::Until(at(100_000)));
        let lathe =
            |view: &PersonView| view.trainings.iter().find(|row| row.id == "lathe").cloned().expect("asked for");
        assert_eq!((lathe(&of_noor).holds, lathe(&of_noor).may_sign), (Holds::Lapsed(at(50_000)), true));
        assert_eq!(lathe(&of_noor).signers, ["BRAM"]);
        assert_eq!(lathe(&seen(&world, "bram", "bram")).holds, Holds::No);
        let of_ilse = seen(&world, "noor", "ilse");
        assert_eq!((of_ilse.known, of_ilse.may_induct, lathe(&of_ilse).may_sign), (false, false, false));
        assert!(seen(&world, "noor", "noor").known);
        if let Some(noor) = world.members.get_mut(&"noor".into()) {
            noor.signed_off.insert("lathe".into(), at(90_000));
        }
        assert_eq!(lathe(&seen(&world, "noor", "noor")).holds, Holds::Stale(20));
        world.state.used.insert(("noor".into(), "lathe".into()), at(59_000));
        let before = at(59_000) + days_span(20);
        assert_eq!(lathe(&seen(&world, "noor", "noor")).holds, Holds::UseBefore(at(90_000), before));
    }
}
