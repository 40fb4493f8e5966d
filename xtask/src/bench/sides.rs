//! One side of the comparison, run once: its server, its phones, and what both used while they did each thing.

use std::fmt::Write as _;
use std::fs;
use std::io::{BufRead as _, BufReader, Write as _};
use std::net::{SocketAddr, TcpListener, TcpStream};
use std::path::{Path, PathBuf};
use std::process::{Child, ChildStdin, ChildStdout, Command, Stdio};
use std::time::{Duration, Instant};

use anyhow::{Context, Result, bail, ensure};

use super::account::{cpu_s, peak_mib};
use super::wire::{Bytes, Wire};
use crate::program::program;
use crate::root::root;

/// How long a server may take until it listens.
const START_LIMIT: Duration = Duration::from_secs(30);

/// What is run beside each other.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Side {
    /// The hub with its embedded database, as it ships: each commit is on the disk before it is answered.
    Hub,
    /// The peer as it ships: nothing is forced to the disk.
    Peer,
    /// The peer, made to force each write to the disk as the hub does.
    PeerForced,
}

/// Everything that a side needs and that was built before.
pub(crate) struct Built {
    pub(crate) sweepbell: PathBuf,
    pub(crate) phones: PathBuf,
    /// What the phones say, as documents.
    pub(crate) documents: PathBuf,
}

/// What one act took.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Took {
    pub(crate) seconds: f64,
    pub(crate) server_cpu_s: f64,
    pub(crate) phones_cpu_s: f64,
    pub(crate) bytes: Bytes,
}

/// What one run took.
#[derive(Debug)]
pub(crate) struct Ran {
    /// By the acts that were asked for, in their order.
    pub(crate) took: Vec<Took>,
    pub(crate) peak_mib: f64,
}

/// Runs a side in a new folder; over a counting wire if `counted`.
pub(crate) fn run(side: Side, built: &Built, folder: &Path, acts: &[&str], counted: bool) -> Result<Ran> {
    if folder.exists() {
        fs::remove_dir_all(folder)?;
    }
    fs::create_dir_all(folder)?;
    let ran = run_in(side, built, folder, acts, counted);
    fs::remove_dir_all(folder)?;
    ran
}

fn run_in(side: Side, built: &Built, folder: &Path, acts: &[&str], counted: bool) -> Result<Ran> {
    let (server, address, code) = match side {
        Side::Hub => hub(&built.sweepbell, folder)?,
        Side::Peer | Side::PeerForced => peer(side, folder)?,
    };
    let wire = counted.then(|| Wire::to(address)).transpose()?;
    let url = format!("http://{}", wire.as_ref().map_or(address, |wire| wire.address));
    let mut phones = match side {
        Side::Hub => {
            let mut phones = program(&built.phones);
            phones.args(["phones", &url, &code]);
            phones
        }
        Side::Peer | Side::PeerForced => {
            let mut phones = program("node");
            phones.args(["--no-warnings", "tests/side_by_side/peer.mjs", &url]).arg(&built.documents);
            phones
        }
    };
    let phones = Phones::start(&mut phones)?;
    let processes = [server.0.id(), phones.child.0.id()];
    phones.act(acts, processes, wire.as_ref())
}

/// The hub with a shop of 58 members.
fn hub(sweepbell: &Path, folder: &Path) -> Result<(Ended, SocketAddr, String)> {
    let mut members = "[[member]]\nid = \"steward\"\nname = \"Steward\"\nsteward = true\n".to_owned();
    let (writers, readers) = ((0..50).map(|nth| format!("m{nth:02}")), (0..5).map(|nth| format!("r{nth}")));
    for id in writers.chain(readers).chain(["one".to_owned(), "early".to_owned()]) {
        let _ = write!(members, "[[member]]\nid = \"{id}\"\nname = \"{id}\"\ninducted_until = 2099-12-31\n");
    }
    let file = folder.join("members.toml");
    fs::write(&file, members)?;
    let mut serve = program(sweepbell);
    serve.args(["serve", "--listen", "127.0.0.1:0", "--shop"]).arg(root().join("tests/data/cases/log-1/shop.toml"));
    serve.arg("--members").arg(file).arg("--data").arg(folder.join("data")).arg("--dist").arg(folder);
    serve.env_remove("SWEEPBELL_DATABASE").stdout(Stdio::piped()).stderr(Stdio::null());
    let mut server = Ended(serve.spawn().context("the hub does not start")?);
    let mut lines = BufReader::new(server.0.stdout.take().context("the hub says nothing")?).lines();
    let mut said = |before: &str| -> Result<String> {
        let line = lines.next().transpose()?.unwrap_or_default();
        line.strip_prefix(before).map(str::to_owned).with_context(|| format!("the hub says `{line}`"))
    };
    let address = said("listening on http://")?.parse()?;
    let code = said("invite code ")?.split(' ').next().unwrap_or_default().to_owned();
    // It is not to wait for somebody to read on.
    std::thread::spawn(move || lines.for_each(drop));
    Ok((server, address, code))
}

