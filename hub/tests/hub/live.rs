//! Live events: who is nudged, about what, and when a stream ends.

use serde_json::json;

use crate::support::{Engine, Phone, Place, Stream, on_both};

on_both! {
    phones_are_nudged_about_what_concerns_them,
    a_devices_fifth_stream_ends_its_first,
    streams_end_when_the_hub_stops_and_it_stops_soon,
}

fn phones_are_nudged_about_what_concerns_them(engine: Engine) {
    let place = Place::with(engine);
    let hub = place.hub();
    let (mut ada, bo) = (Phone::joined(1, "ada", &hub), Phone::joined(2, "bo", &hub));
    let (to_ada, to_bo) = (Stream::open(&hub, &ada.cookie), Stream::open(&hub, &bo.cookie));
    let rev = ada.sync(&hub, &[], 0).shop;
    for stream in [&to_ada, &to_bo] {
        assert_eq!(stream.next(), Some(("shop".into(), json!({ "rev": rev }))));
    }
    let lines = ada.says_rounds(2);
    ada.sync(&hub, &lines, 0);
    assert_eq!(to_bo.next(), Some(("log".into(), json!({ "cursor": 2 }))));
    ada.post(&hub, "/api/carry", &json!({ "to": "bo", "text": "ASK:1" }));
    assert_eq!(to_bo.next(), Some(("carry".into(), json!({ "from": "ada", "text": "ASK:1" }))));
    Phone::joined(3, "cy", &hub);
    // Ada was told neither of her own entries nor of what went to Bo.
    let (name, data) = to_ada.next().expect("an event");
    assert_eq!(name, "shop");
    assert_ne!(data["rev"], json!(rev));
}

fn a_devices_fifth_stream_ends_its_first(engine: Engine) {
    let place = Place::with(engine);
    let hub = place.hub();
    let ada = Phone::joined(1, "ada", &hub);
    let streams: Vec<_> = (0..5).map(|_| Stream::open(&hub, &ada.cookie)).collect();
    for stream in &streams {
        assert_eq!(stream.next().map(|(name, _)| name).as_deref(), Some("shop"));
    }
    assert_eq!(streams[0].next(), None, "the oldest ends");
    let bo = Phone::joined(2, "bo", &hub);
    for stream in &streams[1..] {
        assert_eq!(stream.next().map(|(name, _)| name).as_deref(), Some("shop"), "the others go on");
    }
    drop(bo);
}

fn streams_end_when_the_hub_stops_and_it_stops_soon(engine: Engine) {
    let place = Place::with(engine);
    let hub = place.hub();
    let ada = Phone::joined(1, "ada", &hub);
    let stream = Stream::open(&hub, &ada.cookie);
    assert!(stream.next().is_some());
    let began = std::time::Instant::now();
    assert_eq!(hub.stop(), Some(0));
    assert_eq!(stream.next(), None);
    assert!(began.elapsed().as_secs() < 5, "took {:?}", began.elapsed());
}
