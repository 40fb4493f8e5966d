//! Folding facts into state.
//!
//! [`fold`] takes one more entry into what is known. It never fails and never refuses: what happened, happened, and an
//! entry that makes no sense (a chore of a session that nobody began) changes nothing. Entries of one device come in
//! their own order; devices may interleave in any way and the state is the same. Nobody speaks in another's session; and
//! of a session of one's own that was begun on another phone one says only that it is left, which may be heard before all
//! the rest of it.
//!
//! The state holds facts, not verdicts: coverage, gaps, the plan and the watch are asked of it elsewhere.
//!
//! It is written as bytes (Borsh) and read again by the rules of the same [`FOLDED_BY`] alone, and by no others: a phone does so, to
//! fold only what came since.

mod sessions;
#[cfg(test)]
mod tests;

use borsh::{BorshDeserialize, BorshSerialize};

pub use self::sessions::Sessions;
use crate::entry::{Condition, Entry, Fact, Given, Of, Place, Point, Step, Told, Undone};
use crate::estimate::Observed;
use crate::ids::{BookId, ChoreId, MachineId, PersonId, RoomId, RoundId, SessionId, StatementId};
use crate::ordered::{Map, Set};
use crate::standing::Words;
use crate::time::{Instant, Span};

/// All that is known from a log.
#[derive(Clone, Debug, Default, PartialEq, BorshSerialize, BorshDeserialize)]
pub struct State {
    /// Every session, open or left.
    pub sessions: Sessions,
    /// Machines that are tagged out.
    pub tags: Map<MachineId, Tag>,
    /// Every word on each machine's tag, so that late news does not undo newer news; see [`crate::repair`].
    pub tag_words: Map<MachineId, Set<TagWord>>,
    /// What more was said of earlier lines.
    pub notes: Map<Of, Set<Noted>>,
    /// Rules that were published: their number at the hub, which, and by whom.
    pub published: Set<(u32, BookId, PersonId)>,
    /// What was found, in the order in which it was learned.
    pub found: Vec<Found>,
    /// The [`FOUND_LATELY`] newest of them, oldest first: when, and which.
    found_lately: Vec<(Instant, i64)>,
    /// When each round was last done, and by whom.
    pub rounds: Map<RoundId, RoundDone>,
    /// Every time that each round was done, as far as this log reaches.
    pub rounds_done: Map<RoundId, Set<RoundDone>>,
    /// When each room was last to be cleared, and who called it.
    pub clear_calls: Map<RoomId, (Instant, PersonId)>,
    /// Who was inducted, signed off or given a role, by whose word.
    pub standing: Words,
    /// When each point of the walk was last walked by each member, and its mark then.
    pub walked: Map<(PersonId, Point), (Instant, String)>,
    /// When each member last had the whole walk behind them, and its mark then.
    pub walks: Map<PersonId, (Instant, String)>,
    /// When each member last started each machine.
    pub used: Map<(PersonId, MachineId), Instant>,
    /// What the steward should know.
    pub incidents: Set<Incident>,
    /// Sessions of which only leavings have been heard yet, by name and member: the first and the last.
    left_early: Map<(SessionId, PersonId), (Instant, Instant)>,
    /// The last [`OBSERVED_MOST`] observed times of each chore, oldest first, in milliminutes.
    observed: Map<ChoreId, Vec<(Instant, i64)>>,
}

/// Which rules fold: the digest of their sources. What others folded may mean something else.
pub const FOLDED_BY: &str = env!("SWEEPBELL_FOLDED_BY");

/// How many observations of a chore count (DESIGN.md section 4, "Chore minutes").
pub const OBSERVED_MOST: usize = 50;
/// How many finds are at hand without a walk through all of them.
pub const FOUND_LATELY: usize = 20;

