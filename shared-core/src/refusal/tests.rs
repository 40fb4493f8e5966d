//! Every refusal says why, what next, the rule, what went in, and the source: one row a variant, none missing.

use super::Refusal;
use crate::ordered::Set;
use crate::plan::Impossible;
use crate::time::Instant;
use crate::words::Words;

/// The names of all variants, as the source lists them.
fn variants() -> Set<&'static str> {
    let source = include_str!("../refusal.rs").split("pub enum Refusal {").nth(1).expect("the enum");
    let lines = source.lines().take_while(|line| *line != "}");
    let names = lines.filter_map(|line| line.strip_prefix("    ")).filter(|line| line.starts_with(char::is_uppercase));
    names.map(|line| line.trim_end_matches([',', ' ', '{'])).collect()
}

/// Instants are written so that they can be told from words and from each other.
fn clock(at: Instant) -> String {
    format!("t{}", at.ms())
}

/// A refusal, what went in ("" for none), a part of its source.
fn rows() -> Vec<(Refusal, &'static str, &'static str)> {
    use Refusal as R;
    let (text, on) = (|| "The saw".to_owned(), Instant::from_ms(7));
    vec![
        (R::NotAMember, "", "members list"),
        (R::NotInducted, "", "common practice, no source"),
        (R::CardExpired { on }, "Until t7.", "Sweepbell's own"),
        (R::InductionExpired { on }, "Until t7.", "members list"),
        (R::NoSuchRoom { room: "bay".into() }, "", "rulebook"),
        (R::AlreadyIn { room: text() }, "", "Sweepbell's own"),
        (R::NotAttested { statement: "eyes".into(), text: text() }, "", "rulebook, statement"),
        (R::AttestationLapsed { on }, "Until t7.", "session_hours_max"),
        (R::OutByOutOfRange { earliest: on, latest: Instant::from_ms(9) }, "t7 to t9.", "session_hours_max"),
        (R::NoSession, "", "Sweepbell's own"),
        (R::HasLeft, "", "Sweepbell's own"),
        (R::Sweeping, "", "Sweepbell's own"),
        (R::NoSuchMachine { machine: "saw".into() }, "", "rulebook"),
        (R::MachineElsewhere { machine: text(), room: text() }, "", "machine.room"),
        (R::TaggedOut { machine: text(), problem: text(), since: on }, "Since t7.", "29 CFR 1910.145(f)"),
        (R::NotSignedOff { machine: text(), training: text() }, "", "machine.training"),
        (R::SignOffExpired { training: text(), on }, "Until t7.", "machine.training"),
        (
            R::SignOffStale { training: text(), within_days: 90, last: Some(on) },
            "Last t7; 90 days at most.",
            "training.use_within_days",
        ),
        (
            R::SignOffStale { training: text(), within_days: 90, last: None },
            "No use of it is known; 90 days at most.",
            "training.use_within_days",
        ),
        (R::MaterialRefused { machine: text(), material: text() }, "", "machine.refuses"),
        (R::NoBuddy { machine: text(), renew_minutes: 15 }, "A word holds 15 min.", "29 CFR 1915.84"),
        (
            R::PastLastSpark { last_spark: on, watch_minutes: 30 },
            "Last spark t7, watch 30 min.",
            "29 CFR 1910.252(a)(2)(iii)(B)",
        ),
        (R::AlreadyRunning { machine: text() }, "", "Sweepbell's own"),
        (R::NotRunning { machine: text() }, "", "Sweepbell's own"),
        (R::OwnBuddy, "", "common practice, no source"),
        (R::BuddyElsewhere { buddy: text(), room: text() }, "", "common practice, no source"),
        (R::BuddyFull { buddy: text(), covers: 2 }, "2 at most.", "buddy.covers"),
        (R::BuddyOperates { buddy: text() }, "", "buddy_may_operate"),
        (R::NotABuddy { buddy: "ilse".into() }, "", "Sweepbell's own"),
        (R::NoSuchChore { chore: "saw/brush".into() }, "", "rulebook"),
        (R::ChoreDone { chore: "saw/brush".into() }, "", "Sweepbell's own"),
        (R::ChoreWaits { first: text() }, "", "chore.after"),
        (R::NoSuchRound { round: "bin".into() }, "", "rulebook"),
        (R::NoWatch, "", "fire_watch"),
        (R::NoWords, "", "Sweepbell's own"),
        (R::TooLong { most: 500 }, "500 characters at most.", "Sweepbell's own"),
        (R::NotTagged { machine: text() }, "", "Sweepbell's own"),
        (R::NotMended { machine: text() }, "", "29 CFR 1910.145(f)"),
        (R::SecondPerson { machine: text() }, "", "29 CFR 1910.147(e)"),
        (R::StewardsAct, "", "members list"),
        (R::NotASigner { training: text() }, "", "training.signers"),
        (R::OwnSignOff, "", "Sweepbell's own"),
        (R::LastSteward, "", "Sweepbell's own"),
        (R::NoSuchMember { person: "ilse".into() }, "", "members list"),
        (R::NoSuchTraining { training: text() }, "", "rulebook"),
        (R::NoSuchStop, "", "rulebook"),
        (R::OtherAnswer { because: text() }, "", "stop.right"),
        (R::NoCrew, "", "rulebook, chore"),
        (R::CannotPlan { why: Impossible::NoCrew }, "", "rulebook, chore"),
    ]
}

#[test]
fn every_refusal_gives_its_reasons() {
    let rows = rows();
    let told: Vec<String> = rows.iter().map(|(refusal, ..)| format!("{refusal:?}")).collect();
    let told: Set<&str> = told.iter().filter_map(|text| text.split([' ', '(']).next()).collect();
    assert_eq!(told, variants());
    let words = Words::english();
    for (refusal, number, source) in &rows {
        let why = refusal.why(&words, &clock);
        let lines: Vec<&str> = why.lines().collect();
        let numbers = &lines[1..lines.len() - 1];
        assert_eq!(numbers.join(" "), *number, "{refusal:?}");
        let last = lines.last().expect("a source");
        assert!(last.starts_with("Source: ") && last.contains(source), "{refusal:?}: {last}");
        assert!(!why.contains(['<', '&']) && !why.contains("The saw"), "{refusal:?} holds more than rules: {why}");
        let (reason, next) = (refusal.reason(&words), refusal.next_step(&words));
        for said in lines.iter().chain(&[reason.as_str(), next.as_str()]) {
            assert!(said.len() > 5 && said.len() < 200, "{refusal:?} says too little or too much: {said}");
        }
        assert_ne!(lines[0], reason, "{refusal:?} repeats its reason");
    }
}
