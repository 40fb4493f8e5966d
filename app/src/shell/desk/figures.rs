//! What somebody typed, judged: figures of one's own, and what was read off a board. Of the later part: see `crate::later`.
//!
//! Figures are neither kept nor shown; what is slow is reckoned outside.

use shared_core::code::answer::{Draft, Kind};
use shared_core::ids::PersonId;
use shared_core::in_room;
use shared_core::pin::{self, PinFault, Tries};
use shared_core::sync::shop::ShopBundle;
use shared_core::time::Instant;

use crate::shell::errand::Errand;
use crate::store::{Notice, Pin};

/// The draft with the board's code, if one was typed; who leaves needs none.
pub fn by_board(draft: Draft, typed: &str) -> Result<Draft, Notice> {
    match in_room::typed(typed) {
        None if draft.kind == Kind::Here && !typed.trim().is_empty() => {
            Err(Notice::Pin(Pin::Fault(PinFault::NotSixFigures)))
        }
        code => Ok(draft.by_board(code)),
    }
}

/// A buddy typed their figures on this phone.
pub fn typed(tries: &Tries, shop: &ShopBundle, who: PersonId, figures: &str, now: Instant) -> Result<Errand, Notice> {
    if let Some(until) = tries.rests_until(now) {
        return Err(Notice::Pin(Pin::Rests { minutes: (until - now).minutes_up() }));
    }
    let figures = pin::typed(figures).ok_or(Notice::Pin(Pin::Fault(PinFault::NotSixFigures)))?;
    let recipe = shop.pin_of(&who).and_then(pin::PinRecord::recipe);
    let (salt, rounds) = recipe.ok_or(Notice::Pin(Pin::Unknown))?;
    Ok(Errand::Digest { who, figures, salt, rounds })
}

/// Whether a digest is of that person's figures.
pub fn checked(
    tries: &mut Tries,
    shop: &ShopBundle,
    who: &PersonId,
    digest: Option<&[u8]>,
    now: Instant,
) -> Result<(), Notice> {
    let digest = digest.ok_or(Notice::Pin(Pin::Unknown))?;
    if shop.pin_of(who).is_some_and(|pin| pin.is(digest)) {
        tries.right();
        return Ok(());
    }
    tries.wrong(now);
    Err(Notice::Pin(Pin::Wrong))
}

/// A member's own, chosen.
pub fn chosen(figures: &str) -> Result<Errand, Notice> {
    pin::chosen(figures).map(Errand::SetPin).map_err(|fault| Notice::Pin(Pin::Fault(fault)))
}
