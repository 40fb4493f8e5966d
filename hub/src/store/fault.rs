//! What can go wrong with a database, in the kinds that people can do something about.
//!
//! Each engine sorts its own codes into these, in its own file; what phones are told is in [`crate::problem`].

use thiserror::Error;

/// The database could not do what was asked. Nothing was done.
#[derive(Debug, Error)]
pub(crate) enum StoreError {
    /// Another program holds it, for longer than it was waited for.
    #[error("another program holds the database: {0}")]
    Busy(sqlx::Error),
    /// There is no room.
    #[error("the disk of the database is full: {0}")]
    Full(sqlx::Error),
    /// It may not be written, or the disk fails.
    #[error("the database cannot be written: {0}")]
    Unwritable(sqlx::Error),
    /// It does not answer.
    #[error("the database cannot be reached: {0}")]
    Away(sqlx::Error),
    /// Anything else that the database or its driver says.
    #[error("the database failed: {0}")]
    Database(sqlx::Error),
    /// It was made by another release.
    #[error("the database is of another release: {0}")]
    Migration(#[from] sqlx::migrate::MigrateError),
    /// A number does not fit.
    #[error("the database holds a number that cannot be: {0}")]
    Number(#[from] std::num::TryFromIntError),
    /// Something else stands where something was wanted.
    #[error("the database holds {found} where {wanted} belongs")]
    Value {
        /// What was wanted.
        wanted: &'static str,
        /// What was there.
        found: String,
    },
    /// It cannot hold a log at all.
    #[error("{0}")]
    Unfit(String),
}
