//! The parts that screens are built of: plain values in, callbacks out.
//!
//! A part knows no rule, no context and no domain type but an instant. What it shows was decided elsewhere; what is
//! pressed is told to whoever placed it. How it looks is in `public/styles/parts.css`. There are a dozen at most, each on the
//! gallery's page; `kept` and `live` are no parts, but what parts and screens are drawn with.

pub mod button;
pub mod choice;
pub mod chore_row;
pub mod field;
pub mod figures;
pub mod kept;
pub mod lines;
pub mod live;
pub mod notice;
pub mod places;
pub mod qr;
pub mod sheet;
pub mod sign;
pub mod steel_rule;
