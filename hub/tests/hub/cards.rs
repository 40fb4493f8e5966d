//! Cards over HTTP: each phone is handed its own and no more than it may see, and believes it by the hub's keys alone.

use serde_json::json;
use shared_core::card::face::Face;
use shared_core::card::{Card, CardFault, Role, Trust};
use shared_core::members::Members;
use shared_core::sync::shop::ShopBundle;
use shared_core::time::{Instant, Span};

use crate::rules::until;
use crate::support::{Engine, Hub, Phone, Place, on_both};

on_both! {
    a_phone_is_handed_its_own_card_and_the_faces_of_all,
    members_are_told_names_and_roles_and_stewards_everything,
    a_card_is_made_anew_when_the_members_file_says_otherwise,
    a_new_key_is_followed_and_the_old_one_runs_out,
    a_key_that_somebody_else_may_have_is_out_at_once,
    cards_and_keys_live_through_a_restart,
}

fn shop(phone: &Phone, hub: &Hub) -> ShopBundle {
    let reply = phone.ask(hub, "GET", "/api/shop", "");
    assert_eq!(reply.status, 200, "{reply:?}");
    serde_json::from_str(&reply.text).expect("a bundle")
}

fn trust(bundle: &ShopBundle) -> Trust {
    Trust::read(&bundle.keys, bundle.revoked.as_deref().expect("a list")).expect("the hub's own words")
}

fn card(bundle: &ShopBundle) -> Card {
    trust(bundle).open(bundle.card.as_deref().expect("a card"), bundle.hub_now).expect("it holds")
}

fn a_phone_is_handed_its_own_card_and_the_faces_of_all(engine: Engine) {
    let place = Place::with(engine);
    let hub = place.hub();
    let (ada, cy) = (Phone::joined(1, "ada", &hub), Phone::joined(3, "cy", &hub));
    let (of_ada, of_cy) = (shop(&ada, &hub), shop(&cy, &hub));
    assert_eq!((card(&of_ada).dev, card(&of_ada).member.as_str()), (ada.dev.clone(), "ada"));
    assert_eq!(card(&of_ada).roles, [Role::Member]);
    assert_eq!(card(&of_ada).inducted_until, Instant::parse("2099-12-31T23:59:59.999Z"));
    assert_eq!(card(&of_cy).roles, [Role::Member, Role::Steward]);
    assert!(card(&of_cy).number > card(&of_ada).number);
    assert_eq!(of_ada.faces, of_cy.faces);
    for (face, phone) in of_ada.faces.iter().zip([&ada, &cy]) {
        let face = Face::read(face).expect("a face");
        assert_eq!(trust(&of_cy).check(&face, of_cy.hub_now), Ok(()));
        assert_eq!((&face.shown.dev, &face.shown.member), (&phone.dev, &phone.member));
    }
    assert_eq!(trust(&of_ada).revoked.number, 0);
    assert_eq!(hub.steward(&["devices", "revoke", ada.dev.as_str()]).0, Some(0));
    until(|| trust(&shop(&cy, &hub)).revoked.number == 1);
    let after = shop(&cy, &hub);
    let face = Face::read(&of_ada.faces[0]).expect("a face");
    assert!(matches!(trust(&after).check(&face, after.hub_now), Err(CardFault::Revoked { .. })));
    assert_eq!(after.faces.len(), 1);
    assert_ne!(after.rev, of_cy.rev);
}

fn members_are_told_names_and_roles_and_stewards_everything(engine: Engine) {
    let place = Place::with(engine);
    let hub = place.hub();
    let (ada, cy) = (Phone::joined(1, "ada", &hub), Phone::joined(3, "cy", &hub));
    let told = |members: &Members| {
        let row = |id: &str| members.get(&id.into()).map(|it| (it.name.clone(), it.inducted_until.is_some()));
        (row("ada"), row("bo"), members.get(&"cy".into()).is_some_and(|cy| cy.steward))
    };
    let row = |name: &str, inducted| Some((name.to_owned(), inducted));
    assert_eq!(told(&shop(&ada, &hub).members), (row("Ada", true), row("Bo", false), true));
    assert_eq!(told(&shop(&cy, &hub).members), (row("Ada", true), row("Bo", true), true));
    let text = ada.ask(&hub, "GET", "/api/shop", "").text;
    assert_eq!(text.matches("2099-12-31").count(), 1, "her own; the card is base64");
}

