//! The database's history, append-only: a step that was released is never edited, because files in the field have
//! run it. The test below fails when a step's text changes; add a new step instead.

use sqlx::SqlSafeStr as _;
use sqlx::migrate::{Migration, MigrationType, Migrator};

/// Version, name and text of each step.
const STEPS: &[(i64, &str, &str)] = &[
    (1, "log", include_str!("../../migrations/0001_log.sql")),
    (2, "rounds", include_str!("../../migrations/0002_rounds.sql")),
];

/// Runs what a file has not run yet, and refuses a file that ran something else.
pub(super) fn migrator() -> Migrator {
    let steps = STEPS.iter().map(|&(version, name, text)| {
        Migration::new(version, name.into(), MigrationType::Simple, text.into_sql_str(), false)
    });
    Migrator::with_migrations(steps.collect())
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::secret;

    /// SHA-256 (base64url) of each released step.
    const CHECKSUMS: &[&str] =
        &["GyQBwmnXqdoZIRZVylrb2LSg-XFs9XjrlmG3xREgAO8", "ToPBRpUFuD6wZMrlT9MMuP2lmofDP98y5Efr6bwlk9k"];

    #[test]
    fn released_steps_are_never_edited() {
        let now: Vec<_> = STEPS.iter().map(|(_, _, text)| secret::base64url(secret::digest(text))).collect();
        assert_eq!(now, CHECKSUMS, "a step was edited (add a new one instead), or a new one has no checksum here yet");
        assert!(STEPS.iter().zip(1..).all(|((version, _, _), number)| *version == number), "versions count up from 1");
    }
}
