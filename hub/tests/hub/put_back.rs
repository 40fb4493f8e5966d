//! A database that is put back to an older copy which knows nothing of it: a snapshot of a disk, a dump of a server.
//!
//! What the hub acknowledged and lost comes back from the phones that said it, and whoever heard more than the copy holds is
//! told all that came after.

use crate::support::{Engine, Phone, Place, on_both};

on_both! {
    nobody_misses_what_takes_the_place_of_what_was_lost,
    a_copy_that_is_put_back_twice_is_another_each_time,
}

fn nobody_misses_what_takes_the_place_of_what_was_lost(engine: Engine) {
    let place = Place::with(engine);
    let hub = place.hub();
    let (mut ada, bo, mut cy) =
        (Phone::joined(1, "ada", &hub), Phone::joined(2, "bo", &hub), Phone::joined(3, "cy", &hub));
    let kept = ada.says_rounds(4);
    ada.sync(&hub, &kept, 0);
    let early = bo.sync(&hub, &[], 0);
    assert_eq!(early.pull, kept);
    assert_eq!(hub.stop(), Some(0));
    let copy = place.snapshot();

    let hub = place.hub();
    let lost = ada.says_rounds(3);
    assert_eq!(ada.sync(&hub, &lost, 0).head, ada.head);
    let late = bo.sync(&hub, &[], early.cursor);
    assert_eq!(late.pull, lost);
    assert_eq!(hub.stop(), Some(0));

    let hub = copy.hub();
    let others = cy.says_rounds(9);
    cy.sync(&hub, &others, 0);
    assert_eq!(ada.sync(&hub, &[], 0).head.seq, 4, "Ada is told that the hub has less");
    assert_eq!(ada.sync(&hub, &lost, 0).head, ada.head, "and what was lost is taken again");
    let news = [others, lost].concat();
    let told = |since| bo.sync(&hub, &[], since).pull;
    assert!(told(early.cursor) == news, "who heard nothing but what was kept goes on from there");
    assert!(told(late.cursor) == [kept, news].concat(), "who heard more is told all of it again");
    let on = bo.sync(&hub, &[], late.cursor).cursor;
    assert_eq!(bo.sync(&hub, &[], on).pull, Vec::<String>::new(), "once");
}

fn a_copy_that_is_put_back_twice_is_another_each_time(engine: Engine) {
    let place = Place::with(engine);
    assert_eq!(place.hub().stop(), Some(0));
    let copy = place.snapshot();
    let hub = place.hub();
    let (mut ada, bo) = (Phone::joined(1, "ada", &hub), Phone::joined(2, "bo", &hub));
    let lost = ada.says_rounds(3);
    ada.sync(&hub, &lost, 0);
    let heard = bo.sync(&hub, &[], 0).cursor;
    assert_eq!(hub.stop(), Some(0));
    let hub = copy.hub();
    let (mut ada, bo) = (Phone::joined(4, "ada", &hub), Phone::joined(2, "bo", &hub));
    let lines = ada.says_rounds(5);
    ada.sync(&hub, &lines, 0);
    assert_eq!(bo.sync(&hub, &[], heard).pull, lines);
}
