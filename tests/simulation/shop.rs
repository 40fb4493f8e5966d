//! The demo shop, as every phone of the simulation knows it: its rules, its members, and which device speaks for whom.

use std::collections::BTreeMap;
use std::sync::LazyLock;

use shared_core::ids::{BookId, DeviceId, PersonId};
use shared_core::members::Members;
use shared_core::rulebook::{Rulebook, members_file, parse};
use shared_core::time::Instant;

use crate::planted::Planted;

const BOOK: &str = include_str!("../../hub/demo/shop.toml");
const MEMBERS: &str = include_str!("../../hub/demo/members.toml");

/// The address under which the shop's codes are read.
pub(crate) const ORIGIN: &str = "https://shop.example";

/// What the steward changes in the rules, one after the other: words of the file and what stands there then.
const CHANGES: [(&str, &str); 4] = [
    ("renew_minutes = 15", "renew_minutes = 8"),
    ("minutes = 30 # 29 CFR", "minutes = 60 # 29 CFR"),
    (
        "[[statement]]\nid = \"loose\"",
        "[[statement]]\nid = \"told\"\ntext = \"I read the new rules.\"\ndecline = \"They hang here.\"\n\n[[statement]]\nid = \"loose\"",
    ),
    ("floor_minutes = 10", "floor_minutes = 15"),
];

/// One version of the shop's rules.
#[derive(Clone, Debug)]
pub(crate) struct Book {
    pub(crate) rules: Rulebook,
    pub(crate) id: BookId,
}

#[derive(Clone, Debug)]
pub(crate) struct Shop {
    /// The rules as they were and as they will be; which hold is the hub's to say.
    pub(crate) books: Vec<Book>,
    pub(crate) members: Members,
    pub(crate) devices: BTreeMap<DeviceId, PersonId>,
    /// True time 0. A day on which most sign-offs of the demo hold and some have lapsed.
    pub(crate) base: Instant,
}

impl Shop {
    /// Read once for all runs.
    pub(crate) fn demo() -> Self {
        static DEMO: LazyLock<Shop> = LazyLock::new(Shop::read);
        DEMO.clone()
    }

    /// The shop as phones have it if something is planted in their rules.
    pub(crate) fn as_told(&self, planted: Option<Planted>) -> Self {
        let mut told = self.clone();
        for book in &mut told.books {
            match planted {
                Some(Planted::CoverOutlivesItsTerm) => book.rules.buddy.renew_minutes *= 2,
                Some(Planted::NoWatchAfterSparks) => book.rules.fire_watch.minutes = 1,
                _ => {}
            }
        }
        told
    }

    fn read() -> Self {
        let mut text = BOOK.to_owned();
        let mut books = vec![book(&text)];
        for (old, new) in CHANGES {
            assert!(text.contains(old), "{old}");
            text = text.replacen(old, new, 1);
            books.push(book(&text));
        }
        let trainings = books[0].rules.trainings();
        let members = members_file::read_members(MEMBERS, &trainings).0.expect("nor have its members");
        let base = Instant::parse("2027-10-12T16:00:00Z").expect("a date");
        Self { books, members, devices: BTreeMap::new(), base }
    }
}

fn book(text: &str) -> Book {
    let rules = parse::read(text).0.expect("the demo's rulebook has no problem");
    Book { rules, id: parse::book_id(text.as_bytes()) }
}
