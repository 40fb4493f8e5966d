//! What may and may not be done, as timetables in a small invented shop; and what must hold after any commands at all.

use proptest::prelude::*;

use crate::buddy;
use crate::command::Command;
use crate::entry::{Condition, Entry, Fact, Happened, Matter, Of, Place, Step, Told};
use crate::ids::{ChoreId, PersonId, SessionId, StatementId};
use crate::repair;
use crate::state::State;
use crate::testing::{World, arrive, at, confirm, start, stop};
use crate::time::{Instant, Span};
use crate::view::bench::{Cover, Standing, bench};
use crate::view::sweep::sweep;
use crate::words::Words;

/// Runs `(who, minute, command)` in order; every one but the last must be allowed. Answers the last one's refusal.
#[track_caller]
fn check(acts: Vec<(&str, i64, Command)>, refused_with: Option<&str>) -> World {
    let mut world = World::new();
    let last = acts.len() - 1;
    for (index, (who, minute, command)) in acts.into_iter().enumerate() {
        let said = format!("{command:?}");
        let result = world.act(who, minute, command);
        if index < last {
            assert_eq!(result, Ok(()), "{said}");
        } else {
            let reason = result.err().map(|refusal| refusal.reason(&Words::english()));
            assert_eq!(reason.as_deref(), refused_with, "{said}");
        }
    }
    world
}

fn enter(who: &str, minute: i64) -> (&str, i64, Command) {
    (who, minute, arrive(who, "forge", minute, minute + 180))
}

#[test]
fn the_door_asks_in_order() {
    check(vec![enter("noor", 0)], None);
    check(vec![enter("teun", 0)], Some("Your induction is not on record yet."));
    check(vec![enter("nobody", 0)], Some("This phone's person is not in the members list."));
    check(vec![enter("noor", 100_000)], Some("Your induction has lapsed."));
    check(vec![enter("noor", 0), enter("noor", 1)], Some("You are already in: Room forge."));
    check(vec![("noor", 0, arrive("noor", "attic", 0, 60))], Some("This shop has no room called attic."));
    let late = Some("That is not a time at which this session can end.");
    check(vec![("noor", 0, arrive("noor", "forge", 0, 14))], late);
    check(vec![("noor", 0, arrive("noor", "forge", 0, 361))], late);
    check(vec![("noor", 0, arrive("noor", "forge", 0, 360))], None);
}

#[test]
fn a_session_on_a_lost_phone_is_left_at_the_next_arrival() {
    let mut world = check(vec![enter("noor", 0), ("noor", 1, start("saw"))], None);
    world.lose_phone("noor");
    assert_eq!(world.enter("noor", 50, 120), Ok(()));
    let told: Vec<_> = world.state.sessions.values().map(|session| (session.from, session.left())).collect();
    assert_eq!(told, [(at(0), Some(at(50))), (at(50), None)]);
}

#[test]
fn every_statement_is_attested_in_order_or_nothing_happens() {
    for attested in [vec![], vec!["loose"], vec!["eyes", "loose"], vec!["eyes", "eyes"]] {
        let mut command = arrive("noor", "forge", 0, 60);
        if let Command::Arrive { attested: all, .. } = &mut command {
            *all = attested.iter().map(|&id| (StatementId::from(id), at(0))).collect();
        }
        let first = if attested == ["loose"] { "eyes is so." } else { "loose is so." };
        let world = check(vec![("noor", 0, command)], Some(&format!("Still to confirm: {first}")));
        assert_eq!(world.log, [], "declining is recorded nowhere");
    }
}

