//! Keys, entries and logs for tests. Nothing of it ships.

use ed25519_dalek::SigningKey;
use proptest::prelude::*;

use super::chain::Head;
use super::jws::{self, Link, Signed};
use crate::card::Role;
use crate::entry::{Condition, Entry, Fact, Given, Happened, Matter, Of, Place, Point, Step, Told, Undone};
use crate::ids::{BookId, ChoreId, PersonId, SessionId};
use crate::time::Instant;

/// A device's key; every number is another device.
pub(crate) fn key(number: u8) -> SigningKey {
    SigningKey::from_bytes(&[number; 32])
}

/// An instant, `minutes` after the tests' day began.
pub(crate) fn minute(minutes: i64) -> Instant {
    Instant::from_ms(1_777_000_000_000 + minutes * 60_000)
}

/// An entry of `who`.
pub(crate) fn said(who: &str, minutes: i64, fact: Fact) -> Entry {
    Entry { at: minute(minutes), session: SessionId::from_entropy([7; 8]), who: PersonId::from(who), fact }
}

/// A device that writes its log.
pub(crate) struct Writer {
    pub(crate) key: SigningKey,
    pub(crate) head: Head,
}

impl Writer {
    pub(crate) fn new(number: u8) -> Self {
        Self { key: key(number), head: Head::default() }
    }

    pub(crate) fn link(&self) -> Link {
        Link {
            dev: jws::device_of(&self.key.verifying_key()),
            seq: self.head.seq + 1,
            prev: self.head.hash.clone(),
            book: BookId::from("1rnk-W8d8cB2KOcL0rYJrHHnQd0MSqT9aUb5oQmbN8c"),
        }
    }

    /// Signs the next entry.
    pub(crate) fn write(&mut self, entry: &Entry) -> Signed {
        let signed = jws::sign(entry, &self.link(), &self.key);
        self.head = Head { seq: signed.seq, hash: jws::hash(&signed.jws) };
        signed
    }
}

/// One entry of each kind, with every field in some entry present and in another absent.
pub(crate) fn one_of_each() -> Vec<Entry> {
    let out_by = minute(180);
    let machine = || "pillar-drill".into();
    let facts = vec![
        Fact::Entered { room: "fitting".into(), out_by },
        Fact::Attested { statement: "eyes".into() },
        Fact::MachineStarted { machine: machine(), material: Some("mild steel".to_owned()) },
        Fact::MachineStarted { machine: machine(), material: None },
        Fact::MachineStopped { machine: machine() },
        Fact::BuddyConfirmed {
            buddy: "m2".into(),
            machine: Some(machine()),
            proof: Some("SWB1:BB8".to_owned()),
            given: Given::OnTheirWord,
        },
        Fact::BuddyConfirmed { buddy: "m2".into(), machine: None, proof: None, given: Given::OnTheirWord },
        Fact::BuddyLeft { buddy: "m2".into() },
        Fact::OutByMoved { out_by: Instant::from_ms(out_by.ms() + 1) },
        Fact::SweepStarted { crew: 2 },
        Fact::ChoreDone { chore: ChoreId::of("fitting", "floor"), minutes: Some(4.5), photo: Some("p".repeat(43)) },
        Fact::ChoreDone { chore: ChoreId::of("pillar-drill", "chips"), minutes: None, photo: None },
        Fact::WatchRound,
        Fact::Found { place: Place::Room("fitting".into()), condition: Condition::Clean, note: None },
        Fact::Found {
            place: Place::Machine(machine()),
            condition: Condition::Mess,
            note: Some("chips \"everywhere\",\nand oil \u{2014} \u{1f9f9}".to_owned()),
        },
        Fact::TaggedOut { machine: machine(), problem: "guard is loose".to_owned(), photo: None },
        Fact::TagCleared { machine: machine() },
        Fact::Incident { note: "a cut finger, dressed".to_owned(), told: Told::default() },
        Fact::ClockJumped { seconds: -95 },
        Fact::Unrecognised { what: "weighed".to_owned() },
        Fact::Left,
        // Since 0.2.
        Fact::RoundDone { round: "oily_bin".into() },
        // Since 0.3.
        Fact::BuddyConfirmed { buddy: "m2".into(), machine: None, proof: None, given: Given::InTheRoom },
        Fact::BuddyConfirmed { buddy: "m2".into(), machine: None, proof: None, given: Given::ByPin },
        // Since 0.4.
        Fact::TimerSet { rings_at: Instant::from_ms(out_by.ms() - 900_000) },
        Fact::ClearCalled { room: "fitting".into() },
    ];
    let facts = facts.into_iter().chain(since_0_5(out_by));
    (0..).zip(facts).map(|(minutes, fact)| said("m1", minutes, fact)).collect()
}

