//! `sweepbell serve`: the hub itself.

use clap::Args;
use tracing_subscriber::filter::LevelFilter;

use super::Failure;
use crate::config::{Config, ServeArguments};
use crate::serve::{self, ServeError};

/// Serve the app, keep the log, and let phones join.
#[derive(Args, Debug)]
pub(super) struct Serve {
    #[command(flatten)]
    arguments: ServeArguments,
    /// Log every file that is served, too.
    #[arg(long)]
    verbose: bool,
}

impl Serve {
    /// Serves until stopped.
    pub(super) fn run(self) -> Result<(), Failure> {
        let level = if self.verbose { LevelFilter::DEBUG } else { LevelFilter::INFO };
        tracing_subscriber::fmt().with_writer(std::io::stderr).with_max_level(level).with_ansi(false).init();
        let config = Config::try_from(self.arguments).map_err(|error| Failure::Usage(error.to_string()))?;
        let runtime = tokio::runtime::Builder::new_multi_thread().enable_all().build()?;
        runtime.block_on(serve::run(config)).map_err(|error| match error {
            ServeError::Shop(mistakes) => Failure::refused(&mistakes),
            other => Failure::Hub(other.to_string()),
        })
    }
}