/// One person's stay in one room.
#[derive(Clone, Debug, PartialEq, BorshSerialize, BorshDeserialize)]
pub struct Session {
    /// Its id.
    pub id: SessionId,
    /// Whose.
    pub who: PersonId,
    /// Where.
    pub room: RoomId,
    /// Since when.
    pub from: Instant,
    /// When they mean to be out, as last said.
    pub out_by: Instant,
    /// Where it stands.
    pub stage: Stage,
    /// What was attested, and when.
    pub attested: Map<StatementId, Instant>,
    /// Uses of machines, in order of start.
    pub uses: Vec<Use>,
    /// Buddies' confirmations, in order.
    pub confirmations: Vec<Confirmation>,
    /// Buddies leaving, in order.
    pub departures: Vec<(PersonId, Instant)>,
    /// Chores done.
    pub chores: Map<ChoreId, Done>,
    /// Walks of the hot-work place.
    pub watch_rounds: Vec<Instant>,
    /// When the phone's own timer rings, as its owner last said.
    pub timer: Option<Instant>,
    /// When its member last heard a bell that asks for no act.
    pub heard: Option<Instant>,
    /// Whether the room's board may name its member when it rings for them.
    pub on_board: bool,
    /// Why the sweep was not done, if they said.
    pub undone: Option<Undone>,
    /// Jumps of the phone's wall clock, in seconds.
    pub jumps: Vec<(Instant, i64)>,
    /// Its last entry.
    pub last_at: Instant,
}

/// Where a session stands. Working -> Sweeping -> Left; a session may leave without sweeping.
#[derive(Clone, Debug, PartialEq, Eq, BorshSerialize, BorshDeserialize)]
pub enum Stage {
    /// At work.
    Working,
    /// Closing down.
    Sweeping(Sweep),
    /// Gone.
    Left {
        /// When.
        at: Instant,
        /// The sweep, if there was one.
        sweep: Option<Sweep>,
    },
}

/// A sweep.
#[derive(Clone, Copy, Debug, PartialEq, Eq, BorshSerialize, BorshDeserialize)]
pub struct Sweep {
    /// Since when; the first start counts.
    pub from: Instant,
    /// How many people; the last said counts.
    pub crew: u32,
}

/// One use of a machine.
#[derive(Clone, Debug, PartialEq, Eq, BorshSerialize, BorshDeserialize)]
pub struct Use {
    /// Which machine.
    pub machine: MachineId,
    /// What was worked.
    pub material: Option<String>,
    /// Since when.
    pub from: Instant,
    /// Until when, once stopped.
    pub to: Option<Instant>,
}

/// A buddy's word that they are in the room.
#[derive(Clone, Debug, PartialEq, Eq, BorshSerialize, BorshDeserialize)]
pub struct Confirmation {
    /// When.
    pub at: Instant,
    /// Whose.
    pub buddy: PersonId,
    /// For one machine alone.
    pub machine: Option<MachineId>,
    /// Whether their signed answer is kept with it.
    pub signed: bool,
    /// What shows that they are in the room.
    pub given: Given,
}

/// A chore that was done.
#[derive(Clone, Debug, PartialEq, BorshSerialize, BorshDeserialize)]
pub struct Done {
    /// When.
    pub at: Instant,
    /// How long it took.
    pub minutes: Option<f64>,
    /// The hash of a picture of what was done.
    pub photo: Option<String>,
}

/// A tag on a machine.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord, BorshSerialize, BorshDeserialize)]
pub struct Tag {
    /// What is wrong, in words.
    pub problem: String,
    /// Since when.
    pub since: Instant,
    /// Who tagged it.
    pub by: PersonId,
    /// The hash of a picture on their phone.
    pub photo: Option<String>,
}

/// A word on a machine's tag. The later is the newer; of two at one instant, the one that keeps the machine out.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord, BorshSerialize, BorshDeserialize)]
pub struct TagWord {
    /// When.
    pub at: Instant,
    /// The tag; none where it was taken off.
    pub tag: Option<Tag>,
}

/// Something more that was said of an earlier line.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord, BorshSerialize, BorshDeserialize)]
pub struct Noted {
    /// When.
    pub at: Instant,
    /// By whom.
    pub by: PersonId,
    /// What happened.
    pub step: Step,
    /// In words.
    pub note: Option<String>,
}

/// Something that the steward should know.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord, BorshSerialize, BorshDeserialize)]
pub struct Incident {
    /// When it was told.
    pub at: Instant,
    /// By whom.
    pub by: PersonId,
    /// In their words.
    pub note: String,
    /// What was ticked beside them.
    pub told: Told,
}

/// A round that was done. The later is the newer, whatever the order in which they were learned.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord, BorshSerialize, BorshDeserialize)]
pub struct RoundDone {
    /// When.
    pub at: Instant,
    /// By whom.
    pub by: PersonId,
}

