//! Pictures: handed over by whose line names them, seen by whom they are for, and gone with the last line that names them.

use std::io::Write as _;

use serde_json::json;
use shared_core::entry::Fact;
use shared_core::ids::SessionId;
use shared_core::time::Span;

use crate::problems::{connect, first_answer};
use crate::rules::until;
use crate::support::{Engine, Hub, Phone, Place, Reply, Stream, on_both};

on_both! {
    a_tags_picture_is_everybodys_and_a_chores_is_not,
    only_what_the_log_names_is_taken,
    a_picture_named_by_somebody_else_is_not_shown_by_that,
    so_many_of_a_phone_and_no_more,
    a_picture_goes_with_the_last_line_that_names_it,
    what_is_over_takes_its_picture_along,
    pictures_move_to_the_other_engine_and_are_backed_up,
}

const LIMIT_BYTES: usize = 600_000;

/// A picture of so many bytes, and its hash; whichever this number says.
fn picture(number: u8, bytes: usize) -> (Vec<u8>, String) {
    let mut jpeg = vec![0xff, 0xd8, 0xff, 0xe0, number];
    jpeg.resize(bytes.max(jpeg.len()), number);
    let sha = sha_of(&jpeg);
    (jpeg, sha)
}

/// By the library that signed lines are hashed with.
fn sha_of(bytes: &[u8]) -> String {
    use base64::Engine as _;
    use sha2::Digest as _;
    base64::engine::general_purpose::URL_SAFE_NO_PAD.encode(sha2::Sha256::digest(bytes))
}

fn hands(phone: &Phone, hub: &Hub, sha: &str, bytes: &[u8]) -> Reply {
    let headers = [("cookie", phone.cookie.as_str()), ("content-type", "image/jpeg")];
    hub.put(&format!("/api/picture/{sha}"), &headers, bytes)
}

fn sees(phone: &Phone, hub: &Hub, sha: &str) -> Reply {
    phone.ask(hub, "GET", &format!("/api/picture/{sha}"), "")
}

fn tagged(machine: &str, sha: &str) -> Fact {
    Fact::TaggedOut { machine: machine.into(), problem: "belt".into(), photo: Some(sha.to_owned()) }
}

fn chore(sha: &str) -> Fact {
    Fact::ChoreDone { chore: "hall/floor".into(), minutes: None, photo: Some(sha.to_owned()) }
}

/// A session that says these things and is left.
fn evening(phone: &mut Phone, hub: &Hub, facts: impl IntoIterator<Item = Fact>) {
    phone.session = SessionId::from_entropy(phone.head.seq.wrapping_mul(0x9E37_79B9_7F4A_7C15).to_be_bytes());
    let entered = Fact::Entered { room: "hall".into(), out_by: shared_core::time::Instant::from_ms(4_000_000_000_000) };
    let facts = [entered].into_iter().chain(facts).chain([Fact::Left]);
    let lines: Vec<String> = facts.map(|fact| phone.says(fact)).collect();
    phone.sync(hub, &lines, 0);
}

fn held(phone: &Phone, hub: &Hub) -> serde_json::Value {
    phone.ask(hub, "GET", "/api/mine", "").json()["pictures"].clone()
}

fn a_tags_picture_is_everybodys_and_a_chores_is_not(engine: Engine) {
    let place = Place::with(engine);
    let hub = place.hub();
    let (mut ada, bo, cy) = (Phone::joined(1, "ada", &hub), Phone::joined(2, "bo", &hub), Phone::joined(3, "cy", &hub));
    let ((belt, of_tag), (floor, of_chore)) = (picture(1, LIMIT_BYTES), picture(2, 9));
    evening(&mut ada, &hub, [tagged("mill", &of_tag), chore(&of_chore)]);
    let stream = Stream::open(&hub, &bo.cookie);
    assert_eq!(stream.next().map(|(name, _)| name).as_deref(), Some("shop"));
    for (bytes, sha) in [(&belt, &of_tag), (&floor, &of_chore)] {
        assert_eq!(sees(&ada, &hub, sha).problem(), "not-found", "before it is handed over");
        assert_eq!(hands(&ada, &hub, sha, bytes).status, 204);
        assert_eq!(hands(&ada, &hub, sha, bytes).status, 204, "twice is once");
    }
    let (name, _) = stream.next().expect("an event");
    assert_eq!(name, "log", "whoever may have met the line without it is told");
    for (phone, tag, done) in [(&ada, 200, 200), (&bo, 200, 404), (&cy, 200, 200)] {
        assert_eq!((sees(phone, &hub, &of_tag).status, sees(phone, &hub, &of_chore).status), (tag, done));
    }
    let seen = sees(&bo, &hub, &of_tag);
    assert!(seen.bytes == belt);
    for (name, value) in [
        ("content-type", "image/jpeg"),
        ("cache-control", "private, max-age=31536000, immutable"),
        ("x-content-type-options", "nosniff"),
        ("cross-origin-resource-policy", "same-origin"),
    ] {
        assert_eq!(seen.header(name), value);
    }
    assert_eq!(hub.get(&format!("/api/picture/{of_tag}")).problem(), "no-session");
    assert_eq!((held(&ada, &hub), held(&bo, &hub)), (json!([of_tag, of_chore]), json!([])));
    assert_eq!(hub.steward(&["about", "ada"]).1["pictures"], json!([of_tag, of_chore]));
}

