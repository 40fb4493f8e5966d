//! One-time codes to join with: whom each is for, until when, and what became of it. Of the code its digest alone is kept.

use shared_core::ids::{DeviceId, PersonId};
use shared_core::sync::invite::InviteKind;
use shared_core::time::{Instant, Span};

use super::engine::{Talk, Value, only};
use super::{Cells, Change, Store, StoreError};

/// An invite that is over is remembered this long, so that whoever comes with its code is told what became of it.
const REMEMBERED: Span = Span::from_minutes(7 * 24 * 60);
/// More than this are not open at once.
pub(crate) const OPEN_MAX: usize = 500;

/// An invite.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(crate) struct Invite {
    /// What a steward calls it by.
    pub(crate) id: u64,
    /// The code's digest.
    pub(crate) digest: Vec<u8>,
    /// Whom it is for.
    pub(crate) member: PersonId,
    /// What for.
    pub(crate) kind: InviteKind,
    /// In place of which phone, if so.
    pub(crate) replaces: Option<DeviceId>,
    /// Who made it; "" at the hub's own machine.
    pub(crate) made_by: String,
    /// When.
    pub(crate) made: Instant,
    /// Until when it is good.
    pub(crate) until: Instant,
    /// The phone that used it.
    pub(crate) used_by: Option<DeviceId>,
    /// Whether it was taken back.
    pub(crate) is_revoked: bool,
}

impl Invite {
    /// Whether it can still be used.
    pub(crate) fn is_open(&self, now: Instant) -> bool {
        self.used_by.is_none() && !self.is_revoked && now < self.until
    }
}

const ALL: &str = "SELECT id, code_sha256, member, kind, replaces, made_by, made_ms, until_ms, used_by, revoked_ms
                   FROM invite ORDER BY id";

impl Store {
    /// All that are open, and those that are over since not long.
    pub(crate) async fn invites(&self) -> Result<Vec<Invite>, StoreError> {
        all(&mut *self.look().await?.0).await
    }
}

async fn all(talk: &mut dyn Talk) -> Result<Vec<Invite>, StoreError> {
    talk.ask(ALL, &[]).await?.into_iter().map(invite).collect()
}

fn invite(mut row: Cells) -> Result<Invite, StoreError> {
    let (id, digest, member, kind) = (row.count()?, row.bytes()?, PersonId::new(row.text()?), row.text()?);
    let kind = InviteKind::named(&kind).ok_or(StoreError::Value { wanted: "a kind of invite", found: kind })?;
    Ok(Invite {
        id,
        digest,
        member,
        kind,
        replaces: row.maybe_text()?.map(DeviceId::new),
        made_by: row.text()?,
        made: Instant::from_ms(row.number()?),
        until: Instant::from_ms(row.number()?),
        used_by: row.maybe_text()?.map(DeviceId::new),
        is_revoked: row.maybe_number()?.is_some(),
    })
}

impl Change {
    /// All of them, as this change sees them.
    pub(crate) async fn invites(&mut self) -> Result<Vec<Invite>, StoreError> {
        all(&mut *self.talk).await
    }

    /// Keeps a new one, and forgets those that are long over. Gives its id; the one in the invite is not looked at.
    pub(crate) async fn keep_invite(&mut self, new: &Invite) -> Result<u64, StoreError> {
        let forgotten = (new.made - REMEMBERED).ms();
        self.talk.act("DELETE FROM invite WHERE until_ms <= $1", &[forgotten.into()]).await?;
        let insert = "INSERT INTO invite (code_sha256, member, kind, replaces, made_by, made_ms, until_ms)
                      VALUES ($1, $2, $3, $4, $5, $6, $7) RETURNING id";
        let values: [Value; 7] = [
            new.digest.as_slice().into(),
            new.member.as_str().into(),
            new.kind.name().into(),
            new.replaces.as_ref().map(DeviceId::as_str).into(),
            new.made_by.as_str().into(),
            new.made.ms().into(),
            new.until.ms().into(),
        ];
        only(self.talk.ask(insert, &values).await?)?.count()
    }

    /// Uses one up. False if it is over, or another phone was faster.
    pub(crate) async fn use_invite(&mut self, id: u64, by: &DeviceId, now: Instant) -> Result<bool, StoreError> {
        let update = "UPDATE invite SET used_by = $2, used_ms = $3
                      WHERE id = $1 AND used_by IS NULL AND revoked_ms IS NULL AND until_ms > $3";
        let values = [i64::try_from(id)?.into(), by.as_str().into(), now.ms().into()];
        Ok(self.talk.act(update, &values).await? == 1)
    }

    /// Takes back the open codes for a member's first phone, now that they have one.
    pub(crate) async fn revoke_first_invites(&mut self, member: &PersonId, now: Instant) -> Result<(), StoreError> {
        let update = "UPDATE invite SET revoked_ms = $2
                      WHERE member = $1 AND kind = 'first' AND used_by IS NULL AND revoked_ms IS NULL";
        self.talk.act(update, &[member.as_str().into(), now.ms().into()]).await.map(drop)
    }

    /// Takes one back. False if there is none, or it is over.
    pub(crate) async fn revoke_invite(&mut self, id: u64, now: Instant) -> Result<bool, StoreError> {
        let update = "UPDATE invite SET revoked_ms = $2
                      WHERE id = $1 AND used_by IS NULL AND revoked_ms IS NULL AND until_ms > $2";
        Ok(self.talk.act(update, &[i64::try_from(id)?.into(), now.ms().into()]).await? == 1)
    }
}

/// Copies what [`super::copy`] copies of invites: those that nobody used or took back.
pub(super) async fn copy(old: &mut Change, new: &mut Change) -> Result<(), StoreError> {
    for invite in old.invites().await?.iter().filter(|invite| invite.used_by.is_none() && !invite.is_revoked) {
        new.keep_invite(invite).await?;
    }
    Ok(())
}
