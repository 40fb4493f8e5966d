//! The hub over real HTTP, as the real binary, on a free port: one file a job.
//!
//! Phones here sign as phones do, with `shared_core` alone. Nothing of the hub's inside is reached for.

mod support;

mod cards;
mod compressed;
mod copies;
mod desk;
mod door;
mod erasing;
mod files;
mod flood;
mod in_room;
mod invites;
mod joining;
mod killed;
mod live;
mod lost;
mod pages;
mod pictures;
mod problems;
mod pulling;
mod push;
mod pushing;
mod put_back;
mod restart;
mod rules;
mod standing;
mod storage;
mod tls;
mod two_hubs;
mod vouched;
