//! What can be said: the closed list of facts that a log holds.
//!
//! An entry is a fact, who says it, in which session, and when. What happened, happened: nothing here refuses.
//! How an entry is written down (JSON, JWS) belongs to [`crate::log`]; this module knows no wire.

use borsh::{BorshDeserialize, BorshSerialize};

use crate::card::Role;
use crate::ids::{BookId, ChoreId, MachineId, PersonId, RoomId, RoundId, SessionId, StatementId, StopId};
use crate::time::Instant;

/// One line of the log.
#[derive(Clone, Debug, PartialEq)]
pub struct Entry {
    /// When it happened, by the device's steady clock.
    pub at: Instant,
    /// The session it belongs to.
    pub session: SessionId,
    /// Who says so.
    pub who: PersonId,
    /// What happened.
    pub fact: Fact,
}

/// What happened. DESIGN.md section 5, "Log lines", gives the wire names.
#[derive(Clone, Debug, PartialEq)]
pub enum Fact {
    /// The session began: the member is in the room.
    Entered {
        /// Which room.
        room: RoomId,
        /// When they must be gone.
        out_by: Instant,
    },
    /// A statement was attested.
    Attested {
        /// Which.
        statement: StatementId,
    },
    /// A machine was started.
    MachineStarted {
        /// Which.
        machine: MachineId,
        /// What is worked, if said.
        material: Option<String>,
    },
    /// A machine was stopped.
    MachineStopped {
        /// Which.
        machine: MachineId,
    },
    /// A buddy confirmed that they are in the room.
    BuddyConfirmed {
        /// Who.
        buddy: PersonId,
        /// For one machine alone, if said.
        machine: Option<MachineId>,
        /// The buddy's signed answer as it was scanned or carried, if there is one.
        proof: Option<String>,
        /// What shows that they are in the room.
        given: Given,
    },
    /// A buddy left, or stopped being one.
    BuddyLeft {
        /// Who.
        buddy: PersonId,
    },
    /// The out-by moved.
    OutByMoved {
        /// To when.
        out_by: Instant,
    },
    /// The sweep began.
    SweepStarted {
        /// How many people sweep.
        crew: u32,
    },
    /// A chore was done.
    ChoreDone {
        /// Which.
        chore: ChoreId,
        /// How long it took, if known.
        minutes: Option<f64>,
        /// SHA-256 (base64url) of a picture kept on the phone, if one was taken.
        photo: Option<String>,
    },
    /// The watcher walked the hot-work place.
    WatchRound,
    /// A round, a recurring duty of the room, was done.
    RoundDone {
        /// Which.
        round: RoundId,
    },
    /// A machine or room was found clean or as a mess.
    Found {
        /// Which.
        place: Place,
        /// How.
        condition: Condition,
        /// In the finder's words.
        note: Option<String>,
    },
    /// A machine was tagged out.
    TaggedOut {
        /// Which.
        machine: MachineId,
        /// What is wrong, in words.
        problem: String,
        /// SHA-256 (base64url) of a picture kept on the phone, if one was taken.
        photo: Option<String>,
    },
    /// A tag was taken off.
    TagCleared {
        /// From which machine.
        machine: MachineId,
    },
    /// Something happened that the steward should know.
    Incident {
        /// In the teller's words.
        note: String,
        /// What was ticked beside them.
        told: Told,
    },
    /// Something more is said of what an earlier line says: what became of a tag, a mess, an incident, an evening.
    Noted {
        /// Of which.
        of: Of,
        /// What happened with it.
        step: Step,
        /// In words.
        note: Option<String>,
    },
    /// The phone's wall clock jumped against its steady clock.
    ClockJumped {
        /// By how many seconds; negative is backwards.
        seconds: i64,
    },
    /// The member says that they set the phone's own timer: what rings in a pocket without a network.
    TimerSet {
        /// When it rings.
        rings_at: Instant,
    },
    /// Somebody calls everybody out of a room.
    ClearCalled {
        /// Which room.
        room: RoomId,
    },
    /// The member heard a bell that asks for no act of theirs.
    BellHeard,
    /// Why the member leaves with the sweep not done, in their word.
    SweepUndone {
        /// Why.
        why: Undone,
    },
    /// Whether the room's board may name the member when it rings for them in this session; until they say so, it may not.
    BoardName {
        /// Whether.
        may: bool,
    },
    /// The member left the room.
    Left,
    /// A point of the induction walk was seen and understood.
    Walked {
        /// Which.
        point: Point,
        /// The mark of what it said then ([`crate::standing::walk`]).
        mark: String,
    },
    /// All points of the walk were, as they stood then.
    WalkDone {
        /// The mark of all of it.
        mark: String,
    },
    /// Somebody was inducted, or is no longer.
    Inducted {
        /// Who.
        person: PersonId,
        /// Until when; taken back, if none.
        until: Option<Instant>,
    },
    /// Somebody was signed off on a training, or is no longer.
    SignedOff {
        /// Who.
        person: PersonId,
        /// On which.
        training: String,
        /// Until when; taken back, if none.
        until: Option<Instant>,
    },
    /// Somebody is this to the shop from now on.
    RoleGiven {
        /// Who.
        person: PersonId,
        /// What.
        role: Role,
    },
    /// A steward published rules: these are in force from then on.
    RulesPublished {
        /// The number that the hub gave them, from 1.
        number: u32,
        /// Which: the id is reckoned from the whole of the text, so that signing it signs the text.
        book: BookId,
        /// Why, in words.
        note: Option<String>,
    },
    /// A fact of a newer app: kept, passed on, and folded to nothing.
    Unrecognised {
        /// Its wire name.
        what: String,
    },
}

