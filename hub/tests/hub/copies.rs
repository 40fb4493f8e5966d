//! Backups made while the hub serves, stores moved between engines, and copies of a spoilt log, which there are none of.

use std::sync::atomic::{AtomicBool, Ordering};

use serde_json::json;
use shared_core::sync::cursor::Cursor;
use shared_core::sync::message::SyncAnswer;

use crate::support::{Engine, Hub, Phone, Place, new_database, tell_file};

#[test]
fn a_backup_made_while_phones_push_is_whole_and_can_be_gone_on_from() {
    let place = Place::new();
    let hub = place.hub();
    let (mut ada, bo) = (Phone::joined(1, "ada", &hub), Phone::joined(2, "bo", &hub));
    let lines = ada.says_rounds(3_000);
    let (code, answer, said) = place.tool(&["backup", "empty.sqlite", "--data", "data"]);
    assert_eq!((code, &answer["entries"], &answer["devices"]), (Some(0), &json!(0), &json!(2)), "{said}");
    let (done, mut acknowledged) = (AtomicBool::new(false), 0);
    let mut told = Vec::new();
    std::thread::scope(|scope| {
        let pushing = scope.spawn(|| {
            let mut kept = 0;
            while !done.load(Ordering::Relaxed) && kept < lines.len() {
                let reply = ada.try_sync(&hub, &lines[kept..kept + 5]).expect("an answer");
                if reply.status == 200 {
                    kept = usize::try_from(SyncAnswer::read(&reply.text).expect("an answer").head.seq).expect("few");
                }
            }
            kept
        });
        for file in ["one.sqlite", "two.sqlite", "three.sqlite"] {
            let before = Cursor::of(bo.sync(&hub, &[], 0).cursor).place;
            let (code, answer, said) = place.tool(&["backup", file, "--data", "data"]);
            assert_eq!((code, &answer["ok"]), (Some(0), &json!(true)), "{said}");
            assert!(answer["entries"].as_u64() >= Some(before), "{answer} holds less than the {before} before it");
            told.push(answer);
        }
        done.store(true, Ordering::Relaxed);
        acknowledged = pushing.join().expect("no panic");
    });
    assert!(told[0]["entries"].as_u64() < Some(acknowledged as u64), "phones went on pushing: {told:?}");
    assert!(!place.path("three.sqlite.part").exists() && !place.path("three.sqlite-wal").exists());
    let (code, _, said) = place.tool(&["backup", "one.sqlite", "--data", "data"]);
    assert_eq!(code, Some(1), "a backup is never written over: {said}");

    // Bo has heard of everything, Ada's newest included, when the hub's machine is lost.
    let heard = bo.sync(&hub, &[], 0).cursor;
    drop(hub);
    for (file, entries) in [("empty.sqlite", 0), ("one.sqlite", told[0]["entries"].as_u64().expect("a number"))] {
        let restored = Place::new();
        std::fs::create_dir(restored.path("data")).expect("a folder");
        std::fs::copy(place.path(file), restored.path("data/hub.sqlite")).expect("copied");
        let kept = usize::try_from(entries).expect("few");
        assert_eq!(restored.exported(), lines[..kept]);
        let hub = restored.hub();
        assert_eq!(ada.sync(&hub, &[], 0).head.seq, entries, "sessions and chains go on");
        // Others' entries fill the numbers that Bo has heard already: he must be told of them all the same.
        let mut cy = Phone::joined(3, "cy", &hub);
        let news = cy.says_rounds(acknowledged - kept + 10);
        for batch in news.chunks(200) {
            cy.sync(&hub, batch, 0);
        }
        let got = bo.pulls(&hub, heard, news.len());
        assert!(news.iter().all(|line| got.contains(line)), "{file}: {} of {} news", got.len(), news.len());
    }
}

#[test]
fn a_store_moves_to_the_other_engine_and_back_with_all_that_lasts() {
    let place = Place::new();
    let hub = place.hub();
    let (mut ada, bo) = (Phone::joined(1, "ada", &hub), Phone::joined(2, "bo", &hub));
    let mut lines = ada.says_rounds(5);
    let other = ada.says_as("bo".into(), shared_core::entry::Fact::WatchRound);
    lines.push(other);
    lines.extend(ada.says_rounds(2));
    let rejected = ada.sync(&hub, &lines, 0).rejected;
    assert_eq!(rejected.len(), 1, "one entry speaks for somebody else and is set aside");
    let before = bo.sync(&hub, &[], 0);
    let shop = ada.ask(&hub, "GET", "/api/shop", "").json()["rev"].clone();
    assert_eq!(hub.stop(), Some(0));

    let moved = Place::with(Engine::Postgres);
    let address = moved.database.clone().expect("an address");
    let (code, answer, said) = place.tool(&["move", "data", &address]);
    assert_eq!((code, &answer["entries"], &answer["devices"]), (Some(0), &json!(8), &json!(2)), "{said}");
    let secret = address.split(['@', ':']).nth(2).expect("a password");
    assert!(!answer.to_string().contains(secret), "a password is in no answer: {answer}");
    let hub = moved.hub();
    let after = bo.sync(&hub, &[], 0);
    let told = |answer: &SyncAnswer| Cursor::of(answer.cursor).place;
    assert_eq!((&after.pull, told(&after)), (&before.pull, told(&before)), "the same lines at the same places");
    assert_eq!(ada.ask(&hub, "GET", "/api/shop", "").json()["rev"], shop, "and the same devices in the same order");
    assert_eq!(ada.sync(&hub, &lines, 0).rejected, rejected);
    let more = ada.says_rounds(1);
    assert_eq!(ada.sync(&hub, &more, 0).head, ada.head);
    assert_eq!(bo.sync(&hub, &[], before.cursor).pull, more, "a cursor from before the move goes on");
    assert_eq!(hub.stop(), Some(0));

    let (code, _, said) = place.tool(&["move", "data", &address]);
    assert_eq!(code, Some(1), "two logs are never mixed: {said}");
    let (code, answer, said) = place.tool(&["move", &address, "back.sqlite"]);
    assert_eq!((code, &answer["entries"]), (Some(0), &json!(9)), "{said}");
    let back = Place::new();
    std::fs::create_dir(back.path("data")).expect("a folder");
    std::fs::copy(place.path("back.sqlite"), back.path("data/hub.sqlite")).expect("copied");
    assert_eq!(back.exported(), [lines, more].concat());
    assert_eq!(back.exported(), moved.exported());
}