/// What 0.5 and later releases know of.
fn since_0_5(out_by: Instant) -> Vec<Fact> {
    let machine = || "pillar-drill".into();
    vec![
        // Since 0.5.
        Fact::BellHeard,
        Fact::SweepUndone { why: Undone::OthersSweep },
        Fact::BoardName { may: true },
        // Since 0.6.
        Fact::Walked { point: Point::Stop("bin".into()), mark: "k".repeat(16) },
        Fact::Walked { point: Point::Statement("eyes".into()), mark: "k".repeat(16) },
        Fact::WalkDone { mark: "k".repeat(16) },
        Fact::Inducted { person: "m2".into(), until: Some(out_by) },
        Fact::Inducted { person: "m2".into(), until: None },
        Fact::SignedOff { person: "m2".into(), training: "drill".to_owned(), until: Some(out_by) },
        Fact::SignedOff { person: "m2".into(), training: "drill".to_owned(), until: None },
        Fact::RoleGiven { person: "m2".into(), role: Role::Signer },
        // Since 0.7.
        Fact::TaggedOut { machine: machine(), problem: "the rest is cracked".to_owned(), photo: Some("q".repeat(43)) },
        Fact::Incident {
            note: "a disc burst behind its guard".to_owned(),
            told: Told {
                place: Some(Place::Machine(machine())),
                kind: Some(Happened::NearMiss),
                first_aid: Some(false),
            },
        },
        noted(Matter::Tag(machine()), Step::WaitsForPart { until: Some(out_by) }, Some("a rest, from the maker")),
        noted(Matter::Tag(machine()), Step::WaitsForPart { until: None }, None),
        noted(Matter::Tag(machine()), Step::Mended, Some("new rest, lined up")),
        noted(Matter::Tag(machine()), Step::Checked, None),
        noted(Matter::Found, Step::Asked, None),
        noted(Matter::Found, Step::Remarked, Some("nobody had been told of the pan")),
        noted(Matter::Incident, Step::Changed, Some("discs are dated now")),
        noted(Matter::Session, Step::SeenTo, None),
        // Since 0.8.
        Fact::RulesPublished {
            number: 4,
            book: "b".repeat(16).as_str().into(),
            note: Some("a longer watch".to_owned()),
        },
        Fact::RulesPublished { number: 4, book: "b".repeat(16).as_str().into(), note: None },
    ]
}

fn noted(matter: Matter, step: Step, note: Option<&str>) -> Fact {
    let of = Of { matter, at: Instant::from_ms(1_780_000_000_000), who: "m2".into() };
    Fact::Noted { of, step, note: note.map(str::to_owned) }
}

fn id() -> impl Strategy<Value = String> {
    "[a-z0-9-]{1,24}|\\PC{1,8}"
}

fn note() -> impl Strategy<Value = String> {
    "\\PC{0,40}|[\"\\\\\n\t\u{0}\u{7f}]{0,6}"
}

fn any_instant() -> impl Strategy<Value = Instant> {
    // The years that RFC 3339 can write: 0000 to 9999.
    (-62_167_219_200_000_i64..=253_402_300_799_999).prop_map(Instant::from_ms)
}

fn any_place() -> impl Strategy<Value = Place> {
    prop_oneof![
        id().prop_map(|machine| Place::Machine(machine.as_str().into())),
        id().prop_map(|room| Place::Room(room.as_str().into())),
    ]
}

fn any_standing() -> impl Strategy<Value = Fact> {
    let until = || proptest::option::of(any_instant());
    let role = proptest::sample::select(vec![Role::Member, Role::Signer, Role::Steward]);
    let point = prop_oneof![
        id().prop_map(|stop| Point::Stop(stop.as_str().into())),
        id().prop_map(|statement| Point::Statement(statement.as_str().into())),
    ];
    prop_oneof![
        (point, id()).prop_map(|(point, mark)| Fact::Walked { point, mark }),
        id().prop_map(|mark| Fact::WalkDone { mark }),
        (id(), until()).prop_map(|(person, until)| Fact::Inducted { person: person.as_str().into(), until }),
        (id(), id(), until()).prop_map(|(person, training, until)| Fact::SignedOff {
            person: person.as_str().into(),
            training,
            until,
        }),
        (id(), role).prop_map(|(person, role)| Fact::RoleGiven { person: person.as_str().into(), role }),
        (1_u32.., id(), proptest::option::of(note())).prop_map(|(number, book, note)| Fact::RulesPublished {
            number,
            book: book.as_str().into(),
            note
        }),
    ]
}