fn only_what_the_log_names_is_taken(engine: Engine) {
    let place = Place::with(engine);
    let hub = place.hub();
    let (mut ada, bo) = (Phone::joined(1, "ada", &hub), Phone::joined(2, "bo", &hub));
    let (bytes, sha) = picture(1, 50_000);
    let (other, _) = picture(2, 50_000);
    let small = vec![0xff, 0xd8, 0xff];
    let plain = b"GIF89a".to_vec();
    let plain_sha = sha_of(&plain);
    assert_eq!(hands(&ada, &hub, &sha, &bytes).problem(), "not-named-yet");
    evening(&mut ada, &hub, [tagged("mill", &sha), tagged("saw", &plain_sha)]);
    for (phone, name, bytes, kind) in [
        (&bo, &*sha, &bytes, "not-named-yet"),
        (&ada, &sha, &other, "unfit-picture"),
        (&ada, &plain_sha, &plain, "unfit-picture"),
        // Refused before the body is read: a longer one might still be on its way when the connection ends.
        (&ada, "short", &small, "not-found"),
        (&ada, &"%FF".repeat(43), &small, "not-found"),
        (&ada, &"~".repeat(43), &small, "not-found"),
    ] {
        assert_eq!(hands(phone, &hub, name, bytes).problem(), kind, "{name}");
    }
    let path = format!("/api/picture/{sha}");
    let mut stream = connect(&hub.url);
    let cookie = &ada.cookie;
    let head = format!(
        "PUT {path} HTTP/1.1\r\nhost: hub\r\ncookie: {cookie}\r\ncontent-type: image/jpeg\r\ncontent-length: {}\r\n\r\n",
        LIMIT_BYTES + 1
    );
    stream.write_all(head.as_bytes()).expect("sent");
    let told = first_answer(&mut stream);
    assert!(
        told.starts_with("HTTP/1.1 413 ") && told.contains("too-large"),
        "it is refused as soon as it is announced: {told}"
    );
    assert_eq!(ada.ask(&hub, "PUT", &path, "{}").problem(), "other-type");
    assert_eq!(hub.put(&path, &[("content-type", "image/jpeg")], b"\xff\xd8\xff").problem(), "no-session");
    assert_eq!(hands(&ada, &hub, &sha, &bytes).status, 204);
}

/// Whoever knows a hash cannot have a picture shown by saying that a tag of their own has it.
fn a_picture_named_by_somebody_else_is_not_shown_by_that(engine: Engine) {
    let place = Place::with(engine);
    let hub = place.hub();
    let (mut ada, mut bo) = (Phone::joined(1, "ada", &hub), Phone::joined(2, "bo", &hub));
    let (bytes, sha) = picture(1, 2_000);
    evening(&mut ada, &hub, [chore(&sha)]);
    evening(&mut bo, &hub, [tagged("mill", &sha)]);
    assert_eq!(hands(&ada, &hub, &sha, &bytes).status, 204);
    assert_eq!(sees(&bo, &hub, &sha).problem(), "not-found");
    // Who has the bytes has seen it.
    assert_eq!(hands(&bo, &hub, &sha, &bytes).status, 204);
    assert_eq!(sees(&bo, &hub, &sha).status, 200);
}

