//! The shop that is served: its rulebook, its members, its devices, as one bundle with a revision.
//!
//! Files that changed and are valid become current; files with problems are refused with every problem in the log,
//! and what was current stays, because members are at work under it. The revision is a digest of everything that a
//! phone is handed except the hub's clock, so two hubs with the same files and devices agree on it.

use std::collections::BTreeSet;
use std::path::{Path, PathBuf};
use std::sync::{Arc, PoisonError, RwLock};
use std::time::{Duration, SystemTime};

use shared_core::ids::BookId;
use shared_core::members::Members;
use shared_core::rulebook::members_file::read_members;
use shared_core::rulebook::problem::Problem;
use shared_core::rulebook::{Rulebook, parse};
use shared_core::sync::shop::{Device, ShopBundle, UtcOffset};
use shared_core::time::Instant;
use thiserror::Error;

use crate::clock;
use crate::hub::Hub;
use crate::live::Event;
use crate::offsets::offsets;
use crate::{demo, secret};

/// How often the files are looked at.
pub(crate) const WATCH_EVERY: Duration = Duration::from_secs(2);

/// Where the rules come from.
#[derive(Clone, Debug)]
pub(crate) enum Source {
    /// The demo shop, compiled in.
    Demo,
    /// A shop's own files.
    Files {
        /// The rulebook.
        shop: PathBuf,
        /// The members file.
        members: PathBuf,
    },
}

/// Why a shop cannot be served.
#[derive(Debug, Error)]
pub(crate) enum ShopError {
    /// A file cannot be read.
    #[error("{}: {cause}", file.display())]
    Unreadable {
        /// Which.
        file: PathBuf,
        /// Why.
        cause: std::io::Error,
    },
    /// A file has mistakes; each with its place, the file's name first.
    #[error("{}", .0.join("\n"))]
    Mistakes(Vec<String>),
}

/// Rules and members that were read together and fit each other.
#[derive(Clone, Debug, PartialEq)]
pub(crate) struct Rules {
    pub(crate) book: BookId,
    pub(crate) rulebook: Rulebook,
    pub(crate) members: Members,
    utc_offsets: Vec<UtcOffset>,
}

impl Rules {
    /// Reads both files, and finds every mistake in both.
    pub(crate) fn read(source: &Source, now: Instant) -> Result<Self, ShopError> {
        let (shop_name, shop, members_name, members) = match source {
            Source::Demo => (
                "the demo's shop.toml".into(),
                demo::SHOP.into(),
                "the demo's members.toml".into(),
                demo::MEMBERS.into(),
            ),
            Source::Files { shop, members } => (name(shop), text(shop)?, name(members), text(members)?),
        };
        let (rulebook, problems) = parse::read(&shop);
        let mut mistakes: Vec<_> = problems.iter().map(|problem| format!("{shop_name}:{problem}")).collect();
        let Some(rulebook) = rulebook else { return Err(ShopError::Mistakes(mistakes)) };
        mistakes.extend(check_zone(&shop, &rulebook).map(|problem| format!("{shop_name}:{problem}")));
        let utc_offsets = offsets(&rulebook.shop.time_zone, now).unwrap_or_default();
        let trainings: BTreeSet<_> = rulebook.machines.iter().map(|machine| machine.training.as_str()).collect();
        let (members, problems) = read_members(&members, &trainings);
        mistakes.extend(problems.iter().map(|problem| format!("{members_name}:{problem}")));
        match members {
            Some(members) if mistakes.is_empty() => {
                Ok(Self { book: parse::book_id(shop.as_bytes()), rulebook, members, utc_offsets })
            }
            _ => Err(ShopError::Mistakes(mistakes)),
        }
    }
}

impl Rules {
    /// Minutes east of UTC that the shop's clocks show at `at`.
    pub(crate) fn minutes_east(&self, at: Instant) -> i32 {
        let known = self.utc_offsets.iter().rev().find(|offset| offset.from <= at);
        known.or(self.utc_offsets.first()).map_or(0, |offset| offset.minutes)
    }
}

