//! What is held about somebody: seen, taken along, erased; what is in force stays, and the log is whole afterwards.

use serde_json::json;
use shared_core::entry::{Fact, Given};
use shared_core::ids::SessionId;
use shared_core::log::erased::Erased;
use shared_core::sync::message::{Stretch, SyncRequest};
use shared_core::time::Span;

use crate::rules::until;
use crate::support::{Engine, Hub, Phone, Place, on_both};

on_both! {
    a_member_sees_all_that_is_about_them_and_nothing_else,
    what_is_erased_is_gone_everywhere_and_the_log_is_whole,
    what_a_copy_that_is_put_back_erases_is_forgotten_by_all,
    what_is_in_force_stays,
    nobody_erases_for_others_but_a_steward,
    what_is_over_goes_by_itself,
    whoever_was_away_for_long_forgets_a_stay_whose_end_is_gone,
    an_erased_log_moves_to_the_other_engine_and_is_backed_up,
}

fn entered() -> Fact {
    Fact::Entered { room: "hall".into(), out_by: shared_core::time::Instant::from_ms(4_000_000_000_000) }
}

fn confirmed(buddy: &str) -> Fact {
    Fact::BuddyConfirmed { buddy: buddy.into(), machine: None, proof: None, given: Given::OnTheirWord }
}

fn tagged(machine: &str) -> Fact {
    Fact::TaggedOut { machine: machine.into(), problem: "belt".into(), photo: None }
}

/// An evening that is over.
fn evening(phone: &mut Phone, facts: impl IntoIterator<Item = Fact>) -> Vec<String> {
    phone.session = SessionId::from_entropy(phone.head.seq.wrapping_mul(0x9E37_79B9_7F4A_7C15).to_be_bytes());
    [entered()].into_iter().chain(facts).chain([Fact::Left]).map(|fact| phone.says(fact)).collect()
}

fn mine(phone: &Phone, hub: &Hub) -> serde_json::Value {
    phone.ask(hub, "GET", "/api/mine", "").json()
}

fn forgotten(phone: &Phone, hub: &Hub, forgot: u64) -> (Vec<Stretch>, u64) {
    let answer = phone.sync_with(
        hub,
        &SyncRequest { protocol: 1, push: Vec::new(), lost: Vec::new(), since: 0, forgot, heard_to: 0, apart: false },
    );
    (answer.forget, answer.forgot)
}

/// Whether what the hub exports is whole, how many lines of it are there, and how many are erased.
fn verified(place: &Place) -> (Option<i32>, u64, u64) {
    place.write("log.jws", &place.exported().join("\n"));
    let (code, answer, _) = place.tool(&["verify", "log.jws"]);
    (code, answer["entries"].as_u64().expect("a number"), answer["erased"].as_u64().expect("a number"))
}

fn a_member_sees_all_that_is_about_them_and_nothing_else(engine: Engine) {
    let place = Place::with(engine);
    let hub = place.hub();
    let (mut ada, mut bo) = (Phone::joined(1, "ada", &hub), Phone::joined(2, "bo", &hub));
    let of_ada = evening(&mut ada, [confirmed("bo"), Fact::WatchRound]);
    let of_bo = evening(&mut bo, [Fact::WatchRound]);
    ada.sync(&hub, &of_ada, 0);
    bo.sync(&hub, &of_bo, 0);
    let figures = json!({ "salt": "A".repeat(22), "rounds": 600_000, "check": "A".repeat(43) });
    assert_eq!(bo.post(&hub, "/api/pin", &figures).status, 204);
    let held = mine(&bo, &hub);
    assert_eq!((&held["lines"], &held["naming"]), (&json!(of_bo), &json!([of_ada[1]])));
    assert_eq!((&held["member"]["id"], &held["figures"], &held["stays"]), (&json!("bo"), &json!(true), &json!(0)));
    assert_eq!((held["phones"][0]["dev"].as_str(), &held["codes"][0]["used"]), (Some(bo.dev.as_str()), &json!(true)));
    assert_eq!(held["retention_days"], 90);
    assert!(!held.to_string().contains(ada.dev.as_str()), "nobody else's phone");
    let held = mine(&ada, &hub);
    assert_eq!((&held["lines"], &held["naming"], &held["figures"]), (&json!(of_ada), &json!([]), &json!(false)));
    let told = hub.steward(&["about", "bo"]).1;
    assert_eq!(told["lines"], mine(&bo, &hub)["lines"], "the command says the same");
}

