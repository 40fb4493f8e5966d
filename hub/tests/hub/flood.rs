//! Ten thousand requests from one device are refused, and another device does not notice.

use std::sync::atomic::{AtomicUsize, Ordering};
use std::time::{Duration, Instant};

use crate::support::{Engine, Phone, Place};

#[test]
fn a_device_that_floods_is_refused_while_another_is_served() {
    let place = Place::new();
    let hub = place.hub();
    let (flooder, mut other) = (Phone::joined(1, "ada", &hub), Phone::joined(2, "bo", &hub));
    let (served, refused) = (AtomicUsize::new(0), AtomicUsize::new(0));
    let mut slowest = Duration::ZERO;
    let began = Instant::now();
    std::thread::scope(|scope| {
        for _ in 0..8 {
            scope.spawn(|| {
                // Each thread has a connection of its own and the device's cookie.
                let mut hands = Phone::new(1, "ada");
                hands.cookie.clone_from(&flooder.cookie);
                for _ in 0..1_250 {
                    let reply = hands.ask(&hub, "POST", "/api/sync", "{\"protocol\":1}");
                    match reply.status {
                        200 => served.fetch_add(1, Ordering::Relaxed),
                        429 => {
                            assert_eq!(reply.problem(), "too-many");
                            assert!(!reply.header("retry-after").is_empty());
                            refused.fetch_add(1, Ordering::Relaxed)
                        }
                        status => panic!("{status}: {}", reply.text),
                    };
                }
            });
        }
        for _ in 0..20 {
            let lines = other.says_rounds(1);
            let asked = Instant::now();
            assert_eq!(other.sync(&hub, &lines, 0).head, other.head);
            slowest = slowest.max(asked.elapsed());
        }
    });
    let (served, refused) = (served.into_inner(), refused.into_inner());
    let allowed = 120 + 20 * (usize::try_from(began.elapsed().as_secs()).expect("seconds") + 1);
    assert_eq!(served + refused, 10_000);
    assert!(served <= allowed, "{served} served, {allowed} allowed");
    assert!(slowest < Duration::from_secs(2), "the other device waited {slowest:?}");
}

/// Made-up sessions count against their address before the database is asked.
#[test]
fn made_up_sessions_are_refused_too() {
    let place = Place::new();
    let hub = place.hub();
    let phone = Phone::joined(1, "ada", &hub);
    let mut stranger = Phone::new(9, "ada");
    let mut refused = 0;
    for n in 0..300 {
        stranger.cookie = format!("sweepbell=guess-{n}");
        refused += usize::from(stranger.ask(&hub, "POST", "/api/sync", "{\"protocol\":1}").status == 429);
    }
    assert!(refused > 50, "{refused} of 300 refused");
    assert_eq!(phone.sync(&hub, &[], 0).head.seq, 0, "a phone with a session at the same address is served");
}

/// Good sessions that a hub has not seen do not count against the address that all share, or behind a proxy most phones would be
/// refused for minutes: neither those of before its start nor those that began at another.
#[test]
fn good_sessions_from_before_a_start_or_from_another_hub_are_served() {
    for engine in [Engine::Sqlite, Engine::Postgres] {
        let place = Place::with(engine);
        let hub = place.hub();
        let other = (engine == Engine::Postgres).then(|| place.hub());
        let mut phone = Phone::joined(1, "ada", &hub);
        let mut cookies = vec![phone.cookie.clone()];
        // Signing in counts against the address, which is good for 120 questions at once.
        for _ in 0..50 {
            assert_eq!(phone.sign_in(&hub).status, 204);
            cookies.push(phone.cookie.clone());
        }
        let hub = other.unwrap_or_else(|| {
            assert_eq!(hub.stop(), Some(0));
            place.hub()
        });
        let mut stranger = Phone::new(9, "ada");
        // All but a few of what the address is good for.
        for n in 0..110 {
            stranger.cookie = format!("sweepbell=guess-{n}");
            assert_eq!(stranger.ask(&hub, "POST", "/api/sync", "{\"protocol\":1}").status, 401, "{engine:?}");
        }
        for cookie in cookies {
            phone.cookie = cookie;
            assert_eq!(phone.ask(&hub, "POST", "/api/sync", "{\"protocol\":1}").status, 200, "{engine:?}");
        }
    }
}
