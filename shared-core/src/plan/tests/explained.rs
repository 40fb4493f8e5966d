//! What is said of a plan: every number that went in, where it came from, and nothing that did not.

use expect_test::{Expect, expect};

use super::shop::{after, chore, growing, hands, last_out, machine, room, shop, vac};
use crate::estimate::History;
use crate::ids::ChoreId;
use crate::ordered::Set;
use crate::plan::explain::{Assumed, MinutesFrom, Number, explain};
use crate::plan::{HotWork, Request, Use};
use crate::rulebook::{Chore, FireWatchRule, Rulebook};
use crate::time::{Instant, Span};
use crate::words::Words;

const OUT_BY: Instant = Instant::from_ms(1_772_574_480_000);

fn book(exclusive: bool, floor_minutes: u32) -> Rulebook {
    let saw = vec![growing(chore("chips", 2), 6_000, 30), growing(chore("bin", 1), 4_000, 3)];
    let bay = vec![after(vac(hands(chore("floor", 6), 2)), &["machines"]), last_out(hands(chore("cool", 9), 0))];
    let mut book = Rulebook { machines: vec![machine("saw", saw)], ..shop(vec![room("bay", bay)]) };
    book.fire_watch = FireWatchRule { minutes: 30, exclusive };
    book.reserve.floor_minutes = floor_minutes;
    book
}

#[track_caller]
fn check(book: &Rulebook, hot_work: HotWork, last_out: bool, want: &Expect) {
    let explained = explain(&Request {
        book,
        room: &"bay".into(),
        out_by: OUT_BY,
        crew: 2,
        last_out,
        hot_work,
        uses: &[Use { machine: "saw".into(), used: Span::from_minutes(90) }],
        done: &Set::new(),
        now: Some(OUT_BY - Span::from_minutes(70)),
        history: &History::from([(ChoreId::from("saw/chips"), vec![9.5; 12])]),
    })
    .expect("possible");
    // Minutes before out-by, so that the numbers can be followed.
    want.assert_eq(&explained.text(&Words::english(), &|at| format!("-{}", (OUT_BY - at).minutes_up())));
}