fn what_is_erased_is_gone_everywhere_and_the_log_is_whole(engine: Engine) {
    let place = Place::with(engine);
    let hub = place.hub();
    let (mut ada, mut bo) = (Phone::joined(1, "ada", &hub), Phone::joined(2, "bo", &hub));
    let of_ada = evening(&mut ada, [confirmed("bo"), Fact::WatchRound]);
    let of_bo = evening(&mut bo, [Fact::WatchRound]);
    ada.sync(&hub, &of_ada, 0);
    bo.sync(&hub, &of_bo, 0);
    assert_eq!(forgotten(&ada, &hub, 0).0, []);
    assert_eq!(bo.post(&hub, "/api/erase", &json!({})).json(), json!({ "erased": 4, "stays": 0 }));
    assert_eq!((mine(&bo, &hub)["lines"].clone(), mine(&bo, &hub)["naming"].clone()), (json!([]), json!([])));
    let stretch = |phone: &Phone, from, to| Stretch { dev: phone.dev.clone(), from, to };
    let (mut told, on) = forgotten(&ada, &hub, 0);
    told.sort_by_key(|it| it.from);
    assert_eq!(told, [stretch(&bo, 1, 3), stretch(&ada, 2, 2)]);
    assert_eq!(forgotten(&ada, &hub, on), (vec![], on), "and once");
    assert_eq!(forgotten(&ada, &hub, 9).0.len(), 2, "whoever heard under other numbers hears all");
    let pulled = ada.sync(&hub, &[], 0).pull;
    assert!(pulled.is_empty(), "{pulled:?}");
    // Ada's session shows that something is missing, Bo's shows nothing.
    let lines = place.exported();
    let left: Vec<_> = lines.iter().filter_map(|line| Erased::read(line)).map(|it| (it.seq, it.session)).collect();
    assert_eq!(left, [(2, Some(ada.session.clone())), (1, None), (2, None), (3, None)]);
    assert_eq!(verified(&place), (Some(0), 3, 4));
    // A phone that repeats what it said hears that it is held; it goes on where it was.
    assert_eq!(bo.sync(&hub, &of_bo, 0).head, bo.head);
    let more = evening(&mut bo, [Fact::WatchRound]);
    assert_eq!(bo.sync(&hub, &more, 0).head, bo.head);
    assert_eq!(verified(&place), (Some(0), 6, 4));
}

/// What it erases has the numbers of what was erased before it was put back, and is something else.
fn what_a_copy_that_is_put_back_erases_is_forgotten_by_all(engine: Engine) {
    let place = Place::with(engine);
    let hub = place.hub();
    let (mut ada, mut bo, cy) =
        (Phone::joined(1, "ada", &hub), Phone::joined(2, "bo", &hub), Phone::joined(3, "cy", &hub));
    for phone in [&mut ada, &mut bo] {
        let lines = evening(phone, [Fact::WatchRound]);
        phone.sync(&hub, &lines, 0);
    }
    assert_eq!(hub.stop(), Some(0));
    let copy = place.snapshot();
    let gone = |phone: &Phone| vec![Stretch { dev: phone.dev.clone(), from: 1, to: 3 }];

    let hub = place.hub();
    assert_eq!(bo.post(&hub, "/api/erase", &json!({})).status, 200);
    let (told, on) = forgotten(&cy, &hub, 0);
    assert_eq!(told, gone(&bo));
    assert_eq!(hub.stop(), Some(0));

    let hub = copy.hub();
    assert_eq!(ada.post(&hub, "/api/erase", &json!({})).status, 200);
    let (told, on) = forgotten(&cy, &hub, on);
    assert_eq!(told, gone(&ada));
    assert_eq!(forgotten(&cy, &hub, on).0, [], "once");
    assert_eq!(hub.stop(), Some(0));
}