/// How a buddy's word was given: what shows, besides the word itself, that they are in the room.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, PartialOrd, Ord, BorshSerialize, BorshDeserialize)]
pub enum Given {
    /// Nothing: it is their word.
    #[default]
    OnTheirWord,
    /// The code that the room's wall board showed ([`crate::in_room`]).
    InTheRoom,
    /// Their own figures, on the operator's phone ([`crate::pin`]).
    ByPin,
}

/// Why a sweep was not done. Asked of whoever has left, once, and never insisted on.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, PartialOrd, Ord, BorshSerialize, BorshDeserialize)]
pub enum Undone {
    /// It was done, and not ticked.
    NotTicked,
    /// They had to go.
    HadToGo,
    /// Somebody else in the room sweeps.
    OthersSweep,
    /// They did not say.
    #[default]
    Unsaid,
}

impl Undone {
    /// All of them, in the order in which they are offered.
    pub const ALL: [Self; 4] = [Self::NotTicked, Self::OthersSweep, Self::HadToGo, Self::Unsaid];
}

/// What is said of an incident besides words. Of whoever was hurt nothing is asked.
#[derive(Clone, Debug, Default, PartialEq, Eq, PartialOrd, Ord, BorshSerialize, BorshDeserialize)]
pub struct Told {
    /// Where it was.
    pub place: Option<Place>,
    /// How near it came.
    pub kind: Option<Happened>,
    /// Whether first aid was given.
    pub first_aid: Option<bool>,
}

/// How near something came.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, BorshSerialize, BorshDeserialize)]
pub enum Happened {
    /// Nobody was hurt and nothing broke; it could have been otherwise.
    NearMiss,
    /// Somebody was hurt, or something broke.
    Incident,
}

/// An earlier line: what it is about, when that happened, and who said so. Not its place in a phone's log, because logs
/// without signatures say the same; and whoever has a line of theirs erased has all erased that names it.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord, BorshSerialize, BorshDeserialize)]
pub struct Of {
    /// What it is about.
    pub matter: Matter,
    /// When it happened.
    pub at: Instant,
    /// Who said so.
    pub who: PersonId,
}

/// What more can be said of.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord, BorshSerialize, BorshDeserialize)]
pub enum Matter {
    /// A tag on a machine.
    Tag(MachineId),
    /// How something was found.
    Found,
    /// An incident.
    Incident,
    /// A session, by the line that began it.
    Session,
}

/// What happened with what an earlier line says.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, BorshSerialize, BorshDeserialize)]
pub enum Step {
    /// Nothing: it is a remark.
    Remarked,
    /// A part is waited for.
    WaitsForPart {
        /// Until when, as far as is known.
        until: Option<Instant>,
    },
    /// It is mended, by the word of who says so.
    Mended,
    /// A second person checked it.
    Checked,
    /// Those who could know were asked. Whom is not written down.
    Asked,
    /// Something was changed, so that it does not happen again.
    Changed,
    /// It was seen to: nothing more is needed.
    SeenTo,
}

/// What was found.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord, BorshSerialize, BorshDeserialize)]
pub enum Place {
    /// A machine.
    Machine(MachineId),
    /// A room.
    Room(RoomId),
}

/// A point of the induction walk.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord, BorshSerialize, BorshDeserialize)]
pub enum Point {
    /// A stop.
    Stop(StopId),
    /// A statement that is attested at the door.
    Statement(StatementId),
}

/// How it was found.
#[derive(Clone, Copy, Debug, PartialEq, Eq, BorshSerialize, BorshDeserialize)]
pub enum Condition {
    /// As it should be.
    Clean,
    /// Not.
    Mess,
}
