//! The `sweepbell` command: reads its arguments and hands over to one subcommand.
fn main() {}