fn any_told() -> impl Strategy<Value = Told> {
    let kind = proptest::sample::select(vec![Happened::NearMiss, Happened::Incident]);
    (proptest::option::of(any_place()), proptest::option::of(kind), any::<Option<bool>>())
        .prop_map(|(place, kind, first_aid)| Told { place, kind, first_aid })
}

fn any_of() -> impl Strategy<Value = Of> {
    let matter = prop_oneof![
        id().prop_map(|machine| Matter::Tag(machine.as_str().into())),
        Just(Matter::Found),
        Just(Matter::Incident),
        Just(Matter::Session),
    ];
    (matter, any_instant(), id()).prop_map(|(matter, at, who)| Of { matter, at, who: who.as_str().into() })
}

fn any_step() -> impl Strategy<Value = Step> {
    prop_oneof![
        proptest::option::of(any_instant()).prop_map(|until| Step::WaitsForPart { until }),
        proptest::sample::select(vec![
            Step::Remarked,
            Step::Mended,
            Step::Checked,
            Step::Asked,
            Step::Changed,
            Step::SeenTo,
        ]),
    ]
}

fn any_fact() -> impl Strategy<Value = Fact> {
    let text = || proptest::option::of(note());
    let short = || proptest::option::of(id());
    let given = || proptest::sample::select(vec![Given::OnTheirWord, Given::InTheRoom, Given::ByPin]);
    let minutes = proptest::option::of((0_u32..=1_440_000).prop_map(|milli| f64::from(milli) / 1_000.0));
    prop_oneof![
        (id(), any_instant()).prop_map(|(room, out_by)| Fact::Entered { room: room.as_str().into(), out_by }),
        id().prop_map(|statement| Fact::Attested { statement: statement.as_str().into() }),
        (id(), text()).prop_map(|(id, material)| Fact::MachineStarted { machine: id.as_str().into(), material }),
        id().prop_map(|machine| Fact::MachineStopped { machine: machine.as_str().into() }),
        (id(), short(), short(), given()).prop_map(|(buddy, machine, proof, given)| Fact::BuddyConfirmed {
            buddy: buddy.as_str().into(),
            machine: machine.map(|machine| machine.as_str().into()),
            proof,
            given,
        }),
        id().prop_map(|buddy| Fact::BuddyLeft { buddy: buddy.as_str().into() }),
        any_instant().prop_map(|out_by| Fact::OutByMoved { out_by }),
        (1_u32..).prop_map(|crew| Fact::SweepStarted { crew }),
        (id(), minutes, short()).prop_map(|(chore, minutes, photo)| Fact::ChoreDone {
            chore: chore.as_str().into(),
            minutes,
            photo,
        }),
        Just(Fact::WatchRound),
        Just(Fact::BellHeard),
        any::<bool>().prop_map(|may| Fact::BoardName { may }),
        proptest::sample::select(&Undone::ALL[..]).prop_map(|why| Fact::SweepUndone { why }),
        id().prop_map(|room| Fact::ClearCalled { room: room.as_str().into() }),
        any_instant().prop_map(|rings_at| Fact::TimerSet { rings_at }),
        id().prop_map(|round| Fact::RoundDone { round: round.as_str().into() }),
        any_standing(),
        (any_place(), any::<bool>(), text()).prop_map(|(place, clean, note)| Fact::Found {
            place,
            condition: if clean { Condition::Clean } else { Condition::Mess },
            note,
        }),
        (id(), note(), short()).prop_map(|(id, problem, photo)| Fact::TaggedOut {
            machine: id.as_str().into(),
            problem,
            photo,
        }),
        id().prop_map(|machine| Fact::TagCleared { machine: machine.as_str().into() }),
        (note(), any_told()).prop_map(|(note, told)| Fact::Incident { note, told }),
        (any_of(), any_step(), text()).prop_map(|(of, step, note)| Fact::Noted { of, step, note }),
        any::<i64>().prop_map(|seconds| Fact::ClockJumped { seconds }),
        Just(Fact::Left),
        "x_[a-z_]{1,20}".prop_map(|what| Fact::Unrecognised { what }),
    ]
}

/// Any entry that can be said.
pub(crate) fn any_entry() -> impl Strategy<Value = Entry> {
    (any_instant(), id(), id(), any_fact()).prop_map(|(at, session, who, fact)| Entry {
        at,
        session: SessionId::new(session),
        who: PersonId::new(who),
        fact,
    })
}