fn peer(side: Side, folder: &Path) -> Result<(Ended, SocketAddr, String)> {
    // Whoever else wants this port between here and the start gets a refusal there, not a wrong server.
    let address = TcpListener::bind("127.0.0.1:0")?.local_addr()?;
    let packages = root().join("tests/side_by_side");
    let mut serve = program("node");
    serve.current_dir(folder).arg("--no-warnings");
    if side == Side::PeerForced {
        serve.arg("--require").arg(packages.join("forced.cjs"));
    }
    serve.arg(packages.join("node_modules/pouchdb-server/bin/pouchdb-server"));
    serve.arg("--dir").arg(folder).args(["--port", &address.port().to_string(), "--no-stdout-logs"]);
    let server = Ended(serve.stdout(Stdio::null()).stderr(Stdio::null()).spawn().context("the peer does not start")?);
    let began = Instant::now();
    while TcpStream::connect(address).is_err() {
        ensure!(began.elapsed() < START_LIMIT, "the peer does not listen");
        std::thread::sleep(Duration::from_millis(50));
    }
    Ok((server, address, String::new()))
}

/// A program that is ended when it is dropped.
pub(crate) struct Ended(pub(crate) Child);

impl Drop for Ended {
    fn drop(&mut self) {
        // Either may fail only because it is gone already, which is all that is wanted.
        let _ = self.0.kill();
        let _ = self.0.wait();
    }
}

/// The phones of a side, which do what they are told.
struct Phones {
    child: Ended,
    told: ChildStdin,
    said: BufReader<ChildStdout>,
}

impl Phones {
    fn start(command: &mut Command) -> Result<Self> {
        let child = command.stdin(Stdio::piped()).stdout(Stdio::piped()).spawn();
        let mut child = Ended(child.context("the phones do not start")?);
        let told = child.0.stdin.take().context("nobody listens")?;
        let said = BufReader::new(child.0.stdout.take().context("nobody speaks")?);
        let mut phones = Self { child, told, said };
        ensure!(phones.line()? == "ready", "the phones are not ready");
        Ok(phones)
    }

    fn line(&mut self) -> Result<String> {
        let mut line = String::new();
        if self.said.read_line(&mut line)? == 0 {
            bail!("the phones ended early");
        }
        Ok(line.trim_end().to_owned())
    }

    fn act(mut self, acts: &[&str], [server, phones]: [u32; 2], wire: Option<&Wire>) -> Result<Ran> {
        let mut took = Vec::new();
        for act in acts {
            let bytes = || wire.map(Wire::bytes).unwrap_or_default();
            let before = (cpu_s(server)?, cpu_s(phones)?, bytes());
            writeln!(self.told, "{act}")?;
            let line = self.line()?;
            let seconds = line.strip_prefix(act).map(str::trim).and_then(|seconds| seconds.parse().ok());
            let now = bytes();
            took.push(Took {
                seconds: seconds.with_context(|| format!("the phones say `{line}`"))?,
                server_cpu_s: cpu_s(server)? - before.0,
                phones_cpu_s: cpu_s(phones)? - before.1,
                bytes: Bytes { there: now.there - before.2.there, back: now.back - before.2.back },
            });
        }
        Ok(Ran { took, peak_mib: peak_mib(server)? })
    }
}
