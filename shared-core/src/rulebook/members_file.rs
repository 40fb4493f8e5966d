//! The members file: who is inducted and signed off on what.
//!
//! Read as thoroughly as a rulebook: every problem at its line, unknown keys refused, and a training that no machine
//! asks for is refused too, because a misspelt sign-off would stop somebody at a machine they were trained on.
//! A date means through the end of that day, in UTC. Nothing here decides who may do what.

use chrono::{NaiveDate, NaiveTime};
use toml::de::DeValue;

use super::fields::Fields;
use super::keys;
use super::problem::Problem;
use super::reading::Reading;
use super::suggest::nearest;
use crate::members::{DAY_MS, Member, Members};
use crate::ordered::{Map, Set};
use crate::standing::Key;
use crate::time::{Instant, Span};

/// The longest member id in bytes: it must fit, with a signature, in a small code.
const ID_BYTES_MAX: usize = 24;

/// Reads a members file: `Some` exactly when there is no problem. `trainings` are those that the rulebook's machines
/// ask for.
pub fn read_members(toml: &str, trainings: &Set<&str>) -> (Option<Members>, Vec<Problem>) {
    let (reading, table) = Reading::begin(toml);
    let file = Fields::of_file(&reading, &table, &keys::MEMBERS_FILE, &[&keys::MEMBER]);
    let members: Vec<Member> =
        file.each("member", &keys::MEMBER, &[]).iter().map(|fields| member(fields, trainings)).collect();
    let mut seen = Set::new();
    for (n, member) in members.iter().enumerate() {
        if !member.id.as_str().is_empty() && !seen.insert(&member.id) {
            let what = format!("`{}` is the id of another member", member.id);
            reading.problem_at(&format!("member.{n}.id"), what, None);
        }
    }
    let usable = reading.is_clean().then(|| Members::new(members));
    (usable, reading.into_problems())
}

fn member(member: &Fields<'_, '_, '_>, trainings: &Set<&str>) -> Member {
    let id = member.id();
    if id.len() > ID_BYTES_MAX {
        member.problem("id", format!("`{id}` is longer than {ID_BYTES_MAX} characters"), None);
    }
    Member {
        id: id.as_str().into(),
        name: member.text("name"),
        inducted_until: member.get("inducted_until").and_then(|value| date(member, "inducted_until", value.get_ref())),
        signed_off: signed_off(member, trainings),
        steward: member.flag("steward", false),
        signer: member.flag("signer", false),
        said: said(member, trainings),
        used: Map::new(),
        card_until: None,
    }
}

fn signed_off(member: &Fields<'_, '_, '_>, trainings: &Set<&str>) -> Map<String, Instant> {
    let Some(value) = member.get("signed_off") else { return Map::new() };
    let Some(table) = value.get_ref().as_table() else {
        let hint = "write `{ lathe = 2027-06-01 }`".to_owned();
        member.wrong_type("signed_off", "a table of dates", value.get_ref(), Some(hint));
        return Map::new();
    };
    let mut signed_off = Map::new();
    for (training, until) in table {
        let word: &str = training.get_ref();
        let path = member.remember("signed_off", word, &training.span());
        if !trainings.contains(word) {
            let hint = nearest(word, trainings.iter().copied()).map(|near| format!("did you mean `{near}`?"));
            member.problem(&path, format!("no machine asks for the training `{word}`"), hint);
        }
        if let Some(until) = date(member, &path, until.get_ref()) {
            signed_off.insert(word.to_owned(), until);
        }
    }
    signed_off
}

/// As of when the file says all of that, for whatever a word of the log may say too; nothing if it does not tell.
fn said(member: &Fields<'_, '_, '_>, trainings: &Set<&str>) -> Map<String, Instant> {
    let day = member.get("as_of").and_then(|value| date(member, "as_of", value.get_ref()));
    // What is said on that day already is later than the file.
    let as_of = day.map(|last| last - Span::from_ms(DAY_MS - 1));
    let keys = trainings.iter().map(|training| Key::Training((*training).to_owned()));
    let each = |as_of| keys.chain([Key::Induction, Key::Role]).map(move |key| (key.name(), as_of)).collect();
    as_of.map(each).unwrap_or_default()
}

