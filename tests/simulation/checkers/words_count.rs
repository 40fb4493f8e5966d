//! Whose words on members count: of what the hub took, in the order in which it came, each giver might say it by the file and
//! the words before it; of what it set aside, none might. And there is always a steward.
//!
//! Read plainly: of two words on one thing the later holds, and of one instant the one that lets less be done. A log of which a
//! word on a role was erased cannot be read so any more; of the others every word is asked.

use std::collections::BTreeMap;

use shared_core::card::Role;
use shared_core::entry::{Entry, Fact};
use shared_core::ids::PersonId;
use shared_core::log::jws;
use shared_core::rulebook::Rulebook;
use shared_core::sync::message::Why;
use shared_core::time::Instant;

use crate::world::World;

/// Who is what, and since whose word.
type Roles = BTreeMap<PersonId, (Instant, Role)>;

pub(crate) fn at_the_hub(world: &mut World) {
    let roles_erased = world
        .expected
        .erased
        .values()
        .filter_map(|(_, said)| said.as_ref())
        .any(|entry| matches!(entry.fact, Fact::RoleGiven { .. }));
    if roles_erased {
        return;
    }
    let mut roles: Roles = BTreeMap::new();
    for member in &world.shop.members {
        let role = match (member.steward, member.signer) {
            (true, _) => Role::Steward,
            (_, true) => Role::Signer,
            _ => Role::Member,
        };
        roles.insert(member.id.clone(), (Instant::from_ms(i64::MIN), role));
    }
    let (mut taken, mut refused) = (0, 0);
    for row in world.hub.store.log.values() {
        let said = match row.aside {
            None => row.entry.clone(),
            Some(Why::NotAllowed) => jws::unproved(&row.jws).map(|(_, entry)| entry),
            Some(_) => None,
        };
        let Some(entry) = said.filter(is_word) else { continue };
        // Which rules held when it came is not known here: those that name signers are the same in all of them.
        let may = may_say(&roles, &world.shop.books[0].rules, &entry);
        assert_eq!(may, row.aside.is_none(), "whether {} may say {:?}, given {roles:?}", entry.who, entry.fact);
        if !may {
            refused += 1;
            continue;
        }
        taken += 1;
        if let Fact::RoleGiven { person, role } = &entry.fact
            && let Some((since, had)) = roles.get_mut(person)
        {
            let rank = |role: Role| [Role::Steward, Role::Signer, Role::Member].iter().position(|one| *one == role);
            if (entry.at, rank(*role)) > (*since, rank(*had)) {
                (*since, *had) = (entry.at, *role);
            }
        }
        assert!(roles.values().any(|(_, role)| *role == Role::Steward), "nobody is a steward after {entry:?}");
    }
    world.tally.add("words on members: taken", taken);
    world.tally.add("words on members: not allowed", refused);
}

fn is_word(entry: &Entry) -> bool {
    matches!(entry.fact, Fact::Inducted { .. } | Fact::SignedOff { .. } | Fact::RoleGiven { .. })
}

fn may_say(roles: &Roles, book: &Rulebook, entry: &Entry) -> bool {
    let role_of = |who: &PersonId| roles.get(who).map(|(_, role)| *role);
    let is_steward = role_of(&entry.who) == Some(Role::Steward);
    match &entry.fact {
        Fact::Inducted { person, until } => {
            is_steward && role_of(person).is_some() && (until.is_none() || *person != entry.who)
        }
        Fact::SignedOff { person, training, until } => {
            let named = book.training(training).map_or(&[][..], |training| &training.signers);
            let signs = role_of(&entry.who) == Some(Role::Signer) && (named.is_empty() || named.contains(&entry.who));
            (is_steward || signs) && role_of(person).is_some() && (until.is_none() || *person != entry.who)
        }
        Fact::RoleGiven { person, role } => {
            let stewards = roles.iter().filter(|(_, (_, role))| *role == Role::Steward);
            let others = stewards.filter(|(who, _)| *who != person).count();
            let stays = role_of(person) != Some(Role::Steward) || *role == Role::Steward || others > 0;
            is_steward && role_of(person).is_some() && stays
        }
        _ => true,
    }
}

/// Once healed, each phone's own member is to it what they are to the hub.
pub(crate) fn on_phones(world: &World) -> Result<(), String> {
    let there = world.hub.members();
    for (number, phone) in world.phones.iter().enumerate() {
        let Some(page) = &phone.page else { continue };
        if world.twin_of != Some(number) && page.members.get(&phone.me) != there.get(&phone.me) {
            return Err(format!(
                "phone {number} does not know what {} is: {:?}",
                phone.me,
                page.members.get(&phone.me)
            ));
        }
    }
    Ok(())
}
