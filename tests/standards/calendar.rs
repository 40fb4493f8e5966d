//! The calendar file of a session, read back by an independent library (`icalendar`): RFC 5545.

use icalendar::parser::{read_calendar, unfold};
use proptest::prelude::*;
use shared_core::calendar::Reminder;
use shared_core::ids::SessionId;
use shared_core::time::{Instant, Span};

/// A year's instants, to the millisecond.
fn any_instant() -> impl Strategy<Value = Instant> {
    (1_790_000_000_000_i64..1_822_000_000_000).prop_map(Instant::from_ms)
}

fn form_2(at: Instant) -> String {
    let text = Instant::from_ms(at.ms().div_euclid(1_000) * 1_000).to_string();
    text.replace(['-', ':'], "")
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(256))]

    #[test]
    fn a_calendar_reads_what_was_written(
        sweep_from in any_instant(),
        before in 0_i64..60,
        after in 0_i64..200,
        sequence in 0_u32..1_000,
        title in "\\PC{1,90}",
        description in "[\\PC\\n]{0,200}",
    ) {
        let session = SessionId::from_entropy([7; 8]);
        let first_bell = sweep_from - Span::from_minutes(before);
        let out_by = sweep_from + Span::from_minutes(after);
        let reminder = Reminder {
            session: &session, sequence, made: first_bell, first_bell, sweep_from, out_by,
            title: &title, description: &description,
        };
        let file = reminder.write();
        // Section 3.1: lines of at most 75 octets.
        prop_assert!(file.split("\r\n").all(|line| line.len() <= 75));
        let unfolded = unfold(&file);
        let calendar = read_calendar(&unfolded).map_err(TestCaseError::fail)?;
        let [event] = calendar.components.as_slice() else {
            return Err(TestCaseError::fail(format!("one event, not {}", calendar.components.len())));
        };
        let read = |name: &str| event.find_prop(name).map(|property| property.val.as_str().to_owned());
        prop_assert_eq!(event.name.as_str(), "VEVENT");
        prop_assert_eq!(read("UID"), Some(format!("{session}@sweepbell")));
        prop_assert_eq!(read("SEQUENCE"), Some(sequence.to_string()));
        prop_assert_eq!(read("DTSTART"), Some(form_2(sweep_from)));
        // Section 3.8.2.2: the end is later than the start.
        prop_assert!(read("DTEND") > read("DTSTART"));
        prop_assert_eq!(read("SUMMARY"), Some(title.clone()));
        prop_assert_eq!(read("DESCRIPTION"), Some(description.clone()));
        let alarms: Vec<_> = event.components.iter().filter(|inner| inner.name.as_str() == "VALARM").collect();
        let triggers: Vec<_> =
            alarms.iter().filter_map(|alarm| alarm.find_prop("TRIGGER")).map(|it| it.val.as_str().to_owned()).collect();
        prop_assert_eq!(triggers, [form_2(first_bell), form_2(sweep_from)]);
        // Section 3.6.6: a display alarm says what it shows.
        prop_assert!(alarms.iter().all(|alarm| alarm.find_prop("ACTION").is_some_and(|it| it.val.as_str() == "DISPLAY")));
        prop_assert!(alarms.iter().all(|alarm| alarm.find_prop("DESCRIPTION").is_some()));
    }
}
