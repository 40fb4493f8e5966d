//! What is written reads back; what is wrong is named; what is new is kept.

use expect_test::{Expect, expect};
use proptest::prelude::*;

use crate::entry::{Fact, Step, Told};
use crate::log::testing::{any_entry, one_of_each};
use crate::log::wire::{NOTE_CHARS_MAX, read_line, write};

proptest! {
    #[test]
    fn every_entry_reads_back(entry in any_entry()) {
        prop_assert_eq!(read_line(&write(&entry)), Ok(entry));
    }

    #[test]
    fn no_text_makes_it_panic(text in "\\PC{0,80}|[{}\",:a-z0-9]{0,80}") {
        let _ = read_line(&text);
    }
}

/// Field names and their order are DESIGN.md section 5, "Log lines".
#[test]
fn lines_are_written_as_the_contract_says() {
    let lines: Vec<String> = one_of_each().iter().map(write).collect();
    let common = r#","session":"0707070707070707","who":"m1","#;
    let facts: Vec<_> = lines.iter().filter_map(|line| line.split_once(common)).map(|(_, fact)| fact).collect();
    assert_eq!(facts.len(), lines.len());
    expect![[r#"
        "what":"entered","room":"fitting","out_by":"2026-04-24T06:06:40Z"}
        "what":"attested","statement":"eyes"}
        "what":"machine_started","machine":"pillar-drill","material":"mild steel"}
        "what":"machine_started","machine":"pillar-drill"}
        "what":"machine_stopped","machine":"pillar-drill"}
        "what":"buddy_confirmed","buddy":"m2","machine":"pillar-drill","proof":"SWB1:BB8"}
        "what":"buddy_confirmed","buddy":"m2"}
        "what":"buddy_left","buddy":"m2"}
        "what":"out_by_moved","out_by":"2026-04-24T06:06:40.001Z"}
        "what":"sweep_started","crew":2}
        "what":"chore_done","chore":"fitting/floor","minutes":4.5,"photo":"ppppppppppppppppppppppppppppppppppppppppppp"}
        "what":"chore_done","chore":"pillar-drill/chips"}
        "what":"watch_round"}
        "what":"found","room":"fitting","state":"clean"}
        "what":"found","machine":"pillar-drill","state":"mess","note":"chips \"everywhere\",\nand oil — 🧹"}
        "what":"tagged_out","machine":"pillar-drill","problem":"guard is loose"}
        "what":"tag_cleared","machine":"pillar-drill"}
        "what":"incident","note":"a cut finger, dressed"}
        "what":"clock_jumped","seconds":-95}
        "what":"weighed"}
        "what":"left"}
        "what":"round_done","round":"oily_bin"}
        "what":"buddy_confirmed","buddy":"m2","given":"in_room"}
        "what":"buddy_confirmed","buddy":"m2","given":"pin"}
        "what":"timer_set","rings_at":"2026-04-24T05:51:40Z"}
        "what":"clear_called","room":"fitting"}
        "what":"bell_heard"}
        "what":"sweep_undone","why":"others_sweep"}
        "what":"board_name","may":true}
        "what":"walked","stop":"bin","mark":"kkkkkkkkkkkkkkkk"}
        "what":"walked","statement":"eyes","mark":"kkkkkkkkkkkkkkkk"}
        "what":"walk_done","mark":"kkkkkkkkkkkkkkkk"}
        "what":"inducted","person":"m2","until":"2026-04-24T06:06:40Z"}
        "what":"inducted","person":"m2"}
        "what":"signed_off","person":"m2","training":"drill","until":"2026-04-24T06:06:40Z"}
        "what":"signed_off","person":"m2","training":"drill"}
        "what":"role_given","person":"m2","role":"signer"}
        "what":"tagged_out","machine":"pillar-drill","problem":"the rest is cracked","photo":"qqqqqqqqqqqqqqqqqqqqqqqqqqqqqqqqqqqqqqqqqqq"}
        "what":"incident","note":"a disc burst behind its guard","machine":"pillar-drill","kind":"near_miss","first_aid":false}
        "what":"noted","of":"tagged_out","machine":"pillar-drill","of_at":"2026-05-28T20:26:40Z","of_who":"m2","step":"waits","until":"2026-04-24T06:06:40Z","note":"a rest, from the maker"}
        "what":"noted","of":"tagged_out","machine":"pillar-drill","of_at":"2026-05-28T20:26:40Z","of_who":"m2","step":"waits"}
        "what":"noted","of":"tagged_out","machine":"pillar-drill","of_at":"2026-05-28T20:26:40Z","of_who":"m2","step":"mended","note":"new rest, lined up"}
        "what":"noted","of":"tagged_out","machine":"pillar-drill","of_at":"2026-05-28T20:26:40Z","of_who":"m2","step":"checked"}
        "what":"noted","of":"found","of_at":"2026-05-28T20:26:40Z","of_who":"m2","step":"asked"}
        "what":"noted","of":"found","of_at":"2026-05-28T20:26:40Z","of_who":"m2","step":"remarked","note":"nobody had been told of the pan"}
        "what":"noted","of":"incident","of_at":"2026-05-28T20:26:40Z","of_who":"m2","step":"changed","note":"discs are dated now"}
        "what":"noted","of":"entered","of_at":"2026-05-28T20:26:40Z","of_who":"m2","step":"seen_to"}
        "what":"rules_published","number":4,"rules":"bbbbbbbbbbbbbbbb","note":"a longer watch"}
        "what":"rules_published","number":4,"rules":"bbbbbbbbbbbbbbbb"}"#]]
    .assert_eq(&facts.join("\n"));
}

