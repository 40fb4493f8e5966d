//! What is kept no longer: lines that nobody needs any more, and those that a member wants erased.
//!
//! Of a line the body goes; its device, number and hash stay, so that the chain stays whole (a trigger of the database
//! allows no other change). What is in force stays, whoever asks: `shared_core::retention` says what that is. A line of
//! somebody else that names the member goes as well, and keeps its session's name, so that it can be seen there that
//! something is missing. Copies of the database that were made before keep what they have.

use std::collections::BTreeMap;

use shared_core::entry::Entry;
use shared_core::ids::{DeviceId, MachineId, PersonId, RoundId, SessionId};
use shared_core::log::jws;
use shared_core::retention::{InForce, Said, Word, named};
use shared_core::sync::cursor::Cursor;
use shared_core::sync::message::Stretch;
use shared_core::time::Instant;

use super::engine::{Talk, Value, only};
use super::{Cells, Change, Glance, Look, News, Store, StoreError, log};

/// So many lines are looked at, and at most so many erased, at once.
const PAGE: i64 = 1_000;
/// A phone is told of so many stretches at once.
const STRETCHES_MAX: i64 = 500;

/// Lines before a place of which it is looked for what is gone: an evening of a large shop.
const LOOKED_BACK: i64 = 2_000;
/// So many stretches of them are told: with those of [`STRETCHES_MAX`] they fit an answer that is full of lines.
const GONE_MAX: usize = 200;

/// What became of a wish to have something erased.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub(crate) struct Erasing {
    /// So many lines were erased.
    pub(crate) erased: u64,
    /// So many are still in force, and stay.
    pub(crate) stays: u64,
}

/// The lines about a member.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub(crate) struct About {
    /// Those of their own phones.
    pub(crate) own: Vec<String>,
    /// Those of others that name them.
    pub(crate) naming: Vec<String>,
    /// Those that phones of theirs handed in after they were taken off.
    pub(crate) late: Vec<String>,
    /// So many of all would stay if they had them erased now.
    pub(crate) stays: u64,
}

/// Phones are to forget these, and where to go on asking.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub(crate) struct Forgotten {
    /// Stretches of devices' lines.
    pub(crate) stretches: Vec<Stretch>,
    /// Where the last of them is, and in which life of the log that was told; one number, as a pull's is.
    pub(crate) last: u64,
    /// Whether there are more.
    pub(crate) more: bool,
}

impl Store {
    /// Erases what was learned before `limit` and is in force no longer; gives how many lines that were.
    pub(crate) async fn retire(&self, limit: Instant, now: Instant) -> Result<u64, StoreError> {
        let over = {
            let mut look = self.look().await?;
            let about = Lines::Concerned(limit);
            let in_force = in_force(&mut *look.0, about).await?;
            let mut over = Vec::new();
            each(&mut *look.0, about, &mut |line| {
                if line.said().map_or(line.received < limit, |said| in_force.is_over(&said, limit)) {
                    over.push(line.pos);
                }
            })
            .await?;
            over
        };
        // What was over then is over still: nothing comes into force again by what came since.
        for some in over.chunks(usize::try_from(PAGE)?) {
            let mut change = self.change().await?;
            for pos in some {
                change.erase(*pos, false, now).await?;
            }
            change.commit().await?;
        }
        let mut change = self.change().await?;
        change.talk.act("DELETE FROM erasure WHERE made_ms < $1", &[limit.ms().into()]).await?;
        change.talk.act("DELETE FROM late_line WHERE received_ms < $1", &[limit.ms().into()]).await?;
        change.drop_unnamed_pictures(None).await?;
        change.commit().await?;
        Ok(over.len() as u64)
    }

    /// Everything in the log about a member.
    pub(crate) async fn about(&self, member: &PersonId) -> Result<About, StoreError> {
        let mut look = self.look().await?;
        let found = find(&mut *look.0, member, false).await?;
        let select = "SELECT jws FROM late_line JOIN device ON device.dev = late_line.dev
                      WHERE device.member = $1 ORDER BY late_line.dev, seq, hash";
        let late = look.0.ask(select, &[member.as_str().into()]).await?;
        let mut about =
            About { late: late.into_iter().map(|mut row| row.text()).collect::<Result<_, _>>()?, ..About::default() };
        for Found { pos, is_own, stays, .. } in found {
            about.stays += u64::from(stays);
            let mut rows = look.0.ask("SELECT jws FROM entry WHERE pos = $1", &[pos.into()]).await?;
            let line = rows.pop().map(|mut row| row.text()).transpose()?.unwrap_or_default();
            if is_own { about.own.push(line) } else { about.naming.push(line) }
        }
        Ok(about)
    }

