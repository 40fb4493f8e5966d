//! Ten thousand invented shops and a day of each: how many stays, when, and what each stay says.
//!
//! Drawn from a seed, the same on every machine. Sizes and hours are invented; what a stay says is what the timed shop's stays say.

use shared_core::ids::SessionId;
use shared_core::log::jws::{self, Link};
use shared_core::rulebook::parse;
use tests::large_shop::{BEGIN, stay};
use tests::parity::Dice;

pub(crate) const SHOPS: usize = 10_000;
pub(crate) const MINUTES: usize = 24 * 60;
/// Of 100 shops so many have from so many to so many stays a day.
const SIZES: [(u64, u64, u64); 4] = [(60, 2, 8), (30, 8, 25), (9, 25, 60), (1, 60, 200)];
/// Of 100 stays so many begin from one hour to another: all shops lie in one time zone, which is the worst case.
const HOURS: [(u64, u64, u64); 4] = [(10, 8, 12), (25, 12, 17), (55, 17, 21), (10, 21, 24)];
/// A stay speaks for so long.
const STAY_MINUTES: u64 = 90;

/// A shop's day: in which minutes its phones said something, one for each line.
pub(crate) struct Shop {
    pub(crate) said: Vec<u16>,
}

/// All shops.
pub(crate) fn drawn(seed: u64, lines_a_stay: u64) -> Vec<Shop> {
    let mut dice = Dice(seed);
    (0..SHOPS).map(|_| shop(&mut dice, lines_a_stay)).collect()
}

fn shop(dice: &mut Dice, lines_a_stay: u64) -> Shop {
    let (from, to) = one(dice, &SIZES);
    let stays = from + dice.below(to - from + 1);
    let mut said = Vec::new();
    for _ in 0..stays {
        let (from, to) = one(dice, &HOURS);
        let begin = from * 60 + dice.below((to - from) * 60);
        said.extend((0..lines_a_stay).map(|_| begin + dice.below(STAY_MINUTES)));
    }
    Shop { said: said.into_iter().map(|minute| u16::try_from(minute % MINUTES as u64).expect("of one day")).collect() }
}

fn one(dice: &mut Dice, of_100: &[(u64, u64, u64)]) -> (u64, u64) {
    let mut left = dice.below(100);
    for (share, from, to) in of_100 {
        if left < *share {
            return (*from, *to);
        }
        left -= share;
    }
    unreachable!("the shares are 100")
}

/// A line of a stay on the average: its bytes as they are signed, and how many of them a stay says.
pub(crate) fn line() -> (usize, u64) {
    const STAYS: u64 = 200;
    let book = parse::read(include_str!("../../hub/demo/shop.toml")).0.expect("the demo's rulebook");
    let (mut dice, mut entries) = (Dice(3), Vec::new());
    for nth in 0..STAYS {
        stay((&book, 50), &mut dice, &SessionId::new(format!("{nth:016x}")), BEGIN, &mut entries);
    }
    let key = ed25519_dalek::SigningKey::from_bytes(&[7; 32]);
    let hash = "A".repeat(43);
    let link =
        Link { dev: jws::device_of(&key.verifying_key()), seq: 100, prev: hash.clone(), book: hash.as_str().into() };
    let bytes: usize = entries.iter().map(|entry| jws::sign(entry, &link, &key).jws.len()).sum();
    (bytes / entries.len(), entries.len() as u64 / STAYS)
}
