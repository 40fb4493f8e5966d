//! One shop's rules, as types.
//!
//! The rulebook is written in TOML by a steward and read once, by the hub (`toml` feature, module `parse`);
//! phones are handed the same types as JSON. What is here has been linted: ids are unique, references resolve.
//! Nothing here decides anything.

#[cfg(feature = "toml")]
mod cycle;
pub mod emergency;
#[cfg(feature = "toml")]
mod fields;
#[cfg(feature = "toml")]
mod hazards;
#[cfg(feature = "toml")]
mod keys;
#[cfg(feature = "toml")]
mod languages;
#[cfg(feature = "toml")]
mod lint;
#[cfg(feature = "toml")]
pub mod members_file;
#[cfg(feature = "toml")]
pub mod parse;
#[cfg(feature = "toml")]
pub mod problem;
#[cfg(feature = "toml")]
mod reading;
pub mod spoken;
#[cfg(feature = "toml")]
pub mod suggest;
#[cfg(all(test, feature = "toml"))]
mod tests;
#[cfg(feature = "toml")]
mod walk;

use serde::Serialize;

use self::emergency::{Exit, Extinguisher, FireRule};
use self::spoken::Translations;
use crate::ids::{GearId, MachineId, PersonId, RoomId, RoundId, StatementId, StopId};
use crate::json::{FromJson, Unfit, field, from_json, read_as_json};
use crate::ordered::Set;

/// So many days a log is kept unless the rulebook says otherwise. Common practice, no source: long enough for a round that is due
/// each quarter and for whoever was away, and no longer.
pub const RETENTION_DAYS: u32 = 90;

/// So many days an induction or a sign-off holds unless the rulebook says otherwise. Common practice, no source.
pub const VALID_DAYS: u32 = 365;

/// Everything a shop asks of its members.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Rulebook {
    /// The shop itself.
    pub shop: Shop,
    /// How the sweep's reserve is reckoned.
    pub reserve: Reserve,
    /// What a buddy's confirmation is worth.
    pub buddy: BuddyRule,
    /// The watch after hot work.
    pub fire_watch: FireWatchRule,
    /// What is attested at the door, in order.
    pub statements: Vec<Statement>,
    /// Gear that chores share.
    pub gear: Vec<Gear>,
    /// The rooms.
    pub rooms: Vec<Room>,
    /// The machines of all rooms.
    pub machines: Vec<Machine>,
    /// Recurring duties.
    pub rounds: Vec<Round>,
    /// The induction walk.
    pub stops: Vec<Stop>,
    /// What is said of trainings besides their names.
    pub trainings: Vec<Training>,
    /// What holds for the extinguishers; none without any.
    pub fire: Option<FireRule>,
    /// The extinguishers of all rooms.
    pub extinguishers: Vec<Extinguisher>,
    /// The doors of all rooms: ways out, and what is none.
    pub exits: Vec<Exit>,
    /// What the texts above are in other languages.
    #[serde(skip_serializing_if = "Translations::is_empty")]
    pub translations: Translations,
}

/// The shop itself.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Shop {
    /// Its name, as members say it.
    pub name: String,
    /// An IANA time zone name; phones are handed offsets instead.
    pub time_zone: String,
    /// After this many hours attestations lapse.
    pub session_hours_max: u32,
    /// So many days the log is kept for people to read; what is in force stays ([`crate::retention`]).
    pub retention_days: u32,
    /// So many days an induction holds.
    pub induction_days: u32,
    /// Demo data says that it is demo data.
    pub demo: bool,
    /// The number to call in an emergency, as it is dialled.
    pub emergency: Option<String>,
}

/// How the sweep's reserve is reckoned.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Reserve {
    /// Never less than this many minutes.
    pub floor_minutes: u32,
    /// The first bell rings this many minutes before the sweep.
    pub first_bell_minutes: u32,
    /// The share of observed chore times that the estimate covers, 0 to 1.
    pub quantile: f64,
    /// How many observations the written minutes count as.
    pub prior_weight: u32,
}

/// What a buddy's confirmation is worth.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct BuddyRule {
    /// A confirmation covers this many minutes.
    pub renew_minutes: u32,
    /// At most this many operators at once.
    pub covers: u32,
    /// Whether a buddy may run a buddy machine meanwhile.
    pub may_operate: bool,
}

/// The watch after hot work.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct FireWatchRule {
    /// How long after the last spark.
    pub minutes: u32,
    /// Whether the watcher may do nothing else.
    pub exclusive: bool,
}

