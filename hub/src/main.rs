//! The `sweepbell` command: reads its arguments and hands over to one subcommand.
//!
//! JSON goes to standard output, words for people to standard error. Exit 0: done; 1: the input is refused, with
//! the place; 2: wrong usage. See DESIGN.md, "Headless contract".
//!
//! Decides nothing about a shop: every rule is asked of `shared_core`.

mod api;
mod auth;
mod cards;
mod challenge;
mod cli;
mod clock;
mod config;
mod connections;
mod demo;
mod door;
mod export;
mod files;
mod gate;
mod headers;
mod hub;
mod invites;
mod late;
mod limit;
mod live;
mod mine;
mod names;
mod news;
mod offsets;
mod pages;
mod problem;
mod proving;
mod push;
mod rereading;
mod retention;
mod router;
mod rules;
mod secret;
mod serve;
mod shop;
mod squeezed;
mod stop;
mod store;
mod taking;
mod tls;

use std::process::ExitCode;

use clap::Parser as _;

/// What is squeezed for an answer takes a quarter of a megabyte for a moment. The system's own allocator lets pieces of ten thousand
/// connections lie between such moments, and then gives none of it back.
#[global_allocator]
static ALLOCATOR: mimalloc::MiMalloc = mimalloc::MiMalloc;

/// The allocator lets the system give memory by two megabytes at once, which are all cleared and all counted, whatever is used of them: twice
/// the memory for nothing, and a quarter of the time of a burst.
fn small_pages() {
    // A system that knows nothing of it has small ones.
    #[cfg(target_os = "linux")]
    let _ = rustix::thread::disable_transparent_huge_pages(true);
}

fn main() -> ExitCode {
    small_pages();
    let outcome = cli::Arguments::parse().run();
    match outcome {
        Ok(()) => ExitCode::SUCCESS,
        Err(failure) => {
            failure.tell();
            failure.code()
        }
    }
}