/// The last moment of the day that is written, in UTC.
fn date(member: &Fields<'_, '_, '_>, key: &str, value: &DeValue<'_>) -> Option<Instant> {
    let written = value.as_datetime().filter(|written| written.time.is_none()).and_then(|written| written.date);
    let day = written.and_then(|day| NaiveDate::from_ymd_opt(day.year.into(), day.month.into(), day.day.into()));
    let last = day.map(|day| Instant::from_ms(day.and_time(NaiveTime::MIN).and_utc().timestamp_millis() + DAY_MS - 1));
    if last.is_none() {
        member.wrong_type(key, "a date", value, Some("write it as 2027-06-01, without quotes or a time".to_owned()));
    }
    last
}

#[cfg(test)]
mod tests {
    use expect_test::{Expect, expect};
    use proptest::prelude::*;

    use super::*;

    fn trainings() -> Set<&'static str> {
        Set::from(["lathe", "mill", "welding"])
    }

    #[expect(clippy::needless_pass_by_value, reason = "an expectation is written in place")]
    fn check(toml: &str, expected: Expect) {
        let (members, problems) = read_members(toml, &trainings());
        assert_eq!(members.is_none(), !problems.is_empty(), "either members or a problem");
        let told: Vec<String> = problems.iter().map(ToString::to_string).collect();
        expected.assert_eq(&told.join("\n"));
    }

    #[test]
    fn a_date_is_good_through_its_day() {
        let toml = "[[member]]\nid = \"noor\"\nname = \"Noor\"\ninducted_until = 2027-02-28\nsteward = true\n\
                    signed_off = { lathe = 2026-12-31 }\n[[member]]\nid = \"sam\"\nname = \"Sam\"\n";
        let (members, problems) = read_members(toml, &trainings());
        assert_eq!(problems, []);
        let members = members.expect("no problem");
        let noor = members.get(&"noor".into()).expect("in the file");
        assert!(noor.steward);
        assert_eq!(noor.inducted_until, Instant::parse("2027-02-28T23:59:59.999Z"));
        assert_eq!(noor.signed_off.get("lathe").copied(), Instant::parse("2026-12-31T23:59:59.999Z"));
        let sam = members.get(&"sam".into()).expect("in the file");
        assert_eq!((sam.inducted_until, sam.steward, sam.signed_off.len()), (None, false, 0));
        assert_eq!(read_members("", &trainings()).0, Some(Members::default()));
    }

    #[test]
    fn every_problem_is_told() {
        check(
            r#"[[member]]
id = "noor"
inducted_untill = 2027-01-01
signed_off = { lath = 2027-01-01, mill = "2027-01-01" }
[[member]]
id = "noor"
name = "Noor"
inducted_until = 2027-01-01T12:00:00Z
steward = "yes"
[[member]]
id = "a-name-that-is-far-too-long"
name = ""
[member.signed_off]
welding = 2027
kiln = 2027-01-01
[[members]]
id = "sam"
"#,
            expect![[r#"
                1:1: `name` is missing from [[member]] `noor`
                3:1: `inducted_untill` is not a key of [[member]] (did you mean `inducted_until`?)
                4:16: no machine asks for the training `lath` (did you mean `lathe`?)
                4:35: `signed_off.mill` of [[member]] `noor` must be a date, not text (write it as 2027-06-01, without quotes or a time)
                6:6: `noor` is the id of another member
                8:18: `inducted_until` of [[member]] `noor` must be a date, not a date with a time (write it as 2027-06-01, without quotes or a time)
                9:11: `steward` of [[member]] `noor` must be true or false, not text (without quotes)
                11:6: `a-name-that-is-far-too-long` is longer than 24 characters
                12:8: `name` of [[member]] `a-name-that-is-far-too-long` is empty
                14:1: `signed_off.welding` of [[member]] `a-name-that-is-far-too-long` must be a date, not a whole number (write it as 2027-06-01, without quotes or a time)
                15:1: no machine asks for the training `kiln`
                16:3: `members` is not a key of a members file (did you mean `member`?)"#]],
        );
        check(
            "[[member]]\nid = \"noor\"\nname = \"Noor\"\ninducted_until = 2027-02-30\n",
            expect!["4:18: invalid date, expected day between 01 and 28"],
        );
    }

    proptest! {
        #[test]
        fn any_text_is_members_or_has_problems(toml in "(\\[\\[member\\]\\]\n|id = |signed_off|[\\[\\]{}\"'=,a-z0-9_.\n# -]){0,80}") {
            let (members, problems) = read_members(&toml, &trainings());
            prop_assert_eq!(members.is_none(), !problems.is_empty());
        }
    }
}
