//! A hub to test: started, spoken to, stopped.

mod http;
mod phone;

use std::io::{BufRead as _, BufReader, Read};
use std::path::{Path, PathBuf};
use std::process::{Child, Command, Stdio};
use std::time::{Duration, Instant};

use tempfile::TempDir;

pub(crate) use http::{Reply, Stream};
pub(crate) use phone::Phone;

/// The join code of every hub under test, as people type it.
pub(crate) const CODE: &str = "test-2345";

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
}

impl Place {
    /// With a shop of three members and a small app.
    pub(crate) fn new() -> Self {
        let place = Self { folder: tempfile::tempdir().expect("a folder") };
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
        let (shop, members) = (self.path("shop.toml"), self.path("members.toml"));
        let mut command = self.command();
        command.arg("--shop").arg(shop).arg("--members").arg(members).args(["--join-code", CODE]).args(more);
        Hub::start(command)
    }

    /// A hub's command without a shop.
    pub(crate) fn command(&self) -> Command {
        let mut command = Command::new(env!("CARGO_BIN_EXE_sweepbell"));
        command.args(["serve", "--listen", "127.0.0.1:0"]);
        command.arg("--data").arg(self.path("data")).arg("--dist").arg(self.path("dist"));
        command
    }

    /// The log as the hub has it, by `sweepbell export`.
    pub(crate) fn exported(&self) -> Vec<String> {
        self.exported_with(&[])
    }

    /// The same, with more arguments.
    pub(crate) fn exported_with(&self, more: &[&str]) -> Vec<String> {
        let mut command = Command::new(env!("CARGO_BIN_EXE_sweepbell"));
        command.args(["export", "--data"]).arg(self.path("data")).args(more);
        let output = command.output().expect("the binary runs");
        assert!(output.status.success(), "{}", String::from_utf8_lossy(&output.stderr));
        String::from_utf8(output.stdout).expect("text").lines().map(str::to_owned).collect()
    }
}

/// A running hub; killed when dropped.
pub(crate) struct Hub {
    child: Child,
    pub(crate) url: String,
    pub(crate) code: String,
    log: PathBuf,
}

impl Hub {
    /// Starts one and reads its first two lines.
    pub(crate) fn start(mut command: Command) -> Self {
        let log = std::env::temp_dir().join(format!("sweepbell-test-{:?}.log", Instant::now()).replace(' ', ""));
        let errors = std::fs::File::create(&log).expect("a log file");
        let mut child = command.stdout(Stdio::piped()).stderr(errors).spawn().expect("the hub starts");
        let mut out = BufReader::new(child.stdout.take().expect("piped"));
        let mut value = |label: &str| {
            let mut line = String::new();
            out.read_line(&mut line).expect("a line");
            let log = std::fs::read_to_string(&log).unwrap_or_default();
            let found = line.trim_end().strip_prefix(label);
            found.unwrap_or_else(|| panic!("`{line}` does not begin with `{label}`: {log}")).to_owned()
        };
        let (url, code) = (value("listening on "), value("join code "));
        // The rest is drained, so that the hub never waits for a reader.
        std::thread::spawn(move || out.read_to_end(&mut Vec::new()));
        Self { child, url, code, log }
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

    /// Cuts it off in the middle of whatever it does (SIGKILL).
    pub(crate) fn cut_off(mut self) {
        self.child.kill().expect("killed");
        self.child.wait().expect("gone");
    }
}

impl Drop for Hub {
    fn drop(&mut self) {
        let _ = self.child.kill();
        let _ = self.child.wait();
        let _ = std::fs::remove_file(&self.log);
    }
}
