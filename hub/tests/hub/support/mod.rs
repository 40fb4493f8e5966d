//! A hub to test: started, spoken to, stopped.

mod engine;
mod http;
mod phone;
mod receiver;
mod wire;

use std::ffi::OsString;
use std::io::{BufRead as _, BufReader, Read};
use std::path::{Path, PathBuf};
use std::process::{Child, Command, Stdio};
use std::time::{Duration, Instant};

use tempfile::TempDir;

pub(crate) use engine::{Engine, Holder, new_database, on_both, tell_file, tell_server};
pub(crate) use http::{Reply, Stream};
pub(crate) use phone::Phone;
pub(crate) use receiver::{Listening, PushService, Pushed, now_ms};
pub(crate) use wire::Wire;

const MEMBERS: &str = r#"
[[member]]
id = "ada"
name = "Ada"
inducted_until = 2099-12-31

[[member]]
id = "bo"
name = "Bo"
inducted_until = 2099-12-31

[[member]]
id = "cy"
name = "Cy"
steward = true
"#;

/// A shop's files, a database and an app, in a folder that goes away with it.
pub(crate) struct Place {
    folder: TempDir,
    /// The address of a PostgreSQL database, if that is the engine.
    pub(crate) database: Option<String>,
}

impl Place {
    /// With a shop of three members and a small app, and an embedded database.
    pub(crate) fn new() -> Self {
        Self::with(Engine::Sqlite)
    }

    /// The same, with either database.
    pub(crate) fn with(engine: Engine) -> Self {
        let database = (engine == Engine::Postgres).then(new_database);
        let place = Self { folder: tempfile::tempdir().expect("a folder"), database };
        let shop = Path::new(env!("CARGO_MANIFEST_DIR")).join("../tests/data/cases/log-1/shop.toml");
        place.write("shop.toml", &std::fs::read_to_string(shop).expect("the case's shop"));
        place.write("members.toml", MEMBERS);
        std::fs::create_dir(place.path("dist")).expect("a folder for the app");
        place.write("dist/index.html", "<!doctype html><title>app</title>");
        place
    }

    pub(crate) fn path(&self, name: &str) -> PathBuf {
        self.folder.path().join(name)
    }

    pub(crate) fn write(&self, name: &str, text: &str) {
        std::fs::write(self.path(name), text).expect("written");
    }

    pub(crate) fn read(&self, name: &str) -> String {
        std::fs::read_to_string(self.path(name)).expect("readable")
    }

    /// A hub that serves this shop.
    pub(crate) fn hub(&self) -> Hub {
        self.hub_with(&[])
    }

    /// The same, with more arguments.
    pub(crate) fn hub_with(&self, more: &[&str]) -> Hub {
        let mut command = self.shop_command();
        command.args(more);
        Hub::start(command)
    }

    /// The command of a hub that serves this shop.
    pub(crate) fn shop_command(&self) -> Command {
        let (shop, members) = (self.path("shop.toml"), self.path("members.toml"));
        let mut command = self.command();
        command.arg("--shop").arg(shop).arg("--members").arg(members);
        command
    }

    /// A hub's command without a shop.
    pub(crate) fn command(&self) -> Command {
        let mut command = Command::new(env!("CARGO_BIN_EXE_sweepbell"));
        command.args(["serve", "--listen", "127.0.0.1:0"]);
        command.arg("--dist").arg(self.path("dist"));
        self.database_of(&mut command);
        command
    }

    /// Runs a command and gives what it answered, which must be JSON, or nothing if it refused.
    pub(crate) fn tool(&self, words: &[&str]) -> (Option<i32>, serde_json::Value, String) {
        let mut command = Command::new(env!("CARGO_BIN_EXE_sweepbell"));
        command.args(words).current_dir(self.folder.path()).env_remove("SWEEPBELL_DATABASE");
        let output = command.output().expect("the binary runs");
        let answer = serde_json::from_slice(&output.stdout).unwrap_or_default();
        (output.status.code(), answer, String::from_utf8_lossy(&output.stderr).into_owned())
    }

