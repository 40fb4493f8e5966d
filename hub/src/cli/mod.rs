//! The subcommands, one a file, and what they have in common: files read, JSON written, failures told.

mod about;
mod backup;
mod calibrate;
mod codes;
mod devices;
mod export;
mod figures;
mod invite;
mod key;
mod lint;
mod move_store;
mod plan;
mod replay;
mod serve;
mod shop;
mod trace;
mod verify;

use std::io::{self, Write as _};
use std::path::Path;
use std::process::ExitCode;

use clap::{Parser, Subcommand};
use serde::Serialize;
use shared_core::entry::Entry;
use shared_core::log::erased::Erased;
use shared_core::log::jws;
use shared_core::log::wire::read_line;
use shared_core::rulebook::{Rulebook, parse};
use thiserror::Error;

use crate::shop::check_zone;

/// Sessions of a shared workshop, run by its own members: the hub and its tools.
#[derive(Debug, Parser)]
#[command(name = "sweepbell", version)]
pub(crate) struct Arguments {
    #[command(subcommand)]
    command: Command,
}

#[derive(Debug, Subcommand)]
enum Command {
    Serve(serve::Serve),
    Lint(lint::Lint),
    Plan(plan::Plan),
    Replay(replay::Replay),
    Trace(trace::Trace),
    Calibrate(calibrate::Calibrate),
    Verify(verify::Verify),
    Export(export::Export),
    Figures(figures::Figures),
    Backup(backup::Backup),
    Move(move_store::Move),
    Codes(codes::Codes),
    Invite(invite::Invite),
    Devices(devices::Devices),
    About(about::About),
    Erase(about::Erase),
    Key(key::Key),
}

impl Arguments {
    /// Does what is asked.
    pub(crate) fn run(self) -> Result<(), Failure> {
        match self.command {
            Command::Serve(it) => it.run(),
            Command::Lint(it) => it.run(),
            Command::Plan(it) => it.run(),
            Command::Replay(it) => it.run(),
            Command::Trace(it) => it.run(),
            Command::Calibrate(it) => it.run(),
            Command::Verify(it) => it.run(),
            Command::Export(it) => it.run(),
            Command::Figures(it) => it.run(),
            Command::Backup(it) => it.run(),
            Command::Move(it) => it.run(),
            Command::Codes(it) => it.run(),
            Command::Invite(it) => it.run(),
            Command::Devices(it) => it.run(),
            Command::About(it) => it.run(),
            Command::Erase(it) => it.run(),
            Command::Key(it) => it.run(),
        }
    }
}

/// Why a command did not do what was asked.
#[derive(Debug, Error)]
pub(crate) enum Failure {
    /// The input is refused; each line names a place. Exit 1.
    #[error("{}", .0.join("\n"))]
    Refused(Vec<String>),
    /// The command cannot be meant like that. Exit 2.
    #[error("{0}")]
    Usage(String),
    /// The answer could not be written. Exit 1.
    #[error("cannot write the answer: {0}")]
    Output(#[from] io::Error),
    /// The hub does not run. Exit 1.
    #[error("{0}")]
    Hub(String),
}

impl Failure {
    /// One refusal.
    fn refused(why: &impl ToString) -> Self {
        Self::Refused(vec![why.to_string()])
    }

    /// Tells people.
    pub(crate) fn tell(&self) {
        // A reader that went away, as `head` does, needs no message.
        if !matches!(self, Self::Output(error) if error.kind() == io::ErrorKind::BrokenPipe) {
            eprintln!("{self}");
        }
    }

    /// Tells programs.
    pub(crate) fn code(&self) -> ExitCode {
        match self {
            Self::Refused(_) | Self::Output(_) | Self::Hub(_) => ExitCode::from(1),
            Self::Usage(_) => ExitCode::from(2),
        }
    }
}

/// A file's bytes as text. One that cannot be opened is wrong usage; one that is not text is refused.
fn read(file: &Path) -> Result<String, Failure> {
    let bytes = std::fs::read(file).map_err(|error| Failure::Usage(format!("{}: {error}", file.display())))?;
    String::from_utf8(bytes).map_err(|error| {
        let before = error.as_bytes().get(..error.utf8_error().valid_up_to()).unwrap_or_default();
        let line = before.split(|byte| *byte == b'\n').count();
        Failure::refused(&format!("{}:{line}:1: not UTF-8", file.display()))
    })
}

/// A rulebook without problems, or all of them.
fn read_rulebook(file: &Path) -> Result<Rulebook, Failure> {
    let text = read(file)?;
    let (rulebook, mut problems) = parse::read(&text);
    problems.extend(rulebook.as_ref().and_then(|rulebook| check_zone(&text, rulebook)));
    match rulebook {
        Some(rulebook) if problems.is_empty() => Ok(rulebook),
        _ => Err(Failure::Refused(problems.iter().map(|problem| format!("{}:{problem}", file.display())).collect())),
    }
}

/// A log that was read.
struct Log {
    entries: Vec<Entry>,
    /// What is left of entries whose bodies were erased.
    erased: Vec<Erased>,
}

/// The entries of a log, or every line that cannot be read. A line is a bare entry, or a signed one as `export` writes it;
/// whether the signed ones belong together is asked by `verify`.
fn read_log(file: &Path) -> Result<Log, Failure> {
    let (mut entries, mut erased, mut problems) = (Vec::new(), Vec::new(), Vec::new());
    for (number, line) in (1..).zip(read(file)?.lines()).filter(|(_, line)| !line.trim().is_empty()) {
        if let Some(left) = Erased::read(line) {
            erased.push(left);
            continue;
        }
        let read = if line.trim_start().starts_with('{') {
            read_line(line).map_err(|fault| fault.to_string())
        } else {
            jws::open(line.trim()).map(|signed| signed.entry).map_err(|fault| fault.to_string())
        };
        match read {
            Ok(entry) => entries.push(entry),
            Err(fault) => problems.push(format!("{}:{number}:1: {fault}", file.display())),
        }
    }
    if problems.is_empty() { Ok(Log { entries, erased }) } else { Err(Failure::Refused(problems)) }
}

/// Runs what asks a database.
fn block_on<T>(doing: impl Future<Output = T>) -> Result<T, Failure> {
    Ok(tokio::runtime::Builder::new_current_thread().enable_all().build()?.block_on(doing))
}

/// Writes the answer.
fn answer(answer: &impl Serialize) -> Result<(), Failure> {
    let mut out = io::stdout().lock();
    serde_json::to_writer_pretty(&mut out, answer).map_err(io::Error::from)?;
    writeln!(out)?;
    Ok(out.flush()?)
}

/// Writes an answer in words.
fn say(text: &str) -> Result<(), Failure> {
    let mut out = io::stdout().lock();
    writeln!(out, "{text}")?;
    Ok(out.flush()?)
}
