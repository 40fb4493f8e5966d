//! The store itself, each test on both engines.

use shared_core::ids::{DeviceId, PersonId};
use shared_core::sync::shop::Carried;
use shared_core::time::{Instant, Span};

use super::engine::Value;
use super::{News, Place, Row, Says, Store, Whom};

/// A store with nothing in it, and whatever must live as long as it does.
async fn empty(engine: &str) -> (Store, Place, tempfile::TempDir) {
    let folder = tempfile::tempdir().expect("a folder");
    let place = match engine {
        "sqlite" => Place::File(folder.path().join("hub.sqlite")),
        _ => Place::read(&new_database().await, false),
    };
    (Store::open(&place).await.expect("it opens"), place, folder)
}

async fn new_database() -> String {
    use sqlx::Connection as _;
    use std::sync::atomic::{AtomicU32, Ordering};
    static MADE: AtomicU32 = AtomicU32::new(0);
    let server = std::env::var("SWEEPBELL_TEST_POSTGRES")
        .expect("a PostgreSQL server: run `cargo xtask postgres cargo test -p hub`, which starts one");
    let name = format!("store_{}_{}", std::process::id(), MADE.fetch_add(1, Ordering::Relaxed));
    let mut other = sqlx::PgConnection::connect(&server).await.expect("the server answers");
    let create = sqlx::AssertSqlSafe(format!("CREATE DATABASE {name}"));
    sqlx::raw_sql(create).execute(&mut other).await.expect("made");
    let (server, _) = server.rsplit_once('/').expect("an address with a database");
    format!("{server}/{name}")
}

