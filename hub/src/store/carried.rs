//! Codes on their way from one phone to another, when both have a network and no light to scan by.
//!
//! The hub hands a text over unread; what it says is signed by the phones themselves. It is kept ten minutes, a few per
//! member, and each of the member's devices gets it once with a sync, at whichever process, besides the live event.

use shared_core::ids::{DeviceId, PersonId};
use shared_core::sync::shop::Carried;
use shared_core::time::{Instant, Span};

use super::{Change, News, Store, StoreError, Value};

/// The longest text that is carried, in bytes: an ask or an answer fits twice.
pub(crate) const TEXT_MAX_BYTES: usize = 512;
const KEPT: Span = Span::from_minutes(10);
/// The oldest gives way: a member who is asked this often has seen the newest.
pub(super) const PER_MEMBER_MAX: i64 = 32;

const WAITING: &str = "SELECT id, code FROM carried
    WHERE to_member = $1 AND until_ms > $2
      AND NOT EXISTS (SELECT 1 FROM handed_over AS given WHERE given.id = carried.id AND given.dev = $3)
    ORDER BY id";

impl Store {
    /// The texts that wait for `member` and that this device has not been given yet. Now it has.
    pub(crate) async fn take_carried(
        &self,
        member: &PersonId,
        dev: &DeviceId,
        now: Instant,
    ) -> Result<Vec<String>, StoreError> {
        let waiting: [Value; 3] = [member.as_str().into(), now.ms().into(), dev.as_str().into()];
        let (mut change, mut texts) = (self.change().await?, Vec::new());
        for mut row in change.talk.ask(WAITING, &waiting).await? {
            let (id, code) = (row.number()?, row.bytes()?);
            let insert = "INSERT INTO handed_over (id, dev) VALUES ($1, $2)";
            change.talk.act(insert, &[id.into(), dev.as_str().into()]).await?;
            texts.push(String::from_utf8_lossy(&code).into_owned());
        }
        change.commit().await?;
        Ok(texts)
    }
}

impl Change {
    /// Puts a code there for `to`, and tells of it.
    pub(crate) async fn carry(&mut self, to: &PersonId, what: Carried, now: Instant) -> Result<(), StoreError> {
        self.talk.act("DELETE FROM carried WHERE until_ms <= $1", &[now.ms().into()]).await?;
        let make_room = "DELETE FROM carried WHERE to_member = $1 AND id NOT IN
            (SELECT id FROM carried WHERE to_member = $1 ORDER BY id DESC LIMIT $2)";
        self.talk.act(make_room, &[to.as_str().into(), (PER_MEMBER_MAX - 1).into()]).await?;
        let insert = "INSERT INTO carried (to_member, from_member, code, until_ms) VALUES ($1, $2, $3, $4)";
        let until = now + KEPT;
        let (from, code) = (what.from.as_str(), what.text.as_bytes());
        self.talk.act(insert, &[to.as_str().into(), from.into(), code.into(), until.ms().into()]).await?;
        self.tell(News::Carry { to: to.clone(), from: what.from, text: what.text });
        Ok(())
    }
}
