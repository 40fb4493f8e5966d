//! Where a store is: a SQLite file, or a PostgreSQL server's database.
//!
//! The demo's log never meets a shop's: it has a file, or a schema, of its own name.

use std::path::{Path, PathBuf};

/// Where a store is.
#[derive(Clone, PartialEq, Eq)]
pub(crate) enum Place {
    /// A SQLite file.
    File(PathBuf),
    /// A server, by its URL, which may hold a password.
    Server {
        /// The URL.
        url: String,
        /// The schema in it.
        schema: &'static str,
    },
}

impl Place {
    /// The store of a hub that keeps its data in `folder`, unless it was given a database.
    pub(crate) fn of_hub(folder: &Path, database: Option<&str>, demo: bool) -> Self {
        match database {
            Some(url) => Self::server(url, demo),
            None => Self::File(folder.join(if demo { "demo.sqlite" } else { "hub.sqlite" })),
        }
    }

    /// What a person wrote: a URL, a file, or a folder with a hub's data.
    pub(crate) fn read(written: &str, demo: bool) -> Self {
        match Path::new(written) {
            _ if is_url(written) => Self::server(written, demo),
            folder if folder.is_dir() => Self::of_hub(folder, None, demo),
            file => Self::File(file.into()),
        }
    }

    fn server(url: &str, demo: bool) -> Self {
        Self::Server { url: url.into(), schema: if demo { "sweepbell_demo" } else { "sweepbell" } }
    }

    /// Whether there is anything yet, as far as one can tell without asking a server.
    pub(crate) fn may_exist(&self) -> bool {
        match self {
            Self::File(file) => file.is_file(),
            Self::Server { .. } => true,
        }
    }
}

/// Whether this is a PostgreSQL server's address and no file.
pub(crate) fn is_url(written: &str) -> bool {
    written.starts_with("postgres://") || written.starts_with("postgresql://")
}

/// Without the password: this is what may be shown and logged.
impl std::fmt::Display for Place {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        match self {
            Self::File(file) => write!(f, "{}", file.display()),
            Self::Server { url, schema } => {
                let (scheme, rest) = url.split_once("://").unwrap_or(("postgres", url));
                let rest = rest.split(['?', '#']).next().unwrap_or_default();
                let host = rest.rsplit_once('@').map_or(rest, |(_, host)| host);
                write!(f, "{scheme}://{host} ({schema})")
            }
        }
    }
}

impl std::fmt::Debug for Place {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        write!(f, "{self}")
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_password_is_never_shown() {
        for (written, shown) in [
            ("postgres://ada:se@cret@db.example:5432/shop", "postgres://db.example:5432/shop (sweepbell)"),
            ("postgresql://db.example/shop?password=secret", "postgresql://db.example/shop (sweepbell)"),
            ("data/other.sqlite", "data/other.sqlite"),
        ] {
            let place = Place::read(written, false);
            assert_eq!((format!("{place}"), format!("{place:?}")), (shown.to_owned(), shown.to_owned()));
        }
    }
}
