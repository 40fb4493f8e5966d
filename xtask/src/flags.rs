//! The command line, parsed once into an enum.
//!
//! Nothing is done here, and no other file looks at arguments.

use crate::bundle::Build;

/// What `cargo xtask help` prints.
pub(crate) const HELP: &str = "\
cargo xtask <command>

  bundle [--dev]   build the app into dist/: hashed names, service worker, gzip and brotli copies, size budget
  help             this list

--dev builds in seconds what is several times the size, for the inner loop.";

/// One command with its options.
#[derive(Debug, PartialEq, Eq)]
pub(crate) enum Flags {
    /// Print the commands.
    Help,
    /// Build the app into `dist/`.
    Bundle {
        /// Which of the two builds.
        build: Build,
    },
}

impl Flags {
    /// Reads the arguments after the program's name; what is wrong with them is said in one line.
    pub(crate) fn parse(mut arguments: impl Iterator<Item = String>) -> Result<Self, String> {
        let command = arguments.next().unwrap_or_else(|| "help".to_owned());
        let rest: Vec<String> = arguments.collect();
        match command.as_str() {
            "help" | "--help" | "-h" => Ok(Self::Help),
            "bundle" => Ok(Self::Bundle { build: build(&rest)? }),
            other => Err(format!("there is no command `{other}`")),
        }
    }
}

/// Reads the one option of commands that only choose a build.
fn build(rest: &[String]) -> Result<Build, String> {
    match rest {
        [] => Ok(Build::Release),
        [only] if only == "--dev" => Ok(Build::Dev),
        [other, ..] => Err(format!("`{other}` is not an option here")),
    }
}
