//! A phone's entries reach the hub: once, whole, in order, and with the reason when they do not count.

use shared_core::entry::Fact;
use shared_core::sync::message::{Rejected, SyncRequest, Why};

use crate::support::{Engine, Phone, Place, on_both};

on_both! {
    a_push_that_comes_again_changes_nothing,
    two_tabs_that_push_at_the_same_time_write_one_log,
    a_push_goes_on_where_the_last_one_was_cut,
    a_second_story_is_refused_and_told,
    an_entry_in_anothers_name_keeps_its_place_and_counts_for_nothing,
    a_line_of_another_phone_and_a_damaged_line_are_refused,
    a_gap_waits_unless_it_is_declared_lost,
    a_long_log_goes_over_in_pieces,
}

fn a_push_that_comes_again_changes_nothing(engine: Engine) {
    let place = Place::with(engine);
    let hub = place.hub();
    let mut phone = Phone::joined(1, "ada", &hub);
    let lines = phone.says_rounds(5);
    let first = phone.sync(&hub, &lines, 0);
    assert_eq!((&first.head, first.rejected.len()), (&phone.head, 0));
    let again = phone.sync(&hub, &lines, 0);
    assert_eq!((&again.head, again.rejected.len()), (&phone.head, 0));
    assert_eq!(place.exported(), lines);
}

fn two_tabs_that_push_at_the_same_time_write_one_log(engine: Engine) {
    let place = Place::with(engine);
    let hub = place.hub();
    let mut phone = Phone::joined(1, "ada", &hub);
    let lines = phone.says_rounds(40);
    std::thread::scope(|scope| {
        for _ in 0..4 {
            scope.spawn(|| {
                let mut tab = Phone::new(1, "ada");
                tab.cookie.clone_from(&phone.cookie);
                for piece in lines.chunks(7) {
                    assert_eq!(tab.sync(&hub, piece, 0).rejected, vec![]);
                }
            });
        }
    });
    assert_eq!(phone.sync(&hub, &[], 0).head, phone.head);
    assert_eq!(place.exported(), lines);
}

fn a_push_goes_on_where_the_last_one_was_cut(engine: Engine) {
    let place = Place::with(engine);
    let hub = place.hub();
    let mut phone = Phone::joined(1, "ada", &hub);
    let lines = phone.says_rounds(9);
    let (first, rest) = lines.split_at(4);
    assert_eq!(phone.sync(&hub, first, 0).head.seq, 4);
    // The phone did not hear the answer: it repeats the newest two, and goes on.
    let repeated = [&first[2..], rest].concat();
    let answer = phone.sync(&hub, &repeated, 0);
    assert_eq!((answer.head, answer.rejected), (phone.head.clone(), vec![]));
    assert_eq!(place.exported(), lines);
}

fn a_second_story_is_refused_and_told(engine: Engine) {
    let place = Place::with(engine);
    let hub = place.hub();
    let mut phone = Phone::joined(1, "ada", &hub);
    let trunk = phone.says_rounds(2);
    let mut copy = Phone::new(1, "ada");
    copy.head = phone.head.clone();
    let here = phone.says(Fact::Left);
    let there = copy.says(Fact::Incident { note: "another story".into(), told: shared_core::entry::Told::default() });
    assert_eq!(phone.sync(&hub, &[trunk, vec![here]].concat(), 0).head, phone.head);
    let answer = phone.sync(&hub, &[there], 0);
    assert_eq!(answer.rejected, vec![Rejected { seq: 3, why: Why::Fork }]);
    assert_eq!(answer.head, phone.head, "the first story stands");
    assert_eq!(place.exported().len(), 3);
}

fn an_entry_in_anothers_name_keeps_its_place_and_counts_for_nothing(engine: Engine) {
    let place = Place::with(engine);
    let hub = place.hub();
    let (mut phone, other) = (Phone::joined(1, "ada", &hub), Phone::joined(2, "bo", &hub));
    let lines =
        vec![phone.says(Fact::WatchRound), phone.says_as("bo".into(), Fact::Left), phone.says(Fact::WatchRound)];
    for _ in 0..2 {
        let answer = phone.sync(&hub, &lines, 0);
        assert_eq!(answer.head.seq, 3, "the log goes on behind it");
        assert_eq!(answer.rejected, vec![Rejected { seq: 2, why: Why::OtherMember }]);
    }
    let pulled = other.sync(&hub, &[], 0).pull;
    assert_eq!(pulled, vec![lines[0].clone(), lines[2].clone()], "others are not handed it");
    assert_eq!(place.exported(), lines, "but it is kept");
}

fn a_line_of_another_phone_and_a_damaged_line_are_refused(engine: Engine) {
    let place = Place::with(engine);
    let hub = place.hub();
    let (mut phone, mut other) = (Phone::joined(1, "ada", &hub), Phone::joined(2, "bo", &hub));
    let foreign = other.says(Fact::WatchRound);
    let good = phone.says(Fact::WatchRound);
    let damaged = good.replacen('.', ".A", 1);
    let answer = phone.sync(&hub, &[foreign, damaged, "garbage".into(), String::new(), good], 0);
    let whys: Vec<_> = answer.rejected.iter().map(|rejected| rejected.why).collect();
    assert_eq!(whys, vec![Why::OtherDevice, Why::Damaged, Why::Damaged, Why::Damaged]);
    assert_eq!(answer.head, phone.head, "what is good beside them is taken");
}

fn a_gap_waits_unless_it_is_declared_lost(engine: Engine) {
    let place = Place::with(engine);
    let hub = place.hub();
    let mut phone = Phone::joined(1, "ada", &hub);
    let lines = phone.says_rounds(6);
    assert_eq!(phone.sync(&hub, &lines[..2], 0).head.seq, 2);
    let late = &lines[4..];
    let gap = phone.sync(&hub, late, 0);
    assert_eq!((gap.head.seq, gap.rejected[0].why), (2, Why::Gap));
    let request = SyncRequest {
        protocol: 1,
        push: late.to_vec(),
        lost: vec![3, 4],
        since: 0,
        forgot: 0,
        heard_to: 0,
        apart: false,
    };
    let answer = phone.sync_with(&hub, &request);
    assert_eq!((answer.head, answer.rejected), (phone.head.clone(), vec![]));
    // One that was declared lost turns up after all: it is told, and the log stays as it is.
    let found = phone.sync(&hub, &lines[2..3], 0);
    assert_eq!(found.rejected, vec![Rejected { seq: 3, why: Why::DeclaredLost }]);
    assert_eq!(place.exported().len(), 4);
}

fn a_long_log_goes_over_in_pieces(engine: Engine) {
    let place = Place::with(engine);
    let hub = place.hub();
    let mut phone = Phone::joined(1, "ada", &hub);
    let lines = phone.says_rounds(700);
    for piece in lines.chunks(200) {
        phone.sync(&hub, piece, 0);
    }
    assert_eq!(phone.sync(&hub, &[], 0).head, phone.head);
    let other = Phone::joined(2, "bo", &hub);
    assert!(other.pulls(&hub, 0, lines.len()) == lines, "in pieces as well");
}