#[test]
fn a_machine_start_refuses_with_the_first_that_fails() {
    check(vec![("noor", 0, start("saw"))], Some("You have no session."));
    check(vec![enter("noor", 0), ("noor", 1, start("saw"))], None);
    check(vec![enter("noor", 0), ("noor", 1, start("drill"))], Some("The drill stands in another room: Room fitting."));
    check(vec![enter("noor", 0), ("noor", 1, start("press"))], Some("This shop has no machine called press."));
    check(vec![enter("bram", 0), ("bram", 1, start("torch"))], Some("You are not signed off on The torch yet."));
    check(vec![enter("noor", 49_999), ("noor", 50_000, start("saw"))], Some("Your sign-off for saw has lapsed."));
    let lapsed = "What you confirmed at the door has lapsed; it was long ago.";
    check(vec![enter("noor", 0), ("noor", 360, start("saw"))], Some(lapsed));
    let sweeping = ("noor", 1, Command::StartSweep { crew: 1 });
    let off = Some("You are sweeping; machines stay off now.");
    check(vec![enter("noor", 0), sweeping, ("noor", 2, start("saw"))], off);
    let tag = Command::TagOut { machine: "lathe".into(), problem: " guard loose ".into(), photo: None };
    let tagged = Some("The lathe is tagged out: guard loose.");
    // Tagged out comes before sign-off and before the buddy.
    check(vec![("ilse", 0, tag.clone()), enter("bram", 1), ("bram", 2, start("lathe"))], tagged);
    let mended = ("ilse", 2, of_tag("lathe", 0, "ilse", Step::Mended, None));
    // Mended is not checked.
    check(vec![("ilse", 0, tag.clone()), enter("noor", 1), mended.clone(), ("noor", 3, start("lathe"))], tagged);
    let clear = ("bram", 3, Command::ClearTag { machine: "lathe".into() });
    let alone = Some("The lathe asks for a buddy, and nobody has confirmed.");
    check(vec![("ilse", 0, tag), enter("noor", 1), mended, clear, ("noor", 4, start("lathe"))], alone);
    let soft = Command::StartMachine { machine: "saw".into(), material: Some("Aluminium".into()) };
    check(vec![enter("noor", 0), ("noor", 1, soft)], Some("The saw must not work Aluminium."));
    check(
        vec![enter("noor", 0), ("noor", 1, start("saw")), ("noor", 2, start("saw"))],
        Some("The saw is already running."),
    );
}

#[test]
fn hot_work_starts_before_last_spark_alone() {
    // Alone, out by 180: watch 30 exclusive, then torch 4, floor 6, lights 1: last spark at 180 - 41 = 139.
    let past = "It is past last spark: a fire watch of 30 minutes would not be over in time.";
    check(vec![enter("noor", 0), ("noor", 138, start("torch"))], None);
    check(vec![enter("noor", 0), ("noor", 139, start("torch"))], Some(past));
    check(vec![enter("noor", 0), ("noor", 139, start("saw"))], None);
}

#[test]
fn hot_work_that_ends_past_last_spark_is_watched_first_and_swept_after() {
    // Last spark is at 139; the torch runs on. Stopped in time nothing is late, past it the watch of 30 comes first.
    for (stopped, sweep_from, late_until) in [(138, 169, None), (139, 169, None), (150, 180, Some(191))] {
        let acts = vec![enter("noor", 0), ("noor", 100, start("torch")), ("noor", stopped, stop("torch"))];
        let world = check(acts, None);
        let me = PersonId::from("noor");
        let times = bench(&world.viewer(&me, at(stopped))).and_then(|view| view.times.ok()).expect("planned");
        assert_eq!((times.sweep_from, times.late_until), (at(sweep_from), late_until.map(at)), "stopped at {stopped}");
        assert_eq!(times.first_bell, at(sweep_from - 10));
    }
}