    /// Differs whenever lines were erased that phones are to forget.
    pub(crate) async fn newest_erasure(&self) -> Result<u64, StoreError> {
        only(self.look().await?.0.ask("SELECT coalesce(max(id), 0) FROM erasure", &[]).await?)?.count()
    }
}

impl Look {
    /// What phones are to forget since the stretch of this number.
    pub(crate) async fn forgotten(&mut self, glance: &Glance, since: u64) -> Result<Forgotten, StoreError> {
        if glance.has_forgotten(since) {
            return Ok(Forgotten { last: since, ..Forgotten::default() });
        }
        let (look, asked, life) = (&mut *self.0, Cursor::of(since), glance.life);
        // In a copy that was put back, and in a store that was moved, a number may stand for another stretch than the one that
        // was told under it: in a new life all is told anew, and whoever has forgotten it has nothing to do.
        let from = if asked.life == life { asked.place } else { 0 };
        let select = "SELECT id, dev, from_seq, to_seq FROM erasure WHERE id > $1 ORDER BY id LIMIT $2";
        let rows = look.ask(select, &[i64::try_from(from)?.into(), (STRETCHES_MAX + 1).into()]).await?;
        let (mut last, mut forgotten) = (from, Forgotten::default());
        for mut row in rows {
            if forgotten.stretches.len() == usize::try_from(STRETCHES_MAX)? {
                forgotten.more = true;
                break;
            }
            last = row.count()?;
            forgotten.stretches.push(Stretch { dev: DeviceId::new(row.text()?), from: row.count()?, to: row.count()? });
        }
        forgotten.last = Cursor { life, place: last }.number();
        Ok(forgotten)
    }
}

impl Look {
    /// What is gone of the lines just before a stretch behind which something is gone as well: to be forgotten by a phone that goes on
    /// from there. It heard some stays begin, and may hear of no end any more: it was away for longer than the log is kept. A stay that
    /// was open for more than the [`LOOKED_BACK`] last lines is not found.
    pub(crate) async fn gone_before(
        &mut self,
        behind: &log::Stretch,
        dev: &DeviceId,
    ) -> Result<Vec<Stretch>, StoreError> {
        let select = "SELECT dev, seq FROM entry
                      WHERE erased_ms IS NOT NULL AND pos > $1 AND pos <= $2 AND dev <> $3 ORDER BY dev, seq";
        let values = [(behind.from - LOOKED_BACK).into(), behind.from.into(), dev.as_str().into()];
        let mut stretches: Vec<Stretch> = Vec::new();
        for mut row in self.0.ask(select, &values).await? {
            let (dev, seq) = (DeviceId::new(row.text()?), row.count()?);
            match stretches.last_mut() {
                Some(last) if last.dev == dev && last.to + 1 == seq => last.to = seq,
                _ => stretches.push(Stretch { dev, from: seq, to: seq }),
            }
        }
        stretches.truncate(GONE_MAX);
        Ok(stretches)
    }
}

impl Change {
    /// Erases all about a member that is not in force: lines and the pictures that these named, what their figures are checked
    /// against, one-time codes. Phones are told. Of somebody who is leaving, nothing that was said of them is in force any more.
    pub(crate) async fn erase_about(
        &mut self,
        member: &PersonId,
        leaving: bool,
        now: Instant,
    ) -> Result<Erasing, StoreError> {
        let mut erasing = Erasing::default();
        let mut gone: BTreeMap<DeviceId, Vec<u64>> = BTreeMap::new();
        for Found { pos, dev, seq, is_own, stays } in find(&mut *self.talk, member, leaving).await? {
            if stays {
                erasing.stays += 1;
                continue;
            }
            erasing.erased += self.erase(pos, !is_own, now).await?;
            gone.entry(dev).or_default().push(seq);
        }
        for (dev, mut seqs) in gone {
            seqs.sort_unstable();
            for stretch in seqs.chunk_by(|one, next| *next == one + 1) {
                let (Some(from), Some(to)) = (stretch.first(), stretch.last()) else { continue };
                let insert = "INSERT INTO erasure (dev, from_seq, to_seq, made_ms) VALUES ($1, $2, $3, $4)";
                let (from, to) = (i64::try_from(*from)?, i64::try_from(*to)?);
                self.talk.act(insert, &[dev.as_str().into(), from.into(), to.into(), now.ms().into()]).await?;
            }
        }
        for sql in [
            "DELETE FROM late_line WHERE dev IN (SELECT dev FROM device WHERE member = $1)",
            "DELETE FROM pin WHERE member = $1",
            "DELETE FROM carried WHERE to_member = $1 OR from_member = $1",
            "DELETE FROM invite WHERE member = $1 AND (used_by IS NOT NULL OR revoked_ms IS NOT NULL)",
        ] {
            self.talk.act(sql, &[member.as_str().into()]).await?;
        }
        self.drop_unnamed_pictures(Some(member)).await?;
        self.tell(News::Joined);
        Ok(erasing)
    }