/// Somebody changes a file behind the hub's back, in each of the ways that matter.
#[test]
fn a_log_that_was_tampered_with_is_neither_moved_nor_backed_up() {
    const ALLOW: &str = "DROP TRIGGER entry_is_only_erased; DROP TRIGGER entry_is_not_removed;";
    for (what, change) in [
        ("a letter", "UPDATE entry SET jws = replace(jws, '.', '.e') WHERE pos = 3"),
        ("a line is gone", "DELETE FROM entry WHERE pos = 2"),
        ("a hash", "UPDATE entry SET hash = 'made up' WHERE pos = 4"),
        ("no longer counted", "UPDATE entry SET jws = (SELECT jws FROM entry WHERE pos = 4) WHERE pos = 5"),
        ("another's", "UPDATE device SET member = 'bo'"),
        ("never joined", "PRAGMA foreign_keys = OFF; DELETE FROM session; DELETE FROM device"),
    ] {
        let place = Place::new();
        let hub = place.hub();
        let mut ada = Phone::joined(1, "ada", &hub);
        let lines = ada.says_rounds(5);
        ada.sync(&hub, &lines, 0);
        assert_eq!(hub.stop(), Some(0));
        tell_file(&place.path("data/hub.sqlite"), &format!("{ALLOW}{change}"));
        let empty = new_database();
        for to in ["moved.sqlite", &empty] {
            let (code, _, said) = place.tool(&["move", "data", to]);
            assert!(code == Some(1) && said.contains("line "), "{what}: {said}");
        }
        let (code, _, said) = place.tool(&["backup", "copy.sqlite", "--data", "data"]);
        assert!(code == Some(1) && said.contains("line "), "{what}: {said}");
        let left: Vec<_> =
            std::fs::read_dir(place.path("")).expect("a folder").flatten().map(|it| it.file_name()).collect();
        assert!(!left.iter().any(|name| name.to_string_lossy().contains(".sqlite")), "{what}: {left:?}");
        // What the server was asked to hold is as empty as before.
        let whole = Place::new();
        assert_eq!(whole.hub().stop(), Some(0));
        let (code, answer, said) = whole.tool(&["move", "data", &empty]);
        assert_eq!((code, &answer["entries"]), (Some(0), &json!(0)), "{what}: {said}");
    }
}

/// What lasts of cards goes along: keys, cards and their numbers, phones that were taken off, open codes, late lines.
#[test]
fn cards_keys_and_codes_are_moved_and_moved_back() {
    let place = Place::with(Engine::Postgres);
    let hub = place.hub();
    let (ada, mut bo) = (Phone::joined(1, "ada", &hub), Phone::joined(2, "bo", &hub));
    assert_eq!(hub.steward(&["devices", "revoke", bo.dev.as_str()]).0, Some(0));
    assert_eq!(hub.steward(&["key", "rotate"]).0, Some(0));
    assert_eq!(hub.post("/api/late", &json!({ "lines": bo.says_rounds(2) })).status, 200);
    let code = hub.invite("bo");
    let shop = |hub: &Hub| ada.ask(hub, "GET", "/api/shop", "").json();
    crate::rules::until(|| shop(&hub)["keys"].as_array().map(Vec::len) == Some(2));
    let before = shop(&hub);
    assert_eq!(hub.stop(), Some(0));
    let database = place.database.clone().expect("an address");
    let (moved, _, said) = place.tool(&["move", &database, "moved.sqlite"]);
    assert_eq!(moved, Some(0), "{said}");
    let here = Place::new();
    std::fs::create_dir(here.path("data")).expect("a folder");
    std::fs::copy(place.path("moved.sqlite"), here.path("data/hub.sqlite")).expect("copied");
    let hub = here.hub();
    let after = shop(&hub);
    for what in ["rev", "keys", "card", "faces"] {
        assert_eq!(after[what], before[what], "{what}");
    }
    assert_eq!(bo.sign_in(&hub).problem(), "revoked");
    let (_, admitted, _) = hub.steward(&["devices", "admit", bo.dev.as_str()]);
    assert_eq!(admitted, json!({ "taken": 2, "refused": 0 }));
    assert_eq!(Phone::new(4, "bo").join(&hub, &code).status, 204);
}
