//! The JSON of one entry: a flat object, `at, session, who, what`, then the fields of its kind.
//!
//! Reading is tolerant of what a newer app may add (unknown fields are passed over, an unknown `what` is kept as
//! [`Fact::Unrecognised`]) and strict about what it knows: a field that is missing or wrong is named. Writing has one
//! key order, so that the same entry is the same bytes everywhere. DESIGN.md section 5, "Log lines".
//!
//! Whoever holds a line keeps its text: an unrecognised fact cannot be written back from its name alone.

use super::fields::{Fields, Line};
use crate::entry::{Condition, Entry, Fact, Given, Happened, Matter, Of, Place, Point, Step, Told, Undone};
use crate::ids::{BookId, ChoreId, MachineId, PersonId, RoomId, RoundId, SessionId, StatementId};

/// The longest body that is read, in bytes: a note of [`NOTE_CHARS_MAX`] four-byte characters fits.
pub const BODY_BYTES_MAX: usize = 8 * 1024;
/// The longest note, problem or material, in characters.
pub const NOTE_CHARS_MAX: usize = 2_000;
/// The longest id, hash or proof, in bytes. A proof is a QR code's text, which is at most 221 here.
pub const ID_BYTES_MAX: usize = 256;
/// The longest time that a chore may be said to have taken, in minutes: one day.
pub const CHORE_MINUTES_MAX: f64 = 1_440.0;

/// Why a line is not an entry.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
pub enum WireFault {
    /// It is longer than [`BODY_BYTES_MAX`], or a signed payload longer than that and its link.
    #[error("the entry is {bytes} bytes long, at most {max} are taken")]
    TooLong {
        /// Its length.
        bytes: usize,
        /// The most that is taken.
        max: usize,
    },
    /// It is not one JSON object, or a key stands in it twice.
    #[error("not a JSON object: {why}")]
    NotAnObject {
        /// What the JSON reader says.
        why: String,
    },
    /// A field is not there.
    #[error("`{field}` is missing")]
    Missing {
        /// Which.
        field: &'static str,
    },
    /// A field is there and is not what it should be.
    #[error("`{field}` should be {wanted}")]
    Wrong {
        /// Which.
        field: &'static str,
        /// What it should be.
        wanted: &'static str,
    },
}

/// Reads the body of an entry.
pub fn read_line(json: &str) -> Result<Entry, WireFault> {
    entry_of(&Fields::read(json, BODY_BYTES_MAX)?)
}

/// Writes the body of an entry. What is read back is the same entry, but for an unrecognised fact's own fields.
pub fn write(entry: &Entry) -> String {
    let mut line = Line::open();
    line.text("at", &entry.at.to_string());
    line.text("session", entry.session.as_str());
    line.text("who", entry.who.as_str());
    write_fact(&mut line, &entry.fact);
    line.close()
}

/// Whether an entry, written down, can be read back by everybody: to be asked before it is signed, since a signed
/// line that nobody can read keeps its place in the chain for ever.
pub fn check(entry: &Entry) -> Result<(), WireFault> {
    read_line(&write(entry)).map(|_| ())
}

/// The entry among an object's fields.
pub(super) fn entry_of(fields: &Fields<'_>) -> Result<Entry, WireFault> {
    Ok(Entry {
        at: fields.instant("at")?,
        session: SessionId::new(fields.id("session")?),
        who: PersonId::new(fields.id("who")?),
        fact: fact_of(fields)?,
    })
}