#[test]
fn a_watch_to_come() {
    check(
        &book(true, 5),
        HotWork::Coming,
        true,
        &expect![[r#"
            Out by: -0
              You said so. You can move it.
              Source: what you said.

            Sweep from: -20
              Started then, the chores are done by out-by.
              2 people sweep.
              11 min. saw: Do chips (seen 12 times)
              3 min. saw: Do bin (rulebook's most, for 90 min of use)
              6 min, 2 people together, with vac. bay: Do floor (rulebook)
              9 min, by itself. bay: Do cool (rulebook)
              What was seen is enough 80 times in 100; the rulebook's minutes count 5 times.
              In all 20 min; no order is shorter.
              All the work, shared among those free: 20 min.
              Never less than 5 min are held back.
              Source: the rulebook's chores and reserve.

            First bell: -30
              Time to finish the pass you are on.
              10 min before the sweep.
              Source: the rulebook's reserve.

            Last spark: -36
              A spark then leaves time for the fire watch and every chore.
              The watch takes one person 30 min.
              In all 36 min; no order is shorter.
              Source: the rulebook's fire watch; 29 CFR 1910.252(a)(2)(iii)(B): half an hour or more, and local codes.

            Watch until: -6
              It begins at the last spark.
              The watch takes one person 30 min.
              Source: the rulebook's fire watch; 29 CFR 1910.252(a)(2)(iii)(B): half an hour or more, and local codes.

            Free at: -34
              If you start to sweep now; never before a fire watch is over.
              Reckoned from -70.
              In all 36 min; no order is shorter.
              Source: the rulebook's chores and reserve.

            Taken for granted:
              Nobody else is known in the room, so its last chores are yours.
              Gear is free for you when you need it: vac."#]],
    );
}

#[test]
fn a_watch_that_runs() {
    let ended = HotWork::Ended(OUT_BY - Span::from_minutes(80));
    check(
        &book(false, 5),
        ended,
        false,
        &expect![[r#"
            Out by: -0
              You said so. You can move it.
              Source: what you said.

            Sweep from: -17
              Started then, the chores are done by out-by.
              2 people sweep.
              11 min. saw: Do chips (seen 12 times)
              3 min. saw: Do bin (rulebook's most, for 90 min of use)
              6 min, 2 people together, with vac. bay: Do floor (rulebook)
              What was seen is enough 80 times in 100; the rulebook's minutes count 5 times.
              In all 17 min; no order is shorter.
              Chores that wait for each other alone: 17 min.
              Never less than 5 min are held back.
              Source: the rulebook's chores and reserve.

            First bell: -27
              Time to finish the pass you are on.
              10 min before the sweep.
              Source: the rulebook's reserve.

            Watch until: -50
              It began when hot work ended. A new spark starts it again.
              The watch takes 30 min, and who watches may sweep meanwhile.
              Hot work ended at -80.
              Source: the rulebook's fire watch; 29 CFR 1910.252(a)(2)(iii)(B): half an hour or more, and local codes.

            Free at: -50
              If you start to sweep now; never before a fire watch is over.
              Reckoned from -70.
              In all 20 min; no order is shorter.
              Source: the rulebook's chores and reserve.

            Taken for granted:
              Others are known in the room, so its last chores are theirs.
              Gear is free for you when you need it: vac."#]],
    );
}

#[test]
fn the_floor_counts() {
    check(
        &book(true, 60),
        HotWork::Coming,
        true,
        &expect![[r#"
            Out by: -0
              You said so. You can move it.
              Source: what you said.

            Sweep from: -60
              The chores need no more than the shop holds back.
              2 people sweep.
              11 min. saw: Do chips (seen 12 times)
              3 min. saw: Do bin (rulebook's most, for 90 min of use)
              6 min, 2 people together, with vac. bay: Do floor (rulebook)
              9 min, by itself. bay: Do cool (rulebook)
              What was seen is enough 80 times in 100; the rulebook's minutes count 5 times.
              Never less than 60 min are held back.
              Source: the rulebook's chores and reserve.

            First bell: -70
              Time to finish the pass you are on.
              10 min before the sweep.
              Source: the rulebook's reserve.

            Last spark: -60
              No spark once the sweep begins.
              The watch takes one person 30 min.
              Never less than 60 min are held back.
              Source: the rulebook's fire watch; 29 CFR 1910.252(a)(2)(iii)(B): half an hour or more, and local codes.

            Watch until: -30
              It begins at the last spark.
              The watch takes one person 30 min.
              Source: the rulebook's fire watch; 29 CFR 1910.252(a)(2)(iii)(B): half an hour or more, and local codes.

            Free at: -34
              If you start to sweep now; never before a fire watch is over.
              Reckoned from -70.
              In all 36 min; no order is shorter.
              Source: the rulebook's chores and reserve.

            Taken for granted:
              Nobody else is known in the room, so its last chores are yours.
              Gear is free for you when you need it: vac."#]],
    );
}

/// Where the minutes of `saw/bin` are from, one and four an hour and three at most; and what is taken for granted.
#[track_caller]
fn check_bin(used_minutes: i64, chores: Vec<Chore>, from: impl Fn(Span) -> MinutesFrom, assumed: &[Assumed]) {
    let saw = machine("saw", vec![growing(chore("bin", 1), 4_000, 3)]);
    let used = Span::from_minutes(used_minutes);
    let explained = explain(&Request {
        book: &Rulebook { machines: vec![saw], ..shop(vec![room("bay", chores)]) },
        room: &"bay".into(),
        out_by: OUT_BY,
        crew: 1,
        last_out: true,
        hot_work: HotWork::None,
        uses: &[Use { machine: "saw".into(), used }],
        done: &Set::new(),
        now: None,
        history: &History::new(),
    })
    .expect("possible");
    let numbers = explained.whys.iter().flat_map(|why| &why.numbers);
    let told: Vec<MinutesFrom> = numbers
        .filter_map(|number| match number {
            Number::Chore { owner, from, .. } if owner == "saw" => Some(*from),
            _ => None,
        })
        .collect();
    assert_eq!((told.as_slice(), explained.assumed.as_slice()), (&[from(used)][..], assumed));
}

#[test]
fn the_most_is_named_where_it_cuts_and_nothing_is_assumed_that_cannot_matter() {
    check_bin(29, vec![], MinutesFrom::Use, &[]);
    // Just as much as the most: it cuts nothing off.
    check_bin(30, vec![chore("floor", 2)], MinutesFrom::Use, &[]);
    check_bin(46, vec![], MinutesFrom::Cap, &[]);
    // One piece of gear that two chores want is told once.
    let geared = vec![vac(chore("floor", 2)), vac(last_out(chore("stairs", 2)))];
    check_bin(46, geared, MinutesFrom::Cap, &[Assumed::LastOut, Assumed::GearIsFree(vec!["vac".into()])]);
}
