//! What can be asked: the closed list of a member's intentions.
//!
//! A command says what somebody wants; [`crate::decide`] says what follows. Nothing in a command is a fact yet, and
//! nothing here is stored. Entropy (the name of a new session) is an argument.

use crate::entry::{Condition, Given, Of, Place, Step, Told, Undone};
use crate::ids::{BookId, ChoreId, MachineId, PersonId, RoomId, RoundId, SessionId, StatementId};
use crate::time::Instant;

/// One intention.
#[derive(Clone, Debug, PartialEq)]
pub enum Command {
    /// Begin a session: every statement attested, each at its own instant, and the out-by said.
    Arrive {
        /// The new session's name, made of entropy by the caller.
        session: SessionId,
        /// Which room.
        room: RoomId,
        /// When the door was opened.
        entered_at: Instant,
        /// When the member must be gone.
        out_by: Instant,
        /// Statements in the order in which they were attested.
        attested: Vec<(StatementId, Instant)>,
    },
    /// Start a machine.
    StartMachine {
        /// Which.
        machine: MachineId,
        /// What is worked, if said.
        material: Option<String>,
    },
    /// Stop a machine.
    StopMachine {
        /// Which.
        machine: MachineId,
    },
    /// Take down a buddy's confirmation that the caller has checked.
    ConfirmBuddy {
        /// Who confirms.
        buddy: PersonId,
        /// For one machine alone.
        machine: Option<MachineId>,
        /// Their signed answer, as it was scanned or carried.
        proof: Option<String>,
        /// What shows that they are in the room.
        given: Given,
    },
    /// A buddy leaves, or is let go.
    EndBuddy {
        /// Who.
        buddy: PersonId,
    },
    /// Move the out-by.
    MoveOutBy {
        /// To when.
        out_by: Instant,
    },
    /// Start the sweep; machines still running count as stopped now.
    StartSweep {
        /// How many people sweep.
        crew: u32,
    },
    /// Tick a chore.
    FinishChore {
        /// Which.
        chore: ChoreId,
        /// SHA-256 (base64url) of a picture kept on the phone.
        photo: Option<String>,
    },
    /// The hot-work place was walked.
    WalkWatch,
    /// A round was done.
    FinishRound {
        /// Which.
        round: RoundId,
    },
    /// Something was found clean, or not.
    ReportFound {
        /// What.
        place: Place,
        /// How.
        condition: Condition,
        /// In words.
        note: Option<String>,
    },
    /// Tag a machine out.
    TagOut {
        /// Which.
        machine: MachineId,
        /// What is wrong, in words.
        problem: String,
        /// SHA-256 (base64url) of a picture kept on the phone.
        photo: Option<String>,
    },
    /// Give a mended machine back: the check by a second person.
    ClearTag {
        /// Which machine.
        machine: MachineId,
    },
    /// Tell the steward that something happened.
    ReportIncident {
        /// In words.
        note: String,
        /// What was ticked beside them.
        told: Told,
    },
    /// Say what became of what an earlier line says.
    Note {
        /// Of which.
        of: Of,
        /// What happened with it.
        step: Step,
        /// In words.
        note: Option<String>,
    },
    /// Say that the hub took rules of this member's and has them in force.
    NotePublished {
        /// The number that the hub gave them, from 1.
        number: u32,
        /// Which.
        book: BookId,
        /// Why, in words.
        note: Option<String>,
    },
    /// The wall clock jumped; said by the clock, not by a person.
    NoteJump {
        /// Seconds, negative backwards.
        seconds: i64,
    },
    /// The phone's own timer was set, by the word of whoever holds it.
    SetTimer {
        /// When it rings.
        rings_at: Instant,
    },
    /// Call everybody out of a room: anybody may, from anywhere.
    CallClear {
        /// Which room.
        room: RoomId,
    },
    /// A bell that asks for no act was heard.
    HearBell,
    /// Whether the room's board may name the member when it rings for them.
    NameOnBoard {
        /// Whether.
        may: bool,
    },
    /// Leave the room.
    Leave,
    /// Leave it with the sweep not done, and say why.
    LeaveUndone {
        /// Why.
        why: Undone,
    },
}
