//! A whole store into another, and the proof that it is whole: `sweepbell move` and `sweepbell backup`.
//!
//! Every line goes once more through the very intake that took it from its phone: signature, device, order, chain, and
//! what the store repeats of it. The first that does not hold ends it, and nothing half done is left: a database is
//! filled in one transaction, a file appears under its name only when it is whole, proved and on the disk. Sessions, the
//! hub's keys, cards, open invites, pictures and where phones are reached go along; challenges and codes on their way are of minutes
//! and do not.

use std::path::{Path, PathBuf};

use serde::Serialize;
use thiserror::Error;

use super::engine::{Talk, only};
use super::lives::lives_from;
use super::log::{self, Line, Row};
use super::prover::{Prover, Unproved};
use super::{Place, Store, StoreError, erasing, in_room, invites, keys, late, picture, push, rulebook, shared, sqlite};
use crate::clock;

/// A page of the log at a time is held in memory.
const PAGE: i64 = 500;
/// A restored copy goes on counting from here past its newest entry: phones may have been told of later ones, which
/// are lost, and would otherwise take new entries for those.
const BEYOND: i64 = 1_000_000;

/// What was found whole.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
pub(crate) struct Proved {
    /// Lines of the log.
    pub(crate) entries: u64,
    /// Devices that have joined.
    pub(crate) devices: u64,
}