/// One statement, attested by its own act.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Statement {
    /// Its id.
    pub id: StatementId,
    /// What the member says is true.
    pub text: String,
    /// What to do instead when it is not.
    pub decline: String,
    /// What it is about, for the sign drawn beside it: `eyes`, `loose`, `sober`, ...
    pub sign: Option<String>,
    /// The mark of what it says ([`crate::standing::walk`]).
    pub mark: Option<String>,
}

/// Gear that chores share: a vacuum, a broom.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Gear {
    /// Its id.
    pub id: GearId,
    /// How many of it there are.
    pub count: u32,
}

/// A room.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Room {
    /// Its id.
    pub id: RoomId,
    /// Its name.
    pub name: String,
    /// Its own chores.
    pub chores: Vec<Chore>,
    /// What may be painted or glued in it, outside any hood; none for nothing.
    pub voc: Option<VocLimit>,
}

/// The most that a tin used here may have of volatile organic compounds.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct VocLimit {
    /// Grams per litre, ready to use.
    pub g_per_l: u32,
    /// Whose number that is: regions differ.
    pub source: String,
}

/// When a room chore belongs to a session.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize)]
#[serde(rename_all = "kebab-case")]
pub enum When {
    /// To every session.
    #[default]
    Always,
    /// To whoever leaves the room empty.
    LastOut,
}

/// One close-down step of a machine or a room.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Chore {
    /// Its id within its owner.
    pub id: String,
    /// What to do.
    pub text: String,
    /// Minutes it takes, in thousandths, so that the arithmetic is exact.
    pub minutes_milli: i64,
    /// Minutes more per hour of use, in thousandths. Machine chores only.
    pub per_hour_milli: i64,
    /// Never more than this, in thousandths of a minute.
    pub cap_milli: Option<i64>,
    /// People needed at once; 0 is unattended.
    pub hands: u32,
    /// Chores that come first: of the same owner, `owner/chore`, or in a room chore `machines`.
    pub after: Vec<String>,
    /// Gear it occupies.
    pub gear: Option<GearId>,
    /// When a room chore belongs to a session; always, for a machine's.
    pub when: When,
}

/// A machine.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Machine {
    /// Its id.
    pub id: MachineId,
    /// Its name.
    pub name: String,
    /// Where it stands.
    pub room: RoomId,
    /// The training that a member must be signed off for.
    pub training: String,
    /// Whether its use must be covered by a buddy.
    pub buddy: bool,
    /// Whether it makes sparks, flame or arcs.
    pub hot_work: bool,
    /// Whether any foot can start it.
    pub pedal: bool,
    /// Typical level at the operator's ear.
    pub noise_dba: Option<f64>,
    /// Typical hand-arm vibration magnitude.
    pub vibration_ms2: Option<f64>,
    /// Protection to wear.
    pub wear: Vec<String>,
    /// What must never be worn.
    pub never_wear: Vec<String>,
    /// Materials it refuses.
    pub refuses: Vec<String>,
    /// What to check before it starts.
    pub start_checks: Vec<String>,
    /// For a hood: what may be painted or glued in it.
    pub voc: Option<VocLimit>,
    /// Its chores.
    pub chores: Vec<Chore>,
}

/// A recurring duty.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Round {
    /// Its id.
    pub id: RoundId,
    /// Where.
    pub room: RoomId,
    /// What to do.
    pub text: String,
    /// How often, an ISO 8601 duration.
    pub every: String,
    /// Who says so.
    pub source: Option<String>,
}

/// A stop of the induction walk.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Stop {
    /// Its id.
    pub id: StopId,
    /// Where.
    pub room: RoomId,
    /// What is said there.
    pub text: String,
    /// More of it, a line each.
    pub says: Vec<String>,
    /// The sign drawn beside it.
    pub sign: Option<String>,
    /// What is asked there.
    pub question: Option<Question>,
    /// The mark of what it says ([`crate::standing::walk`]).
    pub mark: Option<String>,
}

/// What a stop asks.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct Question {
    /// The question.
    pub text: String,
    /// Its answers.
    pub answers: Vec<String>,
    /// Which of them is right, counted from 1.
    pub right: u32,
    /// Why, for whoever picked another.
    pub because: String,
}

