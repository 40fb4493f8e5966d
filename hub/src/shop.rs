//! The shop that is served: its rulebook, its members, its devices and their cards, as one bundle with a revision.
//!
//! Files that changed and are valid become current; files with problems are refused with every problem in the log,
//! and what was current stays, because members are at work under it. The revision is a digest of everything that a
//! phone is handed except the hub's clock, so two hubs with the same files and devices agree on it.

use std::collections::HashSet;
use std::ops::Deref;
use std::path::{Path, PathBuf};
use std::sync::{Arc, PoisonError, RwLock};
use std::time::{Duration, SystemTime};

use shared_core::ids::{BookId, DeviceId, MachineId, PersonId};
use shared_core::members::{Member, Members};
use shared_core::ordered::{Map, Set};
use shared_core::rulebook::members_file::read_members;
use shared_core::rulebook::problem::Problem;
use shared_core::rulebook::{Rulebook, parse};
use shared_core::sync::shop::{ShopBundle, UtcOffset};
use shared_core::time::Instant;
use thiserror::Error;

use crate::cards::Issued;
use crate::hub::{Hub, RulesFault};
use crate::names::told_apart;
use crate::offsets::offsets;
use crate::store::{Known, Published, SignedIn};
use crate::{demo, secret};

/// How often the files are looked at.
pub(crate) const WATCH_EVERY: Duration = Duration::from_secs(2);
/// Every so many looks, cards that soon run out are made anew: once an hour.
const RENEW_EVERY_LOOKS: u32 = 1_800;

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

/// The rulebook that is in force.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(crate) struct InForce {
    /// The whole of it.
    pub(crate) text: String,
    /// Its id.
    pub(crate) book: BookId,
    /// The id of the shop's file.
    pub(crate) file: BookId,
}

