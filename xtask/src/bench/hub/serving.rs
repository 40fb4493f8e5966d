//! A hub that runs: from its start to its first answer, and what it used.

use std::fs::File;
use std::io::{BufRead as _, BufReader, Read as _, Write as _};
use std::net::{SocketAddr, TcpStream};
use std::process::Stdio;
use std::time::Instant;

use anyhow::{Context, Result, ensure};

use super::share::Share;
use super::shop::Shop;
use crate::bench::account::{cpu_s, peak_mib};
use crate::bench::sides::Ended;
use crate::program::{program, run as run_program};
use crate::root::root;

/// One process of the hub.
pub(crate) struct Hub {
    process: Ended,
    /// Where it listens.
    pub(crate) address: SocketAddr,
    /// From its start until its first request was answered.
    pub(crate) answered_s: f64,
}

impl Hub {
    /// Starts one on the shop's file, or on a server's database.
    pub(crate) fn start(shop: &Shop<'_>, database: Option<&str>) -> Result<Self> {
        let mut serve = program(&shop.programs.sweepbell);
        serve.args(["serve", "--listen", "127.0.0.1:0", "--shop"]).arg(root().join("tests/data/cases/log-1/shop.toml"));
        serve.arg("--members").arg(shop.folder.join("members.toml")).arg("--dist").arg(&shop.folder);
        serve.arg("--data").arg(shop.data()).env_remove("SWEEPBELL_DATABASE");
        serve.envs(database.map(|url| ("SWEEPBELL_DATABASE", url)));
        // Logged as an operator's is, into a file.
        serve.stdout(Stdio::piped()).stderr(File::create(shop.folder.join("hub.log"))?);
        let began = Instant::now();
        let mut process = Ended(serve.spawn().context("the hub does not start")?);
        let mut lines = BufReader::new(process.0.stdout.take().context("the hub says nothing")?).lines();
        let line = lines.next().transpose()?.unwrap_or_default();
        let address =
            line.strip_prefix("listening on http://").with_context(|| format!("the hub says `{line}`"))?.parse()?;
        // It is not to wait for somebody to read on.
        std::thread::spawn(move || lines.for_each(drop));
        ask(address)?;
        Ok(Self { process, address, answered_s: began.elapsed().as_secs_f64() })
    }

    /// Holds it to so many thousandths of one core, for as long as what this gives lives.
    pub(crate) fn hold(&self, thousandths: u32) -> Result<Share> {
        Share::hold(self.process.0.id(), thousandths)
    }

    /// Seconds of processor time so far.
    pub(crate) fn cpu_s(&self) -> Result<f64> {
        cpu_s(self.process.0.id())
    }

    /// The most memory that it held.
    pub(crate) fn peak_mib(&self) -> Result<f64> {
        peak_mib(self.process.0.id())
    }

    /// Asks it to stop and waits; gives the seconds that took.
    pub(crate) fn stop(mut self) -> Result<f64> {
        let began = Instant::now();
        run_program(program("kill").arg("-TERM").arg(self.process.0.id().to_string()))?;
        ensure!(self.process.0.wait()?.success(), "the hub did not stop as it should");
        Ok(began.elapsed().as_secs_f64())
    }
}

fn ask(hub: SocketAddr) -> Result<()> {
    let mut stream = TcpStream::connect(hub)?;
    stream.write_all(b"GET /api/health HTTP/1.1\r\nHost: hub\r\nConnection: close\r\n\r\n")?;
    let mut answer = String::new();
    stream.read_to_string(&mut answer)?;
    ensure!(answer.starts_with("HTTP/1.1 200"), "the hub is not well: {answer}");
    Ok(())
}
