//! Stopping: one signal that everything which would go on for ever listens to.
//!
//! SIGINT and SIGTERM ask for it. Requests under way are finished, live streams end, the database is closed; whoever
//! is slower than the grace is cut off, since nothing that was acknowledged can be lost by it.

use std::time::Duration;

use tokio::signal::unix::{SignalKind, signal};
use tokio::sync::watch;

/// How long requests under way are waited for.
pub(crate) const GRACE: Duration = Duration::from_secs(8);

/// Whether it is time to end. Cheap to clone.
#[derive(Clone, Debug)]
pub(crate) struct Stop {
    asked: watch::Sender<bool>,
}

impl Stop {
    /// Not yet.
    pub(crate) fn new() -> Self {
        Self { asked: watch::Sender::new(false) }
    }

    /// Now.
    pub(crate) fn ask(&self) {
        self.asked.send_replace(true);
    }

    /// Completes when it is time.
    pub(crate) async fn asked(&self) {
        // The sender lives as long as this value, so waiting cannot fail.
        let _ = self.asked.subscribe().wait_for(|asked| *asked).await;
    }

    /// Asks when the operating system does. Signals are caught from when this returns, not from when somebody waits.
    pub(crate) fn on_signal(&self) -> std::io::Result<()> {
        let (mut interrupt, mut terminate) = (signal(SignalKind::interrupt())?, signal(SignalKind::terminate())?);
        let stop = self.clone();
        tokio::spawn(async move {
            tokio::select! {
                _ = interrupt.recv() => {}
                _ = terminate.recv() => {}
            }
            tracing::info!("stopping");
            stop.ask();
        });
        Ok(())
    }
}
