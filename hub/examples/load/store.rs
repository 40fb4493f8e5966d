//! Fills a hub's new SQLite file: phones that have joined and are signed in, and a log of evenings that all of them signed.
//!
//! Written beside the hub, because a million entries through its door would count as new today, and most of a real log
//! is old. Every line is signed and chained as a phone does it. The hub must not run meanwhile.

use std::fmt::Write as _;
use std::path::Path;

use anyhow::Result;
use shared_core::entry::{Entry, Fact};
use shared_core::log::jws::{self, Signed};
use shared_core::log::wire::what_of;
use shared_core::sync::hub::members_may_see;
use shared_core::time::{Instant, Span};
use sqlx::sqlite::{SqliteConnectOptions, SqliteSynchronous};
use sqlx::{AssertSqlSafe, Connection as _, SqliteConnection};

use crate::evening::{self, evening};
use crate::phone::Phone;

/// From one evening of a phone to its next; ten of them are within the 90 days that a log is kept.
const EVENINGS_APART: Span = Span::from_minutes(7 * 24 * 60);
/// Rows of one statement, and statements of one transaction.
const ROWS: usize = 50;
const STATEMENTS: usize = 1_000;

/// A shop's members file: a steward, and somebody for each phone.
pub(crate) fn members(phones: usize) -> String {
    let mut text = "[[member]]\nid = \"steward\"\nname = \"Steward\"\nsteward = true\n".to_owned();
    for number in 0..phones {
        let id = crate::phone::member(number);
        let _ = write!(text, "[[member]]\nid = \"{id}\"\nname = \"Member {number}\"\ninducted_until = 2099-12-31\n");
    }
    text
}

/// Fills the file, which a hub made, with so many phones and entries.
pub(crate) async fn fill(file: &Path, phones: usize, entries: usize, now: Instant) -> Result<()> {
    let options = SqliteConnectOptions::new().filename(file).synchronous(SqliteSynchronous::Off);
    let mut store = SqliteConnection::connect_with(&options.pragma("cache_size", "-400000")).await?;
    let mut phones: Vec<Phone> = (0..phones).map(Phone::new).collect();
    join(&mut store, &phones, now).await?;
    let evenings = entries / evening::LINES / phones.len().max(1);
    for nth in 0..evenings {
        let ago = i64::try_from(evenings - nth)?;
        let begin = now - Span::from_ms(EVENINGS_APART.ms() * ago);
        append(&mut store, &sign(&mut phones, nth, begin)).await?;
    }
    // As after a night's rest: nothing waits in the journal.
    sqlx::query("PRAGMA wal_checkpoint(TRUNCATE)").execute(&mut store).await?;
    store.close().await?;
    Ok(())
}

async fn join(store: &mut SqliteConnection, phones: &[Phone], now: Instant) -> Result<()> {
    let ends = now + Span::from_minutes(30 * 24 * 60);
    let mut change = store.begin().await?;
    for phone in phones {
        let device = sqlx::query("INSERT INTO device (dev, member, joined_ms) VALUES ($1, $2, $3)");
        device.bind(phone.dev.as_str()).bind(phone.member.as_str()).bind(now.ms()).execute(&mut *change).await?;
        let session = sqlx::query("INSERT INTO session (token_sha256, dev, ends_ms) VALUES ($1, $2, $3)");
        let session = session.bind(phone.token_sha256().to_vec()).bind(phone.dev.as_str()).bind(ends.ms());
        session.execute(&mut *change).await?;
    }
    change.commit().await?;
    Ok(())
}

/// One evening of every phone, on both cores.
fn sign(phones: &mut [Phone], nth: usize, begin: Instant) -> Vec<Signed> {
    let count = phones.len();
    let share = count.div_ceil(2).max(1);
    std::thread::scope(|scope| {
        let signing = phones.chunks_mut(share).enumerate().map(|(half, phones)| {
            scope.spawn(move || {
                let mut signed = Vec::with_capacity(phones.len() * evening::LINES);
                for (at, phone) in phones.iter_mut().enumerate() {
                    let number = u64::try_from(nth * count + half * share + at).unwrap_or_default();
                    let begin = begin + Span::from_ms(i64::try_from(number % 14_400).unwrap_or_default() * 1_000);
                    let said = evening(&phone.member, number, begin);
                    signed.extend(said.iter().map(|entry| phone.sign(entry)));
                }
                signed
            })
        });
        let signing: Vec<_> = signing.collect();
        signing.into_iter().flat_map(|half| half.join().unwrap_or_default()).collect()
    })
}

async fn append(store: &mut SqliteConnection, lines: &[Signed]) -> Result<()> {
    let row = format!("({})", ["?"; 11].join(", "));
    let insert = |rows: usize| {
        let columns = "dev, seq, hash, jws, received_ms, shared, at_ms, session, what, machine, round";
        format!("INSERT INTO entry ({columns}) VALUES {}", vec![row.as_str(); rows].join(", "))
    };
    for some in lines.chunks(ROWS * STATEMENTS) {
        let mut change = store.begin().await?;
        for some in some.chunks(ROWS) {
            let statement = insert(some.len());
            let mut query = sqlx::query(AssertSqlSafe(statement));
            for Signed { jws, dev, seq, entry, .. } in some {
                let (at, shared) = (entry.at.ms(), i64::from(members_may_see(&entry.fact)));
                query = query.bind(dev.as_str()).bind(i64::try_from(*seq)?).bind(jws::hash(jws)).bind(jws.as_str());
                query = query.bind(at).bind(shared).bind(at).bind(entry.session.as_str());
                query = query.bind(what_of(&entry.fact)).bind(tagged(entry)).bind(None::<&str>);
            }
            query.execute(&mut *change).await?;
        }
        change.commit().await?;
    }
    Ok(())
}

/// The machine of a tag; these evenings have none.
fn tagged(entry: &Entry) -> Option<&str> {
    match &entry.fact {
        Fact::TaggedOut { machine, .. } | Fact::TagCleared { machine } => Some(machine.as_str()),
        _ => None,
    }
}
