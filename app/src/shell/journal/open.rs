//! Opening the journal: every line is read as it was written or came, when it was proved; it is proved again once the page has
//! nothing else to do, before a tally stands for it ([`super::proving`]): signatures would keep whoever stands at a machine waiting.
//!
//! A line of this device that cannot be read is set aside with the reason and its number is given to the hub as lost;
//! the rest goes on (STYLE: nothing is lost, nothing blocks). A line of another that cannot be read is set aside likewise.
//! Reads and writes nothing itself: it says what to change.

use shared_core::ids::DeviceId;
use shared_core::log::chain::Head;
use shared_core::log::jws::{self, Signed};
use shared_core::ordered::Set;

use super::{Aside, Change, Journal, Line, Loaded, Other};

/// So many lines are read without a pause.
const READ_AT_ONCE: usize = 700;

/// A journal that has been read.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Opened {
    /// This device's lines, in order.
    pub own: Vec<Own>,
    /// Lines of other devices.
    pub others: Vec<Signed>,
    /// The head of this device's chain.
    pub head: Head,
    /// Numbers of lines of this device that are gone.
    pub lost: Vec<u64>,
    /// How many lines lie aside, those of now included.
    pub aside: u32,
    /// What to write down.
    pub changes: Vec<Change>,
}

/// A line of this device, read.
#[derive(Clone, Debug, PartialEq)]
pub struct Own {
    /// As it lies in the journal.
    pub line: Line,
    /// What it says.
    pub signed: Signed,
}

/// Reads everything that was loaded, and lets the page breathe in between.
pub async fn open(loaded: Loaded, dev: &DeviceId, journal: &impl Journal) -> Opened {
    let mut opened = Opened { aside: loaded.aside, ..Opened::default() };
    for (index, line) in loaded.log.into_iter().enumerate() {
        if index % READ_AT_ONCE == 0 {
            journal.breathe().await;
        }
        match read_own(&line, dev) {
            Ok(signed) => opened.own.push(Own { line, signed }),
            Err(why) => {
                let Line { seq, jws, .. } = line;
                opened.changes.push(own_aside(seq, jws, why));
            }
        }
    }
    for (index, Other { id, jws }) in loaded.others.into_iter().enumerate() {
        if index % READ_AT_ONCE == 0 {
            journal.breathe().await;
        }
        match jws::read(&jws) {
            Ok(signed) => opened.others.push(signed),
            Err(why) => opened.changes.push(Change::OtherAside(Aside { id, jws, why: why.to_string() })),
        }
    }
    opened.aside += u32::try_from(opened.changes.len()).unwrap_or(u32::MAX);
    opened.head = loaded.head.unwrap_or_else(|| last_of(&opened.own));
    let held: Set<u64> = opened.own.iter().map(|own| own.line.seq).collect();
    opened.lost = (1..=opened.head.seq).filter(|seq| !held.contains(seq)).collect();
    opened
}

fn read_own(line: &Line, dev: &DeviceId) -> Result<Signed, String> {
    let signed = jws::read(&line.jws).map_err(|why| why.to_string())?;
    if signed.dev != *dev {
        return Err("an earlier key of this phone signed it".to_owned());
    }
    if signed.seq != line.seq {
        return Err(format!("it says that it is entry {}, but lies in place {}", signed.seq, line.seq));
    }
    Ok(signed)
}

/// Sets aside a line of this device.
pub fn own_aside(seq: u64, jws: String, why: String) -> Change {
    Change::LineAside { seq, aside: Aside { id: format!("own {seq}"), jws, why } }
}

fn last_of(own: &[Own]) -> Head {
    own.last().map_or_else(Head::default, |own| Head { seq: own.line.seq, hash: jws::hash(&own.line.jws) })
}
