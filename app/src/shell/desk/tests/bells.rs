//! The bells: at the stored instant, late if missed, once, and until they are heard.

use shared_core::bell::Bell;
use shared_core::time::Span;

use super::*;
use crate::shell::bell::Strength;
use crate::store::Ringing;

/// Two hours, a reserve of ten minutes: first bell after 100 minutes, sweep bell after 110, last bell after 120.
fn at_bench() -> Phone {
    let mut ada = Phone::joined(1);
    ada.come_in();
    ada
}

fn rings(shown: &Shown) -> Option<(Bell, i64)> {
    shown.bell.as_ref().map(|Ringing { bell, late, .. }| (bell.clone(), late.ms() / 60_000))
}

#[test]
fn each_bell_rings_at_its_minute() {
    let mut ada = at_bench();
    for (minutes, wanted) in [
        (99, None),
        (1, Some(Bell::First)),
        (9, None),
        (1, Some(Bell::Sweep)),
        (9, None),
        (1, Some(Bell::Last)),
        (30, None),
    ] {
        // A page that is used ticks each second; two ticks a minute are enough here.
        for _ in 0..minutes * 6 {
            ada.wait(Span::from_ms(10_000));
        }
        assert_eq!(rings(ada.shown()), wanted.map(|bell| (bell, 0)));
        ada.ui(Ui::Hush);
        assert_eq!(rings(ada.shown()), None);
    }
}

#[test]
fn a_bell_is_heard_again_until_it_is_hushed() {
    let mut ada = at_bench();
    ada.wait(Span::from_minutes(110));
    assert_eq!(rings(ada.shown()), Some((Bell::Sweep, 0)));
    assert!(ada.errands.contains(&Errand::Ring(Strength::Full)));
    assert!(ada.errands.iter().any(|errand| matches!(errand, Errand::ShowNotice(_))));
    let mut heard = 0;
    for _ in 0..60 {
        ada.wait(Span::from_ms(1_000));
        heard += ada.errands.iter().filter(|errand| matches!(errand, Errand::Ring(_))).count();
        assert!(!ada.errands.iter().any(|errand| matches!(errand, Errand::ShowNotice(_))), "one notice a bell");
    }
    assert_eq!(heard, 4);
    ada.ui(Ui::Hush);
    assert!(ada.errands.contains(&Errand::CloseNotice));
    ada.wait(Span::from_ms(20_000));
    assert!(!ada.errands.iter().any(|errand| matches!(errand, Errand::Ring(_))));
}

#[test]
fn a_bell_missed_by_a_closed_phone_says_how_late_it_is() {
    let ada = at_bench().reopened_after(113);
    assert_eq!(rings(ada.shown()), Some((Bell::Sweep, 3)));
}

#[test]
fn a_bell_that_was_heard_stays_silent_after_a_restart() {
    let mut ada = at_bench();
    ada.wait(Span::from_minutes(111));
    ada.ui(Ui::Hush);
    let mut ada = ada.reopened_after(1);
    assert_eq!(rings(ada.shown()), None);
    assert_eq!(rings(ada.wait(Span::from_minutes(10))), Some((Bell::Last, 2)));
}

#[test]
fn a_sleeping_phone_rings_when_it_wakes() {
    let mut ada = at_bench();
    // The monotonic clock stood still: the page was frozen, and only the wall moved.
    ada.now.reading.wall = ada.now.reading.wall + Span::from_minutes(112);
    ada.now.reading.mono_ms += 2_000;
    ada.now.reading.in_view = false;
    let shown = ada.send(Intent::Phone(Told::Woke(Wake::Seen)));
    assert_eq!(rings(shown), Some((Bell::Sweep, 2)));
    assert_eq!(shown.notice, None, "that is no jump");
}

#[test]
fn nothing_rings_after_leaving() {
    let mut ada = at_bench();
    ada.wait(Span::from_minutes(110));
    let shown = ada.act(Command::Leave);
    assert_eq!(rings(shown), None);
    assert!(ada.errands.contains(&Errand::KeepLit(false)) && ada.errands.contains(&Errand::KeepRunning(None)));
    assert_eq!(rings(ada.wait(Span::from_minutes(30))), None);
}
