//! Pictures that phones handed over: kept under the hash that the log names them by, and no longer than a line names them.
//!
//! Whose a picture is, is whose phone handed it over; only lines of that member count for it. Otherwise whoever knows a hash could
//! name it in a tag of their own, and so have somebody else's picture shown. Whether bytes are a picture is asked before they
//! come here (`crate::api::picture`).

use std::collections::BTreeMap;

use shared_core::entry::Fact;
use shared_core::ids::{DeviceId, PersonId};
use shared_core::log::jws;
use shared_core::time::Instant;

use super::engine::{Talk, only};
use super::{Change, Store, StoreError};

/// More pictures than this of one device are not kept.
pub(crate) const PICTURES_MAX: u64 = 200;
/// A picture is handed over soon after its line: of a member's lines that may name one, the newest so many are looked at then.
const LOOKED_AT: i64 = 2_000;
/// So many lines are read at once.
const PAGE: i64 = 500;

/// A picture that is kept.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(crate) struct Picture {
    /// Whose phone handed it over.
    pub(crate) of: PersonId,
    /// Whether it is of a tag.
    pub(crate) of_tag: bool,
    /// The JPEG.
    pub(crate) bytes: Vec<u8>,
}

impl Store {
    /// A picture as this member may see it: their own before others', and one of a tag before one of a chore.
    pub(crate) async fn picture(&self, sha: &str, for_whom: &PersonId) -> Result<Option<Picture>, StoreError> {
        let select = "SELECT member, of_tag, bytes FROM picture JOIN device USING (dev) WHERE sha = $1
                      ORDER BY CASE WHEN member = $2 THEN 0 ELSE 1 END, of_tag DESC, dev LIMIT 1";
        let rows = self.look().await?.0.ask(select, &[sha.into(), for_whom.as_str().into()]).await?;
        let Some(mut row) = rows.into_iter().next() else { return Ok(None) };
        Ok(Some(Picture { of: PersonId::new(row.text()?), of_tag: row.number()? == 1, bytes: row.bytes()? }))
    }

    /// Whether a device handed it over already.
    pub(crate) async fn has_picture(&self, sha: &str, dev: &DeviceId) -> Result<bool, StoreError> {
        let select = "SELECT of_tag FROM picture WHERE sha = $1 AND dev = $2";
        Ok(!self.look().await?.0.ask(select, &[sha.into(), dev.as_str().into()]).await?.is_empty())
    }

    /// The hashes of a member's pictures, oldest first.
    pub(crate) async fn pictures_of(&self, member: &PersonId) -> Result<Vec<String>, StoreError> {
        let select = "SELECT sha FROM picture JOIN device USING (dev) WHERE member = $1 ORDER BY kept_ms, sha, dev";
        let rows = self.look().await?.0.ask(select, &[member.as_str().into()]).await?;
        rows.into_iter().map(|mut row| row.text()).collect()
    }

    /// Whether lines of this member name a picture, and then whether a tag does.
    pub(crate) async fn names_picture(&self, member: &PersonId, sha: &str) -> Result<Option<bool>, StoreError> {
        let mut named = named(&mut *self.look().await?.0, member, LOOKED_AT).await?;
        Ok(named.remove(sha))
    }
}

impl Change {
    /// Keeps a picture; twice is once. False if this device has handed over as many as are kept.
    pub(crate) async fn keep_picture(
        &mut self,
        sha: &str,
        dev: &DeviceId,
        of_tag: bool,
        bytes: &[u8],
        now: Instant,
    ) -> Result<bool, StoreError> {
        let count = "SELECT count(*) FROM picture WHERE dev = $1 AND sha <> $2";
        if only(self.talk.ask(count, &[dev.as_str().into(), sha.into()]).await?)?.count()? >= PICTURES_MAX {
            return Ok(false);
        }
        let insert = "INSERT INTO picture (sha, dev, of_tag, bytes, kept_ms) VALUES ($1, $2, $3, $4, $5)
                      ON CONFLICT DO NOTHING";
        let values = [sha.into(), dev.as_str().into(), i64::from(of_tag).into(), bytes.into(), now.ms().into()];
        self.talk.act(insert, &values).await?;
        Ok(true)
    }