/// Something found.
#[derive(Clone, Debug, PartialEq, Eq, BorshSerialize, BorshDeserialize)]
pub struct Found {
    /// When.
    pub at: Instant,
    /// By whom.
    pub by: PersonId,
    /// What.
    pub place: Place,
    /// How.
    pub condition: Condition,
    /// In words.
    pub note: Option<String>,
}

impl Session {
    /// Its name as its member said it, which is not its id if somebody else used the name first.
    pub fn name(&self) -> SessionId {
        let said = self.id.as_str().strip_suffix(self.who.as_str()).and_then(|said| said.strip_suffix(' '));
        said.map_or_else(|| self.id.clone(), SessionId::from)
    }

    /// Whether it has not left.
    pub fn is_open(&self) -> bool {
        !matches!(self.stage, Stage::Left { .. })
    }

    /// When it left.
    pub fn left(&self) -> Option<Instant> {
        match self.stage {
            Stage::Left { at, .. } => Some(at),
            Stage::Working | Stage::Sweeping(_) => None,
        }
    }

    /// The sweep, if it began.
    pub fn sweep(&self) -> Option<Sweep> {
        match self.stage {
            Stage::Working => None,
            Stage::Sweeping(sweep) => Some(sweep),
            Stage::Left { sweep, .. } => sweep,
        }
    }

    /// By how much the phone's wall clock jumped while it ran, jumps added up; negative backwards.
    pub fn clock_jumped(&self) -> Span {
        self.jumps.iter().map(|(_, seconds)| Span::from_ms(seconds.saturating_mul(1000))).sum()
    }

    /// The use of `machine` that is going on.
    pub fn running(&self, machine: &MachineId) -> Option<&Use> {
        self.running_all().find(|use_| use_.machine == *machine)
    }

    /// All uses that are going on.
    pub fn running_all(&self) -> impl Iterator<Item = &Use> {
        self.uses.iter().filter(|use_| use_.to.is_none())
    }

    /// When a use ended: its stop, else the session's leaving, else `open_end` for one that still goes on.
    pub fn use_end(&self, use_: &Use, open_end: Instant) -> Instant {
        use_.to.or(self.left()).unwrap_or(open_end).max(use_.from)
    }

    /// The machines that it started, each once, in order of first start.
    pub fn machines(&self) -> Vec<&MachineId> {
        let mut machines: Vec<&MachineId> = Vec::new();
        for use_ in &self.uses {
            if !machines.contains(&&use_.machine) {
                machines.push(&use_.machine);
            }
        }
        machines
    }
}

/// Whatever the order in which they were learned.
impl Observed for State {
    #[expect(clippy::cast_precision_loss, reason = "milliminutes of a chore are few")]
    fn minutes_of(&self, chore: &ChoreId) -> Vec<f64> {
        let seen = self.observed.get(chore).into_iter().flatten();
        seen.map(|(_, milli)| *milli as f64 / 1000.0).collect()
    }
}

impl State {
    /// The state after a whole log, in its order.
    pub fn of<'a>(entries: impl IntoIterator<Item = &'a Entry>) -> Self {
        let mut state = Self::default();
        for entry in entries {
            fold(&mut state, entry);
        }
        state
    }

    /// Takes up what was found.
    pub fn find(&mut self, found: Found) {
        let which = i64::try_from(self.found.len()).unwrap_or(i64::MAX);
        keep_newest(&mut self.found_lately, (found.at, which), FOUND_LATELY);
        self.found.push(found);
    }

    /// The [`FOUND_LATELY`] newest finds, the newest first.
    pub fn found_lately(&self) -> impl Iterator<Item = &Found> {
        self.found_lately.iter().rev().filter_map(|(_, which)| self.found.get(usize::try_from(*which).ok()?))
    }

    /// What more was said of an earlier line, in order.
    pub fn notes_of(&self, of: &Of) -> impl DoubleEndedIterator<Item = &Noted> + use<'_> {
        self.notes.get(of).into_iter().flatten()
    }

    /// All sessions, by their last entries, the latest first.
    pub fn latest_first(&self) -> Vec<&Session> {
        let mut sessions: Vec<&Session> = self.sessions.values().collect();
        sessions.sort_unstable_by_key(|session| std::cmp::Reverse(session.last_at));
        sessions
    }
}

