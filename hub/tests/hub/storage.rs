//! The disk is full, not to be written, or held by another program: a typed problem, nothing half taken, and the hub goes
//! on by itself once the cause is gone.

use std::path::{Path, PathBuf};
use std::process::{Command, Stdio};
use std::time::{Duration, Instant};

use serde_json::json;
use shared_core::sync::message::SyncAnswer;

use crate::support::{Engine, Holder, Hub, Phone, Place, Stream, Wire, on_both, tell_server};

on_both!(a_database_that_another_program_holds_is_busy_and_can_be_read);

fn a_database_that_another_program_holds_is_busy_and_can_be_read(engine: Engine) {
    let place = Place::with(engine);
    let hub = place.hub();
    let (mut ada, bo) = (Phone::joined(1, "ada", &hub), Phone::joined(2, "bo", &hub));
    let lines = ada.says_rounds(3);
    ada.sync(&hub, &lines[..1], 0);
    let holder = Holder::of(&place);
    let asked = Instant::now();
    let reply = ada.try_sync(&hub, &lines).expect("an answer");
    assert_eq!((reply.status, reply.problem().as_str()), (503, "storage-busy"), "{reply:?}");
    assert_eq!(reply.header("retry-after"), "5");
    assert!(asked.elapsed() < Duration::from_secs(10), "answered after {:?}", asked.elapsed());
    assert_eq!(bo.sync(&hub, &[], 0).pull, lines[..1], "what is there can be read");
    drop(holder);
    assert_eq!(ada.sync(&hub, &lines, 0).head, ada.head);
    assert_eq!(bo.sync(&hub, &[], 0).pull, lines);
}

/// A disk of one mebibyte, where the system lets us make one; elsewhere a limit on the size of files, which a hub meets
/// as a disk that takes nothing.
#[test]
fn a_full_disk_takes_nothing_more_and_loses_nothing() {
    let place = Place::new();
    let disk = Disk::mount(&place.path("data"));
    let expected = if disk.is_some() { (507, "storage-full") } else { (503, "storage-unwritable") };
    let hub = if disk.is_some() { place.hub() } else { hub_with_small_files(&place) };
    fill_until_refused(&place, &hub, expected, |place| {
        // Room again: the hub goes on without a restart.
        if disk.is_some() {
            std::fs::remove_file(place.path("data/filler")).expect("removed");
        }
    });
    drop(hub);
    drop(disk);
}

/// The same limit everywhere (POSIX `ulimit -f`), so that a write that fails in the middle is met on every machine.
#[test]
fn a_write_that_fails_is_a_problem_and_loses_nothing() {
    let place = Place::new();
    let hub = hub_with_small_files(&place);
    fill_until_refused(&place, &hub, (503, "storage-unwritable"), |_| ());
}

/// Pushes until the disk says no; then everything acknowledged is there, and after `make_room` all the rest fits too.
fn fill_until_refused(place: &Place, hub: &Hub, expected: (u16, &str), make_room: impl Fn(&Place)) {
    let mut ada = Phone::joined(1, "ada", hub);
    if expected.0 == 507 {
        std::fs::write(place.path("data/filler"), vec![0; 450 * 1024]).expect("it fits");
    }
    let (lines, mut kept) = (ada.says_rounds(4_000), 0);
    let refused = loop {
        assert!(kept + 100 < lines.len(), "the disk is larger than it should be");
        let reply = ada.try_sync(hub, &lines[kept..kept + 100]).expect("an answer");
        if reply.status != 200 {
            break reply;
        }
        kept = usize::try_from(SyncAnswer::read(&reply.text).expect("an answer").head.seq).expect("few");
    };
    assert_eq!((refused.status, refused.problem().as_str()), expected, "{refused:?}");
    assert!(kept > 0, "some of it fitted");
    assert_eq!(ada.sync(hub, &[], 0).head.seq, kept as u64, "what was acknowledged is there, and nothing half taken");
    make_room(place);
    if expected.0 == 507 {
        let reply = ada.try_sync(hub, &lines[kept..kept + 100]).expect("an answer");
        assert_eq!(reply.status, 200, "it goes on by itself: {}", hub.logged());
        assert_eq!(place.exported(), lines[..kept + 100]);
    }
}

/// A hub whose files may not grow past about 600 KB, and that is told so by an error instead of a signal.
fn hub_with_small_files(place: &Place) -> Hub {
    let words = place.shop_command();
    let mut shell = Command::new("sh");
    shell
        .args(["-c", "trap '' XFSZ; ulimit -f 1200; exec \"$0\" \"$@\""])
        .arg(words.get_program())
        .args(words.get_args());
    Hub::start(shell)
}