    /// Drops what no line names any more, of one member or of all, and looks again what is of a tag.
    pub(super) async fn drop_unnamed_pictures(&mut self, of: Option<&PersonId>) -> Result<(), StoreError> {
        let select = "SELECT sha, dev, member FROM picture JOIN device USING (dev)
                      WHERE $1 IS NULL OR member = $1 ORDER BY member, sha, dev";
        let mut known: Option<(PersonId, BTreeMap<String, bool>)> = None;
        for mut row in self.talk.ask(select, &[of.map(PersonId::as_str).into()]).await? {
            let (sha, dev, member) = (row.text()?, row.text()?, PersonId::new(row.text()?));
            if known.as_ref().is_none_or(|(whose, _)| *whose != member) {
                let names = named(&mut *self.talk, &member, i64::MAX).await?;
                known = Some((member, names));
            }
            let of_tag = known.as_ref().and_then(|(_, names)| names.get(&sha)).copied();
            let (sha, dev) = (sha.as_str().into(), dev.as_str().into());
            match of_tag {
                None => self.talk.act("DELETE FROM picture WHERE sha = $1 AND dev = $2", &[sha, dev]).await?,
                Some(of_tag) => {
                    let update = "UPDATE picture SET of_tag = $3 WHERE sha = $1 AND dev = $2 AND of_tag <> $3";
                    self.talk.act(update, &[sha, dev, i64::from(of_tag).into()]).await?
                }
            };
        }
        Ok(())
    }
}

/// The pictures that a member's lines name, and whether a tag does, among the newest so many that may.
async fn named(talk: &mut dyn Talk, member: &PersonId, most: i64) -> Result<BTreeMap<String, bool>, StoreError> {
    let select = "SELECT pos, jws FROM entry WHERE dev IN (SELECT dev FROM device WHERE member = $1) AND pos < $2
                  AND what IN ('tagged_out', 'chore_done') AND aside IS NULL AND erased_ms IS NULL
                  ORDER BY pos DESC LIMIT $3";
    let (mut named, mut before, mut left) = (BTreeMap::new(), i64::MAX, most);
    while left > 0 {
        let lines = talk.ask(select, &[member.as_str().into(), before.into(), PAGE.min(left).into()]).await?;
        if lines.is_empty() {
            break;
        }
        left -= i64::try_from(lines.len())?;
        for mut line in lines {
            before = line.number()?;
            let entry = jws::unproved(&line.text()?).map(|(_, entry)| entry.fact);
            let (sha, of_tag) = match entry {
                Some(Fact::TaggedOut { photo: Some(sha), .. }) => (sha, true),
                Some(Fact::ChoreDone { photo: Some(sha), .. }) => (sha, false),
                _ => continue,
            };
            *named.entry(sha).or_insert(false) |= of_tag;
        }
    }
    Ok(named)
}

/// Copies them all into a new store, one at a time.
pub(super) async fn copy(old: &mut Change, new: &mut Change) -> Result<(), StoreError> {
    for mut row in old.talk.ask("SELECT sha, dev FROM picture ORDER BY kept_ms, sha, dev", &[]).await? {
        let (sha, dev) = (row.text()?, DeviceId::new(row.text()?));
        let select = "SELECT of_tag, kept_ms, bytes FROM picture WHERE sha = $1 AND dev = $2";
        let mut one = only(old.talk.ask(select, &[sha.as_str().into(), dev.as_str().into()]).await?)?;
        let (of_tag, kept) = (one.number()? == 1, Instant::from_ms(one.number()?));
        new.keep_picture(&sha, &dev, of_tag, &one.bytes()?, kept).await?;
    }
    Ok(())
}
