//! What people do: mostly sensible, sometimes nonsense, always through a command that may be refused.
//!
//! Sees what the phone's owner sees and no more. Knows no rule: whether a wish is granted is `decide`'s to say.

use shared_core::attestation::Arriving;
use shared_core::card::Role;
use shared_core::command::Command;
use shared_core::entry::{Condition, Matter, Of, Place, Step, Told, Undone};
use shared_core::ids::{ChoreId, MachineId, PersonId, RoomId, SessionId, StatementId};
use shared_core::repair;
use shared_core::standing::act::Act;
use shared_core::standing::{Key, walk};
use shared_core::state::Stage;
use shared_core::time::{Instant, Span};
use shared_core::view::Viewer;
use shared_core::view::bench::{Standing, bench};
use shared_core::view::sweep::{When, sweep};

use crate::chance::Chance;

/// What a person wants now.
#[derive(Clone, Debug, PartialEq)]
pub(crate) enum Wish {
    /// Something that one phone does alone.
    Do(Command),
    /// A word on what somebody is to the shop, or a point of the walk.
    OfMember(Act),
    /// Somebody in the room to stand by.
    Buddy(Option<MachineId>),
    /// To be no buddy any longer, told phone to phone.
    BuddyGoes(PersonId),
}

const WORDS: [&str; 6] = ["", "  ", "belt slips", "guard is loose \u{1f6e0}", "\u{1}\u{7f}\"\\", "chips everywhere"];
const MATERIALS: [&str; 4] = ["mild steel", "aluminium", "magnesium", ""];

pub(crate) fn wish(viewer: &Viewer, chance: &mut Chance, nonsense: i64) -> Wish {
    if chance.hit(nonsense) {
        return Wish::Do(anything(viewer, chance));
    }
    let Some(session) = viewer.open_session() else {
        let wish = if chance.hit(850) { arrive(viewer, chance, false) } else { about_the_shop(viewer, chance) };
        return if chance.hit(80) { Wish::OfMember(of_member(viewer, chance)) } else { Wish::Do(wish) };
    };
    let past = viewer.now > session.out_by;
    match session.stage {
        Stage::Working if past || chance.hit(10) => Wish::Do(Command::StartSweep { crew: crew(chance) }),
        Stage::Working => work(viewer, chance),
        Stage::Sweeping(_) | Stage::Left { .. } => Wish::Do(close_down(viewer, chance, past)),
    }
}

fn crew(chance: &mut Chance) -> u32 {
    *chance.pick(&[1, 1, 1, 2, 3])
}

fn work(viewer: &Viewer, chance: &mut Chance) -> Wish {
    let Some(view) = bench(viewer) else { return Wish::Do(Command::Leave) };
    let ready = view.machines.iter().filter(|row| matches!(row.standing, Standing::Ready(_)));
    let ready: Vec<&MachineId> = ready.map(|row| &row.id).collect();
    let running = view.machines.iter().filter(|row| matches!(row.standing, Standing::Running { .. }));
    let running: Vec<&MachineId> = running.map(|row| &row.id).collect();
    match chance.below(100) {
        0..20 if !ready.is_empty() => {
            Wish::Do(Command::StartMachine { machine: (*chance.pick(&ready)).clone(), material: None })
        }
        0..35 => {
            let machines: Vec<&MachineId> = viewer.book.machines.iter().map(|machine| &machine.id).collect();
            let material = chance.hit(700).then(|| (*chance.pick(&MATERIALS)).to_owned());
            Wish::Do(Command::StartMachine { machine: (*chance.pick(&machines)).clone(), material })
        }
        35..55 if !running.is_empty() => Wish::Do(Command::StopMachine { machine: (*chance.pick(&running)).clone() }),
        55..80 => Wish::Buddy(chance.hit(300).then(|| any_machine(viewer, chance))),
        80..85 => match view.buddies.first() {
            Some(row) if chance.hit(500) => Wish::BuddyGoes(row.who.clone()),
            Some(row) => Wish::Do(Command::EndBuddy { buddy: row.who.clone() }),
            None => Wish::Buddy(None),
        },
        85..92 => Wish::Do(Command::MoveOutBy { out_by: viewer.now + Span::from_minutes(chance.range(0, 180)) }),
        92..94 => Wish::Do(Command::WalkWatch),
        94..96 => Wish::OfMember(of_member(viewer, chance)),
        96 => Wish::Do(match chance.below(3) {
            0 => Command::SetTimer { rings_at: viewer.now + Span::from_minutes(chance.range(1, 90)) },
            1 => Command::NameOnBoard { may: chance.hit(500) },
            _ => Command::CallClear { room: session_room(viewer) },
        }),
        _ => Wish::Do(about_the_shop(viewer, chance)),
    }
}

