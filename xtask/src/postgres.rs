//! A PostgreSQL server for tests: found or installed, started for as long as something runs, and gone afterwards.
//!
//! It listens on loopback alone, on a free port, with a password made for it, and keeps its data in a new folder. It
//! refuses to run as root, so that there it runs as the user that Debian's package made.

use std::fs;
use std::io::Read as _;
use std::net::TcpListener;
use std::path::{Path, PathBuf};
use std::process::{Child, Command, Stdio};
use std::time::{Duration, Instant};

use anyhow::{Context, Result, bail, ensure};

use crate::debian;
use crate::program::{answer, program};
use crate::root::target;
use crate::steps::step;

/// Where tests find the address of the server's own database.
pub(crate) const ADDRESS: &str = "SWEEPBELL_TEST_POSTGRES";

/// Debian's package, which has no other version in a release, and where it puts the programs.
const PACKAGE: &str = "postgresql";
const DEBIAN: &str = "/usr/lib/postgresql";
/// How long it may take until it answers.
const START_LIMIT: Duration = Duration::from_secs(60);
/// The user that the package makes.
const USER: &str = "postgres";

/// A server that runs; dropped, it is stopped and its data is removed.
pub(crate) struct Postgres {
    programs: PathBuf,
    folder: PathBuf,
    port: u16,
    password: String,
    /// A child of ours, so that what ends us from the terminal ends it too.
    server: Option<Child>,
}

impl Postgres {
    /// Finds or installs one and starts it.
    pub(crate) fn start() -> Result<Self> {
        let programs = programs()?;
        step("starting PostgreSQL", || {
            let mut bytes = [0; 16];
            fs::File::open("/dev/urandom")?.read_exact(&mut bytes)?;
            let password = format!("{:032x}", u128::from_be_bytes(bytes));
            // Whoever else wants this port between here and the start gets a refusal there, not a wrong server.
            let port = TcpListener::bind("127.0.0.1:0")?.local_addr()?.port();
            let mut made = Self { programs, folder: folder()?, port, password, server: None };
            made.make()?;
            Ok(made)
        })
    }

    /// The address of the database that every server has.
    pub(crate) fn address(&self) -> String {
        format!("postgres://{USER}:{}@127.0.0.1:{}/postgres", self.password, self.port)
    }

    /// The server's first process, whose children do the work.
    pub(crate) fn process(&self) -> Option<u32> {
        self.server.as_ref().map(Child::id)
    }

    fn make(&mut self) -> Result<()> {
        let (data, secret) = (self.folder.join("data"), self.folder.join("password"));
        fs::write(&secret, &self.password)?;
        give_away(&secret)?;
        let mut init = self.program("initdb");
        init.args(["--encoding=UTF8", "--locale=C.UTF-8", "--auth=scram-sha-256", "--no-sync"]);
        init.arg(format!("--username={USER}")).arg("--pwfile").arg(&secret).arg("--pgdata").arg(&data);
        quietly(&mut init)?;
        let log = self.folder.join("log");
        let mut start = self.program("postgres");
        start.arg("-D").arg(&data).args(["-p", &self.port.to_string(), "-c", "listen_addresses=127.0.0.1"]);
        start.args(["-c", "unix_socket_directories=", "-c", "max_connections=200"]);
        self.server = Some(start.stdout(Stdio::null()).stderr(fs::File::create(&log)?).spawn()?);
        let (began, port) = (Instant::now(), self.port.to_string());
        let mut ready = self.program("pg_isready");
        ready.args(["--quiet", "--host=127.0.0.1", "--port", &port]);
        while quietly(&mut ready).is_err() {
            if began.elapsed() > START_LIMIT {
                bail!("PostgreSQL does not start: {}", fs::read_to_string(&log).unwrap_or_default());
            }
            std::thread::sleep(Duration::from_millis(100));
        }
        Ok(())
    }

