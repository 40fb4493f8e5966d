//! A session goes by the rules that it began under, to its end: new ones wait for the next. And nobody is in one without
//! having attested each statement of those rules, in their order.

use std::collections::BTreeMap;

use shared_core::entry::{Entry, Fact};
use shared_core::ids::{BookId, DeviceId, SessionId};

use crate::store::Row;
use crate::world::World;

pub(crate) fn check(world: &World) {
    // What another phone of the same member says of a session, which is that it is left, goes by that phone's rules of then.
    let mut books: BTreeMap<(&DeviceId, &SessionId), &BookId> = BTreeMap::new();
    for row in world.hub.store.log.values() {
        let (Some(entry), Some(book)) = (&row.entry, &row.book) else { continue };
        let is_outside = entry.session == SessionId::outside();
        if is_outside || world.is_liars(&row.dev) || is_twins(world, entry) || is_behind_rot(world, row) {
            continue;
        }
        if matches!(entry.fact, Fact::Entered { .. }) {
            books.insert((&row.dev, &entry.session), book);
        }
        if let Some(began) = books.get(&(&row.dev, &entry.session)) {
            assert_eq!(*began, book, "the rules changed under {entry:?}");
        }
    }
    for (number, phone) in world.phones.iter().enumerate() {
        let Some(page) = &phone.page else { continue };
        let own = page.entries.iter().filter(|entry| entry.who == phone.me);
        let spoilt = world
            .phones
            .iter()
            .zip(&world.expected.rotten)
            .any(|(other, rotten)| other.me == phone.me && !rotten.is_empty());
        if !spoilt {
            every_statement(world, number, &own.collect::<Vec<_>>());
        }
    }
}

/// Of the sessions that are known from this phone alone.
fn every_statement(world: &World, number: usize, own: &[&Entry]) {
    for entered in own.iter().filter(|entry| matches!(entry.fact, Fact::Entered { .. })) {
        let said = own.iter().filter(|entry| entry.session == entered.session).filter_map(|entry| match &entry.fact {
            Fact::Attested { statement } => Some(statement),
            _ => None,
        });
        let said: Vec<_> = said.collect();
        // Another phone of the same member keeps what was attested there to itself.
        let elsewhere = said.is_empty() && world.phones.iter().filter(|phone| phone.me == entered.who).count() > 1;
        let asked_by =
            |book: &crate::shop::Book| book.rules.statements.iter().map(|one| &one.id).eq(said.iter().copied());
        let whole = world.shop.books.iter().any(asked_by);
        assert!(whole || elsewhere, "phone {number}: {} was entered with {said:?} attested", entered.session);
    }
}

/// Whether the storage of its phone has spoilt an earlier line. That may have been the end of the session, which goes on then, and
/// by the rules that the phone took up after that end.
fn is_behind_rot(world: &World, row: &Row) -> bool {
    let number = world.phones.iter().position(|phone| phone.dev == row.dev);
    number.is_some_and(|number| world.expected.rotten[number].range(..row.seq).next().is_some())
}

fn is_twins(world: &World, entry: &Entry) -> bool {
    world.twin_of.is_some_and(|victim| world.phones[victim].me == entry.who)
}