/// Why there is no copy.
#[derive(Debug, Error)]
pub(crate) enum CopyFault {
    /// A database says no.
    #[error(transparent)]
    Store(#[from] StoreError),
    /// The log is not what was signed.
    #[error("{0}")]
    Unproved(#[from] Unproved),
    /// Nothing to copy.
    #[error("{0}: there is nothing")]
    Nothing(Place),
    /// It would mix with something.
    #[error("{0}: there is something already; name a new place")]
    NotEmpty(Place),
    /// What arrived is not what left.
    #[error("{left:?} left and {arrived:?} arrived")]
    Differs {
        /// What was read.
        left: Proved,
        /// What was written.
        arrived: Proved,
    },
    /// A file cannot be made.
    #[error("{}: {cause}", file.display())]
    File {
        /// Which.
        file: PathBuf,
        /// Why.
        cause: std::io::Error,
    },
}

/// Copies a SQLite file while a hub writes to it, and proves the copy.
pub(crate) async fn backup(from: &Path, to: &Path) -> Result<Proved, CopyFault> {
    if !from.is_file() {
        return Err(CopyFault::Nothing(Place::File(from.into())));
    }
    let part = Part::of(to)?;
    sqlite::copy_file(from, &part.path.to_string_lossy()).await?;
    let copy = Store::open(&Place::File(part.path.clone())).await?;
    while copy.prove_some().await? {}
    let proved = prove_and_skip(&copy).await;
    copy.close().await;
    let proved = proved?;
    part.finish(to).await?;
    Ok(proved)
}

async fn prove_and_skip(copy: &Store) -> Result<Proved, CopyFault> {
    let mut change = copy.change().await?;
    let proved = prove(&mut *change.talk).await?;
    let used = pos_used(&mut *change.talk).await?;
    skip_pos(&mut *change.talk, used + BEYOND).await?;
    change.commit().await?;
    Ok(proved)
}

/// Moves everything that lasts from one store into a new one. Nobody can write to the old one meanwhile.
pub(crate) async fn move_all(from: &Place, to: &Place) -> Result<Proved, CopyFault> {
    if !from.may_exist() {
        return Err(CopyFault::Nothing(from.clone()));
    }
    let part = match to {
        Place::File(file) => Some((Part::of(file)?, file)),
        Place::Server { .. } => None,
    };
    let old = Store::open(from).await?;
    let new =
        Store::open(&part.as_ref().map_or_else(|| to.clone(), |(part, _)| Place::File(part.path.clone()))).await?;
    let moved = fill(&old, &new, to).await;
    old.close().await;
    new.close().await;
    let moved = moved?;
    if let Some((part, file)) = part {
        part.finish(file).await?;
    }
    Ok(moved)
}

async fn fill(old: &Store, new: &Store, to: &Place) -> Result<Proved, CopyFault> {
    let mut new = new.change().await?;
    let mut old = loop {
        while old.prove_some().await? {}
        let mut locked = old.change().await?;
        // A hub may have taken more meanwhile; now it cannot.
        if locked.waiting().await? == 0 {
            break locked;
        }
    };
    if !new.is_new().await? {
        return Err(CopyFault::NotEmpty(to.clone()));
    }
    let mut prover = Prover::of(&mut *old.talk).await?;
    for device in prover.devices() {
        new.join(&device.dev, &device.member, device.joined).await?;
    }
    for (dev, lost, received) in prover.lost() {
        new.lose(dev, *lost, *received).await?;
    }
    for (token, dev, ends) in old.sessions().await? {
        new.keep_session(&token, &dev, ends).await?;
    }
    for life in lives_from(&mut *old.talk, 0).await? {
        new.add_life(life).await?;
    }
    let mut after = 0;
    loop {
        let lines = log::page_after(&mut *old.talk, after, PAGE).await?;
        let Some(last) = lines.last() else { break };
        after = last.pos;
        for line in &lines {
            let says = prover.take(line)?;
            if line.erased.is_some() {
                new.append_erased_at(line.pos, line).await?;
                continue;
            }
            let Line { pos, dev, seq, hash, jws, received, aside, .. } = line;
            let row = Row { dev, seq: *seq, hash, jws, aside: *aside, says: says.as_ref().map(super::Says::of) };
            new.append_at(*pos, &row, *received).await?;
        }
    }
    new.copy_revocations(&mut old).await?;
    keys::copy(&mut old, &mut new).await?;
    invites::copy(&mut old, &mut new).await?;
    late::copy(&mut old, &mut new).await?;
    erasing::copy(&mut old, &mut new).await?;
    in_room::copy(&mut old, &mut new, clock::now()).await?;
    shared::copy(&mut old, &mut new).await?;
    rulebook::copy(&mut old, &mut new).await?;
    picture::copy(&mut old, &mut new).await?;
    push::copy(&mut old, &mut new, clock::now()).await?;
    let left = prover.end()?;
    let used = pos_used(&mut *old.talk).await?;
    skip_pos(&mut *new.talk, used).await?;
    let arrived = prove(&mut *new.talk).await?;
    if left != arrived {
        return Err(CopyFault::Differs { left, arrived });
    }
    new.commit().await?;
    Ok(arrived)
}

/// Every line of a store, proved.
async fn prove(talk: &mut dyn Talk) -> Result<Proved, CopyFault> {
    let (mut prover, mut after) = (Prover::of(talk).await?, 0);
    loop {
        let lines = log::page_after(talk, after, PAGE).await?;
        let Some(last) = lines.last() else { return Ok(prover.end()?) };
        after = last.pos;
        for line in &lines {
            prover.take(line)?;
        }
    }
}

async fn pos_used(talk: &mut dyn Talk) -> Result<i64, StoreError> {
    let sql = talk.dialect().pos_used;
    only(talk.ask(sql, &[]).await?)?.number()
}

async fn skip_pos(talk: &mut dyn Talk, to: i64) -> Result<(), StoreError> {
    for sql in talk.dialect().skip_pos {
        talk.act(sql, &[to.into()]).await?;
    }
    Ok(())
}

/// A database file in the making, under another name; dropped unfinished, it is removed.
struct Part {
    path: PathBuf,
}

impl Part {
    fn of(file: &Path) -> Result<Self, CopyFault> {
        if file.exists() {
            return Err(CopyFault::NotEmpty(Place::File(file.into())));
        }
        let mut name = file.as_os_str().to_owned();
        name.push(".part");
        let part = Self { path: name.into() };
        part.remove();
        Ok(part)
    }

    /// Puts it on the disk and gives it its name. What was closed may still have a journal, and a part is the file alone.
    async fn finish(self, file: &Path) -> Result<(), CopyFault> {
        sqlite::settle(&self.path).await?;
        let synced = |path: &Path| std::fs::File::open(path).and_then(|open| open.sync_all());
        let folder = file.parent().filter(|folder| !folder.as_os_str().is_empty()).unwrap_or(Path::new("."));
        let done = synced(&self.path).and_then(|()| std::fs::rename(&self.path, file)).and_then(|()| synced(folder));
        done.map_err(|cause| CopyFault::File { file: file.into(), cause })
    }

    fn remove(&self) {
        for end in ["", "-wal", "-shm", "-journal"] {
            let mut name = self.path.as_os_str().to_owned();
            name.push(end);
            // What is not there need not be removed.
            let _ = std::fs::remove_file(PathBuf::from(name));
        }
    }
}

impl Drop for Part {
    fn drop(&mut self) {
        self.remove();
    }
}