fn close_down(viewer: &Viewer, chance: &mut Chance, past: bool) -> Command {
    let next = sweep(viewer).and_then(|view| {
        let turn = view.chores.iter().filter(|row| matches!(row.when, When::Next(_)));
        let turn: Vec<ChoreId> = turn.map(|row| row.id.clone()).collect();
        (!turn.is_empty()).then(|| chance.pick(&turn).clone())
    });
    match (chance.below(100), next) {
        (0..80, Some(chore)) => Command::FinishChore { chore, photo: chance.hit(100).then(|| "p".repeat(43)) },
        (80..88, _) => Command::WalkWatch,
        (88..90, _) => Command::HearBell,
        (90..93, _) => Command::StartSweep { crew: crew(chance) },
        (_, Some(_)) if past && chance.hit(300) => Command::LeaveUndone { why: *chance.pick(&Undone::ALL) },
        (_, None) => Command::Leave,
        (_, Some(_)) if past || chance.hit(50) => Command::Leave,
        _ => about_the_shop(viewer, chance),
    }
}

/// At the door: every statement in turn, each at its own moment; or, if `careless`, not every one.
fn arrive(viewer: &Viewer, chance: &mut Chance, careless: bool) -> Command {
    let room = chance.pick(&viewer.book.rooms).id.clone();
    let mut at = viewer.now - Span::from_ms(chance.range(0, 60_000));
    let mut door = Arriving::at(room.clone(), at);
    while let Some((_, next)) = door.next_statement(viewer.book) {
        let said: StatementId = next.id.clone();
        if careless && chance.hit(300) {
            break;
        }
        at = (at + Span::from_ms(chance.range(0, 9_000))).min(viewer.now);
        door.attest(viewer.book, &said, at);
    }
    let minutes = if careless { chance.range(-10, 2_000) } else { *chance.pick(&[15, 16, 20, 40, 90, 240, 700]) };
    Command::Arrive {
        session: SessionId::from_entropy(chance.bytes()),
        room,
        entered_at: door.began,
        out_by: viewer.now + Span::from_minutes(minutes),
        attested: door.attested,
    }
}

/// What anybody may say at any time.
fn about_the_shop(viewer: &Viewer, chance: &mut Chance) -> Command {
    let machine = any_machine(viewer, chance);
    let words = words(chance);
    match chance.below(11) {
        10 => Command::FinishRound { round: chance.pick(&viewer.book.rounds).id.clone() },
        0 => Command::TagOut { machine, problem: words, photo: None },
        1..4 => about_a_tag(viewer, machine, chance),
        5 => more_said(viewer, words, chance),
        4 => Command::ReportIncident { note: words, told: Told::default() },
        _ => {
            let condition = if chance.hit(500) { Condition::Clean } else { Condition::Mess };
            let place = if chance.hit(500) { Place::Machine(machine) } else { Place::Room(RoomId::from("forge")) };
            Command::ReportFound { place, condition, note: chance.hit(500).then_some(words) }
        }
    }
}

/// The first tag goes one step on: a part is waited for, somebody says that it is mended, then somebody else checks it.
fn about_a_tag(viewer: &Viewer, other: MachineId, chance: &mut Chance) -> Command {
    let Some(machine) = viewer.state.tags.keys().next() else { return Command::ClearTag { machine: other } };
    match repair::current(viewer.state, machine) {
        Some(outage) if !matches!(outage.standing(), repair::Standing::Mended { .. }) || chance.hit(100) => {
            let until = chance.hit(500).then(|| viewer.now + Span::from_minutes(chance.range(0, 3_000)));
            let step = *chance.pick(&[Step::Mended, Step::Mended, Step::WaitsForPart { until }, Step::Checked]);
            Command::Note { of: outage.newest(), step, note: None }
        }
        _ => Command::ClearTag { machine: machine.clone() },
    }
}