#[test]
fn what_a_newer_app_adds_is_no_error() {
    let line = |rest: &str| format!(r#"{{"at":"2026-05-04T09:07:42+02:00","session":"s","who":"p",{rest}}}"#);
    let entry =
        read_line(&line(r#""what":"left","mood":{"good":[1,2]},"seq":9"#)).expect("unknown fields are passed over");
    assert_eq!((entry.fact, entry.at.to_string().as_str()), (Fact::Left, "2026-05-04T07:07:42Z"));
    let entry = read_line(&line(r#""what":"weighed","kilos":4"#)).expect("an unknown kind is kept");
    assert_eq!(entry.fact, Fact::Unrecognised { what: "weighed".to_owned() });
    let entry =
        read_line(&line(r#""what":"machine_started","machine":"saw","material":null"#)).expect("null is absent");
    assert_eq!(entry.fact, Fact::MachineStarted { machine: "saw".into(), material: None });
    let of = r#""of_at":"2026-05-04T09:07:42Z","of_who":"p""#;
    let noted = |of_what: &str, step: &str| {
        let rest = format!(r#""what":"noted","of":"{of_what}",{of},"step":"{step}""#);
        read_line(&line(&rest)).expect("kept")
    };
    let entry = noted("a dream", "mended");
    assert_eq!(entry.fact, Fact::Unrecognised { what: "noted".to_owned() });
    let entry = noted("found", "framed");
    assert!(matches!(entry.fact, Fact::Noted { step: Step::Remarked, .. }), "a step of a newer app is a remark");
    let entry = read_line(&line(r#""what":"incident","note":"x","kind":"quake""#)).expect("kept");
    assert_eq!(entry.fact, Fact::Incident { note: "x".to_owned(), told: Told::default() });
}

#[test]
fn what_is_wrong_is_named() {
    let check = |rest: &str, wanted: Expect| {
        let line = format!(r#"{{"at":"2026-05-04T09:07:42Z","session":"s","who":"p",{rest}}}"#);
        wanted.assert_eq(&read_line(&line).expect_err(rest).to_string());
    };
    check(r#""what":"entered","out_by":"2026-05-04T11:00:00Z""#, expect!["`room` is missing"]);
    check(r#""what":"entered","room":"","out_by":"x""#, expect!["`room` should be text that is not empty"]);
    check(r#""what":"entered","room":"a","out_by":"11:00""#, expect!["`out_by` should be an RFC 3339 date and time"]);
    check(r#""what":"entered","room":7,"out_by":"11:00""#, expect!["`room` should be text of at most 256 bytes"]);
    check(r#""what":"sweep_started","crew":0"#, expect!["`crew` should be a whole number from 1"]);
    check(r#""what":"sweep_started","crew":1.5"#, expect!["`crew` should be a whole number from 1"]);
    check(r#""what":"sweep_started","crew":4294967296"#, expect!["`crew` should be a whole number of people, from 1"]);
    check(
        r#""what":"chore_done","chore":"a/b","minutes":-1"#,
        expect!["`minutes` should be minutes, from 0 to a day's"],
    );
    check(
        r#""what":"chore_done","chore":"a/b","minutes":1441"#,
        expect!["`minutes` should be minutes, from 0 to a day's"],
    );
    check(r#""what":"found","state":"clean""#, expect!["`machine or room` is missing"]);
    check(
        r#""what":"found","machine":"a","room":"b","state":"clean""#,
        expect!["`machine or room` should be one of the two"],
    );
    check(r#""what":"found","room":"b","state":"dirty""#, expect!["`state` should be `clean` or `mess`"]);
    check(r#""what":"clock_jumped","seconds":"4""#, expect!["`seconds` should be a whole number of seconds"]);
    let of = r#""what":"noted","of_at":"2026-05-04T09:07:42Z","of_who":"p","step":"mended""#;
    check(of, expect!["`of` is missing"]);
    check(&format!(r#"{of},"of":"tagged_out""#), expect!["`machine` is missing"]);
    check(r#""what":"incident","note":"a","first_aid":"no""#, expect!["`first_aid` should be true or false"]);
    check(r#""what":"round_done""#, expect!["`round` is missing"]);
    check(r#""room":"a""#, expect!["`what` is missing"]);
    check(r#""what":"left","what":"left""#, expect!["not a JSON object: a key stands in it twice at line 1 column 73"]);
}

#[test]
fn length_is_bounded() {
    let line = |note: &str| {
        format!(r#"{{"at":"2026-05-04T09:07:42Z","session":"s","who":"p","what":"incident","note":"{note}"}}"#)
    };
    assert!(read_line(&line(&"é".repeat(NOTE_CHARS_MAX))).is_ok());
    assert!(read_line(&line(&"e".repeat(NOTE_CHARS_MAX + 1))).is_err());
    assert!(read_line(&line(&"🧹".repeat(NOTE_CHARS_MAX))).is_ok(), "2,000 four-byte characters fit the body");
    let deep = format!("{}{}", "[".repeat(4_000), "]".repeat(4_000));
    for bad in [line(&"e".repeat(9_000)), deep, "[]".to_owned(), "{".to_owned(), String::new(), "null".to_owned()] {
        assert!(read_line(&bad).is_err());
    }
}
