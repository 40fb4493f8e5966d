//! Tables of published values: CSV without quotes, `#` for remarks, a header line, then rows.
//!
//! Every row must name its source and how it was seen; a table that does not, or that has no rows, fails the test.

use std::collections::BTreeMap;

/// How a value came to be in a table.
const MARKS: [&str; 4] = ["published text", "secondary text", "by formula", "from memory"];

/// One row, by the header's names.
pub(crate) struct Row(BTreeMap<String, String>);

impl Row {
    /// The cell of that name.
    pub(crate) fn text(&self, name: &str) -> &str {
        self.0.get(name).unwrap_or_else(|| panic!("no column `{name}`"))
    }

    /// The cell of that name, as a number.
    pub(crate) fn number(&self, name: &str) -> f64 {
        self.text(name).parse().unwrap_or_else(|_| panic!("`{}` in `{name}` is not a number", self.text(name)))
    }

    /// Half of the last printed digit of a number: what rounding alone explains.
    pub(crate) fn half_digit(&self, name: &str) -> f64 {
        let decimals = self.text(name).split_once('.').map_or(0, |(_, decimals)| decimals.len());
        0.5 * 10_f64.powi(-i32::try_from(decimals).expect("few digits")) + 1e-9
    }

    /// What a failed row is called.
    pub(crate) fn name(&self) -> String {
        format!("{:?} ({}, {})", self.0.values().collect::<Vec<_>>(), self.text("source"), self.text("mark"))
    }
}

/// The rows of a table, which has `count` of them.
pub(crate) fn rows(csv: &str, count: usize) -> Vec<Row> {
    let mut lines = csv.lines().filter(|line| !line.starts_with('#'));
    let header: Vec<&str> = lines.next().expect("a header").split(',').collect();
    let rows: Vec<Row> = lines
        .map(|line| {
            let cells: Vec<&str> = line.split(',').collect();
            assert_eq!(cells.len(), header.len(), "{line}");
            Row(header.iter().zip(cells).map(|(name, cell)| ((*name).to_owned(), cell.to_owned())).collect())
        })
        .collect();
    for row in &rows {
        assert!(MARKS.contains(&row.text("mark")), "{}", row.name());
        assert!(!row.text("source").is_empty(), "{}", row.name());
    }
    assert_eq!(rows.len(), count, "rows");
    rows
}