    /// The log as the hub has it, by `sweepbell export`.
    pub(crate) fn exported(&self) -> Vec<String> {
        self.exported_with(&[])
    }

    /// The same, with more arguments.
    pub(crate) fn exported_with(&self, more: &[&str]) -> Vec<String> {
        let mut command = Command::new(env!("CARGO_BIN_EXE_sweepbell"));
        command.arg("export").args(more);
        self.database_of(&mut command);
        let output = command.output().expect("the binary runs");
        assert!(output.status.success(), "{}", String::from_utf8_lossy(&output.stderr));
        String::from_utf8(output.stdout).expect("text").lines().map(str::to_owned).collect()
    }

    /// Runs a statement in the shop's database, as another program does.
    pub(crate) fn tell(&self, sql: &'static str) {
        if let Some(address) = &self.database {
            return tell_server(address, &format!("SET search_path TO sweepbell; {sql}"));
        }
        tell_file(&self.path("data/hub.sqlite"), sql);
    }

    /// Has every entry of the log have arrived when it was said, behind the hub's back.
    pub(crate) fn received_when_said(&self) {
        let dated = "UPDATE entry SET received_ms = coalesce(at_ms, received_ms)";
        match &self.database {
            Some(address) => {
                let there = "SET search_path = sweepbell; ALTER TABLE entry DISABLE TRIGGER USER;";
                tell_server(address, &format!("{there} {dated}"));
            }
            None => tell_file(&self.path("data/hub.sqlite"), &format!("DROP TRIGGER entry_is_only_erased; {dated}")),
        }
    }

    /// A copy of the database as it is now, as a snapshot of a disk or the server's own tool makes it. No hub may run.
    pub(crate) fn snapshot(&self) -> Self {
        let copy = Self::new();
        let Some(address) = &self.database else {
            std::fs::create_dir(copy.path("data")).expect("a folder");
            std::fs::copy(self.path("data/hub.sqlite"), copy.path("data/hub.sqlite")).expect("copied");
            return copy;
        };
        let (server, name) = address.rsplit_once('/').expect("an address with a database");
        let admin = std::env::var("SWEEPBELL_TEST_POSTGRES").expect("a server");
        tell_server(&admin, &format!("CREATE DATABASE {name}_copy TEMPLATE {name}"));
        Self { database: Some(format!("{server}/{name}_copy")), ..copy }
    }

    /// Names the database, a server's by the environment as a person would.
    pub(crate) fn database_of(&self, command: &mut Command) {
        command.env_remove("SWEEPBELL_DATABASE");
        match &self.database {
            Some(address) => command.env("SWEEPBELL_DATABASE", address),
            None => command.arg("--data").arg(self.path("data")),
        };
    }
}

/// A running hub; killed when dropped.
pub(crate) struct Hub {
    child: Child,
    pub(crate) url: String,
    /// How to join, as it said at its start: `join code ...`, `invite code ... for ...`, `no invite: ...`.
    pub(crate) way: String,
    log: PathBuf,
    /// The words and the database of a command for the same shop.
    shop: (Vec<OsString>, Option<OsString>),
}

impl Hub {
    /// Starts one and reads its first two lines.
    pub(crate) fn start(mut command: Command) -> Self {
        let log = std::env::temp_dir().join(format!("sweepbell-test-{:?}.log", Instant::now()).replace(' ', ""));
        let errors = std::fs::File::create(&log).expect("a log file");
        let shop = same_shop(&command);
        let mut child = command.stdout(Stdio::piped()).stderr(errors).spawn().expect("the hub starts");
        let mut out = BufReader::new(child.stdout.take().expect("piped"));
        let mut value = |label: &str| {
            let mut line = String::new();
            out.read_line(&mut line).expect("a line");
            let log = std::fs::read_to_string(&log).unwrap_or_default();
            let found = line.trim_end().strip_prefix(label);
            found.unwrap_or_else(|| panic!("`{line}` does not begin with `{label}`: {log}")).to_owned()
        };
        let (url, way) = (value("listening on "), value(""));
        // The rest is drained, so that the hub never waits for a reader.
        std::thread::spawn(move || out.read_to_end(&mut Vec::new()));
        Self { child, url, way, log, shop }
    }

