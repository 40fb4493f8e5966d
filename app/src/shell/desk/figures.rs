//! What two buddies say, as codes; and what somebody typed, judged: figures of one's own, what was read off a board. Of the
//! later part: see `crate::later`.
//!
//! Figures are neither kept nor shown; what is slow is reckoned outside.

use shared_core::code::answer::{Draft, Kind};
use shared_core::code::ask::Ask;
use shared_core::ids::PersonId;
use shared_core::in_room;
use shared_core::pin::{self, PinFault, Tries};
use shared_core::sync::shop::ShopBundle;
use shared_core::time::Instant;

use crate::shell::errand::{Errand, LaterErrand};
use crate::store::{Notice, Pin};

/// The draft with the board's code, if one was typed (who leaves needs none), and the bytes that are signed.
pub fn draft(draft: Draft, ask: &Ask, typed: &str) -> Result<(Draft, Vec<u8>), Notice> {
    let code = in_room::typed(typed);
    if code.is_none() && draft.kind == Kind::Here && !typed.trim().is_empty() {
        return Err(Notice::Pin(Pin::Fault(PinFault::NotSixFigures)));
    }
    let draft = draft.by_board(code);
    let input = draft.signing_input(ask).map_err(|_| Notice::CodeTooLong)?;
    Ok((draft, input))
}

/// A signed answer as a code's text.
pub fn answer_text(draft: Draft, signature: [u8; 64]) -> Option<String> {
    draft.assemble(signature).write().ok()
}

/// A buddy typed their figures on this phone.
pub fn typed(tries: &Tries, shop: &ShopBundle, who: PersonId, figures: &str, now: Instant) -> Result<Errand, Notice> {
    if let Some(until) = tries.rests_until(now) {
        return Err(Notice::Pin(Pin::Rests { minutes: (until - now).minutes_up() }));
    }
    let figures = pin::typed(figures).ok_or(Notice::Pin(Pin::Fault(PinFault::NotSixFigures)))?;
    let recipe = shop.pin_of(&who).and_then(pin::PinRecord::recipe);
    let (salt, rounds) = recipe.ok_or(Notice::Pin(Pin::Unknown))?;
    Ok(Errand::Later(LaterErrand::Digest { who, figures, salt, rounds }))
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
    pin::chosen(figures)
        .map(|figures| Errand::Later(LaterErrand::SetPin(figures)))
        .map_err(|fault| Notice::Pin(Pin::Fault(fault)))
}