    /// Takes a member's phones off and, where nothing of theirs stays, forgets whose they were.
    pub(crate) async fn part_from(&mut self, member: &PersonId, by: &str, now: Instant) -> Result<(), StoreError> {
        for known in self.devices().await?.into_iter().filter(|known| known.member == *member) {
            self.revoke(&known.dev, by, now).await?;
            let forget = "UPDATE device SET member = '' WHERE dev = $1
                          AND NOT EXISTS (SELECT 1 FROM entry WHERE entry.dev = $1 AND erased_ms IS NULL)";
            self.talk.act(forget, &[known.dev.as_str().into()]).await?;
            self.talk.act("DELETE FROM board WHERE dev = $1", &[known.dev.as_str().into()]).await?;
        }
        self.talk.act("DELETE FROM invite WHERE member = $1", &[member.as_str().into()]).await.map(drop)
    }

    async fn erase(&mut self, pos: i64, keeps_session: bool, now: Instant) -> Result<u64, StoreError> {
        let update =
            "UPDATE entry SET erased_ms = $2, jws = '', received_ms = 0, shared = 0, at_ms = NULL, what = NULL,
                      machine = NULL, round = NULL, session = CASE WHEN $3 = 1 THEN session ELSE NULL END
                      WHERE pos = $1 AND erased_ms IS NULL";
        self.talk.act(update, &[pos.into(), now.ms().into(), i64::from(keeps_session).into()]).await
    }
}

/// The wire names of facts that may name somebody else ([`named`]).
const NAMING: [&str; 6] = ["buddy_confirmed", "buddy_left", "inducted", "signed_off", "role_given", "noted"];

/// A line about a member.
struct Found {
    pos: i64,
    dev: DeviceId,
    seq: u64,
    is_own: bool,
    stays: bool,
}

async fn find(talk: &mut dyn Talk, member: &PersonId, leaving: bool) -> Result<Vec<Found>, StoreError> {
    let in_force = in_force(talk, Lines::All).await?;
    let (mut found, mut may_name) = (Vec::new(), Vec::new());
    each(talk, Lines::All, &mut |line| {
        let of_them = |said: &Said<'_>| matches!(said.word, Word::Of(_, person, _) if person == member);
        let stays = line.said().is_some_and(|said| in_force.holds(&said) && !(leaving && of_them(&said)));
        let is_own = line.member == *member;
        let to = if is_own { &mut found } else { &mut may_name };
        if is_own || NAMING.contains(&line.what.as_str()) {
            to.push(Found { pos: line.pos, dev: line.dev.clone(), seq: line.seq, is_own, stays });
        }
    })
    .await?;
    for one in may_name {
        let rows = talk.ask("SELECT jws FROM entry WHERE pos = $1", &[one.pos.into()]).await?;
        let line = rows.into_iter().next().map(|mut row| row.text()).transpose()?.unwrap_or_default();
        if jws::open(&line).is_ok_and(|signed| named(&signed.entry.fact).contains(member)) {
            found.push(one);
        }
    }
    found.sort_by_key(|one| one.pos);
    Ok(found)
}

async fn in_force(talk: &mut dyn Talk, about: Lines) -> Result<InForce, StoreError> {
    let mut in_force = InForce::default();
    each(talk, about, &mut |line| {
        if let Some(said) = line.said() {
            in_force.note(&said);
        }
    })
    .await?;
    Ok(in_force)
}

/// A line that is not erased, as far as the store repeats what it says.
struct Kept {
    pos: i64,
    dev: DeviceId,
    seq: u64,
    member: PersonId,
    received: Instant,
    session: SessionId,
    at: Option<Instant>,
    what: String,
    machine: MachineId,
    round: RoundId,
    /// What it says, where a member is what it is about.
    entry: Option<Entry>,
}