/// What members are signed off on. A machine may ask for one that nothing more is said of.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct Training {
    /// Its id, as machines and the members file name it.
    pub id: String,
    /// What it is called.
    pub name: String,
    /// What is done together at the machine before it is signed.
    pub checklist: Vec<String>,
    /// So many days a sign-off holds.
    pub valid_days: u32,
    /// A sign-off lapses earlier without a use in so many days.
    pub use_within_days: Option<u32>,
    /// The members who sign others off, among those whose role it is; all of those if nobody is named.
    pub signers: Vec<PersonId>,
}

from_json! {
    Rulebook { shop, reserve, buddy, fire_watch, statements, gear, rooms, machines, rounds, stops, trainings, fire, extinguishers, exits, translations }
    Reserve { floor_minutes, first_bell_minutes, quantile, prior_weight }
    BuddyRule { renew_minutes, covers, may_operate }
    FireWatchRule { minutes, exclusive }
    Statement { id, text, decline, sign, mark }
    Gear { id, count }
    Room { id, name, chores, voc }
    VocLimit { g_per_l, source }
    Chore { id, text, minutes_milli, per_hour_milli, cap_milli, hands, after, gear, when }
    Machine { id, name, room, training, buddy, hot_work, pedal, noise_dba, vibration_ms2, wear, never_wear, refuses, start_checks, voc, chores }
    Round { id, room, text, every, source }
    Stop { id, room, text, says, sign, question, mark }
    Question { text, answers, right, because }
    Training { id, name, checklist, valid_days, use_within_days, signers }
}

impl FromJson for Shop {
    fn from_json(value: &serde_json::Value) -> Result<Self, Unfit> {
        Ok(Self {
            name: field(value, "name")?,
            time_zone: field(value, "time_zone")?,
            session_hours_max: field(value, "session_hours_max")?,
            // A hub of an earlier release says nothing of it.
            retention_days: field::<Option<u32>>(value, "retention_days")?.unwrap_or(RETENTION_DAYS),
            induction_days: field::<Option<u32>>(value, "induction_days")?.unwrap_or(VALID_DAYS),
            demo: field(value, "demo")?,
            emergency: field(value, "emergency")?,
        })
    }
}

read_as_json!(Shop);

impl FromJson for When {
    fn from_json(value: &serde_json::Value) -> Result<Self, Unfit> {
        match value.as_str() {
            Some("always") => Ok(Self::Always),
            Some("last-out") => Ok(Self::LastOut),
            _ => Err(Unfit("`always` or `last-out`")),
        }
    }
}

impl Rulebook {
    /// The machine of that id.
    pub fn machine(&self, id: &MachineId) -> Option<&Machine> {
        self.machines.iter().find(|machine| machine.id == *id)
    }

    /// What a machine is called; its id if the rulebook has no such machine.
    pub fn machine_name(&self, id: &MachineId) -> String {
        self.machine(id).map_or_else(|| id.to_string(), |machine| machine.name.clone())
    }

    /// The room of that id.
    pub fn room(&self, id: &RoomId) -> Option<&Room> {
        self.rooms.iter().find(|room| room.id == *id)
    }

    /// The round of that id.
    pub fn round(&self, id: &RoundId) -> Option<&Round> {
        self.rounds.iter().find(|round| round.id == *id)
    }

    /// The machines that stand in a room, in the rulebook's order.
    pub fn machines_in<'a>(&'a self, room: &'a RoomId) -> impl Iterator<Item = &'a Machine> {
        self.machines.iter().filter(move |machine| machine.room == *room)
    }

    /// Every training that a machine asks for.
    pub fn trainings(&self) -> Set<&str> {
        self.machines.iter().map(|machine| machine.training.as_str()).collect()
    }

    /// The stop of that id.
    pub fn stop(&self, id: &StopId) -> Option<&Stop> {
        self.stops.iter().find(|stop| stop.id == *id)
    }

    /// What more is said of a training.
    pub fn training(&self, id: &str) -> Option<&Training> {
        self.trainings.iter().find(|training| training.id == id)
    }

    /// What a training is called; its id, if nothing more is said of it.
    pub fn training_name<'a>(&'a self, id: &'a str) -> &'a str {
        self.training(id).map_or(id, |training| &training.name)
    }

    /// So many days a sign-off on a training holds.
    pub fn valid_days(&self, id: &str) -> u32 {
        self.training(id).map_or(VALID_DAYS, |training| training.valid_days)
    }

    /// All gear ids with their counts, in the rulebook's order.
    pub fn gear_count(&self, id: &GearId) -> u32 {
        self.gear.iter().find(|gear| gear.id == *id).map_or(0, |gear| gear.count)
    }
}
