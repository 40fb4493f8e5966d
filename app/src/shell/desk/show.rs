//! Making the screens: pure projections of what is known, gathered into one value.
//!
//! Made anew whenever something changed, and every few seconds besides, because what may be claimed changes with time
//! alone (a buddy's word lapses). In between only `now` and the bells move.

use shared_core::state::Session;
use shared_core::time::{Instant, Span};
use shared_core::view::{self, Viewer, bench, door, room, rounds, sweep};

use super::Desk;
use crate::later;
use crate::shell::errand::Errand;
use crate::shell::journal::{Journal, Standing};
use crate::shell::keys::Signer;
use crate::shell::prefs::Running;
use crate::store::{CardLine, Gate, ShopLine, Shown, SyncBadge};

/// No projection is older.
const FRESH: Span = Span::from_ms(5_000);

impl<J: Journal, S: Signer> Desk<J, S> {
    /// Brings the screens up to now, and rings what is due.
    pub(super) fn show(&mut self) {
        let now = self.clock.now();
        let old = now - self.made_at >= FRESH || now < self.made_at;
        if self.stale || old {
            self.make(now);
        }
        self.shown.now = Instant::from_ms(now.ms().div_euclid(1_000) * 1_000);
        let ringing = self.ring_if_due();
        if ringing != self.shown.bell {
            self.shown.bell = ringing;
        }
    }

    fn make(&mut self, now: Instant) {
        let shown = self.project();
        let session = self.ledger.my_session();
        let sweeping = shown.sweep.as_ref().is_some_and(|sweep| sweep.began.is_some());
        self.bells.set(session, shown.bench.as_ref(), sweeping);
        let running = self.running(&shown);
        if running != self.kept_running {
            self.errands.push(Errand::KeepLit(running.is_some()));
            self.errands.push(Errand::KeepRunning(running.clone()));
            self.kept_running = running;
        }
        self.shown = shown;
        self.stale = false;
        self.made_at = now;
    }

    fn project(&self) -> Shown {
        let mut shown = Shown {
            gate: self.gate(),
            notice: self.notice.clone(),
            moved: self.moved.clone(),
            sync: self.badge(),
            at: self.at.clone(),
            going: self.going,
            theme: self.chosen.theme,
            bell: self.shown.bell.clone(),
            now: self.shown.now,
            answers: self.answers.clone(),
            ..Shown::default()
        };
        if let (Some(viewer), Gate::Open) = (self.viewer(), &shown.gate) {
            shown.welcome = !self.chosen.welcomed;
            shown.door = Some(door::door(&viewer, self.arriving.as_ref()));
            shown.bench = bench::bench(&viewer);
            if let Some(later) = later::parts()
                && let Some(shop) = &self.shop
            {
                let (own, dev) = (self.ledger.own(), self.signer.device_id());
                shown.extra = (later.reckon)(&self.wanted, &viewer, own, dev, shop);
            }
            shown.sweep = sweep::sweep(&viewer);
            shown.room = Some(room::room(&viewer));
            if let Some(shop) = &self.shop {
                shown.buddy = self.buddy.shown(&viewer, shop);
            }
            shown.at_round = self.at_round.as_ref().and_then(|id| rounds::row(&viewer, viewer.book.round(id)?));
            shown.covering = view::buddy::covering(&viewer);
            shown.shop = self.shop_line(&viewer);
        }
        shown
    }

    fn shop_line(&self, viewer: &Viewer) -> Option<ShopLine> {
        let shop = self.shop.as_ref()?;
        Some(ShopLine {
            name: shop.rulebook.shop.name.clone(),
            demo: shop.rulebook.shop.demo,
            emergency: shop.rulebook.shop.emergency.clone(),
            me: viewer.me.clone(),
            my_name: viewer.members.name(viewer.me).to_owned(),
            utc_offsets: shop.utc_offsets.clone(),
            hangs_in: shop.boards.iter().find(|board| shop.hangs_in.as_ref() == Some(&board.room)).cloned(),
            card: self.card_line(viewer),
        })
    }

    fn card_line(&self, viewer: &Viewer) -> Option<CardLine> {
        let me = viewer.members.get(viewer.me)?;
        let said_at = self.proved.as_ref()?.list_at;
        let list_at = self.sync.reached().map_or(said_at, |reached| reached.max(said_at));
        Some(CardLine { until: me.card_until?, steward: me.steward, signer: me.signer, list_at })
    }

    fn badge(&self) -> SyncBadge {
        let count =
            |wanted: fn(&Standing) -> bool| self.ledger.own().iter().filter(|own| wanted(&own.line.standing)).count();
        SyncBadge {
            waiting: count(|standing| *standing == Standing::Waiting),
            rejected: count(|standing| matches!(standing, Standing::Rejected { .. })),
            aside: self.ledger.aside(),
            link: self.sync.link().clone(),
            heard_all: self.sync.heard_all(),
            clock_offset: self.sync.clock_offset(),
            update_waits: self.update_waits,
            keeping: Some(self.signer.keeping()),
            notices: self.notices,
        }
    }

    fn running(&self, shown: &Shown) -> Option<Running> {
        let session: &Session = self.ledger.state().sessions.get(self.ledger.my_session()?)?;
        let bench = shown.bench.as_ref()?;
        let sweep_from = bench.times.as_ref().map_or(bench.out_by, |times| times.sweep_from);
        Some(Running { room: session.room.clone(), from: bench.from, out_by: bench.out_by, sweep_from })
    }
}
