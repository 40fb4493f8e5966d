//! Every text is understood, or says why not; none makes the reader panic.

use proptest::prelude::*;

use super::{answer, ask};
use crate::code::answer::Kind;
use crate::code::ask::Ask;
use crate::code::door::{PATHS, door_url, door_url_with_join, is_posted, join_url, machine_url, round_url, stop_url};
use crate::code::{PREFIX, Scanned, Unreadable, base45, read};
use crate::log::testing::minute;
use crate::words::Words;

const HERE: &str = "https://yard.example:8443";

fn packed(bytes: &[u8]) -> String {
    let mut text = String::from(PREFIX);
    base45::encode_onto(&mut text, bytes);
    text
}

#[test]
fn codes_that_hang_in_the_shop_are_understood() {
    let door = |room: &str, join: Option<&str>| Scanned::Door { room: room.into(), join: join.map(str::to_owned) };
    let machine = |machine: &str| Scanned::Machine { machine: machine.into() };
    let join = |code: &str| Scanned::Join { code: code.to_owned() };
    for (text, wanted) in [
        ("https://yard.example:8443/d/forge", door("forge", None)),
        (" https://yard.example:8443/d/forge/\n", door("forge", None)),
        ("HTTPS://YARD.EXAMPLE:8443/d/forge", door("forge", None)),
        ("https://yard.example:8443/d/forge?from=camera#top", door("forge", None)),
        ("https://yard.example:8443/d/forge#j=K7QM-2XPA", door("forge", Some("K7QM-2XPA"))),
        ("https://yard.example:8443/d/hei%C3%9Fe%20ecke", door("heiße ecke", None)),
        ("https://yard.example:8443/m/pillar-drill", machine("pillar-drill")),
        ("https://yard.example:8443/s/oily-bin", Scanned::Stop { stop: "oily-bin".into() }),
        ("https://yard.example:8443/r/extinguishers/", Scanned::Round { round: "extinguishers".into() }),
        ("https://yard.example:8443/join#K7QM", join("K7QM")),
        ("https://yard.example:8443/join/#K7QM", join("K7QM")),
    ] {
        assert_eq!(read(text, HERE), Ok(wanted), "{text}");
    }
}

#[test]
fn a_path_is_posted_or_not() {
    for (path, posted) in [("/d/forge", true), ("/s/bin", true), ("/book", false), ("/rounds", false), ("/r", false)] {
        assert_eq!(is_posted(path), posted, "{path}");
    }
    assert!(PATHS.iter().all(|path| is_posted(path)));
}

#[test]
fn what_cannot_be_used_says_why() {
    let other = |host: &str| Unreadable::OtherShop { host: host.to_owned() };
    for (text, wanted) in [
        ("https://elsewhere.example/d/forge", other("elsewhere.example")),
        ("http://yard.example:8443/d/forge", other("yard.example:8443")),
        ("https://yard.example/join#K7QM", other("yard.example")),
        ("https://yard.example:8443.evil.example/d/forge", other("yard.example:8443.evil.example")),
        ("https://yard.example:8443/d/", Unreadable::Damaged),
        ("https://yard.example:8443/d/a/b", Unreadable::Damaged),
        ("https://yard.example:8443/s/", Unreadable::Damaged),
        ("https://yard.example:8443/r/a/b", Unreadable::Damaged),
        ("https://elsewhere.example/r/bin", other("elsewhere.example")),
        ("https://yard.example:8443/d/%C3", Unreadable::Damaged),
        ("https://yard.example:8443/d/%4", Unreadable::Damaged),
        ("https://yard.example:8443/d/forge#j=", Unreadable::Damaged),
        ("https://yard.example:8443/join", Unreadable::Damaged),
        ("https://yard.example:8443/about", Unreadable::Foreign),
        ("https://yard.example:8443", Unreadable::Foreign),
        ("javascript://yard.example/d/forge", Unreadable::Foreign),
        ("4006381333931", Unreadable::Foreign),
        ("", Unreadable::Foreign),
        ("SWB2:ABC", Unreadable::Newer),
        ("SWB17:anything", Unreadable::Newer),
        ("SWB0:ABC", Unreadable::Foreign),
        ("SWBX", Unreadable::Foreign),
        ("SWB1:", Unreadable::Damaged),
        ("SWB1:A", Unreadable::Damaged),
        ("SWB1:::::", Unreadable::Damaged),
    ] {
        assert_eq!(read(text, HERE), Err(wanted), "{text}");
    }
    assert_eq!(read(&packed(&[9, 1, 2]), HERE), Err(Unreadable::Newer), "a kind that is not known");
    assert_eq!(read(&"9".repeat(2_000), HERE), Err(Unreadable::Foreign));
}