/// What a steward says more of a mess or an incident.
fn more_said(viewer: &Viewer, words: String, chance: &mut Chance) -> Command {
    let found = viewer.state.found.iter().map(|one| Of { matter: Matter::Found, at: one.at, who: one.by.clone() });
    let told = viewer.state.incidents.iter();
    let told = told.map(|one| Of { matter: Matter::Incident, at: one.at, who: one.by.clone() });
    let matters: Vec<Of> = found.chain(told).collect();
    let nothing = Of { matter: Matter::Session, at: viewer.now, who: viewer.me.clone() };
    let of = if matters.is_empty() { nothing } else { chance.pick(&matters).clone() };
    let step = *chance.pick(&[Step::Remarked, Step::Asked, Step::Changed, Step::SeenTo]);
    Command::Note { of, step, note: Some(words) }
}

/// Somebody is inducted, signed off, given a role, or has it taken back; or a point of one's own walk. Whoever has no say is
/// refused, by their phone or by the hub.
fn of_member(viewer: &Viewer, chance: &mut Chance) -> Act {
    let person = any_member(viewer, chance);
    let training =
        viewer.book.machine(&any_machine(viewer, chance)).map_or_else(String::new, |one| one.training.clone());
    let me = viewer.members.get(viewer.me);
    if !me.is_some_and(|me| me.steward || me.signer) && chance.hit(700) {
        let points = walk::points(viewer.book);
        let (point, _) = chance.pick(&points);
        return Act::Walk { point: point.clone(), answer: Some(u32::from(chance.hit(500)) + 1) };
    }
    match chance.below(10) {
        0..2 => Act::Induct(person),
        2..5 => Act::SignOff(person, training),
        5 => Act::TakeBack(person, Key::Training(training)),
        6 => Act::TakeBack(person, chance.pick(&[Key::Induction, Key::Role]).clone()),
        _ => Act::GiveRole(person, *chance.pick(&[Role::Signer, Role::Steward, Role::Steward, Role::Member])),
    }
}

fn session_room(viewer: &Viewer) -> RoomId {
    viewer.open_session().map_or_else(|| RoomId::from("attic"), |session| session.room.clone())
}

/// Any command at all, with any arguments.
fn anything(viewer: &Viewer, chance: &mut Chance) -> Command {
    let machine = if chance.hit(900) { any_machine(viewer, chance) } else { MachineId::from("nowhere") };
    let any_time = viewer.now + Span::from_minutes(chance.range(-2_000, 2_000));
    match chance.below(16) {
        0 => arrive(viewer, chance, true),
        1 => arrive_nowhere(viewer.now, chance),
        2 => Command::StartMachine { machine, material: Some(words(chance)) },
        3 => Command::StopMachine { machine },
        4 => Command::EndBuddy { buddy: any_member(viewer, chance) },
        5 => Command::MoveOutBy { out_by: any_time },
        6 => Command::StartSweep { crew: *chance.pick(&[0, 1, 1_001, u32::MAX]) },
        7 => Command::FinishChore { chore: ChoreId::of(machine.as_str(), "chips"), photo: None },
        8 => Command::FinishChore { chore: ChoreId::of("fitting", "close"), photo: None },
        9 => Command::WalkWatch,
        10 => Command::ClearTag { machine },
        11 => Command::TagOut { machine, problem: "\u{1f6e0}".repeat(chance.below(600)), photo: None },
        12 => Command::ReportIncident { note: "\u{1}".repeat(chance.below(600)), told: Told::default() },
        13 => Command::Leave,
        _ => about_the_shop(viewer, chance),
    }
}

fn arrive_nowhere(now: Instant, chance: &mut Chance) -> Command {
    Command::Arrive {
        session: SessionId::from_entropy(chance.bytes()),
        room: RoomId::from("attic"),
        entered_at: now,
        out_by: now + Span::from_minutes(60),
        attested: Vec::new(),
    }
}

fn words(chance: &mut Chance) -> String {
    (*chance.pick(&WORDS)).to_owned()
}

fn any_machine(viewer: &Viewer, chance: &mut Chance) -> MachineId {
    chance.pick(&viewer.book.machines).id.clone()
}

fn any_member(viewer: &Viewer, chance: &mut Chance) -> PersonId {
    let members: Vec<PersonId> = viewer.members.iter().map(|member| member.id.clone()).collect();
    chance.pick(&members).clone()
}