macro_rules! on_both {
    ($($test:ident),* $(,)?) => {
        mod sqlite {
            $(#[tokio::test] async fn $test() { super::$test("sqlite").await; })*
        }
        mod postgres {
            $(#[tokio::test(flavor = "multi_thread")] async fn $test() { super::$test("postgres").await; })*
        }
    };
}

on_both! {
    a_reader_never_sees_a_cursor_before_an_earlier_one,
    many_lines_at_once_stand_in_their_order,
    nothing_is_handed_out_from_the_first_unproved_line_on,
    entries_are_neither_changed_nor_removed,
    a_code_waits_ten_minutes_and_a_full_box_drops_its_oldest,
    a_challenge_is_spent_once,
    what_phones_call_things_is_kept_whatever_it_is,
    news_are_told_after_the_commit_and_not_without_one,
}

const NOW: Instant = Instant::from_ms(1_764_000_000_000);

async fn joined(store: &Store, dev: &str) {
    let mut change = store.change().await.expect("a change");
    change.join(&dev.into(), &PersonId::new("ada"), NOW).await.expect("joined");
    change.commit().await.expect("committed");
}

fn row<'a>(dev: &'a DeviceId, seq: u64, session: &'a str) -> Row<'a> {
    let says = Says { shared: true, at: NOW, session, what: "watch_round", machine: Some(session), round: None };
    Row { dev, seq, hash: "hash", jws: "line", aside: None, says: Some(says) }
}

/// Two processes write as fast as they can, and a third reads by cursor: it is handed every line, once, in order. With a
/// sequence and no lock, a line that counted early and was committed late would be passed over for ever.
async fn a_reader_never_sees_a_cursor_before_an_earlier_one(engine: &str) {
    const EACH: u64 = 60;
    let (store, place, _folder) = empty(engine).await;
    // The second process; SQLite has one alone.
    let second = if store.is_shared() { Store::open(&place).await.expect("it opens") } else { store.clone() };
    let mut writing = Vec::new();
    for (n, store) in [&store, &second, &store, &second].into_iter().enumerate() {
        let (store, dev) = (store.clone(), DeviceId::new(format!("dev-{n}")));
        joined(&store, dev.as_str()).await;
        writing.push(tokio::spawn(async move {
            for seq in 1..=EACH {
                let mut change = store.change().await.expect("a change");
                change.append(&row(&dev, seq, "s"), NOW).await.expect("appended");
                // Between the number and the commit, where another would overtake.
                tokio::time::sleep(std::time::Duration::from_micros(seq * 7919 % 900)).await;
                change.commit().await.expect("committed");
            }
        }));
    }
    let (mut got, mut cursor) = (0, 0);
    while got < 4 * EACH {
        let over = writing.iter().all(tokio::task::JoinHandle::is_finished);
        let pulled = second
            .look()
            .await
            .expect("a look")
            .pull(&"reader".into(), cursor, Whom::Member, NOW)
            .await
            .expect("pulled");
        assert!(pulled.cursor >= cursor);
        (got, cursor) = (got + pulled.lines.len() as u64, pulled.cursor);
        assert!(!over || pulled.more || got == 4 * EACH, "{got} of {} were handed out", 4 * EACH);
    }
    for writer in writing {
        writer.await.expect("no panic");
    }
    assert_eq!(
        second
            .look()
            .await
            .expect("a look")
            .pull(&"reader".into(), cursor, Whom::Member, NOW)
            .await
            .expect("pulled")
            .lines,
        Vec::<String>::new()
    );
}

/// However many: whole statements, and what is left over.
async fn many_lines_at_once_stand_in_their_order(engine: &str) {
    let (store, _place, _folder) = empty(engine).await;
    joined(&store, "dev").await;
    let dev = DeviceId::new("dev");
    let (mut seq, mut wanted) = (0, Vec::new());
    for count in [1, 19, 20, 21, 0, 59, 200, 221] {
        let lines: Vec<String> = (seq + 1..=seq + count).map(|seq| format!("line {seq}")).collect();
        let one = |(seq, jws)| Row { jws, ..row(&dev, seq, "s") };
        let rows: Vec<Row<'_>> = (seq + 1..).zip(lines.iter().map(String::as_str)).map(one).collect();
        let mut change = store.change().await.expect("a change");
        let last = change.append_all(&rows, NOW).await.expect("appended");
        seq += count;
        assert_eq!(last, (count > 0).then_some(seq), "{count} at once");
        change.commit().await.expect("committed");
        wanted.extend(lines);
    }
    assert_eq!(store.lines().await.expect("read"), wanted);
}

async fn nothing_is_handed_out_from_the_first_unproved_line_on(engine: &str) {
    let (store, _place, _folder) = empty(engine).await;
    joined(&store, "dev").await;
    let dev = DeviceId::new("dev");
    for (seqs, owes, waiting) in [(1..=2, false, 0), (3..=5, true, 3), (6..=6, false, 3), (7..=9, true, 7)] {
        let mut change = store.change().await.expect("a change");
        let first = seqs.clone().next().map_or(0, u64::cast_signed);
        let rows: Vec<Row<'_>> = seqs.map(|seq| row(&dev, seq, "s")).collect();
        let last = change.append_all(&rows, NOW).await.expect("appended").expect("some");
        if owes {
            change.owe(first, last).await.expect("owed");
        }
        assert_eq!(change.waiting().await.expect("counted"), waiting);
        change.commit().await.expect("committed");
    }
    let pulled = async || {
        let pulled =
            store.look().await.expect("a look").pull(&"reader".into(), 0, Whom::Member, NOW).await.expect("pulled");
        (pulled.lines.len(), pulled.more)
    };
    assert_eq!(pulled().await, (2, false));
    // None of these lines opens: all that were vouched for are set aside, and the rest is handed out.
    assert!(store.prove_some().await.expect("proved") && !store.prove_some().await.expect("looked"));
    assert_eq!(pulled().await, (3, false));
    assert_eq!(
        store.look().await.expect("a look").unsigned(&dev).await.expect("read").len(),
        6,
        "and its phone is told"
    );
}

async fn entries_are_neither_changed_nor_removed(engine: &str) {
    let (store, _place, _folder) = empty(engine).await;
    joined(&store, "dev").await;
    let mut change = store.change().await.expect("a change");
    change.append(&row(&"dev".into(), 1, "s"), NOW).await.expect("appended");
    change.commit().await.expect("committed");
    let statements = [
        "UPDATE entry SET jws = 'other'",
        "UPDATE entry SET aside = 'gap'",
        "UPDATE entry SET aside = 'damaged', jws = 'other'",
        "UPDATE entry SET aside = 'damaged', shared = 0",
        "DELETE FROM entry",
        "TRUNCATE entry",
    ];
    for sql in statements.iter().take(statements.len() - usize::from(!store.is_shared())) {
        let mut change = store.change().await.expect("a change");
        let error = change.talk.act(sql, &[]).await.expect_err(sql);
        assert!(error.to_string().contains("never"), "{sql}: {error}");
    }
    assert_eq!(store.lines().await.expect("read"), ["line"]);
}

async fn a_code_waits_ten_minutes_and_a_full_box_drops_its_oldest(engine: &str) {
    let (store, _place, _folder) = empty(engine).await;
    let put = async |to: &str, text: String, now| {
        let mut change = store.change().await.expect("a change");
        change.carry(&to.into(), Carried { from: "ada".into(), text }, now).await.expect("carried");
        change.commit().await.expect("committed");
    };
    put("bo", "one".into(), NOW).await;
    for (who, dev, minutes, given) in [
        ("cy", "c", 0, 0),
        ("bo", "phone", 1, 1),
        ("bo", "phone", 2, 0),
        ("bo", "tablet", 9, 1),
        ("bo", "watch", 10, 0),
    ] {
        let now = NOW + Span::from_minutes(minutes);
        let taken = store.take_carried(&who.into(), &dev.into(), now).await.expect("taken");
        assert_eq!(taken.len(), given, "{who}'s {dev} at {minutes} min");
    }
    let later = NOW + Span::from_minutes(20);
    for n in 0..super::carried::PER_MEMBER_MAX + 3 {
        put("cy", format!("{n}\0"), later).await;
    }
    let taken = store.take_carried(&"cy".into(), &"phone".into(), later).await.expect("taken");
    assert_eq!((taken.len(), taken.first().map(String::as_str)), (32, Some("3\0")), "and each as it was sent");
}

async fn a_challenge_is_spent_once(engine: &str) {
    let (store, _place, _folder) = empty(engine).await;
    for (challenge, minutes, good) in [(1, 0, true), (1, 0, false), (2, 0, true), (2, 59, false), (1, 62, true)] {
        let (now, until) = (NOW + Span::from_minutes(minutes), NOW + Span::from_minutes(1));
        let mut change = store.change().await.expect("a change");
        let spent = change.spend(&[challenge; 32], until, now).await.expect("asked");
        change.commit().await.expect("committed");
        // Forgotten an hour after its end, long after its own authenticator says that it is over.
        assert_eq!(spent, good, "{challenge} after {minutes} min");
    }
}

async fn what_phones_call_things_is_kept_whatever_it_is(engine: &str) {
    let (store, _place, _folder) = empty(engine).await;
    for (seq, odd) in (1..).zip(["", "\0", "a\0b", "\u{fffd}", "'; DROP TABLE entry; --", "🔔", "%_\\"]) {
        let dev = DeviceId::new(format!("dev-{seq}"));
        joined(&store, dev.as_str()).await;
        let mut change = store.change().await.expect("a change");
        change.append(&row(&dev, seq, odd), NOW).await.unwrap_or_else(|error| panic!("{odd:?}: {error}"));
        change.commit().await.expect("committed");
        assert_eq!(store.device(&odd.into()).await.expect("asked"), None, "{odd:?}");
    }
    // Ids in the order of their bytes, whatever a server's language thinks of letters.
    for dev in ["b", "A", "_", "a", "Z", "-"] {
        joined(&store, dev).await;
    }
    let devices = store.devices().await.expect("read");
    let order: Vec<_> = devices.iter().map(|device| device.dev.as_str()).filter(|dev| dev.len() == 1).collect();
    assert_eq!(order, ["-", "A", "Z", "_", "a", "b"]);
}

async fn news_are_told_after_the_commit_and_not_without_one(engine: &str) {
    let (store, _place, _folder) = empty(engine).await;
    let mut news = store.news().await.expect("listening");
    let tell = async |cursor, commit| {
        let mut change = store.change().await.expect("a change");
        change.talk.act("DELETE FROM setting WHERE name = $1", &[Value::from("x")]).await.expect("done");
        change.tell(News::Log { by: "dev".into(), cursor });
        if commit {
            change.commit().await.expect("committed");
        }
    };
    tell(1, false).await;
    tell(2, true).await;
    assert_eq!(news.recv().await.expect("news"), News::Log { by: "dev".into(), cursor: 2 });
    store.close().await;
}
