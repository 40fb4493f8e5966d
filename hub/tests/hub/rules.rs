//! The shop's files while the hub runs: valid changes come into force, mistakes do not.

use std::time::{Duration, Instant};

use serde_json::json;

use crate::support::{Phone, Place, Stream};

/// Waits for something that happens within a few seconds.
pub(crate) fn until(mut holds: impl FnMut() -> bool) {
    let began = Instant::now();
    while !holds() {
        assert!(began.elapsed() < Duration::from_secs(10), "waited {:?}", began.elapsed());
        std::thread::sleep(Duration::from_millis(200));
    }
}

#[test]
fn a_valid_change_is_in_force_soon_and_a_mistake_never() {
    let place = Place::new();
    let hub = place.hub();
    let phone = Phone::joined(1, "ada", &hub);
    let stream = Stream::open(&hub, &phone.cookie);
    let (_, first) = stream.next().expect("an event");
    let shop = place.read("shop.toml");

    place.write("shop.toml", &shop.replacen("renew_minutes", "renew_mintues", 1));
    until(|| hub.logged().contains("renew_mintues"));
    assert!(hub.logged().contains("shop.toml:"), "with its place: {}", hub.logged());
    assert_eq!(phone.sync(&hub, &[], 0).shop, first["rev"], "the old rules stay in force");

    place.write("shop.toml", &shop.replacen("Case log 9001", "Canal Shed", 1));
    let (name, data) = stream.next().expect("an event");
    assert_eq!(name, "shop");
    assert_ne!(data, first);
    let bundle = phone.ask(&hub, "GET", "/api/shop", "").json();
    assert_eq!((&bundle["rev"], &bundle["rulebook"]["shop"]["name"]), (&data["rev"], &json!("Canal Shed")));
}

#[test]
fn what_the_hub_cannot_start_with_is_said() {
    let place = Place::new();
    place.write("data", "a file where a folder should be");
    let output = place.command().output().expect("it runs");
    let told = String::from_utf8_lossy(&output.stderr);
    assert_eq!(output.status.code(), Some(1), "{told}");
    assert!(told.contains("cannot keep data in") && told.contains("data"), "{told}");

    let (here, there) = (Place::new(), Place::new());
    let hub = here.hub();
    let taken = hub.url.trim_start_matches("http://");
    let mut command = std::process::Command::new(env!("CARGO_BIN_EXE_sweepbell"));
    let output =
        command.args(["serve", "--listen", taken, "--data"]).arg(there.path("data")).output().expect("it runs");
    let told = String::from_utf8_lossy(&output.stderr);
    assert_eq!(output.status.code(), Some(1), "{told}");
    assert!(told.contains(&format!("cannot listen on {taken}")), "{told}");
}

#[test]
fn a_shop_with_mistakes_is_not_served() {
    let place = Place::new();
    let members = place.read("members.toml").replacen("name = \"Bo\"", "naem = \"Bo\"", 1);
    place.write("members.toml", &members);
    place.write("shop.toml", &place.read("shop.toml").replacen("\"UTC\"", "\"Mars/Base\"", 1));
    let (shop, members) = (place.path("shop.toml"), place.path("members.toml"));
    let output = place.command().arg("--shop").arg(shop).arg("--members").arg(members).output().expect("it runs");
    let told = String::from_utf8_lossy(&output.stderr);
    assert_eq!(output.status.code(), Some(1), "{told}");
    for part in ["shop.toml:3:13: ", "Mars/Base", "members.toml:", "naem"] {
        assert!(told.contains(part), "{told}");
    }
    assert!(output.stdout.is_empty(), "nothing listens");
}
