//! What others are handed, and what is carried between members.

use serde_json::json;
use shared_core::entry::{Fact, Matter, Of, Step, Told};
use shared_core::sync::cursor::Cursor;
use shared_core::sync::message::SyncRequest;
use shared_core::time::Span;

use crate::support::{Engine, Phone, Place, on_both};

on_both! {
    what_only_the_steward_may_read_is_not_handed_out,
    a_day_back_and_older_only_what_still_holds,
    news_are_told_however_late_they_come,
    a_cursor_of_another_database_starts_over,
    a_code_is_carried_once_to_each_phone_of_a_member,
    the_bundle_has_a_tag_that_spares_sending_it_again,
}

const DAY: Span = Span::from_minutes(24 * 60);

fn what_only_the_steward_may_read_is_not_handed_out(engine: Engine) {
    let place = Place::with(engine);
    let hub = place.hub();
    let (mut phone, other) = (Phone::joined(1, "ada", &hub), Phone::joined(2, "bo", &hub));
    let out_by = phone.at + Span::from_minutes(90);
    let entered = phone.says(Fact::Entered { room: "north".into(), out_by });
    let attested = phone.says(Fact::Attested { statement: "eyes".into() });
    let incident = phone.says(Fact::Incident { note: "cut a finger".into(), told: Told::default() });
    let left = phone.says(Fact::Left);
    let timer = phone.says(Fact::TimerSet { rings_at: out_by });
    phone.sync(&hub, &[entered.clone(), attested, incident.clone(), left.clone(), timer], 0);
    assert_eq!(other.sync(&hub, &[], 0).pull, vec![entered.clone(), left.clone()]);
    let steward = Phone::joined(3, "cy", &hub);
    assert_eq!(steward.sync(&hub, &[], 0).pull, vec![entered, incident, left]);
    assert_eq!(phone.sync(&hub, &[], 0).pull, Vec::<String>::new(), "nobody is handed their own");
}

fn a_day_back_and_older_only_what_still_holds(engine: Engine) {
    let place = Place::with(engine);
    let hub = place.hub();
    let (mut phone, other) = (Phone::joined(1, "ada", &hub), Phone::joined(2, "bo", &hub));
    let now = phone.at;
    let tag = |machine: &str| Fact::TaggedOut { machine: machine.into(), problem: "belt slips".into(), photo: None };
    let clear = |machine: &str| Fact::TagCleared { machine: machine.into() };
    let enter = |now| Fact::Entered { room: "north".into(), out_by: now };
    let mut lines = Vec::new();
    let mut say = |session: &str, days_ago: i64, fact: Fact| {
        (phone.session, phone.at) = (session.into(), now - Span::from_ms(days_ago * DAY.ms()));
        let line = phone.says(fact);
        lines.push(line.clone());
        line
    };
    say("gone", 9, enter(now));
    say("gone", 9, Fact::WatchRound);
    say("gone", 9, Fact::Left);
    say("tags", 8, tag("n1"));
    say("tags", 6, tag("n1"));
    let cleared = say("tags", 5, clear("n1"));
    let tagged = say("tags", 4, tag("n2"));
    let at_once = say("tags", 4, tag("n2"));
    let of = |machine: &str, days_ago: i64| {
        let at = now - Span::from_ms(days_ago * DAY.ms());
        Fact::Noted {
            of: Of { matter: Matter::Tag(machine.into()), at, who: "ada".into() },
            step: Step::Mended,
            note: None,
        }
    };
    say("tags", 7, of("n1", 8));
    let mended = say("tags", 3, of("n2", 4));
    let round = |round: &str| Fact::RoundDone { round: round.into() };
    let monthly = say("rounds", 20, round("extinguishers"));
    say("rounds", 3, round("wheels"));
    let weekly = say("rounds", 2, round("wheels"));
    let still_in = say("stays", 3, enter(now));
    say("stays", 3, Fact::WatchRound);
    let recent = say("today", 0, Fact::WatchRound);
    let answer = phone.sync(&hub, &lines, 0);
    assert_eq!(answer.rejected, vec![]);
    place.received_when_said();
    assert_eq!(
        other.sync(&hub, &[], 0).pull,
        vec![cleared, tagged, at_once, mended, monthly, weekly, still_in, recent]
    );
    let steward = Phone::joined(3, "cy", &hub);
    assert_eq!(steward.sync(&hub, &[], 0).pull, lines, "a steward is handed the whole log");
}