fn fact_of(fields: &Fields<'_>) -> Result<Fact, WireFault> {
    Ok(match fields.id("what")? {
        "entered" => Fact::Entered { room: fields.room("room")?, out_by: fields.instant("out_by")? },
        "attested" => Fact::Attested { statement: StatementId::new(fields.id("statement")?) },
        "machine_started" => Fact::MachineStarted {
            machine: fields.machine("machine")?,
            material: fields.optional("material", Fields::note)?.map(str::to_owned),
        },
        "machine_stopped" => Fact::MachineStopped { machine: fields.machine("machine")? },
        "buddy_confirmed" => Fact::BuddyConfirmed {
            buddy: PersonId::new(fields.id("buddy")?),
            machine: fields.optional("machine", Fields::machine)?,
            proof: fields.optional("proof", Fields::id)?.map(str::to_owned),
            given: given_of(fields.optional("given", Fields::id)?),
        },
        "buddy_left" => Fact::BuddyLeft { buddy: PersonId::new(fields.id("buddy")?) },
        "out_by_moved" => Fact::OutByMoved { out_by: fields.instant("out_by")? },
        "sweep_started" => Fact::SweepStarted { crew: fields.crew("crew")? },
        "chore_done" => Fact::ChoreDone {
            chore: ChoreId::new(fields.id("chore")?),
            minutes: fields.optional("minutes", Fields::minutes)?,
            photo: fields.optional("photo", Fields::id)?.map(str::to_owned),
        },
        "watch_round" => Fact::WatchRound,
        "round_done" => Fact::RoundDone { round: RoundId::new(fields.id("round")?) },
        "found" => Fact::Found {
            place: fields.place()?,
            condition: fields.condition("state")?,
            note: fields.optional("note", Fields::note)?.map(str::to_owned),
        },
        "tagged_out" => Fact::TaggedOut {
            machine: fields.machine("machine")?,
            problem: fields.note("problem")?.to_owned(),
            photo: fields.optional("photo", Fields::id)?.map(str::to_owned),
        },
        "tag_cleared" => Fact::TagCleared { machine: fields.machine("machine")? },
        "incident" => Fact::Incident { note: fields.note("note")?.to_owned(), told: told_of(fields)? },
        "noted" => noted_of(fields)?,
        "clock_jumped" => Fact::ClockJumped { seconds: fields.seconds("seconds")? },
        "timer_set" => Fact::TimerSet { rings_at: fields.instant("rings_at")? },
        "clear_called" => Fact::ClearCalled { room: RoomId::new(fields.id("room")?) },
        "bell_heard" => Fact::BellHeard,
        "sweep_undone" => Fact::SweepUndone { why: undone_of(fields.id("why")?) },
        "board_name" => Fact::BoardName { may: fields.yes("may")? },
        "walked" => Fact::Walked { point: fields.point()?, mark: fields.id("mark")?.to_owned() },
        "walk_done" => Fact::WalkDone { mark: fields.id("mark")?.to_owned() },
        "inducted" => Fact::Inducted {
            person: PersonId::new(fields.id("person")?),
            until: fields.optional("until", Fields::instant)?,
        },
        "signed_off" => Fact::SignedOff {
            person: PersonId::new(fields.id("person")?),
            training: fields.id("training")?.to_owned(),
            until: fields.optional("until", Fields::instant)?,
        },
        "role_given" => Fact::RoleGiven { person: PersonId::new(fields.id("person")?), role: fields.role("role")? },
        "rules_published" => Fact::RulesPublished {
            number: fields.number("number")?,
            book: BookId::new(fields.id("rules")?),
            note: fields.optional("note", Fields::note)?.map(str::to_owned),
        },
        "left" => Fact::Left,
        other => Fact::Unrecognised { what: other.to_owned() },
    })
}

fn write_fact(line: &mut Line, fact: &Fact) {
    line.text("what", what_of(fact));
    match fact {
        Fact::Entered { room, out_by } => {
            line.text("room", room.as_str());
            line.text("out_by", &out_by.to_string());
        }
        Fact::Attested { statement } => line.text("statement", statement.as_str()),
        Fact::MachineStarted { machine, material } => {
            line.text("machine", machine.as_str());
            line.maybe("material", material.as_deref());
        }
        Fact::MachineStopped { machine } | Fact::TagCleared { machine } => line.text("machine", machine.as_str()),
        Fact::BuddyConfirmed { buddy, machine, proof, given } => {
            line.text("buddy", buddy.as_str());
            line.maybe("machine", machine.as_ref().map(MachineId::as_str));
            line.maybe("proof", proof.as_deref());
            line.maybe("given", given_name(*given));
        }
        Fact::BuddyLeft { buddy } => line.text("buddy", buddy.as_str()),
        Fact::OutByMoved { out_by } => line.text("out_by", &out_by.to_string()),
        Fact::SweepStarted { crew } => line.raw("crew", &crew.to_string()),
        Fact::ChoreDone { chore, minutes, photo } => {
            line.text("chore", chore.as_str());
            if let Some(minutes) = minutes.filter(|minutes| minutes.is_finite()) {
                line.raw("minutes", &thousandths(minutes));
            }
            line.maybe("photo", photo.as_deref());
        }
        Fact::Found { place, condition, note } => {
            write_place(line, place);
            line.text("state", if *condition == Condition::Clean { "clean" } else { "mess" });
            line.maybe("note", note.as_deref());
        }
        Fact::TaggedOut { machine, problem, photo } => {
            line.text("machine", machine.as_str());
            line.text("problem", problem);
            line.maybe("photo", photo.as_deref());
        }
        Fact::Incident { note, told } => {
            line.text("note", note);
            write_told(line, told);
        }
        Fact::Noted { of, step, note } => write_noted(line, of, *step, note.as_deref()),
        Fact::ClockJumped { seconds } => line.raw("seconds", &seconds.to_string()),
        Fact::RoundDone { round } => line.text("round", round.as_str()),
        Fact::ClearCalled { room } => line.text("room", room.as_str()),
        Fact::TimerSet { rings_at } => line.text("rings_at", &rings_at.to_string()),
        Fact::SweepUndone { why } => line.text("why", undone_name(*why)),
        Fact::BoardName { may } => line.raw("may", if *may { "true" } else { "false" }),
        _ => write_standing(line, fact),
    }
}