/// The problem of a time zone that does not exist, at its place: only the hub has a time-zone database to know.
pub(crate) fn check_zone(shop: &str, rulebook: &Rulebook) -> Option<Problem> {
    let zone = &rulebook.shop.time_zone;
    if zone.parse::<chrono_tz::Tz>().is_ok() {
        return None;
    }
    let written = (1..).zip(shop.lines()).find(|(_, line)| line.trim_start().starts_with("time_zone"));
    let place = written.and_then(|(n, line)| Some((n, (1..).zip(line.chars()).find(|(_, c)| "\"'".contains(*c))?.0)));
    let (line, column) = place.unwrap_or((1, 1));
    let hint = Some("write an IANA name, like Europe/Berlin".to_owned());
    Some(Problem { line, column, what: format!("there is no time zone `{zone}`"), hint })
}

fn name(file: &Path) -> String {
    file.display().to_string()
}

fn text(file: &Path) -> Result<String, ShopError> {
    std::fs::read_to_string(file).map_err(|cause| ShopError::Unreadable { file: file.into(), cause })
}

/// What phones are handed, and the digest that tells one state of it from another.
#[derive(Debug)]
pub(crate) struct Current(RwLock<Arc<ShopBundle>>);

impl Current {
    /// Serves these rules for these devices.
    pub(crate) fn new(rules: Rules, devices: Vec<Device>) -> Self {
        Self(RwLock::new(Arc::new(bundle(rules, devices))))
    }

    /// The bundle as it is now; its `hub_now` is when it was made.
    pub(crate) fn get(&self) -> Arc<ShopBundle> {
        Arc::clone(&self.0.read().unwrap_or_else(PoisonError::into_inner))
    }

    /// Takes other rules. Gives the new revision if it differs.
    fn set_rules(&self, rules: Rules) -> Option<String> {
        self.change(|bundle| {
            bundle.book = rules.book;
            bundle.rulebook = rules.rulebook;
            bundle.members = rules.members;
            bundle.utc_offsets = rules.utc_offsets;
        })
    }

    /// Takes the devices that the store has. Gives the new revision if there are more: devices never go, so that fewer
    /// are an older answer that came late.
    pub(crate) fn set_devices(&self, devices: Vec<Device>) -> Option<String> {
        self.change(|bundle| {
            if devices.len() > bundle.devices.len() {
                bundle.devices = devices;
            }
        })
    }

    /// Changes happen one after the other, so that none is lost.
    fn change(&self, change: impl FnOnce(&mut ShopBundle)) -> Option<String> {
        let mut current = self.0.write().unwrap_or_else(PoisonError::into_inner);
        let mut next = (**current).clone();
        change(&mut next);
        next.rev = rev(&next);
        let rev = next.rev.clone();
        let differs = rev != current.rev;
        *current = Arc::new(next);
        differs.then_some(rev)
    }
}

fn bundle(Rules { book, rulebook, members, utc_offsets }: Rules, devices: Vec<Device>) -> ShopBundle {
    let hub_now = Instant::from_ms(0);
    let mut bundle = ShopBundle { rev: String::new(), book, rulebook, members, devices, utc_offsets, hub_now };
    bundle.rev = rev(&bundle);
    bundle
}

/// A digest of everything that a phone is handed; `hub_now` is the same in all that is kept here.
fn rev(bundle: &ShopBundle) -> String {
    let rest = ShopBundle { rev: String::new(), ..bundle.clone() };
    let bytes = serde_json::to_vec(&rest).unwrap_or_default();
    secret::base64url(secret::digest(bytes)).chars().take(22).collect()
}

/// Looks at the files again and again until the hub stops.
pub(crate) async fn watch(hub: Arc<Hub>) {
    let Source::Files { shop, members } = hub.config.source.clone() else { return };
    let files = [shop, members];
    let mut seen = stamps(&files);
    loop {
        tokio::time::sleep(WATCH_EVERY).await;
        let stamps = stamps(&files);
        if stamps == seen {
            continue;
        }
        seen = stamps;
        match Rules::read(&hub.config.source, clock::now()) {
            Ok(rules) => {
                if let Some(rev) = hub.shop.set_rules(rules) {
                    tracing::info!(%rev, "the shop's files changed and are in force");
                    hub.live.tell(Event::Shop { rev });
                }
            }
            Err(error) => {
                tracing::error!("the shop's files changed and are refused; the old ones stay in force:\n{error}");
            }
        }
    }
}

/// Length and time of change of each file; an editor that replaces a file changes at least one of the two.
pub(crate) fn stamps(files: &[PathBuf]) -> Vec<Option<(u64, SystemTime)>> {
    let stamp = |file: &PathBuf| {
        let data = std::fs::metadata(file).ok()?;
        Some((data.len(), data.modified().ok()?))
    };
    files.iter().map(stamp).collect()
}