/// A phone whose clock is days behind, or that was out of reach for days.
fn news_are_told_however_late_they_come(engine: Engine) {
    let place = Place::with(engine);
    let hub = place.hub();
    let (mut phone, other) = (Phone::joined(1, "ada", &hub), Phone::joined(2, "bo", &hub));
    (phone.session, phone.at) = ("late".into(), phone.at - Span::from_ms(3 * DAY.ms()));
    let out_by = phone.at + Span::from_minutes(90);
    let entered = phone.says(Fact::Entered { room: "north".into(), out_by });
    phone.sync(&hub, std::slice::from_ref(&entered), 0);
    let heard = other.sync(&hub, &[], 0);
    assert_eq!(heard.pull, [entered]);
    let (walked, left) = (phone.says(Fact::WatchRound), phone.says(Fact::Left));
    let news = [walked, left.clone()];
    phone.sync(&hub, &news, 0);
    assert_eq!(other.sync(&hub, &[], heard.cursor).pull, news, "it arrived today");
    place.received_when_said();
    // What was just handed out is kept for a moment, and no line of a store grows old so suddenly.
    assert_eq!(hub.stop(), Some(0));
    let hub = place.hub();
    let left = [left];
    assert_eq!(other.sync(&hub, &[], heard.cursor).pull, left, "whoever heard of the arrival hears of the leaving");
    let once_more = SyncRequest {
        protocol: 1,
        push: Vec::new(),
        lost: Vec::new(),
        since: 0,
        forgot: 0,
        heard_to: heard.cursor,
        apart: false,
    };
    assert_eq!(other.sync_with(&hub, &once_more).pull, left, "and whoever asks once more from the start");
    assert_eq!(other.sync(&hub, &[], 0).pull, Vec::<String>::new(), "whoever did not need not");
}

fn a_cursor_of_another_database_starts_over(engine: Engine) {
    let place = Place::with(engine);
    let hub = place.hub();
    let (mut phone, other) = (Phone::joined(1, "ada", &hub), Phone::joined(2, "bo", &hub));
    let lines = phone.says_rounds(3);
    phone.sync(&hub, &lines, 0);
    for since in [1_000_000, (1 << 53) - 1] {
        let answer = other.sync(&hub, &[], since);
        assert_eq!((answer.pull, Cursor::of(answer.cursor).place), (lines.clone(), 3), "since {since}");
    }
}

fn a_code_is_carried_once_to_each_phone_of_a_member(engine: Engine) {
    let place = Place::with(engine);
    let hub = place.hub();
    let ada = Phone::joined(1, "ada", &hub);
    let (bo, tablet, cy) = (Phone::joined(2, "bo", &hub), Phone::joined(3, "bo", &hub), Phone::joined(4, "cy", &hub));
    assert_eq!(ada.post(&hub, "/api/carry", &json!({ "to": "bo", "text": "ASK:1" })).status, 204);
    for (phone, carried) in [(&cy, 0), (&bo, 1), (&bo, 0), (&tablet, 1), (&ada, 0)] {
        assert_eq!(phone.sync(&hub, &[], 0).carried.len(), carried, "{}", phone.member);
    }
}

fn the_bundle_has_a_tag_that_spares_sending_it_again(engine: Engine) {
    let place = Place::with(engine);
    let hub = place.hub();
    let phone = Phone::joined(1, "ada", &hub);
    let first = phone.ask(&hub, "GET", "/api/shop", "");
    let tag = first.header("etag").to_owned();
    let ask = |tag: &str| hub.ask("GET", "/api/shop", &[("cookie", &phone.cookie), ("if-none-match", tag)], "");
    for (asked, status) in [(tag.as_str(), 304), (&format!("\"x\", W/{tag}"), 304), ("\"x\"", 200), ("", 200)] {
        let reply = ask(asked);
        assert_eq!((reply.status, reply.text.is_empty()), (status, status == 304), "{asked}");
    }
    assert_eq!(phone.sync(&hub, &[], 0).shop, first.json()["rev"], "a sync tells the same revision");
    Phone::joined(2, "bo", &hub);
    assert_eq!(ask(&tag).status, 200, "a new device is news");
}
