//! Tests of the signed log, one file a module.

mod chain;
mod golden;
mod jws;
mod run;
mod wire;
