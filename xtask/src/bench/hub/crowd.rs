//! The phones, as one process that does what it is told and says what came of it.

use std::collections::BTreeMap;
use std::io::{BufRead as _, BufReader, Write as _};
use std::process::{ChildStdin, ChildStdout, Stdio};

use anyhow::{Context, Result, bail, ensure};

use super::PHONES;
use super::serving::Hub;
use super::shop::{Programs, Shop};
use crate::bench::account::cpu_s;
use crate::bench::sides::Ended;
use crate::program::{answer, program};

/// Phones that have joined.
pub(crate) struct Crowd {
    process: Ended,
    told: ChildStdin,
    said: BufReader<ChildStdout>,
}

/// What they said came of it: figures by their names.
pub(crate) struct Said(BTreeMap<String, f64>);

impl Said {
    fn read(line: &str, cue: &str) -> Result<Self> {
        let mut words = line.split_whitespace();
        ensure!(words.next() == cue.split(' ').next(), "told `{cue}`, the phones say `{line}`");
        let figure = |word: &str| {
            let (name, figure) = word.split_once('=')?;
            Some((name.to_owned(), figure.parse().ok()?))
        };
        words.map(|word| figure(word).with_context(|| format!("`{word}`"))).collect::<Result<_>>().map(Self)
    }

    /// The figure of that name; none reads as 0.
    pub(crate) fn get(&self, name: &str) -> f64 {
        self.0.get(name).copied().unwrap_or_default()
    }
}

/// What something took in all.
pub(crate) struct Took {
    pub(crate) said: Said,
    /// Processor seconds of the hubs, together.
    pub(crate) hubs_s: f64,
    /// And of the phones.
    pub(crate) phones_s: f64,
    pub(crate) seconds: f64,
}

impl Crowd {
    /// Starts them; they ask these hubs in turn.
    pub(crate) fn start(shop: &Shop<'_>, hubs: &[Hub]) -> Result<Self> {
        let mut phones = program(&shop.programs.load);
        phones.args(["phones", &PHONES.to_string()]).args(hubs.iter().map(|hub| hub.address.to_string()));
        let child = phones.stdin(Stdio::piped()).stdout(Stdio::piped()).spawn();
        let mut process = Ended(child.context("the phones do not start")?);
        let told = process.0.stdin.take().context("nobody listens")?;
        let said = BufReader::new(process.0.stdout.take().context("nobody speaks")?);
        let mut crowd = Self { process, told, said };
        ensure!(crowd.line()? == "ready", "the phones are not ready");
        Ok(crowd)
    }

    /// Has them do something.
    pub(crate) fn tell(&mut self, cue: &str) -> Result<Said> {
        writeln!(self.told, "{cue}")?;
        Said::read(&self.line()?, cue)
    }

    /// The same, with what it took.
    pub(crate) fn measure(&mut self, hubs: &[Hub], cue: &str) -> Result<Took> {
        let used = |hubs: &[Hub]| hubs.iter().map(Hub::cpu_s).sum::<Result<f64>>();
        let (phones, began) = (self.process.0.id(), std::time::Instant::now());
        let before = (used(hubs)?, cpu_s(phones)?);
        let said = self.tell(cue)?;
        let (hubs_s, phones_s) = (used(hubs)? - before.0, cpu_s(phones)? - before.1);
        Ok(Took { said, hubs_s, phones_s, seconds: began.elapsed().as_secs_f64() })
    }

    fn line(&mut self) -> Result<String> {
        let mut line = String::new();
        if self.said.read_line(&mut line)? == 0 {
            bail!("the phones ended early");
        }
        Ok(line.trim_end().to_owned())
    }
}

/// Microseconds of one core that it takes to open a line, its signature among them.
pub(crate) fn check_us(programs: &Programs) -> Result<f64> {
    let line = answer(program(&programs.load).arg("check")).context("no signature was checked")?;
    Ok(Said::read(&line, "check")?.get("us"))
}