fn what_is_in_force_stays(engine: Engine) {
    let place = Place::with(engine);
    let hub = place.hub();
    let (mut ada, mut bo) = (Phone::joined(1, "ada", &hub), Phone::joined(2, "bo", &hub));
    let lines = evening(&mut ada, [tagged("mill"), tagged("saw"), Fact::RoundDone { round: "bin".into() }]);
    ada.sync(&hub, &lines, 0);
    let cleared = evening(&mut bo, [Fact::TagCleared { machine: "saw".into() }]);
    bo.sync(&hub, &cleared, 0);
    ada.session = SessionId::from_entropy([77; 8]);
    let open = [ada.says(entered()), ada.says(confirmed("bo"))];
    ada.sync(&hub, &open, 0);
    assert_eq!(mine(&ada, &hub)["stays"], 4);
    assert_eq!(ada.post(&hub, "/api/erase", &json!({})).json(), json!({ "erased": 3, "stays": 4 }));
    assert_eq!(mine(&ada, &hub)["lines"], json!([lines[1], lines[3], open[0], open[1]]));
    assert_eq!(bo.post(&hub, "/api/erase", &json!({})).json(), json!({ "erased": 2, "stays": 2 }));
    assert_eq!(mine(&bo, &hub)["naming"], json!([open[1]]), "cover of a session that goes on");
    let gone = ada.says(Fact::Left);
    ada.sync(&hub, &[gone], 0);
    assert_eq!(ada.post(&hub, "/api/erase", &json!({})).json(), json!({ "erased": 3, "stays": 2 }));
    assert_eq!(verified(&place).0, Some(0));
}

fn nobody_erases_for_others_but_a_steward(engine: Engine) {
    let place = Place::with(engine);
    let hub = place.hub();
    let (mut ada, bo, cy) = (Phone::joined(1, "ada", &hub), Phone::joined(2, "bo", &hub), Phone::joined(3, "cy", &hub));
    let lines = evening(&mut ada, [Fact::Attested { statement: "eyes".into() }, Fact::WatchRound]);
    ada.sync(&hub, &lines, 0);
    assert_eq!(bo.post(&hub, "/api/erase", &json!({ "member": "ada" })).problem(), "not-steward");
    assert_eq!(bo.post(&hub, "/api/erase", &json!({ "leaving": true })).problem(), "own-phone");
    assert_eq!(mine(&ada, &hub)["lines"], json!(lines));
    // Before somebody leaves, a steward can hand them all of it but what no steward reads.
    assert_eq!(bo.ask(&hub, "GET", "/api/mine/ada", "").problem(), "not-steward");
    assert_eq!(cy.ask(&hub, "GET", "/api/mine/nobody", "").problem(), "unknown-member");
    let mut but_attested = mine(&ada, &hub);
    but_attested["lines"] = json!([lines[0], lines[2], lines[3]]);
    assert_eq!(cy.ask(&hub, "GET", "/api/mine/ada", "").json(), but_attested);
    let leaving = json!({ "member": "ada", "leaving": true });
    assert_eq!(cy.post(&hub, "/api/erase", &leaving).json(), json!({ "erased": 4, "stays": 0 }));
    assert_eq!(ada.ask(&hub, "GET", "/api/mine", "").problem(), "revoked");
    let listed = hub.steward(&["devices", "list"]).1;
    let whose =
        listed.as_array().expect("a list").iter().find(|it| it["device"] == json!(ada.dev)).expect("it is there");
    assert_eq!(whose["member"], "", "whose it was is forgotten");
    assert_eq!(verified(&place), (Some(0), 0, 4));
    let (code, answer, said) = hub.steward(&["erase", "bo", "--leaving"]);
    assert_eq!((code, answer), (Some(0), json!({ "erased": 0, "stays": 0 })), "{said}");
    assert_eq!(bo.ask(&hub, "GET", "/api/mine", "").problem(), "revoked");
}

