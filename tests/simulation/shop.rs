//! The demo shop, as every phone of the simulation knows it: its rules, its members, and which device speaks for whom.

use std::collections::BTreeMap;

use shared_core::ids::{BookId, DeviceId, PersonId};
use shared_core::members::Members;
use shared_core::rulebook::{Rulebook, members_file, parse};
use shared_core::time::Instant;

const BOOK: &str = include_str!("../../hub/demo/shop.toml");
const MEMBERS: &str = include_str!("../../hub/demo/members.toml");

/// The address under which the shop's codes are read.
pub(crate) const ORIGIN: &str = "https://shop.example";

#[derive(Clone, Debug)]
pub(crate) struct Shop {
    pub(crate) book: Rulebook,
    pub(crate) book_id: BookId,
    pub(crate) members: Members,
    pub(crate) devices: BTreeMap<DeviceId, PersonId>,
    /// True time 0. A day on which most sign-offs of the demo hold and some have lapsed.
    pub(crate) base: Instant,
}

impl Shop {
    pub(crate) fn demo() -> Self {
        let book = parse::read(BOOK).0.expect("the demo's rulebook has no problem");
        let members = members_file::read_members(MEMBERS, &book.trainings()).0.expect("nor have its members");
        let base = Instant::parse("2027-10-12T16:00:00Z").expect("a date");
        Self { book_id: parse::book_id(BOOK.as_bytes()), book, members, devices: BTreeMap::new(), base }
    }
}
