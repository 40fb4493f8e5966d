//! Lines as codes: what goes in comes out, and nothing else passes for one.

use proptest::prelude::*;

use crate::code::line::{LINE_BYTES_MAX, read, write};
use crate::code::{PREFIX, Scanned, Unreadable, base45};
use crate::entry::Fact;
use crate::ids::SessionId;
use crate::log::testing::{Writer, one_of_each, said};
use crate::time::Instant;

fn outside(fact: Fact) -> crate::entry::Entry {
    crate::entry::Entry { session: SessionId::outside(), ..said("m1", 3, fact) }
}

fn longest() -> Fact {
    let until = Some(Instant::from_ms(1_900_000_000_123));
    Fact::SignedOff { person: "p".repeat(24).as_str().into(), training: "t".repeat(40), until }
}

#[test]
fn the_line_itself_comes_out() {
    let mut writer = Writer::new(1);
    let until = Some(Instant::from_ms(1_900_000_000_123));
    for fact in [
        Fact::WalkDone { mark: "k".repeat(16) },
        Fact::Inducted { person: "bo".into(), until },
        Fact::Inducted { person: "bo".into(), until: None },
        Fact::SignedOff { person: "bo".into(), training: "lathe".into(), until },
        Fact::SignedOff { person: "\u{5e9}\u{5dc}".into(), training: "lathe".into(), until: None },
        longest(),
    ] {
        let signed = writer.write(&outside(fact));
        let text = write(&signed).expect("such a line").expect("it fits");
        assert_eq!(read(&text), Some(signed));
        // The first part of the app, which knows no such code, says that a newer app made it.
        assert_eq!(crate::code::read(&text, "https://yard"), Err::<Scanned, _>(Unreadable::Newer));
    }
}

#[test]
fn sizes() {
    let mut writer = Writer::new(1);
    writer.write(&outside(Fact::WalkDone { mark: "k".repeat(16) }));
    let text = write(&writer.write(&outside(longest()))).expect("such a line").expect("it fits");
    assert!(text.len() <= PREFIX.len() + LINE_BYTES_MAX.div_ceil(2) * 3, "{} characters", text.len());
    let long = Fact::SignedOff { person: "bo".into(), training: "t".repeat(200), until: None };
    assert!(write(&writer.write(&outside(long))).expect("such a line").is_err());
}

#[test]
fn other_lines_are_no_codes() {
    let mut writer = Writer::new(1);
    for entry in one_of_each() {
        assert!(write(&writer.write(&entry)).is_none(), "{entry:?}");
    }
}

proptest! {
    #[test]
    fn a_changed_byte_is_noticed(place in 0..150_usize, change in 1..=255_u8) {
        let signed = Writer::new(1).write(&outside(Fact::Inducted { person: "bo".into(), until: None }));
        let text = write(&signed).expect("such a line").expect("it fits");
        let mut bytes = base45::decode(text.strip_prefix(PREFIX).expect("ours")).expect("base45");
        let place = place % bytes.len();
        bytes[place] ^= change;
        let mut changed = PREFIX.to_owned();
        base45::encode_onto(&mut changed, &bytes);
        prop_assert_eq!(read(&changed), None);
    }
}
