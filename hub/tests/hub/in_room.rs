//! What shows that a buddy is in the room: boards that hang there, and members' figures; who is told what of them.

use serde_json::{Value, json};

use crate::support::{Engine, Phone, Place, on_both};

on_both! {
    figures_are_a_members_own_and_every_phone_can_check_them,
    a_board_is_hung_by_a_steward_and_alone_knows_that_it_is_one,
}

/// PBKDF2 is the phones' business: here are 16 and 32 bytes of the right shape.
fn figures(rounds: u32) -> Value {
    json!({ "salt": "A".repeat(22), "rounds": rounds, "check": "A".repeat(43) })
}

fn shop(phone: &Phone, hub: &crate::support::Hub) -> Value {
    phone.ask(hub, "GET", "/api/shop", "").json()
}

fn figures_are_a_members_own_and_every_phone_can_check_them(engine: Engine) {
    let place = Place::with(engine);
    let hub = place.hub();
    let (ada, bo) = (Phone::joined(1, "ada", &hub), Phone::joined(2, "bo", &hub));
    assert_eq!(shop(&bo, &hub)["pins"], Value::Null, "nobody has any");
    let rev = shop(&bo, &hub)["rev"].clone();
    assert_eq!(ada.post(&hub, "/api/pin", &figures(600_000)).status, 204);
    let told = shop(&bo, &hub);
    assert_eq!(told["pins"][0]["member"], "ada");
    assert_ne!(told["rev"], rev, "phones are told to fetch it");
    // Anew: the same record, not a second one.
    assert_eq!(ada.post(&hub, "/api/pin", &figures(700_000)).status, 204);
    let told = shop(&bo, &hub);
    assert_eq!((told["pins"].as_array().map(Vec::len), &told["pins"][0]["rounds"]), (Some(1), &json!(700_000)));
    for unfit in [figures(1_000), figures(2_000_001), json!({ "salt": "", "rounds": 600_000, "check": "" })] {
        let reply = ada.post(&hub, "/api/pin", &unfit);
        assert_eq!((reply.status, reply.problem().as_str()), (422, "unfit-pin"), "{unfit}");
    }
}

fn a_board_is_hung_by_a_steward_and_alone_knows_that_it_is_one(engine: Engine) {
    let place = Place::with(engine);
    let hub = place.hub();
    let (cy, ada, wall) = (Phone::joined(3, "cy", &hub), Phone::joined(1, "ada", &hub), Phone::joined(9, "bo", &hub));
    let hung = |room: Value| json!({ "dev": wall.dev, "room": room });
    let room = shop(&ada, &hub)["rulebook"]["rooms"][0]["id"].clone();
    assert_eq!(ada.post(&hub, "/api/boards", &hung(room.clone())).problem(), "not-steward");
    assert_eq!(cy.post(&hub, "/api/boards", &hung("cellar".into())).problem(), "unknown-room");
    assert_eq!(cy.post(&hub, "/api/boards", &json!({ "dev": "x", "room": room })).problem(), "unknown-phone");
    assert_eq!(shop(&ada, &hub)["boards"], Value::Null);

    assert_eq!(cy.post(&hub, "/api/boards", &hung(room.clone())).status, 204);
    let (seen, own) = (shop(&ada, &hub), shop(&wall, &hub));
    assert_eq!((&seen["hangs_in"], &own["hangs_in"]), (&Value::Null, &room));
    assert_eq!(seen["boards"], own["boards"], "what the board shows is what phones check with");
    assert_eq!(seen["boards"][0]["room"], room);
    let key = seen["boards"][0]["key"].clone();

    // After a restart the key is the same, or phones that were away would refuse right codes.
    drop(hub);
    let hub = place.hub();
    assert_eq!(shop(&ada, &hub)["boards"][0]["key"], key);
    // The hub's own machine takes it down; a phone that is taken off hangs nowhere either.
    let (done, _, why) = hub.steward(&["devices", "hang", wall.dev.as_str()]);
    assert_eq!(done, Some(0), "{why}");
    assert_eq!(cy.post(&hub, "/api/boards", &hung(room.clone())).status, 204, "which also makes the hub look again");
    assert_eq!(cy.post(&hub, "/api/devices/revoke", &json!({ "dev": wall.dev })).status, 204);
    assert_eq!(shop(&ada, &hub)["boards"], Value::Null);
    let (done, _, why) = hub.steward(&["devices", "hang", wall.dev.as_str(), "forge"]);
    assert_eq!(done, Some(1), "{why}");
}