fn what_is_over_goes_by_itself(engine: Engine) {
    let place = Place::with(engine);
    let hub = place.hub();
    let mut ada = Phone::joined(1, "ada", &hub);
    let today = ada.at;
    ada.at = today - Span::from_minutes(91 * 24 * 60);
    let old = evening(&mut ada, [tagged("mill"), Fact::WatchRound]);
    let aside = ada.says_as("bo".into(), Fact::WatchRound);
    ada.at = today - Span::from_minutes(89 * 24 * 60);
    let recent = evening(&mut ada, [Fact::WatchRound]);
    ada.sync(&hub, &[old, vec![aside], recent].concat(), 0);
    assert_eq!(hub.stop(), Some(0));
    place.received_when_said();
    let hub = place.hub();
    until(|| verified(&place) == (Some(0), 5, 3));
    assert!(hub.logged().contains("lines=3"), "{}", hub.logged());
    assert_eq!(mine(&ada, &hub)["stays"], 1, "the tag");
}

fn whoever_was_away_for_long_forgets_a_stay_whose_end_is_gone(engine: Engine) {
    let place = Place::with(engine);
    let hub = place.hub();
    let (mut ada, cy) = (Phone::joined(1, "ada", &hub), Phone::joined(3, "cy", &hub));
    ada.at = ada.at - Span::from_minutes(91 * 24 * 60);
    let evening = evening(&mut ada, []);
    ada.sync(&hub, &evening[..1], 0);
    let heard = cy.sync(&hub, &[], 0);
    assert_eq!(heard.pull, evening[..1]);
    ada.sync(&hub, &evening[1..], 0);
    assert_eq!(hub.stop(), Some(0));
    place.received_when_said();
    let hub = place.hub();
    until(|| verified(&place) == (Some(0), 0, 2));
    let gone = [Stretch { dev: ada.dev.clone(), from: 1, to: 1 }];
    for (since, heard_to, forget) in [(heard.cursor, 0, &gone[..]), (0, heard.cursor, &gone), (0, 0, &[])] {
        let again =
            SyncRequest { protocol: 1, push: Vec::new(), lost: Vec::new(), since, forgot: 0, heard_to, apart: false };
        let told = cy.sync_with(&hub, &again);
        assert_eq!(told.forget, forget, "from {since}, known to {heard_to}");
    }
    let told = cy.sync(&hub, &[], heard.cursor);
    assert_eq!(cy.sync(&hub, &[], told.cursor).forget, [], "once");
    assert_eq!(cy.sync(&hub, &[], 0).forget, [], "who asks from the start knows of nothing");
}

fn an_erased_log_moves_to_the_other_engine_and_is_backed_up(engine: Engine) {
    let place = Place::with(engine);
    let hub = place.hub();
    let (mut ada, mut bo) = (Phone::joined(1, "ada", &hub), Phone::joined(2, "bo", &hub));
    for phone in [&mut ada, &mut bo] {
        let lines = evening(phone, [confirmed("bo"), tagged("mill"), Fact::WatchRound]);
        phone.sync(&hub, &lines, 0);
    }
    assert_eq!(ada.post(&hub, "/api/erase", &json!({})).json()["erased"], 5);
    assert_eq!(hub.stop(), Some(0));
    let exported = place.exported();
    let moved = match engine {
        Engine::Sqlite => {
            let moved = Place::with(Engine::Postgres);
            let (code, _, said) = place.tool(&["move", "data", moved.database.as_ref().expect("an address")]);
            assert_eq!(code, Some(0), "{said}");
            moved
        }
        Engine::Postgres => {
            let moved = Place::new();
            std::fs::create_dir(moved.path("data")).expect("a folder");
            let file = moved.path("data/hub.sqlite").display().to_string();
            let (code, _, said) = place.tool(&["move", place.database.as_ref().expect("an address"), &file]);
            assert_eq!(code, Some(0), "{said}");
            let (code, answer, said) = moved.tool(&["backup", "copy.sqlite", "--data", "data"]);
            assert_eq!((code, &answer["entries"]), (Some(0), &json!(10)), "{said}");
            moved
        }
    };
    assert_eq!(moved.exported(), exported);
    let hub = moved.hub();
    assert_eq!(forgotten(&bo, &hub, 0).0.len(), 1);
    let more = evening(&mut ada, [Fact::WatchRound]);
    assert_eq!(ada.sync(&hub, &more, 0).head, ada.head, "the chain goes on behind what was erased");
}
