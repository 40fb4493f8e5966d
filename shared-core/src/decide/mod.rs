//! Commands into facts or refusals, one file a command.
