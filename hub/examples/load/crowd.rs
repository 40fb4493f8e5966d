//! All the phones together: what they do when they are told, and what came of it.

use std::net::SocketAddr;
use std::sync::Arc;
use std::sync::atomic::AtomicU64;
use std::time::{Duration, Instant as Steady};

use anyhow::{Result, ensure};
use tokio::sync::Mutex;
use tokio::task::JoinSet;

use crate::evening::round;
use crate::now;
use crate::phone::Phone;
use crate::streams::{self, Heard};
use crate::sync::{From, Moved};
use crate::tally::Tally;

/// Phones that sync for the first time at once.
const MEETING: usize = 16;
/// So many questions in a row a hub answers at once (`hub/src/limit.rs`).
const AT_ONCE: usize = 100;
/// And then one each so often.
const LATER: Duration = Duration::from_millis(60);
/// A push has so many lines, one after the other.
const LINES: [usize; 6] = [1, 2, 3, 2, 1, 3];

/// Everybody.
pub(crate) struct Crowd {
    phones: Vec<Arc<Mutex<Phone>>>,
    /// Where they ask, in turn.
    hubs: Vec<SocketAddr>,
    /// The newest cursor that anybody has heard of.
    newest: Arc<AtomicU64>,
    /// Whose turn it is.
    turn: usize,
    heard: Arc<Heard>,
    streams: usize,
}

/// What many syncs came to.
#[derive(Default)]
struct Came {
    took: Vec<Duration>,
    moved: Moved,
    pushes: u64,
    failed: Vec<String>,
}

impl Came {
    fn take(&mut self, took: Duration, moved: Result<Moved>) {
        match moved {
            Ok(moved) => {
                self.took.push(took);
                self.pushes += u64::from(moved.lines_in > 0);
                self.moved.lines_in += moved.lines_in;
                self.moved.lines_out += moved.lines_out;
            }
            Err(error) => self.failed.push(format!("{error:#}")),
        }
    }

    fn say(self, seconds: f64) -> String {
        if let Some(first) = self.failed.first() {
            eprintln!("{} failed; the first: {first}", self.failed.len());
        }
        let Moved { lines_in, lines_out, .. } = self.moved;
        let (done, failed, pushes) = (self.took.len(), self.failed.len(), self.pushes);
        let tally = Tally::of(self.took);
        format!(
            " seconds={seconds:.3} done={done} failed={failed} pushes={pushes} in={lines_in} out={lines_out}{tally}"
        )
    }
}

impl Crowd {
    /// So many phones, who ask these hubs.
    pub(crate) fn new(phones: usize, hubs: Vec<SocketAddr>) -> Self {
        let phones = (0..phones).map(|number| Arc::new(Mutex::new(Phone::new(number)))).collect();
        Self { phones, hubs, newest: Arc::default(), turn: 0, heard: Arc::default(), streams: 0 }
    }

    /// The last phone has heard nothing yet and reads all that it is handed.
    pub(crate) async fn first(&mut self) -> Result<String> {
        let (mut phone, mut came, began) =
            (self.phones[self.phones.len() - 1].lock().await, Came::default(), Steady::now());
        loop {
            if came.took.len() > AT_ONCE {
                tokio::time::sleep(LATER).await;
            }
            let (asked, moved) = (Steady::now(), phone.sync(self.hubs[0], &From::Newest(&self.newest)).await?);
            came.take(asked.elapsed(), Ok(moved));
            if !moved.more {
                return Ok(came.say(began.elapsed().as_secs_f64()));
            }
        }
    }

    /// Everybody connects and asks from the newest place; each then knows the end of its own chain.
    pub(crate) async fn meet(&mut self) -> Result<String> {
        self.closed_loop(MEETING, |begun, _| begun).await
    }

    /// Signs what the next so many syncs will bring: so many of a thousand bring one to three lines.
    pub(crate) fn sign(&mut self, syncs: usize, of_thousand: usize) -> String {
        let (mut pushes, mut lines) = (0, 0);
        for nth in 0..syncs {
            // Spread evenly: the running sum passes a thousand.
            if (nth * of_thousand) % 1_000 + of_thousand < 1_000 {
                continue;
            }
            let Ok(mut phone) = self.phones[(self.turn + nth) % self.phones.len()].try_lock() else { continue };
            let (who, count) = (phone.member.clone(), LINES[pushes % LINES.len()]);
            let number = u64::try_from(nth).unwrap_or_default();
            let push = (0..count).map(|_| phone.sign(&round(&who, number, now())).jws).collect();
            phone.signed.push_back(push);
            (pushes, lines) = (pushes + 1, lines + count);
        }
        format!(" pushes={pushes} lines={lines}")
    }

