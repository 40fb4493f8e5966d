//! A table as text: RFC 4180, and no cell that a spreadsheet would take for a formula.
//!
//! Lines end with CR LF, cells with a comma, a quote or a line break are quoted, the first line names the columns. A cell of
//! text that begins with `=`, `+`, `-`, `@`, a tab, a carriage return or an apostrophe gets an apostrophe before it: a
//! spreadsheet shows what was written and runs nothing. Whoever reads with a program takes one apostrophe off the front, and
//! has what was said, letter for letter. Numbers and times are ours and are left as they are.

use csv::{Terminator, WriterBuilder};
use shared_core::time::{Instant, Span};

/// What a cell must not begin with.
const BEGINS_FORMULA: [char; 7] = ['=', '+', '-', '@', '\t', '\r', '\''];

/// A cell.
#[derive(Clone, Debug, PartialEq)]
pub(super) enum Cell {
    /// Nothing.
    Empty,
    /// What somebody wrote or chose.
    Text(String),
    /// A number or a time of ours.
    Plain(String),
}

impl Cell {
    fn written(self) -> String {
        match self {
            Self::Text(text) if text.starts_with(BEGINS_FORMULA) => format!("'{text}"),
            Self::Text(text) | Self::Plain(text) => text,
            Self::Empty => String::new(),
        }
    }
}

impl From<&str> for Cell {
    fn from(text: &str) -> Self {
        Self::Text(text.to_owned())
    }
}

impl From<Instant> for Cell {
    fn from(at: Instant) -> Self {
        Self::Plain(at.to_string())
    }
}

impl From<Span> for Cell {
    /// Whole minutes, rounded up.
    fn from(span: Span) -> Self {
        Self::Plain(span.minutes_up().to_string())
    }
}

impl From<usize> for Cell {
    fn from(number: usize) -> Self {
        Self::Plain(number.to_string())
    }
}

impl<T: Into<Self>> From<Option<T>> for Cell {
    fn from(cell: Option<T>) -> Self {
        cell.map_or(Self::Empty, Into::into)
    }
}

/// The table with this first line.
pub(super) fn table(columns: &[&str], rows: impl Iterator<Item = Vec<Cell>>) -> String {
    let mut writer = WriterBuilder::new().terminator(Terminator::CRLF).from_writer(Vec::new());
    // Writing into memory does not fail, and every row is as long as the first: the tests write them all.
    let _ = writer.write_record(columns);
    for row in rows {
        let _ = writer.write_record(row.into_iter().map(Cell::written));
    }
    String::from_utf8(writer.into_inner().unwrap_or_default()).unwrap_or_default()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[track_caller]
    fn check(cells: &[&str], line: &str) {
        let cells = cells.iter().map(|text| Cell::from(*text)).collect();
        assert_eq!(table(&["a", "b"], std::iter::once(cells)), format!("a,b\r\n{line}\r\n"));
    }

    /// RFC 4180 section 2, rules 1 and 5 to 7; the formulas are those that OWASP's page on CSV injection names.
    #[test]
    fn cells_are_quoted_and_none_is_a_formula() {
        check(&["x", "y"], "x,y");
        check(&["x, y", ""], "\"x, y\",");
        check(&["say \"now\"", "two\nlines"], "\"say \"\"now\"\"\",\"two\nlines\"");
        check(&["two\r\nlines", "é"], "\"two\r\nlines\",é");
        check(&["=1+1", "+1"], "'=1+1,'+1");
        check(&["-1", "@SUM(A1)"], "'-1,'@SUM(A1)");
        check(&["=HYPERLINK(\"x\",\"y\")", "a=1"], "\"'=HYPERLINK(\"\"x\"\",\"\"y\"\")\",a=1");
        check(&["\t=1", "'tis"], "'\t=1,''tis");
    }
}