#[test]
fn a_reason_and_a_next_step_stand_with_each() {
    for why in
        [Unreadable::OtherShop { host: "h".to_owned() }, Unreadable::Newer, Unreadable::Damaged, Unreadable::Foreign]
    {
        let words = Words::english();
        assert!(why.reason(&words).ends_with('.') && why.next_step(&words).ends_with('.'), "{why:?}");
    }
}

#[test]
fn asks_and_answers_are_understood() {
    let ask = ask();
    assert_eq!(read(&ask.write().expect("it fits"), HERE), Ok(Scanned::Ask(ask.clone())));
    let plain = Ask { machine: None, ..ask.clone() };
    assert_eq!(read(&plain.write().expect("it fits"), HERE), Ok(Scanned::Ask(plain)));
    for kind in [Kind::Here, Kind::Leaving] {
        let answer = answer(&ask, kind, "m2", 2);
        assert_eq!(read(&answer.write().expect("it fits"), HERE), Ok(Scanned::Answer(answer)));
    }
}

/// Every shorter and every longer code is damaged: nothing is cut off unseen, nothing is left over.
#[test]
fn a_code_is_whole_or_damaged() {
    for text in [ask().write(), answer(&ask(), Kind::Here, "m2", 2).write()] {
        let bytes = base45::decode(&text.expect("it fits")[PREFIX.len()..]).expect("base45");
        for length in 0..bytes.len() {
            assert_eq!(read(&packed(&bytes[..length]), HERE), Err(Unreadable::Damaged), "{length} bytes");
        }
        let longer = [bytes.as_slice(), &[0]].concat();
        assert_eq!(read(&packed(&longer), HERE), Err(Unreadable::Damaged));
    }
}

proptest! {
    #[test]
    fn any_text_is_read_without_a_panic(text in "\\PC{0,60}|SWB1:[0-9A-Z $%*+./:-]{0,221}|https://yard.example:8443/[dmsr]/[%0-9a-f#/j=]{0,20}") {
        let _ = read(&text, HERE);
    }

    #[test]
    fn any_bytes_are_read_without_a_panic(kind in 0_u8..5, bytes in proptest::collection::vec(any::<u8>(), 0..200)) {
        let _ = read(&packed(&[&[kind], bytes.as_slice()].concat()), HERE);
        let _ = read(&String::from_utf8_lossy(&bytes), HERE);
    }

    #[test]
    fn whatever_is_written_on_a_door_is_read_there(id in "\\PC{1,20}", code in "[A-Z0-9-]{1,12}") {
        prop_assume!(id.trim() == id);
        let (room, machine) = (id.as_str().into(), id.as_str().into());
        let (stop, round) = (id.as_str().into(), id.as_str().into());
        let at = |url: String| read(&url, HERE);
        prop_assert_eq!(at(door_url(HERE, &room)), Ok(Scanned::Door { room: room.clone(), join: None }));
        let join = Some(code.clone());
        prop_assert_eq!(at(door_url_with_join(HERE, &room, &code)), Ok(Scanned::Door { room, join }));
        prop_assert_eq!(at(machine_url(HERE, &machine)), Ok(Scanned::Machine { machine }));
        prop_assert_eq!(at(stop_url(HERE, &stop)), Ok(Scanned::Stop { stop }));
        prop_assert_eq!(at(round_url(HERE, &round)), Ok(Scanned::Round { round }));
        prop_assert_eq!(at(join_url(HERE, &code)), Ok(Scanned::Join { code }));
    }

    #[test]
    fn whatever_is_asked_is_read(operator in "\\PC{1,6}", room in "\\PC{1,6}", machine in proptest::option::of("\\PC{1,6}"), session: [u8; 8], nonce: [u8; 8], minutes in 0_i64..100_000) {
        let ask = Ask {
            session: crate::ids::SessionId::from_entropy(session),
            operator: operator.as_str().into(),
            room: room.as_str().into(),
            machine: machine.map(|machine| machine.as_str().into()),
            nonce,
            issued_at: minute(minutes),
        };
        prop_assert_eq!(read(&ask.write().expect("it fits"), HERE), Ok(Scanned::Ask(ask)));
    }
}