    /// Syncs when they are due, whatever the hub does: what is late counts from when it was due.
    pub(crate) async fn open_loop(&mut self, rate: u32, seconds: u32, own: bool) -> Result<String> {
        let (mut syncing, began) = (JoinSet::new(), Steady::now());
        let told_before = self.heard.count();
        for nth in 0..rate * seconds {
            let due = began + Duration::from_secs(1) * nth / rate;
            tokio::time::sleep_until(due.into()).await;
            let (phone, hub, newest) = self.next();
            syncing.spawn(async move {
                let from = if own { From::Own } else { From::Newest(&newest) };
                let moved = phone.lock().await.sync(hub, &from).await;
                (due.elapsed(), moved)
            });
        }
        let mut came = Came::default();
        while let Some(synced) = syncing.join_next().await {
            let (took, moved) = synced?;
            came.take(took, moved);
        }
        let told = self.heard.count() - told_before;
        Ok(format!("{} told={told}", came.say(began.elapsed().as_secs_f64())))
    }

    /// As many syncs as the hubs let through, so many at once.
    pub(crate) async fn hurry(&mut self, at_once: usize, seconds: u64) -> Result<String> {
        let until = Steady::now() + Duration::from_secs(seconds);
        self.closed_loop(at_once, |_, began| if began < until { 0 } else { usize::MAX }).await
    }

    /// So many at once, each beginning when another ends, until as many as there are phones have begun, as `counted` counts.
    async fn closed_loop(&mut self, at_once: usize, counted: impl Fn(usize, Steady) -> usize) -> Result<String> {
        let (mut syncing, mut came, began, mut turns) = (JoinSet::new(), Came::default(), Steady::now(), 0);
        loop {
            while syncing.len() < at_once && counted(turns, Steady::now()) < self.phones.len() {
                let (phone, hub, newest) = self.next();
                turns += 1;
                syncing.spawn(async move {
                    let asked = Steady::now();
                    let moved = phone.lock().await.sync(hub, &From::Newest(&newest)).await;
                    (asked.elapsed(), moved)
                });
            }
            let Some(synced) = syncing.join_next().await else { break };
            let (took, moved) = synced?;
            came.take(took, moved);
        }
        Ok(came.say(began.elapsed().as_secs_f64()))
    }

    /// The first phones open their live streams.
    pub(crate) async fn listen(&mut self, streams: usize) -> Result<String> {
        ensure!(streams < self.phones.len(), "somebody must be left to tell them something");
        let mut listening = Vec::new();
        for phone in &self.phones[..streams] {
            listening.push(phone.lock().await);
        }
        let (began, listening) = (Steady::now(), listening.iter().map(|phone| &**phone).collect::<Vec<_>>());
        streams::open(self.hubs[0], &listening, &self.heard).await?;
        drop(listening);
        self.streams = streams;
        Ok(format!(" seconds={:.3} streams={streams}", began.elapsed().as_secs_f64()))
    }

    /// The last phone says something; how long until each stream has heard, from before it was sent.
    pub(crate) async fn tell(&mut self) -> Result<String> {
        let mut phone = self.phones[self.phones.len() - 1].lock().await;
        let (who, number) = (phone.member.clone(), phone.head.seq);
        let line = phone.sign(&round(&who, number, now())).jws;
        phone.signed.push_back(vec![line]);
        self.heard.forget();
        let began = Steady::now();
        phone.sync(self.hubs[0], &From::Newest(&self.newest)).await?;
        let answered = began.elapsed();
        let heard = self.heard.by(self.streams).await?;
        let took = heard.iter().map(|at| at.saturating_duration_since(began)).collect();
        Ok(format!(" answered={:.2}{}", answered.as_secs_f64() * 1_000.0, Tally::of(took)))
    }

    fn next(&mut self) -> (Arc<Mutex<Phone>>, SocketAddr, Arc<AtomicU64>) {
        let nth = self.turn;
        self.turn = (self.turn + 1) % self.phones.len();
        (Arc::clone(&self.phones[nth]), self.hubs[nth % self.hubs.len()], Arc::clone(&self.newest))
    }
}
