//! Codes on their way from one phone to another, when both have a network and no light to scan by.
//!
//! The hub hands a text over unread; what it says is signed by the phones themselves. It is kept ten minutes in
//! memory, a few per member, and each of the member's devices gets it once with a sync, besides the live event.

use std::collections::{BTreeSet, HashMap, VecDeque};
use std::sync::{Mutex, PoisonError};

use shared_core::ids::{DeviceId, PersonId};
use shared_core::sync::shop::Carried;
use shared_core::time::{Instant, Span};

/// The longest text that is carried, in bytes: an ask or an answer fits twice.
pub(crate) const TEXT_MAX_BYTES: usize = 512;
const KEPT: Span = Span::from_minutes(10);
/// The oldest gives way: a member who is asked this often has seen the newest.
const PER_MEMBER_MAX: usize = 32;

/// What waits for whom.
#[derive(Debug, Default)]
pub(crate) struct Mailbox(Mutex<HashMap<PersonId, VecDeque<Waiting>>>);

#[derive(Debug)]
struct Waiting {
    until: Instant,
    what: Carried,
    given_to: BTreeSet<DeviceId>,
}

impl Mailbox {
    /// Puts a code there for `to`.
    pub(crate) fn put(&self, to: &PersonId, what: Carried, now: Instant) {
        let mut boxes = self.0.lock().unwrap_or_else(PoisonError::into_inner);
        // Members are few, so walking all boxes is cheap; a box that nobody opens does not stay.
        boxes.retain(|_, waiting| {
            waiting.retain(|one| one.until > now);
            !waiting.is_empty()
        });
        let waiting = boxes.entry(to.clone()).or_default();
        if waiting.len() == PER_MEMBER_MAX {
            waiting.pop_front();
        }
        waiting.push_back(Waiting { until: now + KEPT, what, given_to: BTreeSet::new() });
    }

    /// What waits for `member` and this device has not been given yet.
    pub(crate) fn take(&self, member: &PersonId, dev: &DeviceId, now: Instant) -> Vec<Carried> {
        let mut boxes = self.0.lock().unwrap_or_else(PoisonError::into_inner);
        let waiting = boxes.get_mut(member).into_iter().flatten();
        let fresh = waiting.filter(|one| one.until > now);
        fresh.filter_map(|one| one.given_to.insert(dev.clone()).then(|| one.what.clone())).collect()
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn code(text: &str) -> Carried {
        Carried { from: "ada".into(), text: text.into() }
    }

    #[test]
    fn each_device_is_given_a_code_once_and_none_after_ten_minutes() {
        let mailbox = Mailbox::default();
        let (bo, start) = (PersonId::new("bo"), Instant::from_ms(0));
        mailbox.put(&bo, code("one"), start);
        for (who, dev, minutes, given) in [
            ("cy", "c", 0, 0),
            ("bo", "phone", 1, 1),
            ("bo", "phone", 2, 0),
            ("bo", "tablet", 9, 1),
            ("bo", "watch", 10, 0),
        ] {
            let now = start + Span::from_minutes(minutes);
            assert_eq!(mailbox.take(&who.into(), &dev.into(), now).len(), given, "{who}'s {dev} at {minutes} min");
        }
    }

    #[test]
    fn a_full_box_drops_its_oldest() {
        let mailbox = Mailbox::default();
        let bo = PersonId::new("bo");
        for n in 0..PER_MEMBER_MAX + 3 {
            mailbox.put(&bo, code(&n.to_string()), Instant::from_ms(0));
        }
        let given = mailbox.take(&bo, &"phone".into(), Instant::from_ms(1));
        assert_eq!((given.len(), given.first().map(|one| one.text.as_str())), (PER_MEMBER_MAX, Some("3")));
    }
}