impl Source {
    /// What was published last, as long as the file is still the one that it was written over; else the file: whichever was
    /// changed later counts.
    pub(crate) fn in_force(&self, published: Option<&Published>) -> Result<InForce, ShopError> {
        let own = match self {
            Self::Demo => demo::SHOP.to_owned(),
            Self::Files { shop, .. } => text(shop)?,
        };
        let file = parse::book_id(own.as_bytes());
        let text = published.filter(|one| one.over == file).map_or(own, |one| one.text.clone());
        Ok(InForce { book: parse::book_id(text.as_bytes()), text, file })
    }
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
    /// Reads both files, with what was published in place of the rulebook's if that holds, and finds every mistake in both.
    pub(crate) fn read(source: &Source, published: Option<&Published>, now: Instant) -> Result<Self, ShopError> {
        let (shop_name, members_name, members) = match source {
            Source::Demo => ("the demo's shop.toml".into(), "the demo's members.toml".into(), demo::MEMBERS.into()),
            Source::Files { shop, members } => (name(shop), name(members), text(members)?),
        };
        let InForce { text: shop, .. } = source.in_force(published)?;
        let (rulebook, problems) = parse::read(&shop);
        let mut mistakes: Vec<_> = problems.iter().map(|problem| format!("{shop_name}:{problem}")).collect();
        let Some(rulebook) = rulebook else { return Err(ShopError::Mistakes(mistakes)) };
        mistakes.extend(check_zone(&shop, &rulebook).map(|problem| format!("{shop_name}:{problem}")));
        let utc_offsets = offsets(&rulebook.shop.time_zone, now).unwrap_or_default();
        let trainings: Set<_> = rulebook.machines.iter().map(|machine| machine.training.as_str()).collect();
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

/// What is served: the bundle with everything that the hub knows of members, and the cards that go with it.
#[derive(Debug)]
pub(crate) struct Served {
    bundle: ShopBundle,
    issued: Issued,
    /// The members file, before any word of the log.
    file: Members,
    /// The phones that were not taken off.
    in_use: HashSet<DeviceId>,
}

impl Deref for Served {
    type Target = ShopBundle;

    fn deref(&self) -> &ShopBundle {
        &self.bundle
    }
}

impl Served {
    fn new(Rules { book, rulebook, members, utc_offsets }: Rules, issued: Issued) -> Self {
        let mut bundle = ShopBundle {
            rev: String::new(),
            book,
            rulebook,
            members: told_apart(&issued.members),
            devices: issued.active(),
            keys: issued.signing.statements.clone(),
            card: None,
            faces: Vec::new(),
            revoked: None,
            boards: issued.boards(),
            pins: issued.in_room.pins.clone(),
            hangs_in: None,
            utc_offsets,
            hub_now: Instant::from_ms(0),
        };
        bundle.faces = issued.faces(&bundle.members);
        bundle.rev = rev(&bundle, &issued);
        let in_use = bundle.devices.iter().map(|device| device.dev.clone()).collect();
        Self { bundle, issued, file: members, in_use }
    }

    /// The members file, before any word of the log.
    pub(crate) fn file(&self) -> &Members {
        &self.file
    }

    /// Whether a person looks after the shop.
    pub(crate) fn is_steward(&self, who: &PersonId) -> bool {
        self.members.get(who).is_some_and(|member| member.steward)
    }

    /// Whether a phone has joined and was not taken off. Each open stream asks at each change.
    pub(crate) fn is_in_use(&self, dev: &DeviceId) -> bool {
        self.in_use.contains(dev)
    }

    /// Who has joined, those that were taken off too.
    pub(crate) fn phones(&self) -> &[Known] {
        &self.issued.devices
    }

    /// What one phone is handed: its own card, everybody's face, and of other members their names and roles alone, unless
    /// its member is a steward. `used` is when its member last used each machine.
    pub(crate) fn for_phone(&self, caller: &SignedIn, used: &Map<MachineId, Instant>, now: Instant) -> ShopBundle {
        let mut bundle = self.bundle.clone();
        if !self.is_steward(&caller.member) {
            bundle.members = self.members.iter().map(|member| shown_to(&caller.member, member)).collect();
        }
        if let Some(own) = bundle.members.get_mut(&caller.member) {
            for machine in &self.rulebook.machines {
                if let Some(at) = used.get(&machine.id) {
                    let last = own.used.entry(machine.training.clone()).or_insert(*at);
                    *last = (*last).max(*at);
                }
            }
        }
        bundle.card = self.issued.cards.get(&caller.dev).map(|made| made.jws.clone());
        bundle.revoked = Some(self.issued.revoked(now).seal(&self.issued.signing.key));
        let hangs = self.issued.in_room.boards.iter().find(|(dev, _)| *dev == caller.dev);
        bundle.hangs_in = hangs.map(|(_, room)| room.clone());
        bundle.hub_now = now;
        bundle
    }
}

fn shown_to(who: &PersonId, member: &Member) -> Member {
    if member.id == *who {
        return member.clone();
    }
    let Member { id, name, steward, signer, .. } = member.clone();
    Member { id, name, steward, signer, ..Member::default() }
}

/// What phones are handed, and the digest that tells one state of it from another. Changed in a turn alone
/// ([`crate::rereading`]): what was read earlier must not come later.
#[derive(Debug)]
pub(crate) struct Current(RwLock<Arc<Served>>);

impl Current {
    /// Serves these rules with these cards.
    pub(crate) fn new(rules: Rules, issued: Issued) -> Self {
        Self(RwLock::new(Arc::new(Served::new(rules, issued))))
    }

    /// What is served now.
    pub(crate) fn get(&self) -> Arc<Served> {
        Arc::clone(&self.0.read().unwrap_or_else(PoisonError::into_inner))
    }

    /// Takes other rules, and the cards that were made by them. Gives the new revision if it differs.
    pub(crate) fn set(&self, rules: Rules, issued: Issued) -> Option<String> {
        let next = Served::new(rules, issued);
        let mut current = self.0.write().unwrap_or_else(PoisonError::into_inner);
        let rev = next.rev.clone();
        let differs = rev != current.rev;
        *current = Arc::new(next);
        differs.then_some(rev)
    }

    /// Takes what the store has of devices and cards. Gives the new revision if it differs.
    pub(crate) fn set_issued(&self, issued: Issued) -> Option<String> {
        self.set(self.get().rules(), issued)
    }
}

impl Served {
    fn rules(&self) -> Rules {
        let ShopBundle { book, rulebook, utc_offsets, .. } = self.bundle.clone();
        Rules { book, rulebook, members: self.file.clone(), utc_offsets }
    }
}

/// A digest of everything that any phone is handed but dates: the hub's clock, and when the list of phones that were
/// taken off was last said. The bundle's own is still empty.
fn rev(bundle: &ShopBundle, issued: &Issued) -> String {
    let cards: Vec<&str> = issued.cards.values().map(|made| made.jws.as_str()).collect();
    let taken_off = issued.devices.iter().filter(|known| known.revoked.is_some()).count();
    let mut digest = secret::Digest::default();
    // Of ten thousand phones it would be twenty megabytes, and a buffer grows to twice what it holds.
    if let Err(error) = serde_json::to_writer(&mut digest, &(bundle, cards, taken_off)) {
        tracing::error!(%error, "what phones are handed has no revision");
    }
    secret::base64url(digest.end()).chars().take(22).collect()
}

/// Looks at the files, and at what other programs changed in the store, again and again until the hub stops. `mark` is the store's
/// from before it was read for what is served.
pub(crate) async fn watch(hub: Arc<Hub>, mark: [i64; 8]) {
    let files = match hub.config.source.clone() {
        Source::Files { shop, members } => vec![shop, members],
        Source::Demo => Vec::new(),
    };
    let (mut seen, mut mark, mut looks) = (stamps(&files), Some(mark), 0_u32);
    loop {
        tokio::time::sleep(WATCH_EVERY).await;
        looks += 1;
        let stamps = stamps(&files);
        if stamps != seen {
            seen = stamps;
            reread_files(&hub).await;
        }
        // A card runs out whether or not anything happens.
        let now = hub.store.mark().await.ok();
        if now != mark || looks.is_multiple_of(RENEW_EVERY_LOOKS) {
            mark = now;
            // Rules that are refused keep nobody's phone out.
            if !reread_files(&hub).await
                && let Err(error) = hub.reread().await
            {
                tracing::warn!(%error, "the devices and cards could not be read");
            }
        }
    }
}

/// Whether everything was read, the files too.
async fn reread_files(hub: &Hub) -> bool {
    let done = hub.reread_rules().await;
    let is_read = done.is_ok();
    match done {
        Ok(Some(rev)) => tracing::info!(%rev, "the shop's files changed and are in force"),
        Ok(None) => {}
        Err(RulesFault::Store(error)) => tracing::warn!(%error, "what was published could not be read"),
        Err(RulesFault::Cards(error)) => {
            tracing::error!(%error, "the shop's files changed; the old ones stay in force");
        }
        Err(RulesFault::Shop(error)) => {
            tracing::error!("the shop's files changed and are refused; the old ones stay in force:\n{error}");
        }
    }
    is_read
}

/// Length and time of change of each file; an editor that replaces a file changes at least one of the two.
pub(crate) fn stamps(files: &[PathBuf]) -> Vec<Option<(u64, SystemTime)>> {
    let stamp = |file: &PathBuf| {
        let data = std::fs::metadata(file).ok()?;
        Some((data.len(), data.modified().ok()?))
    };
    files.iter().map(stamp).collect()
}