/// Rights as a shop's system gives them: nobody may write. Root may, unless that right is laid down first.
#[test]
fn a_folder_that_may_not_be_written_is_told_at_the_start() {
    let place = Place::new();
    assert_eq!(place.hub().stop(), Some(0));
    let chmod = |mode: &str| {
        let status = Command::new("chmod").args(["-R", mode]).arg(place.path("data")).status();
        assert!(status.expect("chmod runs").success());
    };
    chmod("a-w");
    let words = place.shop_command();
    let is_root = std::fs::File::create(place.path("data/probe")).is_ok();
    let mut start = Command::new(if is_root { "setpriv" } else { "env" });
    if is_root {
        start.arg("--bounding-set=-dac_override");
    }
    let output = start.arg(words.get_program()).args(words.get_args()).stdout(Stdio::null()).output().expect("it runs");
    chmod("u+w");
    let said = String::from_utf8_lossy(&output.stderr);
    assert_eq!(output.status.code(), Some(1), "{said}");
    assert!(said.contains("hub.sqlite: the database cannot be written"), "{said}");
    assert_eq!(place.hub().stop(), Some(0), "and nothing is spoilt");
}

/// What a server says of its own disk, by its codes: here another program has it say so.
#[test]
fn a_servers_troubles_are_told_by_kind() {
    let place = Place::with(Engine::Postgres);
    let hub = place.hub();
    let mut ada = Phone::joined(1, "ada", &hub);
    let lines = ada.says_rounds(1);
    let database = place.database.as_deref().expect("an address");
    for (code, status, kind) in [
        ("53100", 507, "storage-full"),
        ("25006", 503, "storage-unwritable"),
        ("58030", 503, "storage-unwritable"),
        ("40001", 503, "storage-busy"),
        ("57P03", 503, "storage-away"),
        ("XX000", 500, "fault"),
    ] {
        let refuse = format!(
            "CREATE OR REPLACE FUNCTION trouble() RETURNS trigger LANGUAGE plpgsql AS
             $$ BEGIN RAISE EXCEPTION 'trouble' USING ERRCODE = '{code}'; END $$;
             CREATE OR REPLACE TRIGGER trouble BEFORE INSERT ON sweepbell.entry EXECUTE FUNCTION trouble()"
        );
        tell_server(database, &refuse);
        let reply = ada.try_sync(&hub, &lines).expect("an answer");
        assert_eq!((reply.status, reply.problem().as_str()), (status, kind), "{code}");
        assert!(!reply.text.contains("trouble"), "what broke inside is not sent: {reply:?}");
    }
    tell_server(database, "DROP TRIGGER trouble ON sweepbell.entry");
    assert_eq!(ada.sync(&hub, &lines, 0).head, ada.head);
}

/// The wire to the server is cut while a phone pushes, stays cut for a while, and is mended.
#[test]
fn a_server_that_cannot_be_reached_is_told_and_found_again() {
    let mut place = Place::with(Engine::Postgres);
    let (wire, through) = Wire::to(place.database.as_deref().expect("an address"));
    place.database = Some(through);
    let hub = place.hub();
    let (mut ada, bo) = (Phone::joined(1, "ada", &hub), Phone::joined(2, "bo", &hub));
    let to_bo = Stream::open(&hub, &bo.cookie);
    let (lines, ada_says_more) = (ada.says_rounds(300), ada.says_rounds(1));
    let mut acknowledged = 0;
    for (n, batch) in lines.chunks(5).enumerate() {
        if n == 12 {
            wire.cut();
        }
        let reply = ada.try_sync(&hub, batch).expect("an answer");
        if reply.status == 200 {
            acknowledged = SyncAnswer::read(&reply.text).expect("an answer").head.seq;
            continue;
        }
        assert_eq!((reply.status, reply.problem().as_str()), (503, "storage-away"), "{}", hub.logged());
        assert_eq!(reply.header("retry-after"), "5");
        break;
    }
    assert_eq!(acknowledged, 60);
    assert_eq!(hub.get("/api/health").problem(), "storage-away");
    wire.mend();
    let mended = Instant::now();
    while hub.get("/api/health").status != 200 {
        assert!(mended.elapsed() < Duration::from_secs(20), "{}", hub.logged());
    }
    let head = ada.sync(&hub, &[], 0).head.seq;
    assert!(head >= acknowledged, "{head} of {acknowledged} acknowledged");
    let rest = &lines[usize::try_from(head).expect("few")..];
    for batch in rest.chunks(100) {
        ada.sync(&hub, batch, 0);
    }
    assert_eq!(place.exported(), lines);
    // Bo's stream lived through it, and is nudged again, as soon as the hub has found its news again.
    std::thread::sleep(Duration::from_secs(3));
    ada.sync(&hub, &ada_says_more, 0);
    let nudge = json!({ "cursor": 301 });
    assert!(std::iter::from_fn(|| to_bo.next()).any(|(_, data)| data == nudge));
}

/// A small disk of its own under a folder; gone when dropped.
struct Disk(PathBuf);

impl Disk {
    fn mount(folder: &Path) -> Option<Self> {
        std::fs::create_dir_all(folder).expect("a folder");
        let mut mount = Command::new("mount");
        mount.args(["-t", "tmpfs", "-o", "size=1m", "sweepbell-test"]).arg(folder).stderr(Stdio::null());
        mount.status().is_ok_and(|status| status.success()).then(|| Self(folder.into()))
    }
}

impl Drop for Disk {
    fn drop(&mut self) {
        let _ = Command::new("umount").arg("--lazy").arg(&self.0).status();
    }
}