/// What a fact says of a member, of their walk, or of the rules; of any other, nothing is left to be said.
fn write_standing(line: &mut Line, fact: &Fact) {
    match fact {
        Fact::Walked { point, mark } => {
            match point {
                Point::Stop(stop) => line.text("stop", stop.as_str()),
                Point::Statement(statement) => line.text("statement", statement.as_str()),
            }
            line.text("mark", mark);
        }
        Fact::WalkDone { mark } => line.text("mark", mark),
        Fact::Inducted { person, until } => {
            line.text("person", person.as_str());
            line.until(*until);
        }
        Fact::SignedOff { person, training, until } => {
            line.text("person", person.as_str());
            line.text("training", training);
            line.until(*until);
        }
        Fact::RoleGiven { person, role } => {
            line.text("person", person.as_str());
            line.text("role", role.name());
        }
        Fact::RulesPublished { number, book, note } => {
            line.raw("number", &number.to_string());
            line.text("rules", book.as_str());
            line.maybe("note", note.as_deref());
        }
        _ => {}
    }
}

fn write_told(line: &mut Line, told: &Told) {
    if let Some(place) = &told.place {
        write_place(line, place);
    }
    line.maybe("kind", told.kind.map(happened_name));
    if let Some(given) = told.first_aid {
        line.raw("first_aid", if given { "true" } else { "false" });
    }
}

fn write_noted(line: &mut Line, of: &Of, step: Step, note: Option<&str>) {
    line.text("of", matter_name(&of.matter));
    if let Matter::Tag(machine) = &of.matter {
        line.text("machine", machine.as_str());
    }
    line.text("of_at", &of.at.to_string());
    line.text("of_who", of.who.as_str());
    line.text("step", step_name(step));
    if let Step::WaitsForPart { until: Some(until) } = step {
        line.text("until", &until.to_string());
    }
    line.maybe("note", note);
}

fn write_place(line: &mut Line, place: &Place) {
    match place {
        Place::Machine(machine) => line.text("machine", machine.as_str()),
        Place::Room(room) => line.text("room", room.as_str()),
    }
}

/// What was ticked beside the words of an incident.
fn told_of(fields: &Fields<'_>) -> Result<Told, WireFault> {
    let kind = fields.optional("kind", Fields::id)?.and_then(happened_of);
    Ok(Told { place: fields.maybe_place()?, kind, first_aid: fields.optional("first_aid", Fields::yes)? })
}

/// What more is said of an earlier line.
fn noted_of(fields: &Fields<'_>) -> Result<Fact, WireFault> {
    let Some(matter) = matter_of(fields)? else { return Ok(Fact::Unrecognised { what: "noted".to_owned() }) };
    Ok(Fact::Noted {
        of: Of { matter, at: fields.instant("of_at")?, who: PersonId::new(fields.id("of_who")?) },
        step: step_of(fields)?,
        note: fields.optional("note", Fields::note)?.map(str::to_owned),
    })
}

/// What a note is about; none of what a newer app may note of.
fn matter_of(fields: &Fields<'_>) -> Result<Option<Matter>, WireFault> {
    Ok(Some(match fields.id("of")? {
        "tagged_out" => Matter::Tag(fields.machine("machine")?),
        "found" => Matter::Found,
        "incident" => Matter::Incident,
        "entered" => Matter::Session,
        _ => return Ok(None),
    }))
}

/// The wire name of the line that a note is of.
fn matter_name(matter: &Matter) -> &'static str {
    match matter {
        Matter::Tag(_) => "tagged_out",
        Matter::Found => "found",
        Matter::Incident => "incident",
        Matter::Session => "entered",
    }
}

