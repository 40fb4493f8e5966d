//! `sweepbell about MEMBER`, `sweepbell erase MEMBER`: what is held about somebody, for those who ask for it, and its end.
//!
//! Works while the hub serves. What is in force stays and is counted; copies made before keep what they have.

use clap::Args;
use shared_core::ids::PersonId;

use super::shop::{ShopArguments, with_store};
use super::{Failure, answer};
use crate::clock;
use crate::mine::{erase, gather};

/// Write everything that the hub holds about a member.
#[derive(Args, Debug)]
pub(super) struct About {
    /// Whom, by the members file's id.
    member: String,
    #[command(flatten)]
    shop: ShopArguments,
}

impl About {
    /// Gathers and writes it.
    pub(super) fn run(self) -> Result<(), Failure> {
        let (rules, member) = (self.shop.rules()?, PersonId::new(self.member));
        let row = rules.members.get(&member).cloned();
        let days = rules.rulebook.shop.retention_days;
        answer(&with_store(&self.shop, async |store| Ok(gather(store, &member, row, days).await?))?)
    }
}

/// Erase what the hub holds about a member, but for what is in force.
#[derive(Args, Debug)]
pub(super) struct Erase {
    /// Whom, by the members file's id.
    member: String,
    /// They have left the shop: take their phones off too.
    #[arg(long)]
    leaving: bool,
    #[command(flatten)]
    shop: ShopArguments,
}

impl Erase {
    /// Erases it, and says how much that was.
    pub(super) fn run(self) -> Result<(), Failure> {
        let (member, leaving) = (PersonId::new(self.member), self.leaving.then_some(""));
        answer(&with_store(&self.shop, async |store| Ok(erase(store, &member, leaving, clock::now()).await?))?)
    }
}
