//! A hub that takes entries is killed without a word (SIGKILL), again and again: nothing that it acknowledged is lost.
//!
//! A real process, a real database; 20 kills with each engine here, 200 by `cargo xtask crash`.

use std::process::Command;
use std::sync::atomic::{AtomicBool, Ordering};
use std::time::{Duration, Instant};

use shared_core::log::chain::Head;
use shared_core::sync::message::SyncAnswer;

use crate::support::{Engine, Hub, Phone, Place, on_both};

on_both!(whatever_was_acknowledged_is_there_after_every_kill);

/// What a phone has said, and how much of it a hub has acknowledged.
struct Pusher {
    phone: Phone,
    lines: Vec<String>,
    acknowledged: Head,
}

impl Pusher {
    /// Goes on where the hub is, which must not be behind what was acknowledged, until the hub is gone.
    fn push_until_killed(&mut self, hub: &Hub, answered: &AtomicBool) {
        let Some(reply) = self.phone.try_sync(hub, &[]) else { return };
        let answer = SyncAnswer::read(&reply.text).unwrap_or_else(|why| panic!("{why}: {reply:?}"));
        assert!(answer.head.seq >= self.acknowledged.seq, "{:?} was acknowledged: {answer:?}", self.acknowledged);
        let mut kept = usize::try_from(answer.head.seq).expect("few");
        loop {
            if self.lines.len() == kept {
                self.lines.extend(self.phone.says_rounds(1 + kept % 4));
            }
            let Some(reply) = self.phone.try_sync(hub, &self.lines[kept..]) else { return };
            // A device may ask twenty times a second; being refused for haste is an answer, too.
            if reply.status == 429 {
                std::thread::sleep(Duration::from_millis(5));
                continue;
            }
            self.acknowledged = SyncAnswer::read(&reply.text).unwrap_or_else(|why| panic!("{why}: {reply:?}")).head;
            kept = usize::try_from(self.acknowledged.seq).expect("few");
            answered.store(true, Ordering::Relaxed);
        }
    }
}

fn whatever_was_acknowledged_is_there_after_every_kill(engine: Engine) {
    let kills: u64 = std::env::var("SWEEPBELL_TEST_KILLS").map_or(20, |number| number.parse().expect("a number"));
    let place = Place::with(engine);
    let mut hub = place.hub();
    let pusher = |seed, member| {
        let phone = Phone::joined(seed, member, &hub);
        Pusher { phone, lines: Vec::new(), acknowledged: Head::default() }
    };
    let mut pushers = [pusher(1, "ada"), pusher(2, "bo")];
    let mut alive = Duration::ZERO;
    for kill in 0..kills {
        let (began, answered) = (Instant::now(), AtomicBool::new(false));
        std::thread::scope(|scope| {
            for pusher in &mut pushers {
                let (hub, answered) = (&hub, &answered);
                scope.spawn(move || pusher.push_until_killed(hub, answered));
            }
            // Every fourth kill falls into the first requests after a start, the others into those behind the first
            // answer: from a few milliseconds to many, so that every part of a request is met.
            while kill % 4 != 0 && !answered.load(Ordering::Relaxed) && began.elapsed() < Duration::from_secs(5) {
                std::thread::sleep(Duration::from_millis(1));
            }
            std::thread::sleep(Duration::from_millis(1 + kill * 37 % 60));
            hub.kill();
        });
        alive += began.elapsed();
        hub = place.hub();
    }
    for Pusher { phone, lines, acknowledged } in &mut pushers {
        let head = phone.sync(&hub, &[], 0).head;
        assert!(head.seq >= acknowledged.seq, "{acknowledged:?} was acknowledged, {head:?} is there");
        let rest = lines.split_off(usize::try_from(head.seq).expect("few"));
        phone.sync(&hub, &rest, 0);
        lines.extend(rest);
    }
    assert_eq!(hub.stop(), Some(0));
    let log = place.exported();
    for Pusher { lines, acknowledged, .. } in &pushers {
        assert!(acknowledged.seq > kills / 2, "only {} were acknowledged: the kills hit nothing", acknowledged.seq);
        let own: Vec<_> = log.iter().filter(|line| lines.contains(line)).collect();
        assert_eq!(own, lines.iter().collect::<Vec<_>>(), "all of it, in order, once");
    }
    place.write("log.jws", &log.join("\n"));
    let verify = Command::new(env!("CARGO_BIN_EXE_sweepbell")).arg("verify").arg(place.path("log.jws")).output();
    assert_eq!(verify.expect("it runs").status.code(), Some(0), "every signature and chain holds");
    println!("{kills} kills in {alive:.1?} of pushing, {} entries, none lost ({engine:?})", log.len());
}