    /// The demo's join code.
    pub(crate) fn code(&self) -> &str {
        self.way.strip_prefix("join code ").unwrap_or_else(|| panic!("no demo: {}", self.way))
    }

    /// Runs a command of a steward's machine on this hub's shop.
    pub(crate) fn steward(&self, words: &[&str]) -> (Option<i32>, serde_json::Value, String) {
        let mut command = Command::new(env!("CARGO_BIN_EXE_sweepbell"));
        command.args(words).args(&self.shop.0).env_remove("SWEEPBELL_DATABASE");
        if let Some(address) = &self.shop.1 {
            command.env("SWEEPBELL_DATABASE", address);
        }
        let output = command.output().expect("the binary runs");
        let answer = serde_json::from_slice(&output.stdout).unwrap_or_default();
        (output.status.code(), answer, String::from_utf8_lossy(&output.stderr).into_owned())
    }

    /// A one-time code for a member's phone, whether or not they have one.
    pub(crate) fn invite(&self, member: &str) -> String {
        let (_, answer, said) = self.steward(&["invite", "make", member, "--another"]);
        answer["code"].as_str().unwrap_or_else(|| panic!("{said}")).to_owned()
    }

    /// What it logged so far.
    pub(crate) fn logged(&self) -> String {
        std::fs::read_to_string(&self.log).unwrap_or_default()
    }

    /// Its peak memory in KiB, as Linux counts it.
    pub(crate) fn peak_kib(&self) -> u64 {
        let status = std::fs::read_to_string(format!("/proc/{}/status", self.child.id())).expect("Linux's own account");
        let line = status.lines().find_map(|line| line.strip_prefix("VmHWM:")).expect("the peak");
        line.trim().trim_end_matches(" kB").parse().expect("a number")
    }

    /// Asks it to stop, and gives its exit code.
    pub(crate) fn stop(mut self) -> Option<i32> {
        let asked = Command::new("kill").arg("-TERM").arg(self.child.id().to_string()).status().expect("kill runs");
        assert!(asked.success());
        let since = Instant::now();
        while since.elapsed() < Duration::from_secs(15) {
            if let Some(status) = self.child.try_wait().expect("a child") {
                return status.code();
            }
            std::thread::sleep(Duration::from_millis(20));
        }
        panic!("the hub did not stop: {}", self.logged());
    }

    /// Cuts it off while others still speak to it; whoever drops it reaps it.
    pub(crate) fn kill(&self) {
        let killed = Command::new("kill").arg("-KILL").arg(self.child.id().to_string()).status().expect("kill runs");
        assert!(killed.success());
    }

    /// Cuts it off in the middle of whatever it does (SIGKILL).
    pub(crate) fn cut_off(mut self) {
        self.child.kill().expect("killed");
        self.child.wait().expect("gone");
    }
}

/// Of a `serve` command, what names the shop and its database.
fn same_shop(command: &Command) -> (Vec<OsString>, Option<OsString>) {
    let words: Vec<_> = command.get_args().map(ToOwned::to_owned).collect();
    let named = |name: &str| words.iter().position(|word| word == name).map(|at| words[at..at + 2].to_vec());
    let mut shop: Vec<_> = ["--shop", "--members", "--data"].into_iter().filter_map(named).flatten().collect();
    if named("--shop").is_none() {
        shop.push("--demo".into());
    }
    let database = command.get_envs().find(|(name, _)| *name == "SWEEPBELL_DATABASE");
    (shop, database.and_then(|(_, value)| value.map(ToOwned::to_owned)))
}

impl Drop for Hub {
    fn drop(&mut self) {
        let _ = self.child.kill();
        let _ = self.child.wait();
        let _ = std::fs::remove_file(&self.log);
    }
}
