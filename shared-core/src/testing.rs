//! A small shop for unit tests, and a world that lets commands happen in it.
//!
//! Invented, for tests alone. Instants are minutes after an arbitrary zero, so that a test reads like a timetable.

use crate::command::Command;
use crate::decide::decide;
use crate::entry::{Entry, Given};
use crate::ids::{MachineId, PersonId, RoomId, SessionId, StatementId};
use crate::members::{Member, Members};
use crate::ordered::Map;
use crate::refusal::Refusal;
use crate::rulebook::{
    BuddyRule, Chore, FireWatchRule, Machine, Reserve, Room, Round, Rulebook, Shop, Statement, When,
};
use crate::state::{State, fold};
use crate::time::{Instant, Span};
use crate::viewer::Viewer;

/// `minutes` after the tests' zero.
pub(crate) fn at(minutes: i64) -> Instant {
    Instant::from_ms(1_000_000_000_000) + Span::from_minutes(minutes)
}

/// A chore of whole minutes for one person.
pub(crate) fn chore(id: &str, minutes: i64, after: &[&str], when: When) -> Chore {
    Chore {
        id: id.into(),
        text: format!("Do {id}."),
        minutes_milli: minutes * 1000,
        per_hour_milli: 0,
        cap_milli: None,
        hands: 1,
        after: after.iter().map(|&after| after.to_owned()).collect(),
        gear: None,
        when,
    }
}

fn machine(id: &str, room: &str, buddy: bool, hot_work: bool) -> Machine {
    Machine {
        id: id.into(),
        name: format!("The {id}"),
        room: room.into(),
        training: id.into(),
        buddy,
        hot_work,
        pedal: false,
        noise_dba: None,
        vibration_ms2: None,
        wear: vec!["eyes".into()],
        never_wear: vec![],
        refuses: vec!["aluminium".into()],
        start_checks: vec![],
        voc: None,
        chores: vec![chore("brush", 4, &[], When::Always)],
    }
}

/// Rooms `forge` (lathe with buddy, torch hot, saw) and `fitting` (drill).
pub(crate) fn book() -> Rulebook {
    let room = |id: &str| Room {
        id: id.into(),
        name: format!("Room {id}"),
        chores: vec![chore("floor", 6, &["machines"], When::Always), chore("lights", 1, &["floor"], When::LastOut)],
        voc: None,
    };
    let statement = |id: &str| Statement {
        id: id.into(),
        text: format!("{id} is so."),
        decline: "Another day.".into(),
        sign: None,
        mark: None,
    };
    let round = |id: &str, every: &str| Round {
        id: id.into(),
        room: if id == "fans" { "fitting".into() } else { "forge".into() },
        text: format!("See to the {id}."),
        every: every.into(),
        source: None,
    };
    Rulebook {
        shop: Shop {
            name: "Test shop".into(),
            time_zone: "UTC".into(),
            session_hours_max: 6,
            retention_days: 90,
            induction_days: 365,
            demo: false,
            emergency: None,
        },
        reserve: Reserve { floor_minutes: 10, first_bell_minutes: 10, quantile: 0.8, prior_weight: 5 },
        buddy: BuddyRule { renew_minutes: 15, covers: 1, may_operate: false },
        fire_watch: FireWatchRule { minutes: 30, exclusive: true },
        statements: vec![statement("loose"), statement("eyes")],
        gear: vec![],
        rooms: vec![room("forge"), room("fitting")],
        machines: vec![
            machine("lathe", "forge", true, false),
            machine("torch", "forge", false, true),
            machine("saw", "forge", false, false),
            machine("drill", "fitting", false, false),
        ],
        rounds: vec![round("bin", "P1D"), round("wash", "P1W"), round("fans", "P1M")],
        fire: None,
        extinguishers: vec![],
        exits: vec![],
        translations: crate::rulebook::spoken::Translations::default(),
        stops: vec![],
        trainings: vec![],
    }
}

/// `noor` and `ilse` are signed off on everything, `bram` on the saw alone and as steward, `teun` is not inducted.
pub(crate) fn members() -> Members {
    let member = |id: &str, trainings: &[&str], inducted: bool| Member {
        id: id.into(),
        name: id.to_uppercase(),
        inducted_until: inducted.then(|| at(100_000)),
        signed_off: trainings.iter().map(|&training| (training.to_owned(), at(50_000))).collect::<Map<_, _>>(),
        steward: id == "bram",
        signer: false,
        ..Member::default()
    };
    let all = ["lathe", "torch", "saw", "drill"];
    Members::new(vec![
        member("noor", &all, true),
        member("ilse", &all, true),
        member("bram", &["saw"], true),
        member("teun", &all, false),
    ])
}

/// A shop in which commands happen.
#[derive(Clone)]
pub(crate) struct World {
    pub(crate) book: Rulebook,
    pub(crate) members: Members,
    pub(crate) state: State,
    pub(crate) log: Vec<Entry>,
    sessions: Map<PersonId, SessionId>,
}

impl World {
    pub(crate) fn new() -> Self {
        Self { book: book(), members: members(), state: State::default(), log: Vec::new(), sessions: Map::new() }
    }

    pub(crate) fn viewer<'a>(&'a self, me: &'a PersonId, now: Instant) -> Viewer<'a> {
        let session = self.sessions.get(me);
        let day_from = at(0);
        Viewer { book: &self.book, members: &self.members, state: &self.state, me, session, now, day_from }
    }

    /// Lets `who` do something at `minute`.
    pub(crate) fn act(&mut self, who: &str, minute: i64, command: Command) -> Result<(), Refusal> {
        self.act_at(who, at(minute), command)
    }

    pub(crate) fn act_at(&mut self, who: &str, now: Instant, command: Command) -> Result<(), Refusal> {
        let me = PersonId::from(who);
        let arrives = match &command {
            Command::Arrive { session, .. } => Some(session.clone()),
            _ => None,
        };
        let entries = decide(&self.viewer(&me, now), command)?;
        for entry in &entries {
            fold(&mut self.state, entry);
        }
        self.log.extend(entries);
        if let Some(session) = arrives {
            self.sessions.insert(me, session);
        }
        Ok(())
    }

    /// Takes `who`'s phone away: what it knew of its session is gone, what it said is not.
    pub(crate) fn lose_phone(&mut self, who: &str) {
        self.sessions.remove(&PersonId::from(who));
    }

    /// Lets `who` enter the forge at `minute`, out by `out_by`.
    pub(crate) fn enter(&mut self, who: &str, minute: i64, out_by: i64) -> Result<(), Refusal> {
        self.act(who, minute, arrive(who, "forge", minute, out_by))
    }
}

/// An arrival with everything attested.
pub(crate) fn arrive(who: &str, room: &str, minute: i64, out_by: i64) -> Command {
    Command::Arrive {
        session: SessionId::new(format!("{who}-{minute}")),
        room: RoomId::from(room),
        entered_at: at(minute),
        out_by: at(out_by),
        attested: ["loose", "eyes"].iter().map(|&id| (StatementId::from(id), at(minute))).collect(),
    }
}

/// A machine's start.
pub(crate) fn start(machine: &str) -> Command {
    Command::StartMachine { machine: MachineId::from(machine), material: None }
}

/// A machine's stop.
pub(crate) fn stop(machine: &str) -> Command {
    Command::StopMachine { machine: MachineId::from(machine) }
}

/// A buddy's word.
pub(crate) fn confirm(buddy: &str) -> Command {
    Command::ConfirmBuddy { buddy: PersonId::from(buddy), machine: None, proof: None, given: Given::OnTheirWord }
}
