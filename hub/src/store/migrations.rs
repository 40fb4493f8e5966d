//! The databases' history, append-only: a step that was released is never edited, because files and servers in the
//! field have run it. The test below fails when a step's text changes; add a new step instead, to both lists.

use sqlx::SqlSafeStr as _;
use sqlx::migrate::{Migration, MigrationType, Migrator};

/// Version, name and text of a step.
type Step = (i64, &'static str, &'static str);

const SQLITE: &[Step] = &[
    (1, "log", include_str!("../../migrations/sqlite/0001_log.sql")),
    (2, "rounds", include_str!("../../migrations/sqlite/0002_rounds.sql")),
    (3, "shared", include_str!("../../migrations/sqlite/0003_shared.sql")),
    (4, "cards", include_str!("../../migrations/sqlite/0004_cards.sql")),
    (5, "lives", include_str!("../../migrations/sqlite/0005_lives.sql")),
    (6, "in_room", include_str!("../../migrations/sqlite/0006_in_room.sql")),
    (7, "erasing", include_str!("../../migrations/sqlite/0007_erasing.sql")),
    (8, "push", include_str!("../../migrations/sqlite/0008_push.sql")),
    (9, "unproved", include_str!("../../migrations/sqlite/0009_unproved.sql")),
    (10, "standing", include_str!("../../migrations/sqlite/0010_standing.sql")),
    (11, "rulebook", include_str!("../../migrations/sqlite/0011_rulebook.sql")),
    (12, "picture", include_str!("../../migrations/sqlite/0012_picture.sql")),
    (13, "received", include_str!("../../migrations/sqlite/0013_received.sql")),
    (14, "erased", include_str!("../../migrations/sqlite/0014_erased.sql")),
];

const POSTGRES: &[Step] = &[
    (1, "log", include_str!("../../migrations/postgres/0001_log.sql")),
    (2, "cards", include_str!("../../migrations/postgres/0002_cards.sql")),
    (3, "lives", include_str!("../../migrations/postgres/0003_lives.sql")),
    (4, "in_room", include_str!("../../migrations/postgres/0004_in_room.sql")),
    (5, "erasing", include_str!("../../migrations/postgres/0005_erasing.sql")),
    (6, "push", include_str!("../../migrations/postgres/0006_push.sql")),
    (7, "unproved", include_str!("../../migrations/postgres/0007_unproved.sql")),
    (8, "standing", include_str!("../../migrations/postgres/0008_standing.sql")),
    (9, "rulebook", include_str!("../../migrations/postgres/0009_rulebook.sql")),
    (10, "picture", include_str!("../../migrations/postgres/0010_picture.sql")),
    (11, "received", include_str!("../../migrations/postgres/0011_received.sql")),
    (12, "erased", include_str!("../../migrations/postgres/0012_erased.sql")),
];

/// Runs what a SQLite file has not run yet, and refuses a file that ran something else.
pub(super) fn sqlite() -> Migrator {
    migrator(SQLITE)
}

/// The same for a PostgreSQL schema.
pub(super) fn postgres() -> Migrator {
    migrator(POSTGRES)
}

fn migrator(steps: &'static [Step]) -> Migrator {
    let steps = steps.iter().map(|&(version, name, text)| {
        Migration::new(version, name.into(), MigrationType::Simple, text.into_sql_str(), false)
    });
    Migrator::with_migrations(steps.collect())
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::secret;

    /// SHA-256 (base64url) of each released step.
    const SQLITE_SUMS: &[&str] = &[
        "GyQBwmnXqdoZIRZVylrb2LSg-XFs9XjrlmG3xREgAO8",
        "ToPBRpUFuD6wZMrlT9MMuP2lmofDP98y5Efr6bwlk9k",
        "gRYZk4QjU8q2F03Gwh9Z4Zen8aMdtF_AffnEJzmZGCg",
        "f6YPXrlu4enhypP-A4vpjgUIZ62AVQvQQuqiZ4IGR1s",
        "ra0ckTm3q1zvJd_U0ZLjPoZMphcr9hERh9KVEoStdVo",
        "ipMxyi0z8vtRXXkvJ0suT5i9_gL9lmrCFKH7nGxy5WU",
        "XCPaWYPHddkcqMw0UWqX11P-0k-_otBbVPCPcMn11Hk",
        "_ZwtUBfvnFLBh8N2s3qcavACBSRXPTYgmTawejAZpDM",
        "uF_8On6yO2uK-ruIBxgGyqzdjmfvZvqaH9zTGqqQ46E",
        "qrFnSNf9u5vaf8UPu1CsiBGLucdd3Ar2M0dxK_YSsFA",
        "JXg_UZ6ACXb9VhjSm1BBZfOGXTxbk9PeLl1emP66VF8",
        "EfpkL13W0IagByL2MsXKonzUWAnYlBta-KHJIsDdGLY",
        "yawYdVtQDcofG6-s4lkT_4cYg41Srbn1CDY9bGEfDUk",
        "O9LnlTsQcu_n_pZisfNBtcuseQKANkFbFUhiTxwcpKM",
    ];
    const POSTGRES_SUMS: &[&str] = &[
        "RAaaOjJa9mWrwwvAOG36VA0-pElR-kq4W1saNwwRaRw",
        "4Ot8WOyaByM1dC3imSQGr0W-XHqg5gVK9vbIt9cr6_8",
        "BgcwuqxNctaZOp8uJIjNNFJ1qs_cVpF50LmlqPQjLx0",
        "aIsitB5p1LOkoT95I3R_WfON8etIE0VQtkchLxy3yA4",
        "uVVEDFoTUnu_SwzgpfBLRk-sfxBQ1-iv8Tp6Sq2aXZo",
        "bOgcxXx_txrqr5ZVZ2Bp0ONcWfftdtM4gCp6LpHIXO4",
        "TCIlkLOU0G1GBibB-1YVwlnp7vQGmFzefrIvWxoWN1M",
        "rJyPcyMRICnPJdGUgTGZfWTVAWbdbNBzrORLKw_5UDs",
        "2aIXg3IUvJ1GkPDPwN44AiohE5XXnw6go-i7v7DVsvM",
        "jJ-YcUUFprIqlfdk30RP5lYdqC7gs3NAPHXUckCS5nk",
        "yawYdVtQDcofG6-s4lkT_4cYg41Srbn1CDY9bGEfDUk",
        "O9LnlTsQcu_n_pZisfNBtcuseQKANkFbFUhiTxwcpKM",
    ];

    #[test]
    fn released_steps_are_never_edited() {
        for (steps, sums) in [(SQLITE, SQLITE_SUMS), (POSTGRES, POSTGRES_SUMS)] {
            let now: Vec<_> = steps.iter().map(|(_, _, text)| secret::base64url(secret::digest(text))).collect();
            assert_eq!(now, sums, "a step was edited (add a new one instead), or a new one has no checksum here yet");
            assert!(
                steps.iter().zip(1..).all(|((version, _, _), number)| *version == number),
                "versions count up from 1"
            );
        }
    }
}
