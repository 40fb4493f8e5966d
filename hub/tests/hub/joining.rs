//! Joining and signing in: who gets in, who does not, and what a stranger may read (nothing).

use serde_json::json;

use crate::support::{Engine, Phone, Place, on_both};

on_both! {
    a_code_says_for_whom_it_is_and_lets_one_phone_join,
    phones_that_join_at_the_same_time_are_all_told_of,
    joining_twice_is_no_error_and_joining_for_another_is,
    one_code_that_many_bring_at_once_lets_one_join,
    the_sixth_wrong_code_waits_even_if_it_is_right,
    only_the_key_itself_joins_and_signs_in,
    a_stranger_reads_nothing_and_writes_nothing,
    a_phone_of_another_shop_is_a_stranger_and_loses_nothing,
    a_member_who_is_taken_off_the_file_is_a_stranger,
}

fn a_code_says_for_whom_it_is_and_lets_one_phone_join(engine: Engine) {
    let place = Place::with(engine);
    let hub = place.hub();
    let code = hub.invite("ada");
    let reply = hub.post("/api/join/check", &json!({ "code": code }));
    assert_eq!(reply.status, 200, "{reply:?}");
    let said = json!({ "shop": "Case log 9001", "members": [{ "id": "ada", "name": "Ada" }], "invite": "another" });
    assert_eq!(reply.json(), said, "nobody else is named");
    assert_eq!(Phone::new(2, "bo").join(&hub, &code).problem(), "other-invite");

    let mut phone = Phone::new(1, "ada");
    let joined = phone.join(&hub, &code.to_lowercase().replace('-', " "));
    assert_eq!(joined.status, 204, "{joined:?}");
    let cookie = joined.header("set-cookie");
    for part in ["HttpOnly", "SameSite=Strict", "Path=/api", "Max-Age=43200"] {
        assert!(cookie.contains(part), "{cookie}");
    }
    assert!(!cookie.contains("Secure"), "plain HTTP would never send it back");
    let bundle = phone.ask(&hub, "GET", "/api/shop", "").json();
    assert_eq!(bundle["devices"], json!([{ "dev": phone.dev, "member": "ada" }]));
    assert_eq!(bundle["rulebook"]["shop"]["name"], "Case log 9001");
    for reply in [hub.post("/api/join/check", &json!({ "code": code })), Phone::new(3, "ada").join(&hub, &code)] {
        assert_eq!((reply.status, reply.problem().as_str()), (410, "invite-used"));
    }
    // What the store keeps of a code does not give it back.
    let file = place.path("data/hub.sqlite");
    if file.is_file() {
        assert_eq!(hub.stop(), Some(0));
        let kept = String::from_utf8_lossy(&std::fs::read(file).expect("the file")).into_owned();
        assert!(!kept.contains(&code) && !kept.contains(&code.replace('-', "")));
    }
}

fn phones_that_join_at_the_same_time_are_all_told_of(engine: Engine) {
    let place = Place::with(engine);
    let hub = place.hub();
    std::thread::scope(|scope| {
        for seed in 1..=12 {
            let hub = &hub;
            scope.spawn(move || Phone::joined(seed, if seed % 2 == 0 { "ada" } else { "bo" }, hub));
        }
    });
    let phone = Phone::joined(13, "bo", &hub);
    let bundle = phone.ask(&hub, "GET", "/api/shop", "").json();
    assert_eq!(bundle["devices"].as_array().map(Vec::len), Some(13));
    assert_eq!(bundle["faces"].as_array().map(Vec::len), Some(13));
}

fn joining_twice_is_no_error_and_joining_for_another_is(engine: Engine) {
    let place = Place::with(engine);
    let hub = place.hub();
    let (mut phone, code) = (Phone::new(1, "ada"), hub.invite("ada"));
    for _ in 0..2 {
        assert_eq!(phone.join(&hub, &code).status, 204, "the first answer may have been lost");
    }
    let more = hub.invite("ada");
    assert_eq!(phone.join(&hub, &more).status, 204);
    assert_eq!(Phone::new(2, "ada").join(&hub, &more).status, 204, "a phone that had joined did not use it up");
    phone.member = "bo".into();
    assert_eq!(phone.join(&hub, &hub.invite("bo")).problem(), "joined-for-another");
    phone.member = "nobody".into();
    assert_eq!(phone.join(&hub, &hub.invite("bo")).problem(), "unknown-member");
}

fn one_code_that_many_bring_at_once_lets_one_join(engine: Engine) {
    let place = Place::with(engine);
    let hub = place.hub();
    let code = hub.invite("ada");
    let statuses: Vec<u16> = std::thread::scope(|scope| {
        let join = |seed| {
            let (hub, code) = (&hub, &code);
            scope.spawn(move || Phone::new(seed, "ada").join(hub, code).status)
        };
        let joining: Vec<_> = (1..=5).map(join).collect();
        joining.into_iter().map(|one| one.join().expect("no panic")).collect()
    });
    let count = |status| statuses.iter().filter(|one| **one == status).count();
    assert_eq!((count(204), count(410)), (1, 4), "{statuses:?}");
    let (_, phones, _) = hub.steward(&["devices", "list"]);
    assert_eq!(phones.as_array().map(Vec::len), Some(1), "{phones}");
}