#[test]
fn a_buddy_covers_for_a_term_and_no_longer() {
    let confirmed = || vec![enter("noor", 0), ("noor", 10, confirm("ilse"))];
    let and = |act: (&'static str, i64, Command)| [confirmed(), vec![act]].concat();
    check(and(("noor", 24, start("lathe"))), None);
    let alone = Some("The lathe asks for a buddy, and nobody has confirmed.");
    check(and(("noor", 25, start("lathe"))), alone);
    check(vec![enter("noor", 0), ("noor", 1, confirm("noor"))], Some("Nobody can be their own buddy."));
    check(
        [and(("noor", 11, Command::EndBuddy { buddy: "ilse".into() })), vec![("noor", 12, start("lathe"))]].concat(),
        alone,
    );
    // A buddy of one is nobody else's; when the first leaves, they are free again.
    let second = || vec![enter("bram", 11), ("bram", 12, confirm("ilse"))];
    check([confirmed(), second()].concat(), Some("ILSE is somebody else's buddy now."));
    check([confirmed(), vec![("noor", 11, Command::Leave)], second()].concat(), None);
    // A buddy who is signed in elsewhere is not in this room.
    let elsewhere = ("ilse", 0, arrive("ilse", "fitting", 0, 100));
    check(
        vec![elsewhere, enter("noor", 0), ("noor", 1, confirm("ilse"))],
        Some("ILSE is signed in elsewhere: Room fitting."),
    );
    // Nor may a buddy run a machine that asks for a buddy.
    let runs = || vec![enter("ilse", 0), ("ilse", 1, confirm("bram")), ("ilse", 2, start("lathe")), enter("noor", 3)];
    check(
        [runs(), vec![("noor", 4, confirm("ilse"))]].concat(),
        Some("ILSE is running a machine that asks for a buddy."),
    );
}

#[test]
fn what_runs_stands_first_on_bench_and_what_cannot_start_last() {
    let tag = ("ilse", 1, Command::TagOut { machine: "torch".into(), problem: "hose cracked".into(), photo: None });
    let mut world = check(vec![enter("noor", 0), tag], None);
    let me = PersonId::from("noor");
    let order = |world: &World| -> Vec<String> {
        let view = bench(&world.viewer(&me, at(3))).expect("at work");
        view.machines.iter().map(|row| row.id.to_string()).collect()
    };
    assert_eq!(order(&world), ["saw", "lathe", "torch"]);
    assert_eq!(world.act("noor", 2, confirm("ilse")), Ok(()));
    assert_eq!(order(&world), ["lathe", "saw", "torch"]);
    assert_eq!(world.act("noor", 2, start("saw")), Ok(()));
    assert_eq!(order(&world), ["saw", "lathe", "torch"]);
}

#[test]
fn a_gap_is_told_from_lapse_to_renewal() {
    let world = check(
        vec![
            enter("noor", 0),
            ("noor", 10, confirm("ilse")),
            ("noor", 12, start("lathe")),
            ("noor", 30, confirm("ilse")),
            ("noor", 44, confirm("ilse")),
            ("noor", 50, stop("lathe")),
        ],
        None,
    );
    let session = world.state.sessions.values().next().expect("one session");
    let gaps = buddy::gaps(&world.book, &buddy::Heard::all(&world.state), session, at(50));
    assert_eq!(gaps.iter().map(|gap| (gap.from, gap.to)).collect::<Vec<_>>(), [(at(25), at(30))]);
}

#[test]
fn renewal_at_the_very_instant_of_lapse_leaves_no_gap() {
    let world = check(
        vec![
            enter("noor", 0),
            ("noor", 10, confirm("ilse")),
            ("noor", 10, start("lathe")),
            ("noor", 25, confirm("ilse")),
            ("noor", 40, stop("lathe")),
        ],
        None,
    );
    let session = world.state.sessions.values().next().expect("one session");
    assert_eq!(buddy::gaps(&world.book, &buddy::Heard::all(&world.state), session, at(50)), []);
}

#[test]
fn the_sweep_stops_machines_and_leads_through_chores() {
    let chore = |id: &str| Command::FinishChore { chore: ChoreId::from(id), photo: None };
    let sweeping = || vec![enter("noor", 0), ("noor", 1, start("saw")), ("noor", 30, Command::StartSweep { crew: 1 })];
    let and = |acts: Vec<(&'static str, i64, Command)>| [sweeping(), acts].concat();
    let world = check(and(vec![("noor", 34, chore("saw/brush"))]), None);
    let me = PersonId::from("noor");
    let view = sweep(&world.viewer(&me, at(34))).expect("sweeping");
    assert_eq!(view.running, [] as [String; 0]);
    assert_eq!(view.free_at, Ok(at(41)), "floor 6 and lights 1 are left");
    assert_eq!(
        view.chores.iter().map(|row| row.id.as_str()).collect::<Vec<_>>(),
        ["saw/brush", "forge/floor", "forge/lights"]
    );
    let timed = world.log.iter().filter_map(|entry| match entry.fact {
        Fact::ChoreDone { minutes, .. } => minutes,
        _ => None,
    });
    assert_eq!(timed.collect::<Vec<_>>(), [4.0]);
    // A day later nobody knows how long it took, and an entry that says so would be refused by every log.
    let late = check(and(vec![("noor", 1_471, chore("saw/brush"))]), None);
    let last = late.log.last().expect("it was done");
    assert_eq!(crate::log::wire::check(last), Ok(()));
    assert!(matches!(last.fact, Fact::ChoreDone { minutes: None, .. }), "{last:?}");
    check(and(vec![("noor", 31, chore("forge/floor"))]), Some("Something comes first: Do brush."));
    check(and(vec![("noor", 31, chore("lathe/brush"))]), Some("That chore is not one of this session's."));
    check(
        and(vec![("noor", 31, chore("saw/brush")), ("noor", 32, chore("saw/brush"))]),
        Some("That chore is done already."),
    );
    // Leaving is never blocked.
    check(and(vec![("noor", 31, Command::Leave)]), None);
    check(and(vec![("noor", 31, Command::Leave), ("noor", 32, Command::Leave)]), Some("This session has ended."));
}

/// More said of the tag that `by` put on a machine at `minute`.
fn of_tag(machine: &str, minute: i64, by: &str, step: Step, note: Option<&str>) -> Command {
    let of = Of { matter: Matter::Tag(machine.into()), at: at(minute), who: by.into() };
    Command::Note { of, step, note: note.map(str::to_owned) }
}

#[test]
fn anybody_may_tag_out_and_a_second_person_gives_back() {
    let tag = |problem: &str| Command::TagOut { machine: "saw".into(), problem: problem.into(), photo: None };
    check(vec![("noor", 0, tag("  "))], Some("Nothing was written."));
    check(vec![("noor", 0, tag(&"x".repeat(501)))], Some("That is too long to keep."));
    check(vec![("nobody", 0, tag("bent"))], Some("This phone's person is not in the members list."));
    let clear = Command::ClearTag { machine: "saw".into() };
    let (saw, said) = ("saw", |step, note| of_tag("saw", 0, "noor", step, note));
    let out = || ("noor", 0, tag("bent"));
    let mends = |who| (who, 1, of_tag(saw, 0, "noor", Step::Mended, None));
    check(vec![("bram", 1, clear.clone())], Some("The saw is not tagged out."));
    check(vec![("bram", 1, said(Step::Mended, None))], Some("The saw is not tagged out."));
    let unmended = Some("Nobody has said that The saw is mended.");
    check(vec![out(), ("bram", 2, clear.clone())], unmended);
    let waits = said(Step::WaitsForPart { until: None }, None);
    check(vec![out(), mends("ilse"), ("ilse", 2, waits), ("bram", 3, clear.clone())], unmended);
    // A tag that is put on later undoes it.
    check(vec![out(), mends("ilse"), ("ilse", 2, tag("again")), ("bram", 3, clear.clone())], unmended);
    let second = Some("You mended The saw: somebody else checks it.");
    check(vec![out(), mends("bram"), ("bram", 2, clear.clone())], second);
    check(vec![out(), mends("noor"), ("teun", 2, clear.clone())], Some("Your induction is not on record yet."));
    check(vec![out(), ("ilse", 1, said(Step::Remarked, Some(" ")))], Some("Nothing was written."));
    // Who tagged it may check it, the note's own way too.
    for (who, check_it) in [("noor", clear.clone()), ("bram", said(Step::Checked, None))] {
        let world = check(vec![out(), mends("ilse"), (who, 2, check_it)], None);
        assert!(!world.state.tags.contains_key(&saw.into()));
        let outages = repair::outages(&world.state, world.state.tag_words.keys().next().expect("the saw"));
        assert_eq!(outages.iter().map(|outage| (outage.from(), outage.to)).collect::<Vec<_>>(), [(at(0), Some(at(2)))]);
        assert_eq!(outages[0].notes.iter().map(|note| note.step).collect::<Vec<_>>(), [Step::Mended, Step::Checked]);
    }
    let world = check(vec![enter("noor", 0), ("noor", 1, start("saw")), ("noor", 2, tag("bent"))], None);
    assert!(world.state.sessions.values().all(|session| session.running_all().next().is_none()));
    let found = |place| Command::ReportFound { place, condition: Condition::Mess, note: Some("chips".into()) };
    check(vec![("noor", 0, found(Place::Machine("saw".into())))], None);
    check(vec![("noor", 0, found(Place::Machine("x".into())))], Some("This shop has no machine called x."));
}

#[test]
fn anybody_tells_of_an_incident_and_a_steward_says_what_became_of_it() {
    let tell = |note: &str, place| {
        let told = Told { place, kind: Some(Happened::NearMiss), first_aid: Some(false) };
        Command::ReportIncident { note: note.into(), told }
    };
    check(vec![("noor", 0, tell(" ", None))], Some("Nothing was written."));
    check(
        vec![("noor", 0, tell("a disc", Some(Place::Room("attic".into()))))],
        Some("This shop has no room called attic."),
    );
    let of = |matter| Of { matter, at: at(0), who: "noor".into() };
    for matter in [Matter::Incident, Matter::Found, Matter::Session] {
        let seen = Command::Note { of: of(matter.clone()), step: Step::SeenTo, note: Some("  ".into()) };
        check(vec![("noor", 1, seen.clone())], Some("Only a steward can do this."));
        let world = check(vec![("noor", 0, tell("a disc", None)), ("bram", 1, seen)], None);
        let told: Vec<_> = world.state.notes_of(&of(matter)).map(|note| (note.step, note.note.clone())).collect();
        assert_eq!(told, [(Step::SeenTo, None)]);
    }
}

#[test]
fn a_steward_says_that_rules_were_published() {
    let say = || Command::NotePublished { number: 3, book: "b".into(), note: Some(" a longer watch ".into()) };
    check(vec![("noor", 1, say())], Some("Only a steward can do this."));
    let world = check(vec![("bram", 1, say()), ("bram", 2, say())], None);
    assert_eq!(world.state.published, [(3, "b".into(), "bram".into())].into());
}

#[test]
fn tags_and_what_is_said_of_them_may_be_heard_in_any_order() {
    let said =
        |who: &str, minute: i64, fact: Fact| Entry { at: at(minute), session: "s".into(), who: who.into(), fact };
    let tag = |problem: &str| Fact::TaggedOut { machine: "saw".into(), problem: problem.into(), photo: None };
    let note = |step| {
        let of = Of { matter: Matter::Tag("saw".into()), at: at(0), who: "noor".into() };
        Fact::Noted { of, step, note: None }
    };
    let log = [
        said("noor", 0, tag("bent")),
        said("ilse", 1, note(Step::Mended)),
        said("bram", 1, note(Step::WaitsForPart { until: None })),
        said("bram", 2, Fact::TagCleared { machine: "saw".into() }),
        said("ilse", 2, tag("bent again")),
        said("ilse", 2, tag("and loose")),
    ];
    let plain = State::of(&log);
    assert_eq!(plain.tags[&"saw".into()].problem, "bent again", "of one instant, by content");
    for turn in 0..log.len() {
        let mut turned = log.to_vec();
        turned.rotate_left(turn);
        assert_eq!(State::of(&turned), plain);
        turned.reverse();
        assert_eq!(State::of(&turned), plain);
    }
}

#[test]
fn any_member_may_do_a_round_and_the_newest_word_counts() {
    let round = |id: &str| Command::FinishRound { round: id.into() };
    check(vec![("nobody", 0, round("bin"))], Some("This phone's person is not in the members list."));
    check(vec![("noor", 0, round("moon"))], Some("This shop has no round called moon."));
    let world = check(vec![("noor", 0, round("bin")), enter("ilse", 1), ("ilse", 7, round("bin"))], None);
    // Whatever the order in which two phones' words come in.
    let backwards: Vec<_> = world.log.iter().rev().cloned().collect();
    for log in [&world.log, &backwards] {
        let done = State::of(log).rounds.get(&"bin".into()).cloned().expect("it was done");
        assert_eq!((done.at, done.by.as_str()), (at(7), "ilse"));
    }
}

fn commands() -> impl Strategy<Value = Command> {
    let machine = prop::sample::select(vec!["lathe", "torch", "saw", "drill"]);
    let person = prop::sample::select(vec!["noor", "ilse", "bram", "teun"]);
    prop_oneof![
        4 => machine.clone().prop_map(start),
        3 => machine.clone().prop_map(stop),
        6 => person.clone().prop_map(confirm),
        1 => person.prop_map(|buddy| Command::EndBuddy { buddy: buddy.into() }),
        1 => (0i64..400).prop_map(|minute| Command::MoveOutBy { out_by: at(minute) }),
        1 => (0u32..3).prop_map(|crew| Command::StartSweep { crew }),
        1 => machine.clone().prop_map(|id| Command::FinishChore { chore: ChoreId::of(id, "brush"), photo: None }),
        1 => Just(Command::FinishChore { chore: "forge/floor".into(), photo: None }),
        1 => Just(Command::WalkWatch),
        1 => machine.clone().prop_map(|machine| Command::TagOut {
            machine: machine.into(),
            problem: "bent".into(),
            photo: None,
        }),
        1 => machine.prop_map(|machine| Command::ClearTag { machine: machine.into() }),
        1 => Just(Command::Leave),
    ]
}

type Acts = Vec<(&'static str, i64, Option<Command>)>;

/// Acts of three people with pauses in seconds; `None` is an arrival.
fn acts() -> impl Strategy<Value = Acts> {
    let who = prop::sample::select(vec!["noor", "ilse", "bram"]);
    prop::collection::vec((who, 0i64..600, prop_oneof![1 => Just(None), 8 => commands().prop_map(Some)]), 1..60)
}

/// Plays acts, whatever is refused, and looks at the world after each.
fn play(acts: Acts, mut look: impl FnMut(&World, Instant)) -> World {
    let mut world = World::new();
    let mut now = at(0);
    for (index, (who, pause, command)) in acts.into_iter().enumerate() {
        now = now + Span::from_ms(pause * 1000);
        let command = command.unwrap_or_else(|| Command::Arrive {
            session: SessionId::new(format!("{who}-{index}")),
            room: "forge".into(),
            entered_at: now,
            out_by: now + Span::from_minutes(120),
            attested: ["loose", "eyes"].iter().map(|&id| (StatementId::from(id), now)).collect(),
        });
        let _refused = world.act_at(who, now, command);
        look(&world, now);
    }
    world
}

/// Whether somebody's word covers `machine` at `now`, by the plainest reading of DESIGN.md section 4, "Buddy".
fn plainly_covered(world: &World, session: &crate::state::Session, machine: &str, now: Instant) -> bool {
    session.confirmations.iter().any(|word| {
        let gone = session.departures.iter().any(|(who, at)| *who == word.buddy && *at >= word.at && *at <= now);
        let own = || world.state.sessions.values().filter(|own| own.who == word.buddy);
        let left =
            own().any(|own| own.from <= word.at && own.left().is_some_and(|left| left >= word.at && left <= now));
        let operated = own().flat_map(|own| own.uses.iter().map(move |use_| (own, use_))).any(|(own, use_)| {
            let end = own.use_end(use_, now + Span::from_ms(1));
            use_.machine.as_str() == "lathe" && use_.from <= now && end > word.at
        });
        word.buddy != session.who
            && word.machine.as_ref().is_none_or(|only| only.as_str() == machine)
            && word.at <= now
            && now < word.at + Span::from_minutes(15)
            && !(gone || left || operated)
    })
}

proptest! {
    /// No commands reach a state in which a buddy machine runs uncovered without a gap being told, and none in which
    /// cover is told where there is none.
    #[test]
    fn uncovered_use_is_always_told(acts in acts()) {
        play(acts, |world, now| {
            for session in world.state.sessions.values() {
                for use_ in session.uses.iter().filter(|use_| use_.machine.as_str() == "lathe") {
                    let end = session.use_end(use_, now);
                    let gaps = buddy::gaps(&world.book, &buddy::Heard::all(&world.state), session, now);
                    let mut moment = use_.from;
                    while moment < end {
                        let told = gaps.iter().any(|gap| gap.from <= moment && moment < gap.to);
                        assert_eq!(!told, plainly_covered(world, session, "lathe", moment), "at {moment}: {session:?}");
                        moment = moment + Span::from_ms(7_000);
                    }
                }
                if session.running(&"lathe".into()).is_some() {
                    let cover = buddy::cover_now(&world.book, &world.state, session, &"lathe".into(), now);
                    assert_eq!(matches!(cover, Cover::Until(_)), plainly_covered(world, session, "lathe", now));
                }
            }
        });
    }

    /// Folding is a function of the log; every prefix folds; sessions may interleave in any way.
    #[test]
    fn folding_is_deterministic_in_any_interleaving(acts in acts(), keys in prop::collection::vec(any::<u8>(), 64)) {
        let world = play(acts, |_, _| {});
        for length in 0..=world.log.len() {
            State::of(&world.log[..length]);
        }
        prop_assert_eq!(State::of(&world.log), world.state.clone());
        // Whole devices late or early: their own order kept, everything else shuffled.
        let mut shuffled = world.log.clone();
        shuffled.sort_by_key(|entry| keys[entry.who.as_str().len() + usize::from(entry.who.as_str().as_bytes()[0]) % 32]);
        let mut late = State::of(&shuffled);
        late.found.sort_by_key(|found| found.at);
        prop_assert_eq!(late.sessions, world.state.sessions);
    }

    /// What Bench offers is what decide allows, and what it refuses is what decide refuses.
    #[test]
    fn bench_offers_what_decide_allows(acts in acts()) {
        play(acts, |world, now| {
            for who in ["noor", "ilse", "bram"] {
                let me = PersonId::from(who);
                let viewer = world.viewer(&me, now);
                let Some(view) = bench(&viewer) else { continue };
                for row in view.machines {
                    let answer = super::decide(&viewer, start(row.id.as_str()));
                    match row.standing {
                        Standing::Ready(_) => assert!(answer.is_ok(), "{answer:?}"),
                        Standing::Refused(refusal) => assert_eq!(answer, Err(refusal)),
                        Standing::Running { .. } => assert!(answer.is_err()),
                    }
                }
                assert!(super::decide(&viewer, Command::Leave).is_ok(), "leaving is never blocked");
            }
        });
    }
}