/// Takes one more entry into what is known.
pub fn fold(state: &mut State, entry: &Entry) {
    let id = session_of(state, entry);
    match &entry.fact {
        Fact::Entered { room, out_by } => enter(state, &id, entry, room, *out_by),
        Fact::TaggedOut { machine, problem, photo } => {
            let (problem, photo) = (problem.clone(), photo.clone());
            let tag = Tag { problem, since: entry.at, by: entry.who.clone(), photo };
            tell_tag(state, machine, entry.at, Some(tag));
        }
        Fact::TagCleared { machine } => tell_tag(state, machine, entry.at, None),
        Fact::Found { place, condition, note } => state.find(Found {
            at: entry.at,
            by: entry.who.clone(),
            place: place.clone(),
            condition: *condition,
            note: note.clone(),
        }),
        Fact::ChoreDone { chore, minutes: Some(minutes), .. } if state.sessions.contains_key(&id) => {
            observe(state.observed.entry(chore.clone()).or_default(), entry.at, *minutes);
        }
        Fact::RoundDone { round } => {
            let done = RoundDone { at: entry.at, by: entry.who.clone() };
            let newest = state.rounds.get(round).filter(|known| **known > done).unwrap_or(&done).clone();
            state.rounds_done.entry(round.clone()).or_default().insert(done);
            state.rounds.insert(round.clone(), newest);
        }
        Fact::ClearCalled { room } => {
            let called = (entry.at, entry.who.clone());
            let newest = state.clear_calls.get(room).filter(|known| **known > called).unwrap_or(&called).clone();
            state.clear_calls.insert(room.clone(), newest);
        }
        Fact::Walked { point, mark } => {
            let point = (entry.who.clone(), point.clone());
            newest(state.walked.entry(point).or_default(), (entry.at, mark.clone()));
        }
        Fact::WalkDone { mark } => {
            newest(state.walks.entry(entry.who.clone()).or_default(), (entry.at, mark.clone()));
        }
        Fact::Inducted { .. } | Fact::SignedOff { .. } | Fact::RoleGiven { .. } => state.standing.take(entry),
        Fact::MachineStarted { machine, .. } => {
            newest(state.used.entry((entry.who.clone(), machine.clone())).or_default(), entry.at);
        }
        Fact::Incident { note, told } => {
            let (by, note, told) = (entry.who.clone(), note.clone(), told.clone());
            state.incidents.insert(Incident { at: entry.at, by, note, told });
        }
        Fact::Noted { of, step, note } => {
            let noted = Noted { at: entry.at, by: entry.who.clone(), step: *step, note: note.clone() };
            state.notes.entry(of.clone()).or_default().insert(noted);
        }
        Fact::RulesPublished { number, book, .. } => {
            state.published.insert((*number, book.clone(), entry.who.clone()));
        }
        Fact::Left if !state.sessions.contains_key(&id) => {
            let name = (entry.session.clone(), entry.who.clone());
            let (first, last) = state.left_early.entry(name).or_insert((entry.at, entry.at));
            (*first, *last) = (entry.at.min(*first), entry.at.max(*last));
        }
        _ => {}
    }
    state.sessions.change(&id, |session| {
        session.last_at = session.last_at.max(entry.at);
        fold_session(session, entry.at, &entry.fact);
    });
}

/// Keeps the greater: the later, and of one instant the same one in whichever order they are heard.
fn newest<T: Ord>(kept: &mut T, said: T) {
    if *kept < said {
        *kept = said;
    }
}

/// The session that an entry belongs to: the named one, if it is this person's. Nobody speaks in another's session; who
/// uses its name anyway has one of their own beside it, so that a borrowed name takes nobody off a muster list.
fn session_of(state: &State, Entry { session, who, .. }: &Entry) -> SessionId {
    match state.sessions.get(session) {
        Some(known) if known.who != *who => SessionId::new(format!("{session} {who}")),
        _ => session.clone(),
    }
}