    /// One of the server's programs, as a user that it agrees to run as.
    fn program(&self, name: &str) -> Command {
        let path = self.programs.join(name);
        let mut command = if is_root() {
            let mut command = program("setpriv");
            command.args([&format!("--reuid={USER}"), &format!("--regid={USER}"), "--clear-groups"]).arg(path);
            command
        } else {
            program(path)
        };
        command.current_dir(&self.folder);
        command
    }
}

impl Drop for Postgres {
    fn drop(&mut self) {
        let Some(mut server) = self.server.take() else { return };
        let mut stop = self.program("pg_ctl");
        stop.args(["stop", "--silent", "--mode=immediate", "--pgdata"]).arg(self.folder.join("data"));
        if quietly(&mut stop).is_err() {
            println!("  PostgreSQL on port {} could not be stopped", self.port);
        }
        let _ = server.wait();
        // What is left is in a folder of its own, and the next server has another.
        let _ = fs::remove_dir_all(&self.folder);
    }
}

/// Runs a command with the address of a server that lives as long as it does.
pub(crate) fn run(words: &[String]) -> Result<()> {
    let Some((first, rest)) = words.split_first() else { bail!("`postgres` needs a command to run") };
    let server = Postgres::start()?;
    let status = program(first).args(rest).env(ADDRESS, server.address()).status();
    drop(server);
    ensure!(status?.success(), "`{first}` failed");
    Ok(())
}

/// The folder of the server's programs: the person's own, else the newest that Debian has, else a new installation.
fn programs() -> Result<PathBuf> {
    if let Some(found) = found() {
        return Ok(found);
    }
    debian::install(&[PACKAGE])?;
    found().context("PostgreSQL is installed, but `initdb` is not where Debian puts it")
}

fn found() -> Option<PathBuf> {
    let has = |folder: &Path| ["initdb", "pg_ctl", "postgres"].iter().all(|name| folder.join(name).is_file());
    let path = std::env::var_os("PATH").unwrap_or_default();
    let own = std::env::split_paths(&path).find(|folder| has(folder));
    let version = |folder: &PathBuf| folder.parent()?.file_name()?.to_str()?.parse::<u32>().ok();
    let debian = fs::read_dir(DEBIAN).into_iter().flatten().flatten().map(|entry| entry.path().join("bin"));
    debian.filter(|folder| has(folder)).max_by_key(version).or(own)
}

/// A new folder that the server's user may use: in the target directory, or, where that user cannot reach it because
/// it is somebody's home, where temporary files go.
fn folder() -> Result<PathBuf> {
    for parent in [target(), std::env::temp_dir()] {
        let folder = parent.join(format!("postgres-{}", std::process::id()));
        fs::create_dir_all(&folder).with_context(|| format!("{} cannot be made", folder.display()))?;
        give_away(&folder)?;
        if reaches(&folder) {
            return Ok(folder);
        }
        fs::remove_dir_all(&folder)?;
    }
    bail!("there is no folder that the user {USER} can reach")
}

fn reaches(folder: &Path) -> bool {
    let mut test = program("setpriv");
    test.args([&format!("--reuid={USER}"), &format!("--regid={USER}"), "--clear-groups", "test", "-x"]).arg(folder);
    !is_root() || quietly(&mut test).is_ok()
}

/// Makes it the server's user's.
fn give_away(path: &Path) -> Result<()> {
    if is_root() { quietly(program("chown").arg(format!("{USER}:{USER}")).arg(path)) } else { Ok(()) }
}

fn is_root() -> bool {
    answer(program("id").arg("-u")).is_some_and(|id| id == "0")
}

fn quietly(command: &mut Command) -> Result<()> {
    let output = command.stdin(Stdio::null()).stdout(Stdio::null()).stderr(Stdio::piped()).output()?;
    ensure!(output.status.success(), "{}", String::from_utf8_lossy(&output.stderr).trim());
    Ok(())
}