impl Kept {
    /// What of it may be in force; nothing of a line that counts for nothing.
    fn said(&self) -> Option<Said<'_>> {
        let word = match self.what.as_str() {
            "entered" => Word::Entered,
            "left" => Word::Left,
            "tagged_out" => Word::Tag(&self.machine),
            "tag_cleared" => Word::TagOff(&self.machine),
            "noted" if !self.machine.as_str().is_empty() => Word::OfTag(&self.machine),
            "round_done" => Word::Round(&self.round),
            _ => self.entry.as_ref().map_or(Word::Other, |entry| Word::of_member(&self.member, &entry.fact)),
        };
        Some(Said { who: &self.member, session: &self.session, at: self.at?, learned: self.received, word })
    }
}

/// Which lines are looked at.
#[derive(Clone, Copy, Debug)]
enum Lines {
    /// All that are not erased.
    All,
    /// Of these, all that say whether a line which was learned before this is over: such lines, their sessions, and words of
    /// which the last is in force. In a log of a million lines that is a small part.
    Concerned(Instant),
}

const ALL: &str = "SELECT pos, entry.dev, seq, member, received_ms, session, CASE WHEN aside IS NULL THEN at_ms END,
      what, machine, round,
      CASE WHEN what IN ('inducted', 'signed_off', 'role_given', 'walked', 'walk_done') THEN jws END
      FROM entry JOIN device ON device.dev = entry.dev
      WHERE pos > $1 AND erased_ms IS NULL ORDER BY pos LIMIT $2";

const CONCERNED: &str =
    "SELECT pos, entry.dev, seq, member, received_ms, session, CASE WHEN aside IS NULL THEN at_ms END,
      what, machine, round,
      CASE WHEN what IN ('inducted', 'signed_off', 'role_given', 'walked', 'walk_done') THEN jws END
      FROM entry JOIN device ON device.dev = entry.dev
      WHERE pos > $1 AND erased_ms IS NULL
        AND EXISTS (SELECT 1 FROM entry AS old WHERE old.erased_ms IS NULL AND old.received_ms < $3)
        AND (received_ms < $3
          OR what IN ('tagged_out', 'tag_cleared', 'round_done', 'inducted', 'signed_off', 'role_given', 'walked', 'walk_done')
          OR session IN (SELECT old.session FROM entry AS old WHERE old.erased_ms IS NULL AND old.received_ms < $3))
      ORDER BY pos LIMIT $2";

/// These lines, in the log's order, a page at a time.
async fn each(talk: &mut dyn Talk, about: Lines, see: &mut (dyn FnMut(&Kept) + Send)) -> Result<(), StoreError> {
    let mut after = 0;
    loop {
        let mut values: Vec<Value> = vec![i64::into(after), PAGE.into()];
        let select = match about {
            Lines::All => ALL,
            Lines::Concerned(limit) => {
                values.push(limit.ms().into());
                CONCERNED
            }
        };
        let rows = talk.ask(select, &values).await?;
        if rows.is_empty() {
            return Ok(());
        }
        for row in rows {
            let line = kept(row)?;
            after = line.pos;
            see(&line);
        }
    }
}

fn kept(mut row: Cells) -> Result<Kept, StoreError> {
    Ok(Kept {
        pos: row.number()?,
        dev: DeviceId::new(row.text()?),
        seq: row.count()?,
        member: PersonId::new(row.text()?),
        received: Instant::from_ms(row.number()?),
        session: SessionId::new(row.maybe_text()?.unwrap_or_default()),
        at: row.maybe_number()?.map(Instant::from_ms),
        what: row.maybe_text()?.unwrap_or_default(),
        machine: MachineId::new(row.maybe_text()?.unwrap_or_default()),
        round: RoundId::new(row.maybe_text()?.unwrap_or_default()),
        entry: row.maybe_text()?.and_then(|jws| jws::unproved(&jws)).map(|(_, entry)| entry),
    })
}

/// Copies what [`super::copy`] copies of what phones are to forget: all.
pub(super) async fn copy(old: &mut Change, new: &mut Change) -> Result<(), StoreError> {
    let select = "SELECT dev, from_seq, to_seq, made_ms FROM erasure ORDER BY id";
    for mut row in old.talk.ask(select, &[]).await? {
        let (dev, from, to, made) = (row.text()?, row.number()?, row.number()?, row.number()?);
        let insert = "INSERT INTO erasure (dev, from_seq, to_seq, made_ms) VALUES ($1, $2, $3, $4)";
        new.talk.act(insert, &[dev.as_str().into(), from.into(), to.into(), made.into()]).await?;
    }
    Ok(())
}