fn enter(state: &mut State, id: &SessionId, entry: &Entry, room: &RoomId, out_by: Instant) {
    let left = state.left_early.remove(&(entry.session.clone(), entry.who.clone()));
    if state.sessions.contains_key(id) {
        return;
    }
    state.sessions.put(Session {
        id: id.clone(),
        who: entry.who.clone(),
        room: room.clone(),
        from: entry.at,
        out_by,
        stage: left.map_or(Stage::Working, |(at, _)| Stage::Left { at, sweep: None }),
        attested: Map::new(),
        uses: Vec::new(),
        confirmations: Vec::new(),
        departures: Vec::new(),
        chores: Map::new(),
        watch_rounds: Vec::new(),
        timer: None,
        heard: None,
        on_board: false,
        undone: None,
        jumps: Vec::new(),
        last_at: left.map_or(entry.at, |(_, last)| last.max(entry.at)),
    });
}

/// The minutes that a chore took in thousandths; none of what no chore takes.
#[expect(clippy::cast_possible_truncation, reason = "bounded to a week of minutes first")]
pub fn believable_milli(minutes: f64) -> Option<i64> {
    (0.0..=10_080.0).contains(&minutes).then(|| (minutes * 1000.0).round() as i64)
}

fn observe(seen: &mut Vec<(Instant, i64)>, at: Instant, minutes: f64) {
    if let Some(milli) = believable_milli(minutes) {
        keep_newest(seen, (at, milli), OBSERVED_MOST);
    }
}

/// Keeps so many of the newest, oldest first, whatever the order in which they are learned.
fn keep_newest(kept: &mut Vec<(Instant, i64)>, learned: (Instant, i64), most: usize) {
    let place = kept.partition_point(|known| *known <= learned);
    kept.insert(place, learned);
    if kept.len() > most {
        kept.remove(0);
    }
}

fn tell_tag(state: &mut State, machine: &MachineId, at: Instant, tag: Option<Tag>) {
    let words = state.tag_words.entry(machine.clone()).or_default();
    words.insert(TagWord { at, tag });
    match words.last().and_then(|newest| newest.tag.clone()) {
        Some(tag) => state.tags.insert(machine.clone(), tag),
        None => state.tags.remove(machine),
    };
}

fn fold_session(session: &mut Session, at: Instant, fact: &Fact) {
    match fact {
        Fact::Attested { statement } => {
            session.attested.entry(statement.clone()).or_insert(at);
        }
        Fact::MachineStarted { machine, material } if session.running(machine).is_none() => {
            session.uses.push(Use { machine: machine.clone(), material: material.clone(), from: at, to: None });
        }
        Fact::MachineStopped { machine } => {
            if let Some(use_) = session.uses.iter_mut().find(|use_| use_.to.is_none() && use_.machine == *machine) {
                use_.to = Some(at.max(use_.from));
            }
        }
        Fact::BuddyConfirmed { buddy, machine, proof, given } => session.confirmations.push(Confirmation {
            at,
            buddy: buddy.clone(),
            machine: machine.clone(),
            signed: proof.is_some(),
            given: *given,
        }),
        Fact::BuddyLeft { buddy } => session.departures.push((buddy.clone(), at)),
        Fact::OutByMoved { out_by } => session.out_by = *out_by,
        Fact::SweepStarted { crew } => {
            let sweep = Sweep { from: session.sweep().map_or(at, |sweep| sweep.from), crew: *crew };
            session.stage = match session.stage {
                Stage::Left { at, .. } => Stage::Left { at, sweep: Some(sweep) },
                Stage::Working | Stage::Sweeping(_) => Stage::Sweeping(sweep),
            };
        }
        Fact::ChoreDone { chore, minutes, photo } => {
            let done = || Done { at, minutes: *minutes, photo: photo.clone() };
            session.chores.entry(chore.clone()).or_insert_with(done);
        }
        Fact::WatchRound => session.watch_rounds.push(at),
        Fact::BellHeard => session.heard = session.heard.max(Some(at)),
        Fact::BoardName { may } => session.on_board = *may,
        Fact::SweepUndone { why } => session.undone = Some(*why),
        Fact::TimerSet { rings_at } => session.timer = Some(*rings_at),
        Fact::ClockJumped { seconds } => session.jumps.push((at, *seconds)),
        // Said on two phones, the earlier holds.
        Fact::Left => {
            let at = session.left().map_or(at, |left| left.min(at));
            session.stage = Stage::Left { at, sweep: session.sweep() };
        }
        _ => {}
    }
}
