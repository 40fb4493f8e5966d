//! A shop of 5,000 members: what its bundle weighs on the wire, and what a phone does with it. Drawn, as a member's phone is handed
//! it and as a steward's: eight sign-offs each, a phone each with its card's face, signed as a hub signs.

use std::hint::black_box;
use std::io::Write as _;

use criterion::Criterion;
use ed25519_dalek::SigningKey;
use flate2::{Compression, write::GzEncoder};
use shared_core::card::face::Face;
use shared_core::card::{Card, Trust, keys, revoked::Revoked};
use shared_core::log::jws;
use shared_core::members::{Member, Members};
use shared_core::ordered::Map;
use shared_core::rulebook::parse;
use shared_core::standing::Words;
use shared_core::state::State;
use shared_core::sync::shop::{Device, ShopBundle};
use shared_core::time::Instant;
use shared_core::view::people;
use shared_core::viewer::Viewer;

const MEMBERS: u32 = 5_000;
const NOW: Instant = Instant::from_ms(1_772_574_480_000);

/// Times the reading of both bundles, and of the steward's page.
pub(crate) fn many(criterion: &mut Criterion) {
    let mut group = criterion.benchmark_group("people");
    group.sample_size(10);
    for (whose, steward) in [("a member's", false), ("a steward's", true)] {
        let bundle = bundle(steward);
        let text = serde_json::to_string(&bundle).expect("plain data");
        println!("{whose} bundle of {MEMBERS} members: {} KB, gzip {} KB", text.len() / 1_000, squeezed(&text) / 1_000);
        group.bench_function(format!("{whose} bundle is taken up"), |bench| bench.iter(|| taken_up(black_box(&text))));
        let (state, me) = (State::default(), "m0".into());
        let viewer = Viewer {
            book: &bundle.rulebook,
            members: &bundle.members,
            state: &state,
            me: &me,
            session: None,
            now: NOW,
            day_from: NOW,
        };
        let who = "m4999".into();
        group.bench_function(format!("People on {whose} phone"), |bench| {
            bench.iter(|| people::people(black_box(&viewer), "49", Some(&who)));
        });
    }
    group.finish();
}

fn squeezed(text: &str) -> usize {
    let mut gzip = GzEncoder::new(Vec::new(), Compression::new(6));
    gzip.write_all(text.as_bytes()).expect("into memory");
    gzip.finish().expect("into memory").len()
}

/// What a phone does with a bundle: reads it, speaks its language, believes its keys, finds its own member, applies its log.
fn taken_up(text: &str) -> ShopBundle {
    let mut bundle: ShopBundle = serde_json::from_str(text).expect("a bundle");
    bundle.rulebook.speak("es");
    let trust = Trust::read(&bundle.keys, bundle.revoked.as_deref().unwrap_or_default()).expect("the hub's");
    let dev = bundle.devices[0].dev.clone();
    let card = trust.standing(bundle.card.as_deref().unwrap_or_default(), &dev).expect("its own");
    bundle.members.put(card);
    Words::default().apply(&mut bundle.members);
    bundle
}

fn bundle(steward: bool) -> ShopBundle {
    let (book, problems) = parse::read(include_str!("../../../hub/demo/shop.toml"));
    assert!(problems.is_empty());
    let book = book.expect("the demo rulebook");
    let hub = SigningKey::from_bytes(&[9; 32]);
    let trainings: Vec<String> = book.trainings().into_iter().take(8).map(str::to_owned).collect();
    let signed_off: Map<String, Instant> = trainings.into_iter().map(|training| (training, NOW)).collect();
    let member = |number: u32| Member {
        id: format!("m{number}").as_str().into(),
        name: format!("Member {number} Lastname"),
        inducted_until: Some(NOW),
        signed_off: signed_off.clone(),
        steward: steward && number == 0,
        ..Member::default()
    };
    let dev = |number: u32| {
        let mut seed = [3; 32];
        seed[..4].copy_from_slice(&number.to_be_bytes());
        jws::device_of(&SigningKey::from_bytes(&seed).verifying_key())
    };
    let cards: Vec<Card> = (0..MEMBERS).map(|number| Card::of(&member(number), dev(number), number + 1, NOW)).collect();
    let face = |card: &Card| Face::of(card, &hub).expect("short").write().expect("short");
    let told = |number: u32| {
        let all = member(number);
        if steward || number == 0 { all } else { Member { id: all.id, name: all.name, ..Member::default() } }
    };
    ShopBundle {
        rev: "rev".into(),
        book: parse::book_id(b""),
        rulebook: book,
        members: (0..MEMBERS).map(told).collect::<Members>(),
        devices: cards.iter().map(|card| Device { dev: card.dev.clone(), member: card.member.clone() }).collect(),
        keys: vec![keys::first(&hub, NOW)],
        card: Some(cards[0].seal(&hub)),
        faces: cards.iter().map(face).collect(),
        revoked: Some(Revoked { number: 0, issued: NOW, devices: vec![] }.seal(&hub)),
        boards: vec![],
        pins: vec![],
        hangs_in: None,
        utc_offsets: vec![],
        hub_now: NOW,
    }
}