/// A step of a newer app is, here, a remark.
fn step_of(fields: &Fields<'_>) -> Result<Step, WireFault> {
    Ok(match fields.id("step")? {
        "waits" => Step::WaitsForPart { until: fields.optional("until", Fields::instant)? },
        "mended" => Step::Mended,
        "checked" => Step::Checked,
        "asked" => Step::Asked,
        "changed" => Step::Changed,
        "seen_to" => Step::SeenTo,
        _ => Step::Remarked,
    })
}

fn step_name(step: Step) -> &'static str {
    match step {
        Step::Remarked => "remarked",
        Step::WaitsForPart { .. } => "waits",
        Step::Mended => "mended",
        Step::Checked => "checked",
        Step::Asked => "asked",
        Step::Changed => "changed",
        Step::SeenTo => "seen_to",
    }
}

fn happened_of(name: &str) -> Option<Happened> {
    match name {
        "near_miss" => Some(Happened::NearMiss),
        "incident" => Some(Happened::Incident),
        _ => None,
    }
}

fn happened_name(kind: Happened) -> &'static str {
    match kind {
        Happened::NearMiss => "near_miss",
        Happened::Incident => "incident",
    }
}

/// What a newer app may say of a word is, here, that it is somebody's word.
fn given_of(name: Option<&str>) -> Given {
    match name {
        Some("in_room") => Given::InTheRoom,
        Some("pin") => Given::ByPin,
        _ => Given::OnTheirWord,
    }
}

fn given_name(given: Given) -> Option<&'static str> {
    match given {
        Given::OnTheirWord => None,
        Given::InTheRoom => Some("in_room"),
        Given::ByPin => Some("pin"),
    }
}

/// What a newer app may give as a reason is, here, none.
fn undone_of(name: &str) -> Undone {
    Undone::ALL.into_iter().find(|why| undone_name(*why) == name).unwrap_or_default()
}

fn undone_name(why: Undone) -> &'static str {
    match why {
        Undone::NotTicked => "not_ticked",
        Undone::HadToGo => "had_to_go",
        Undone::OthersSweep => "others_sweep",
        Undone::Unsaid => "unsaid",
    }
}

/// The wire name of a fact.
pub fn what_of(fact: &Fact) -> &str {
    match fact {
        Fact::Entered { .. } => "entered",
        Fact::Attested { .. } => "attested",
        Fact::MachineStarted { .. } => "machine_started",
        Fact::MachineStopped { .. } => "machine_stopped",
        Fact::BuddyConfirmed { .. } => "buddy_confirmed",
        Fact::BuddyLeft { .. } => "buddy_left",
        Fact::OutByMoved { .. } => "out_by_moved",
        Fact::SweepStarted { .. } => "sweep_started",
        Fact::ChoreDone { .. } => "chore_done",
        Fact::WatchRound => "watch_round",
        Fact::RoundDone { .. } => "round_done",
        Fact::Found { .. } => "found",
        Fact::TaggedOut { .. } => "tagged_out",
        Fact::TagCleared { .. } => "tag_cleared",
        Fact::Incident { .. } => "incident",
        Fact::Noted { .. } => "noted",
        Fact::ClockJumped { .. } => "clock_jumped",
        Fact::TimerSet { .. } => "timer_set",
        Fact::ClearCalled { .. } => "clear_called",
        Fact::BellHeard => "bell_heard",
        Fact::SweepUndone { .. } => "sweep_undone",
        Fact::BoardName { .. } => "board_name",
        Fact::Walked { .. } => "walked",
        Fact::WalkDone { .. } => "walk_done",
        Fact::Inducted { .. } => "inducted",
        Fact::SignedOff { .. } => "signed_off",
        Fact::RoleGiven { .. } => "role_given",
        Fact::RulesPublished { .. } => "rules_published",
        Fact::Left => "left",
        Fact::Unrecognised { what } => what,
    }
}

/// A number of minutes to a thousandth, as JSON. Not by the formatter of floats: its tables are a part of each phone's
/// download that no compression makes smaller.
#[expect(clippy::cast_possible_truncation, reason = "a chore's minutes are within a day, and a cast saturates")]
fn thousandths(minutes: f64) -> String {
    let milli = libm::round(minutes * 1_000.0) as i64;
    let sign = if milli < 0 { "-" } else { "" };
    let (whole, rest) = (milli.unsigned_abs() / 1_000, milli.unsigned_abs() % 1_000);
    let text = format!("{sign}{whole}.{rest:03}");
    text.trim_end_matches('0').trim_end_matches('.').to_owned()
}
