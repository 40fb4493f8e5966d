//! Files of a small log, letter by letter. That other programs read them is shown in `tests/figures`.

use shared_core::log::wire::read_line;

use super::*;
use shared_core::time::Instant;

const SHOP: &str = include_str!("../../demo/shop.toml");

const LOG: [&str; 9] = [
    r#"{"at":"2026-05-02T18:00:00Z","session":"s1","who":"noor","what":"entered","room":"forge","out_by":"2026-05-02T20:00:00Z"}"#,
    r#"{"at":"2026-05-02T18:05:00Z","session":"s1","who":"noor","what":"found","room":"forge","state":"mess","note":"=cmd|' /C calc'!A0"}"#,
    r#"{"at":"2026-05-02T18:10:00Z","session":"s1","who":"noor","what":"machine_started","machine":"gone","material":"steel, mild"}"#,
    r#"{"at":"2026-05-02T18:40:30Z","session":"s1","who":"noor","what":"machine_stopped","machine":"gone"}"#,
    r#"{"at":"2026-05-02T18:50:00Z","session":"s1","who":"noor","what":"round_done","round":"oily_bin_forge"}"#,
    r#"{"at":"2026-05-02T19:00:00Z","session":"s1","who":"noor","what":"chore_done","chore":"forge/floor","minutes":4.5}"#,
    r#"{"at":"2026-05-02T19:10:00Z","session":"s1","who":"noor","what":"left"}"#,
    r#"{"at":"2026-05-03T09:00:00Z","session":"outside","who":"bram","what":"tagged_out","machine":"gone","problem":"say \"stop\"\nthen wait"}"#,
    r#"{"at":"2026-06-01T09:00:00Z","session":"outside","who":"bram","what":"incident","note":"+31 was rung"}"#,
];

#[track_caller]
fn written(kind: Kind, stretch: Option<Stretch>) -> String {
    let (book, problems) = shared_core::rulebook::parse::read(SHOP);
    assert_eq!(problems, []);
    let entries: Vec<Entry> = LOG.iter().map(|line| read_line(line).expect(line)).collect();
    kind.write(&book.expect("the demo's rulebook"), &entries, stretch)
}

#[test]
fn tables_say_what_was_said() {
    for (table, expected) in [
        (
            Table::Uses,
            "session,who,room,machine,material,from,to,minutes\r\ns1,noor,forge,gone,\"steel, mild\",2026-05-02T18:10:00Z,2026-05-02T18:40:30Z,31\r\n",
        ),
        (Table::Chores, "session,who,chore,at,minutes\r\ns1,noor,forge/floor,2026-05-02T19:00:00Z,4.5\r\n"),
        (
            Table::Finds,
            "at,who,machine,room,state,note\r\n2026-05-02T18:05:00Z,noor,,forge,mess,'=cmd|' /C calc'!A0\r\n",
        ),
        (
            Table::Tags,
            "at,who,machine,what,problem\r\n2026-05-03T09:00:00Z,bram,gone,tagged_out,\"say \"\"stop\"\"\nthen wait\"\r\n",
        ),
        (Table::Incidents, "at,who,session,note\r\n2026-06-01T09:00:00Z,bram,outside,'+31 was rung\r\n"),
    ] {
        assert_eq!(written(Kind::Csv(table), None), expected, "{table:?}");
    }
    let sessions = written(Kind::Csv(Table::Sessions), None);
    let (first, rows) = sessions.split_once("\r\n").expect("a first line");
    assert_eq!(first.split(',').count(), rows.trim_end().split(',').count(), "{sessions}");
    assert!(rows.starts_with("s1,noor,forge,2026-05-02T18:00:00Z,2026-05-02T19:10:00Z,2026-05-02T20:00:00Z,,70,"));
}

#[test]
fn lines_are_the_entries_again() {
    let lines = written(Kind::JsonLines, None);
    assert_eq!(
        lines.lines().map(|line| read_line(line).ok()).collect::<Vec<_>>(),
        LOG.map(|line| read_line(line).ok())
    );
    let may = Stretch {
        from: Instant::parse("2026-05-02T22:00:00Z").expect("an instant"),
        to: Instant::parse("2026-05-31T22:00:00Z").expect("an instant"),
    };
    assert_eq!(written(Kind::JsonLines, Some(may)).lines().count(), 1);
    assert_eq!(written(Kind::Csv(Table::Incidents), Some(may)).lines().count(), 1, "the first line alone");
}

#[test]
fn a_calendar_names_rooms_and_nobody() {
    let file = written(Kind::Calendar, None);
    assert!(!file.contains("noor"), "{file}");
    for line in [
        "UID:s1@sweepbell",
        "DTSTART:20260502T180000Z",
        "DTEND:20260502T191000Z",
        "UID:round-oily_bin_forge@sweepbell",
        "DTSTART:20260503T185000Z",
    ] {
        assert!(file.contains(&format!("{line}\r\n")), "{line}\n{file}");
    }
    assert_eq!(file.matches("BEGIN:VEVENT").count(), 2);
}

#[test]
fn files_have_names() {
    for (name, kind) in [
        ("sessions.csv", Some(Kind::Csv(Table::Sessions))),
        ("log.jsonl", Some(Kind::JsonLines)),
        ("calendar.ics", Some(Kind::Calendar)),
        ("people.csv", None),
        ("sessions", None),
        (".csv", None),
    ] {
        assert_eq!(Kind::named(name), kind, "{name}");
    }
}
