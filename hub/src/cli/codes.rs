//! `sweepbell codes SHOP.toml --public-url URL`: a page to print, one sheet for each door, machine, stop and round.
//!
//! A sheet carries the code, the place in plain words, the address for whoever types it, and the cautions of DESIGN.md
//! section 7. The page is one file without scripts, so that any browser prints it. It holds no join code: whoever reads
//! a wall must not be able to join.

use std::fmt::Write as _;
use std::io::{self, Write as _};
use std::path::PathBuf;

use clap::Args;
use qrcode::{Color, EcLevel, QrCode};
use shared_core::code::door::{door_url, machine_url, round_url, stop_url};
use shared_core::ids::RoomId;
use shared_core::rulebook::Rulebook;

use super::{Failure, read_rulebook};

/// The quiet zone, in modules (ISO/IEC 18004).
const QUIET: usize = 4;

const CAUTIONS: &str = "Sweepbell supports judgement and is not a safety device. It does not make a machine safe. The shop's rules, \
    local codes and licensed practice come first. In danger: stop, leave, call the emergency number";

const STYLE: &str = "@page{size:A4;margin:15mm}body{margin:0;font:16pt/1.35 system-ui,sans-serif;color:#000;background:#fff}\
    section{break-after:page;min-height:250mm;display:flex;flex-direction:column;align-items:center;text-align:center;\
    outline:1px dashed #999;padding:8mm;box-sizing:border-box}h1{font-size:44pt;line-height:1.1;margin:6mm 0 2mm}\
    p{margin:2mm 0}svg{width:110mm;height:110mm;margin:6mm 0}.typed{font-size:20pt;font-weight:700;overflow-wrap:anywhere}\
    .cautions{margin-top:auto;font-size:11pt;max-width:150mm}";

/// A page of codes to print: doors, machines, stops of the induction walk, rounds.
#[derive(Args, Debug)]
pub(super) struct Codes {
    /// The rulebook.
    #[arg(value_name = "SHOP.toml")]
    shop: PathBuf,
    /// The address at which phones reach the hub, `https://yard.example.org`.
    #[arg(long, value_name = "URL")]
    public_url: String,
}

impl Codes {
    /// Writes the page to standard output.
    pub(super) fn run(self) -> Result<(), Failure> {
        let base = self.public_url.trim_end_matches('/');
        if !(base.starts_with("https://") || base.starts_with("http://")) {
            return Err(Failure::Usage(format!("--public-url {base}: begin with https://")));
        }
        let page = page(&read_rulebook(&self.shop)?, base)?;
        io::stdout().lock().write_all(page.as_bytes())?;
        Ok(())
    }
}

fn page(book: &Rulebook, base: &str) -> Result<String, Failure> {
    let mut body = String::new();
    for room in &book.rooms {
        let typed = format!("No camera? Open {base} and pick {}.", room.name);
        let url = door_url(base, &room.id);
        body += &sheet(book, &room.name, "Scan before you work here.", &url, &typed)?;
    }
    for machine in &book.machines {
        let url = machine_url(base, &machine.id);
        body += &sheet(book, &machine.name, "Scan to start it, or to tag it out.", &url, "")?;
    }
    let room = |id: &RoomId| book.room(id).map_or_else(|| id.to_string(), |room| room.name.clone());
    for (stop, number) in book.stops.iter().zip(1..) {
        let name = format!("{}: stop {number}", room(&stop.room));
        body += &sheet(book, &name, "Scan on your walk round the shop.", &stop_url(base, &stop.id), &stop.text)?;
    }
    for round in &book.rounds {
        let url = round_url(base, &round.id);
        body += &sheet(book, &room(&round.room), "Done it? Scan here.", &url, &round.text)?;
    }
    let title = escaped(&book.shop.name);
    Ok(format!(
        "<!doctype html>\n<html lang=\"en\"><meta charset=\"utf-8\"><title>Codes of {title}</title><style>{STYLE}</style>\n{body}</html>\n"
    ))
}

fn sheet(book: &Rulebook, name: &str, act: &str, url: &str, typed: &str) -> Result<String, Failure> {
    let emergency = book.shop.emergency.as_ref().map_or_else(|| ".".to_owned(), |number| format!(": {number}."));
    Ok(format!(
        "<section data-url=\"{0}\"><p>{1}</p><h1>{2}</h1><p>{3}</p>{4}<p class=\"typed\">{0}</p><p>{5}</p><p class=\"cautions\">{CAUTIONS}{6}</p></section>\n",
        escaped(url),
        escaped(&book.shop.name),
        escaped(name),
        escaped(act),
        drawn(url)?,
        escaped(typed),
        escaped(&emergency),
    ))
}

/// The code as one path of unit squares, black on white. Level Q, since walls get greasy.
fn drawn(text: &str) -> Result<String, Failure> {
    let code = QrCode::with_error_correction_level(text, EcLevel::Q)
        .map_err(|why| Failure::refused(&format!("{text} does not fit a code: {why}")))?;
    let (width, side) = (code.width(), code.width() + 2 * QUIET);
    let mut path = String::new();
    for (place, colour) in code.to_colors().into_iter().enumerate() {
        if colour == Color::Dark {
            let _ = write!(path, "M{} {}h1v1h-1z", place % width + QUIET, place / width + QUIET);
        }
    }
    Ok(format!(
        "<svg viewBox=\"0 0 {side} {side}\" shape-rendering=\"crispEdges\" role=\"img\" aria-label=\"Code\"><rect width=\"{side}\" \
         height=\"{side}\" fill=\"#fff\"/><path d=\"{path}\"/></svg>"
    ))
}

fn escaped(text: &str) -> String {
    text.replace('&', "&amp;").replace('<', "&lt;").replace('>', "&gt;").replace('"', "&quot;")
}
