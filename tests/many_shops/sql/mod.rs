//! Whether the hub's SQL stays inside what PostgreSQL-compatible distributed engines take, but for what is excepted, each with the
//! reason and with what would stand there.
//!
//! The list is written down (`allowed.rs`); nothing else is let through, and no row of it is there that nobody needs.

mod allowed;
mod said;
mod walk;

use std::collections::BTreeSet;

use self::allowed::{ALLOWED, EXCEPTED};
use self::said::{Said, all, read};
use self::walk::asks;

/// What a text asks that is on no list, if it is no exception.
fn outside(said: &Said) -> BTreeSet<String> {
    let known = |asked: &String| ALLOWED.iter().any(|(allowed, _)| allowed == asked);
    let is_excepted =
        |statement: &str| EXCEPTED.iter().any(|(file, begin, _)| said.file == *file && statement.starts_with(begin));
    let statements = said.statements.iter().filter(|statement| !is_excepted(&statement.to_string()));
    statements.flat_map(asks).filter(|asked| !known(asked)).collect()
}

#[test]
fn the_hub_asks_nothing_that_such_engines_do_not_have() {
    let all = all();
    let statements: usize = all.iter().map(|said| said.statements.len()).sum();
    assert!(statements > 100, "only {statements} statements were found");
    for said in &all {
        let outside = outside(said);
        assert!(outside.is_empty(), "{}: {outside:?} is on no list: {}", said.file, said.text);
    }
    let asked: BTreeSet<String> = all.iter().flat_map(|said| &said.statements).flat_map(asks).collect();
    let stale: Vec<_> = ALLOWED.iter().filter(|(allowed, _)| !asked.contains(*allowed)).collect();
    assert!(stale.is_empty(), "nobody asks for {stale:?}: take it off the list");
    for (file, begin, _) in EXCEPTED {
        let is_there =
            |said: &Said| said.file == *file && said.statements.iter().any(|one| one.to_string().starts_with(begin));
        assert!(all.iter().any(is_there), "{file} does not say `{begin}`: take it off the list");
    }
}

#[test]
fn what_such_engines_lack_is_found() {
    for (text, found) in [
        ("SELECT pos FROM entry WHERE dev = $1", ""),
        ("SELECT pos FROM entry WHERE dev = $1 FOR UPDATE", "clause FOR UPDATE or FOR SHARE"),
        ("SELECT pg_advisory_xact_lock($1)", "function pg_advisory_xact_lock"),
        ("SELECT nextval('entry_pos_seq')", "function nextval"),
        ("LISTEN sweepbell", "statement LISTEN"),
        ("NOTIFY sweepbell, 'news'", "statement NOTIFY"),
        ("CREATE TABLE t (id SERIAL PRIMARY KEY)", "type SERIAL"),
        ("CREATE TABLE t (body JSONB NOT NULL)", "type JSONB"),
        ("ALTER TABLE entry ADD COLUMN t TIMESTAMPTZ", "type TIMESTAMPTZ"),
        ("CREATE INDEX i ON entry USING gin (jws)", "clause INDEX USING"),
        ("WITH RECURSIVE t AS (SELECT 1) SELECT 1 FROM t", "clause WITH"),
        ("SELECT rank() OVER (ORDER BY pos) FROM entry", "clause OVER"),
        ("SELECT jws::bytea FROM entry", "expression Cast"),
        ("SELECT e.pos FROM entry AS e LEFT JOIN device AS d ON d.dev = e.dev", "join Left ON"),
        ("SELECT pos FROM entry WHERE jws LIKE 'a%'", "expression Like"),
        ("LOCK TABLE entry", "statement Lock"),
        ("CREATE TRIGGER t BEFORE UPDATE ON entry FOR EACH ROW EXECUTE FUNCTION f()", "statement CreateTrigger"),
    ] {
        // In a file for which nothing is excepted.
        let said = Said { file: "planted.rs".to_owned(), text: text.to_owned(), statements: read("planted.rs", text) };
        let outside = outside(&said);
        assert_eq!(outside.contains(found), !found.is_empty(), "{text}: {outside:?}");
        assert_eq!(outside.is_empty(), found.is_empty(), "{text}: {outside:?}");
    }
}
