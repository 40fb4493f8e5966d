//! The hub's life: read the rules, open the database, listen, say where, serve, stop.
//!
//! A shop with mistakes is not served: every mistake is told with its place. The demo log goes into a new database of
//! the demo shop alone, in a file of its own name, so that invented entries never meet a real shop's.

use std::io::{IsTerminal as _, stdout};
use std::net::SocketAddr;
use std::path::PathBuf;
use std::sync::Arc;

use thiserror::Error;
use tokio::net::TcpListener;
use tokio::sync::Notify;

use crate::auth::Sessions;
use crate::challenge::Challenges;
use crate::config::Config;
use crate::door::{self, Announcement, Way};
use crate::hub::Hub;
use crate::limit::Limits;
use crate::live::Live;
use crate::pages::Pages;
use crate::push::{self, PushKey, Sender};
use crate::rereading::Rereading;
use crate::router::router;
use crate::shop::{self, Current, Rules, ShopError, Source};
use crate::stop::Stop;
use crate::store::{Place, Store, StoreError};
use crate::taking::{self, Taking};
use crate::tls::{self, TlsError, TlsListener};
use crate::{cards, clock, connections, demo, invites, news, proving, retention, secret};

/// Why the hub does not run, or no longer.
#[derive(Debug, Error)]
pub(crate) enum ServeError {
    /// The shop's files.
    #[error(transparent)]
    Shop(#[from] ShopError),
    /// The database does not open.
    #[error("{place}: {cause}")]
    Open {
        /// Which.
        place: Place,
        /// Why.
        cause: StoreError,
    },
    /// The database fails later.
    #[error(transparent)]
    Store(#[from] StoreError),
    /// Certificate and key.
    #[error(transparent)]
    Tls(#[from] TlsError),
    /// What sends to push services.
    #[error("push services cannot be reached: {0}")]
    Push(&'static str),
    /// The address.
    #[error("cannot listen on {address}: {cause}")]
    Listen {
        /// Which.
        address: SocketAddr,
        /// Why.
        cause: std::io::Error,
    },
    /// The data folder.
    #[error("cannot keep data in {}: {cause}", folder.display())]
    Data {
        /// Which.
        folder: PathBuf,
        /// Why.
        cause: std::io::Error,
    },
    /// The hub's key, or the cards.
    #[error(transparent)]
    Cards(#[from] cards::CardsFault),
    /// The first invite.
    #[error(transparent)]
    Invite(#[from] invites::InviteFault),
    /// No random bytes.
    #[error("the operating system gives no random bytes: {0}")]
    Random(#[from] getrandom::Error),
    /// The demo log.
    #[error("the demo log cannot be written: {0}")]
    Demo(#[from] demo::DemoError),
    /// Anything else of the operating system.
    #[error(transparent)]
    System(#[from] std::io::Error),
}

/// Serves until asked to stop.
pub(crate) async fn run(config: Config) -> Result<(), ServeError> {
    let rules = Rules::read(&config.source, None, clock::now())?;
    let acceptor = config.tls.as_ref().map(tls::acceptor).transpose()?;
    let store = open(&config, &rules).await?;
    let published = store.newest_published().await?;
    let rules = Rules::read(&config.source, published.as_ref(), clock::now())?;
    let (news, due) = (store.news().await?, store.news().await?);
    let address = config.listen;
    let listener = TcpListener::bind(address).await.map_err(|cause| ServeError::Listen { address, cause })?;
    let listening = listener.local_addr()?;
    let mark = store.mark().await?;
    let (taking, brought) = Taking::queue();
    let hub = Arc::new(assemble(config, rules, store, taking, listening).await?);
    hub.stop.on_signal()?;
    announce(&hub, &invites::way_in(&hub, clock::now()).await?, listening)?;
    tokio::spawn(shop::watch(Arc::clone(&hub), mark));
    tokio::spawn(news::follow(Arc::clone(&hub), news));
    tokio::spawn(retention::follow(Arc::clone(&hub)));
    tokio::spawn(push::caller::follow(Arc::clone(&hub), due));
    taking::begin(Arc::clone(&hub), brought)?;
    tokio::spawn(proving::follow(Arc::clone(&hub)));
    let app = router(Arc::clone(&hub));
    match acceptor {
        Some((acceptor, certificate)) => {
            tokio::spawn(certificate.watch());
            connections::serve(TlsListener::new(listener, acceptor)?, app, &hub.stop).await;
        }
        None => connections::serve(listener, app, &hub.stop).await,
    }
    hub.store.close().await;
    tracing::info!("stopped");
    Ok(())
}

async fn open(config: &Config, rules: &Rules) -> Result<Store, ServeError> {
    if let Place::File(file) = &config.place
        && let Some(folder) = file.parent()
    {
        std::fs::create_dir_all(folder).map_err(|cause| ServeError::Data { folder: folder.into(), cause })?;
    }
    let place = config.place.clone();
    let store = Store::open(&place).await.map_err(|cause| ServeError::Open { place, cause })?;
    if matches!(config.source, Source::Demo) {
        let entries = demo::load(&store, rules, config.seed, clock::now()).await?;
        if entries > 0 {
            tracing::info!(entries, "the demo log is loaded; everything in it is invented");
        }
    }
    Ok(store)
}

async fn assemble(
    config: Config,
    rules: Rules,
    store: Store,
    taking: Taking,
    listening: SocketAddr,
) -> Result<Hub, ServeError> {
    let now = clock::now();
    let key = store.challenge_key(secret::random()?, now).await?;
    let demo_code = matches!(config.source, Source::Demo)
        .then(|| config.join_code.clone().unwrap_or_else(|| door::demo_code(&key)));
    store.begin_life(u32::from_be_bytes(secret::random()?)).await?;
    let issued = cards::renewed(&store, &rules.members, now).await?;
    let reachable = door::reachable(listening, config.tls.is_some());
    let sessions = Sessions::seen_before(&store).await?;
    let base = config.public_url.clone().unwrap_or(reachable);
    let sender = sender(&config, &base, store.push_key(secret::random()?, now).await?)?;
    Ok(Hub {
        base,
        config,
        sender,
        rouse: Notify::new(),
        demo_code,
        store,
        taking,
        shop: Current::new(rules, issued),
        rereading: Rereading::default(),
        sessions,
        limits: Limits::new(),
        challenges: Challenges::new(key),
        live: Arc::new(Live::new()),
        owes_proof: Notify::new(),
        pages: Pages::default(),
        stop: Stop::new(),
    })
}

/// Push services may write to whoever looks after the hub (RFC 8292 section 2.1), or find its address.
fn sender(config: &Config, base: &str, key: [u8; 32]) -> Result<Sender, ServeError> {
    let address = || base.starts_with("https://").then(|| base.to_owned());
    let contact = config.push_contact.clone().or_else(address);
    let key = PushKey::new(&key, contact).ok_or(ServeError::Push("the key that is kept for them is none"))?;
    Sender::new(key, config.push_reach).map_err(|_| ServeError::Push("TLS cannot be set up"))
}

fn announce(hub: &Hub, way: &Way, listening: SocketAddr) -> Result<(), ServeError> {
    let listening = door::reachable(listening, hub.config.tls.is_some());
    let (shop, colours) = (hub.shop.get(), stdout().is_terminal());
    let announcement = Announcement { listening: &listening, base: &hub.base, way, rulebook: &shop.rulebook, colours };
    Ok(announcement.say(&mut stdout().lock())?)
}