fn the_sixth_wrong_code_waits_even_if_it_is_right(engine: Engine) {
    let place = Place::with(engine);
    let hub = place.hub();
    let code = hub.invite("ada");
    for _ in 0..5 {
        assert_eq!(hub.post("/api/join/check", &json!({ "code": "WRONG-23456" })).problem(), "wrong-code");
    }
    let sixth = hub.post("/api/join/check", &json!({ "code": code }));
    assert_eq!((sixth.status, sixth.problem().as_str()), (429, "too-many"));
    let wait_s: u64 = sixth.header("retry-after").parse().expect("seconds");
    assert!((1..=12).contains(&wait_s), "{wait_s} s");
    assert_eq!(Phone::new(1, "ada").join(&hub, &code).status, 429);
}

fn only_the_key_itself_joins_and_signs_in(engine: Engine) {
    let place = Place::with(engine);
    let hub = place.hub();
    let (mut phone, other, code) = (Phone::new(1, "ada"), Phone::new(2, "bo"), hub.invite("ada"));
    let forged = json!({ "code": code, "member": "ada", "dev": phone.dev, "signature": other.signature(b"anything") });
    assert_eq!(hub.post("/api/join", &forged).problem(), "bad-signature");
    assert_eq!(phone.sign_in(&hub).problem(), "not-joined");

    assert_eq!(phone.join(&hub, &code).status, 204);
    let challenge = || {
        let given = hub.post("/api/session/challenge", &json!({ "dev": phone.dev }));
        given.json()["challenge"].as_str().expect("a challenge").to_owned()
    };
    let once = challenge();
    assert_eq!(phone.answer_challenge(&hub, &once).status, 204);
    assert_eq!(phone.answer_challenge(&hub, &once).problem(), "stale-challenge");
    assert_eq!(phone.answer_challenge(&hub, "made up").problem(), "stale-challenge");
    let forged = json!({ "dev": phone.dev, "challenge": challenge(), "signature": other.signature(b"anything") });
    assert_eq!(hub.post("/api/session", &forged).problem(), "bad-signature");
}

fn a_stranger_reads_nothing_and_writes_nothing(engine: Engine) {
    let place = Place::with(engine);
    let hub = place.hub();
    let mut member = Phone::joined(1, "ada", &hub);
    let line = member.says_rounds(1);
    let sync = json!({ "protocol": 1, "push": line }).to_string();
    let carry = json!({ "to": "ada", "text": "hello" }).to_string();
    let made_up = "sweepbell=AAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAA";
    for (method, path, body) in [
        ("GET", "/api/shop", ""),
        ("GET", "/api/live", ""),
        ("POST", "/api/sync", &sync),
        ("POST", "/api/carry", &carry),
        ("GET", "/api/invites", ""),
        ("POST", "/api/invites", r#"{"member":"ada","kind":"first"}"#),
        ("POST", "/api/invites/revoke", r#"{"id":1}"#),
        ("GET", "/api/devices", ""),
        ("POST", "/api/devices/revoke", r#"{"dev":"x"}"#),
    ] {
        for cookie in ["", made_up, "sweepbell=", "other=1"] {
            let reply = hub.ask(method, path, &[("cookie", cookie), ("content-type", "application/json")], body);
            assert_eq!(
                (reply.status, reply.problem().as_str()),
                (401, "no-session"),
                "{method} {path} with `{cookie}`"
            );
            assert!(!reply.header("www-authenticate").is_empty());
            assert!(!reply.text.contains("Ada"), "{reply:?}");
        }
    }
    assert_eq!(place.exported(), Vec::<String>::new());
}

fn a_phone_of_another_shop_is_a_stranger_and_loses_nothing(engine: Engine) {
    let (here, there) = (Place::with(engine), Place::with(engine));
    let (own, other) = (here.hub(), there.hub());
    let mut phone = Phone::joined(1, "ada", &own);
    let lines = phone.says_rounds(2);
    let body = json!({ "protocol": 1, "push": lines }).to_string();
    assert_eq!(phone.ask(&other, "POST", "/api/sync", &body).problem(), "no-session");
    let given = other.post("/api/session/challenge", &json!({ "dev": phone.dev }));
    assert_eq!((given.status, given.problem().as_str()), (401, "not-joined"));
    assert_eq!(there.exported(), Vec::<String>::new());
    assert_eq!(phone.sync(&own, &lines, 0).head, phone.head, "its own hub takes them");
}

fn a_member_who_is_taken_off_the_file_is_a_stranger(engine: Engine) {
    let place = Place::with(engine);
    let hub = place.hub();
    let mut phone = Phone::joined(2, "bo", &hub);
    assert_eq!(phone.ask(&hub, "GET", "/api/shop", "").status, 200);
    let members = place.read("members.toml").replace("\"bo\"", "\"dee\"");
    place.write("members.toml", &members);
    crate::rules::until(|| phone.ask(&hub, "GET", "/api/shop", "").status == 401);
    assert_eq!(phone.sign_in(&hub).problem(), "not-joined");
}