fn a_card_is_made_anew_when_the_members_file_says_otherwise(engine: Engine) {
    let place = Place::with(engine);
    let hub = place.hub();
    let (ada, bo) = (Phone::joined(1, "ada", &hub), Phone::joined(2, "bo", &hub));
    let (before, of_bo) = (shop(&ada, &hub), shop(&bo, &hub));
    let members = place.read("members.toml").replacen("inducted_until = 2099-12-31", "signer = true", 1);
    place.write("members.toml", &members);
    until(|| shop(&ada, &hub).rev != before.rev);
    let after = card(&shop(&ada, &hub));
    assert_eq!((after.inducted_until, after.roles), (None, vec![Role::Member, Role::Signer]));
    assert!(after.number > card(&of_bo).number);
    assert_eq!(shop(&bo, &hub).card, of_bo.card, "what did not change is not made again");
}

fn rotate(hub: &Hub, words: &[&str]) -> usize {
    let (code, keys, said) = hub.steward(&[&["key", "rotate"], words].concat());
    assert_eq!(code, Some(0), "{said}");
    keys.as_array().expect("keys").len()
}

fn a_new_key_is_followed_and_the_old_one_runs_out(engine: Engine) {
    let place = Place::with(engine);
    let hub = place.hub();
    let ada = Phone::joined(1, "ada", &hub);
    let before = shop(&ada, &hub);
    assert_eq!(rotate(&hub, &[]), 2);
    until(|| shop(&ada, &hub).keys.len() == 2);
    let after = shop(&ada, &hub);
    let followed = trust(&before).follow(&after.keys, after.revoked.as_deref().expect("a list")).expect("vouched for");
    let (old, new) = (before.card.expect("a card"), after.card.expect("a card"));
    assert_ne!(old, new, "made anew under the new key");
    assert_eq!(followed.open(&new, after.hub_now).map(|card| card.member), Ok("ada".into()));
    assert!(followed.open(&old, after.hub_now).is_ok(), "whoever was away shows the old one for a while");
    assert!(matches!(trust_of_old(&before.keys).open(&new, after.hub_now), Err(CardFault::UnknownKey { .. })));
    let late = after.hub_now + Span::from_minutes(61 * 24 * 60);
    assert!(matches!(followed.open(&old, late), Err(CardFault::Expired { .. })));
}

fn trust_of_old(keys: &[String]) -> Trust {
    let keys = shared_core::card::keys::Keys::read(keys).expect("keys");
    Trust { keys, ..Trust::default() }
}

fn a_key_that_somebody_else_may_have_is_out_at_once(engine: Engine) {
    let place = Place::with(engine);
    let hub = place.hub();
    let ada = Phone::joined(1, "ada", &hub);
    let old = shop(&ada, &hub).card.expect("a card");
    assert_eq!(rotate(&hub, &["--at-once"]), 2);
    assert_eq!(rotate(&hub, &[]), 3);
    until(|| shop(&ada, &hub).keys.len() == 3);
    let after = shop(&ada, &hub);
    assert!(matches!(trust(&after).open(&old, after.hub_now), Err(CardFault::KeyRetired { .. })));
    assert_eq!(card(&after).member.as_str(), "ada");
}

fn cards_and_keys_live_through_a_restart(engine: Engine) {
    let place = Place::with(engine);
    let hub = place.hub();
    let ada = Phone::joined(1, "ada", &hub);
    let before = shop(&ada, &hub);
    assert_eq!(hub.stop(), Some(0));
    let hub = place.hub();
    let after = shop(&ada, &hub);
    assert_eq!((after.keys, after.card, after.faces), (before.keys, before.card, before.faces));
    assert_eq!(after.rev, before.rev);
    let text = ada.ask(&hub, "GET", "/api/shop", "").json();
    assert_eq!(
        text["members"][1],
        json!({ "id": "bo", "name": "Bo", "inducted_until": null, "signed_off": {}, "steward": false, "signer": false })
    );
}