fn so_many_of_a_phone_and_no_more(engine: Engine) {
    let place = Place::with(engine);
    let hub = place.hub();
    let mut ada = Phone::joined(1, "ada", &hub);
    let all: Vec<_> = (0..=200).map(|number| picture(number, 20 + usize::from(number))).collect();
    evening(&mut ada, &hub, all[..150].iter().map(|(_, sha)| chore(sha)));
    evening(&mut ada, &hub, all[150..].iter().map(|(_, sha)| chore(sha)));
    for (nth, (bytes, sha)) in all.iter().enumerate() {
        // No faster than a device may ask.
        std::thread::sleep(std::time::Duration::from_millis(55));
        let answer = hands(&ada, &hub, sha, bytes);
        if nth < 200 {
            assert_eq!(answer.status, 204, "{nth}: {answer:?}");
        } else {
            assert_eq!((answer.status, answer.problem().as_str()), (507, "too-many-pictures"));
        }
    }
    assert_eq!(hands(&ada, &hub, &all[0].1, &all[0].0).status, 204, "what is kept is kept");
}

fn a_picture_goes_with_the_last_line_that_names_it(engine: Engine) {
    let place = Place::with(engine);
    let hub = place.hub();
    let (mut ada, bo) = (Phone::joined(1, "ada", &hub), Phone::joined(2, "bo", &hub));
    let ((belt, of_tag), (floor, of_chore)) = (picture(1, 900), picture(2, 900));
    evening(&mut ada, &hub, [tagged("mill", &of_tag), chore(&of_chore), chore(&of_tag)]);
    for (bytes, sha) in [(&belt, &of_tag), (&floor, &of_chore)] {
        assert_eq!(hands(&ada, &hub, sha, bytes).status, 204);
    }
    // The tag is in force, and stays; so does what it shows.
    assert_eq!(ada.post(&hub, "/api/erase", &json!({})).json(), json!({ "erased": 4, "stays": 1 }));
    assert_eq!((held(&ada, &hub), sees(&ada, &hub, &of_chore).status), (json!([of_tag]), 404));
    assert_eq!(sees(&bo, &hub, &of_tag).status, 200);
    ada.at = ada.at + Span::from_minutes(1);
    evening(&mut ada, &hub, [Fact::TagCleared { machine: "mill".into() }]);
    assert_eq!(ada.post(&hub, "/api/erase", &json!({})).status, 200);
    assert_eq!((held(&ada, &hub), sees(&bo, &hub, &of_tag).status), (json!([]), 404));
}

fn what_is_over_takes_its_picture_along(engine: Engine) {
    let place = Place::with(engine);
    let hub = place.hub();
    let mut ada = Phone::joined(1, "ada", &hub);
    let ((belt, of_tag), (floor, of_chore)) = (picture(1, 900), picture(2, 900));
    let today = ada.at;
    ada.at = today - Span::from_minutes(91 * 24 * 60);
    evening(&mut ada, &hub, [tagged("mill", &of_tag), chore(&of_chore)]);
    for (bytes, sha) in [(&belt, &of_tag), (&floor, &of_chore)] {
        assert_eq!(hands(&ada, &hub, sha, bytes).status, 204);
    }
    assert_eq!(hub.stop(), Some(0));
    place.received_when_said();
    let hub = place.hub();
    until(|| held(&ada, &hub) == json!([of_tag]));
    assert_eq!(sees(&ada, &hub, &of_tag).status, 200, "the tag is in force");
}

fn pictures_move_to_the_other_engine_and_are_backed_up(engine: Engine) {
    let place = Place::with(engine);
    let hub = place.hub();
    let mut ada = Phone::joined(1, "ada", &hub);
    let (bytes, sha) = picture(1, 300_000);
    evening(&mut ada, &hub, [chore(&sha)]);
    assert_eq!(hands(&ada, &hub, &sha, &bytes).status, 204);
    assert_eq!(hub.stop(), Some(0));
    let other = Place::with(if engine == Engine::Sqlite { Engine::Postgres } else { Engine::Sqlite });
    let from = place.database.clone().unwrap_or_else(|| "data".to_owned());
    let to = other.database.clone().unwrap_or_else(|| "moved.sqlite".to_owned());
    let (code, _, said) = place.tool(&["move", &from, &to]);
    assert_eq!(code, Some(0), "{said}");
    // Where there is a file it is backed up too.
    let whole = if other.database.is_none() {
        let copy = Place::new();
        std::fs::create_dir(place.path("copied")).expect("a folder");
        std::fs::rename(place.path("moved.sqlite"), place.path("copied/hub.sqlite")).expect("renamed");
        std::fs::create_dir(copy.path("data")).expect("a folder");
        let file = copy.path("data/hub.sqlite").display().to_string();
        let (code, _, said) = place.tool(&["backup", &file, "--data", "copied"]);
        assert_eq!(code, Some(0), "{said}");
        copy
    } else {
        other
    };
    let hub = whole.hub();
    assert_eq!(ada.sign_in(&hub).status, 204);
    assert!(sees(&ada, &hub, &sha).bytes == bytes);
}
