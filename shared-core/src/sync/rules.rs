//! What a steward's phone and the hub say to each other of the rulebook: `GET` and `POST /api/rules`, `POST /api/rules/check`.

use serde::{Deserialize, Serialize};

use crate::ids::{BookId, ChoreId, MachineId, PersonId, RoomId};
use crate::time::Instant;

/// The answer to `GET /api/rules`.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct RulesHeld {
    /// What is in force, as TOML.
    pub text: String,
    /// Its id.
    pub book: BookId,
    /// What was published, the newest first.
    pub versions: Vec<RulesVersion>,
    /// Rulebooks to begin with.
    pub starts: Vec<RulesStart>,
}

/// A rulebook that was published.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct RulesVersion {
    /// Its number, from 1.
    pub number: i64,
    /// Its id.
    pub book: BookId,
    /// When.
    pub at: Instant,
    /// By whom.
    pub by: PersonId,
    /// Why, in their words; may be empty.
    pub note: String,
    /// The whole of it.
    pub text: String,
}

/// A rulebook to begin with.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct RulesStart {
    /// Its name: `metal`, `wood` or `mixed`.
    pub name: String,
    /// The whole of it.
    pub text: String,
}

/// `POST /api/rules/check`: what is wrong with a text, what it changes, and what an evening would be like.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct RulesTried {
    /// The text.
    pub text: String,
    /// An evening to try it with.
    #[serde(default)]
    pub evening: Option<Evening>,
    /// Which look this is, counted by whoever asks: two answers may overtake each other.
    #[serde(default)]
    pub turn: u32,
}

/// An evening that nobody has spent yet.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Evening {
    /// Where.
    pub room: RoomId,
    /// When everybody must be gone.
    pub out_by: Instant,
    /// How many people sweep.
    pub crew: u32,
    /// Whether nobody else stays.
    pub last_out: bool,
    /// Machines, and for how many minutes each is used.
    pub uses: Vec<(MachineId, u32)>,
}

/// The answer.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct RulesFound {
    /// Every problem, in the order of the lines.
    pub problems: Vec<RulesProblem>,
    /// What it says otherwise than what is in force, in words.
    pub changes: Vec<String>,
    /// Machines that run now and that it does not have.
    pub orphans: Vec<MachineId>,
    /// Its rooms and machines, to plan an evening with; of a text with problems, none.
    pub rooms: Vec<RulesRoom>,
    /// The evening.
    #[serde(default)]
    pub evening: Option<EveningPlanned>,
    /// Why the evening cannot be.
    #[serde(default)]
    pub impossible: Option<String>,
    /// The question's.
    #[serde(default)]
    pub turn: u32,
}

/// One problem of a text.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct RulesProblem {
    /// Line, from 1.
    pub line: u32,
    /// Column in characters, from 1.
    pub column: u32,
    /// What is wrong.
    pub what: String,
    /// What was probably meant, or what to write.
    #[serde(default)]
    pub hint: Option<String>,
}

/// A room of a rulebook, and its machines by id and name.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct RulesRoom {
    /// Its id.
    pub id: RoomId,
    /// Its name.
    pub name: String,
    /// Its machines.
    pub machines: Vec<(MachineId, String)>,
}

/// What an evening would be like.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct EveningPlanned {
    /// When everybody must be gone.
    pub out_by: Instant,
    /// When the sweep starts.
    pub sweep_from: Instant,
    /// When the first bell rings.
    pub first_bell: Instant,
    /// The last spark, with hot work.
    pub last_spark: Option<Instant>,
    /// The fire watch, with hot work.
    pub watch: Option<(Instant, Instant)>,
    /// Minutes held back.
    pub reserve_minutes: i64,
    /// Who does what when.
    pub steps: Vec<EveningStep>,
}

/// One chore of it.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct EveningStep {
    /// Which.
    pub id: ChoreId,
    /// From when.
    pub start: Instant,
    /// To when.
    pub end: Instant,
    /// People that it takes.
    pub hands: u32,
}

/// `POST /api/rules`: this is the rulebook from now on.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct RulesPublish {
    /// The text.
    pub text: String,
    /// What it was written over: the id of what was in force then.
    pub over: BookId,
    /// Why, in words; may be empty.
    #[serde(default)]
    pub note: String,
    /// Although machines run that it does not have: their sessions keep their own rules.
    #[serde(default)]
    pub anyway: bool,
}

/// The answer.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct RulesPublished {
    /// Its number.
    pub number: i64,
    /// Its id.
    pub book: BookId,
}
