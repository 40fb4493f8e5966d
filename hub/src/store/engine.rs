//! What a database must be able to do to be the hub's store. There are two: [`super::sqlite`] and [`super::postgres`].
//!
//! All SQL of the shop is written once, with `$1` for values, beside what it is for; whatever the engines do not have
//! in common is behind these two traits. No engine knows what an entry is, and nothing above knows which engine it is.

use std::fmt::Debug;
use std::pin::Pin;

use tokio::sync::broadcast::Receiver;

use super::fault::StoreError;
use super::news::News;

/// Something that is being done.
pub(super) type Doing<'a, T> = Pin<Box<dyn Future<Output = Result<T, StoreError>> + Send + 'a>>;

/// A database.
pub(super) trait Engine: Debug + Send + Sync {
    /// Begins to read one state of the database: what is committed later is not seen.
    fn look(&self) -> Doing<'_, Box<dyn Talk>>;

    /// Runs one statement that gives rows and changes nothing: what a transaction around it would cost is spared.
    fn ask<'a>(&'a self, sql: &'static str, values: &'a [Value<'a>]) -> Doing<'a, Vec<Row>>;

    /// Begins a change, when every other is over, in whichever process it runs: they happen one after the other.
    fn change(&self) -> Doing<'_, Box<dyn Talk>>;

    /// What changes tell, from now on; those of other processes too.
    fn news(&self) -> Doing<'_, Receiver<News>>;

    /// Whether other processes may serve the same database.
    #[cfg(test)]
    fn is_shared(&self) -> bool;

    /// Lets go of it.
    fn close(&self) -> Pin<Box<dyn Future<Output = ()> + Send + '_>>;
}

/// A transaction. Dropped without a commit, it never was.
pub(super) trait Talk: Debug + Send {
    /// Runs a statement that gives rows. Each is read as it comes: of ten thousand, none lies there twice.
    fn ask<'a>(&'a mut self, sql: &'static str, values: &'a [Value<'a>]) -> Doing<'a, Vec<Row>>;

    /// Runs a statement for what it does; gives how many rows it did that to.
    fn act<'a>(&'a mut self, sql: &'static str, values: &'a [Value<'a>]) -> Doing<'a, u64>;

    /// Makes it so, on the disk, and then tells the news.
    fn commit(self: Box<Self>, news: Vec<News>) -> Doing<'static, ()>;

    /// The statements that each engine words its own way.
    fn dialect(&self) -> &'static Dialect;
}

/// What two engines cannot be told in the same words.
#[derive(Debug)]
pub(super) struct Dialect {
    /// Whether values are best numbered, `$1`, or counted, `?`: with hundreds SQLite's driver looks for each by its name.
    pub(super) numbered: bool,
    /// Gives the highest `pos` that the database will not hand out any more.
    pub(super) pos_used: &'static str,
    /// Have the next `pos` be greater than `$1`.
    pub(super) skip_pos: &'static [&'static str],
}

/// A value for a statement.
#[derive(Clone, Copy, Debug)]
pub(super) enum Value<'a> {
    Number(Option<i64>),
    Text(Option<&'a str>),
    Bytes(&'a [u8]),
}

impl From<i64> for Value<'_> {
    fn from(number: i64) -> Self {
        Self::Number(Some(number))
    }
}

impl From<Option<i64>> for Value<'_> {
    fn from(number: Option<i64>) -> Self {
        Self::Number(number)
    }
}

impl<'a> From<&'a str> for Value<'a> {
    fn from(text: &'a str) -> Self {
        Self::Text(Some(text))
    }
}

impl<'a> From<Option<&'a str>> for Value<'a> {
    fn from(text: Option<&'a str>) -> Self {
        Self::Text(text)
    }
}

impl<'a> From<&'a [u8]> for Value<'a> {
    fn from(bytes: &'a [u8]) -> Self {
        Self::Bytes(bytes)
    }
}

/// What stands in one column of a row.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(super) enum Cell {
    Nothing,
    Number(i64),
    Text(String),
    Bytes(Vec<u8>),
}

/// A row, read column by column in the order of its statement.
#[derive(Debug)]
pub(super) struct Row(std::vec::IntoIter<Cell>);

impl Row {
    pub(super) fn new(cells: Vec<Cell>) -> Self {
        Self(cells.into_iter())
    }

    /// The next column, a whole number.
    pub(super) fn number(&mut self) -> Result<i64, StoreError> {
        match self.0.next() {
            Some(Cell::Number(number)) => Ok(number),
            other => Err(StoreError::Value { wanted: "a number", found: format!("{other:?}") }),
        }
    }

    /// The next column, a whole number or nothing.
    pub(super) fn maybe_number(&mut self) -> Result<Option<i64>, StoreError> {
        match self.0.next() {
            Some(Cell::Number(number)) => Ok(Some(number)),
            Some(Cell::Nothing) => Ok(None),
            other => Err(StoreError::Value { wanted: "a number", found: format!("{other:?}") }),
        }
    }

    /// The next column, a whole number that counts something.
    pub(super) fn count(&mut self) -> Result<u64, StoreError> {
        Ok(u64::try_from(self.number()?)?)
    }

    /// The next column, a text.
    pub(super) fn text(&mut self) -> Result<String, StoreError> {
        self.maybe_text()?.ok_or(StoreError::Value { wanted: "a text", found: "nothing".into() })
    }

    /// The next column, a text or nothing.
    pub(super) fn maybe_text(&mut self) -> Result<Option<String>, StoreError> {
        match self.0.next() {
            Some(Cell::Text(text)) => Ok(Some(text)),
            Some(Cell::Nothing) => Ok(None),
            other => Err(StoreError::Value { wanted: "a text", found: format!("{other:?}") }),
        }
    }

    /// The next column, bytes.
    pub(super) fn bytes(&mut self) -> Result<Vec<u8>, StoreError> {
        match self.0.next() {
            Some(Cell::Bytes(bytes)) => Ok(bytes),
            other => Err(StoreError::Value { wanted: "bytes", found: format!("{other:?}") }),
        }
    }
}

/// The row of a statement that always gives one.
pub(super) fn only(rows: Vec<Row>) -> Result<Row, StoreError> {
    rows.into_iter().next().ok_or_else(|| StoreError::Value { wanted: "a row", found: "none".into() })
}

/// Binds values to a statement; the same words for each of sqlx's engines, whose types have nothing in common.
macro_rules! bind {
    ($sql:expr, $values:expr, $text:expr) => {
        $values.iter().fold(sqlx::query($sql), |query, value| match *value {
            Value::Number(number) => query.bind(number),
            Value::Text(text) => query.bind(text.map($text)),
            Value::Bytes(bytes) => query.bind(bytes),
        })
    };
}

/// Reads a row's columns by what stands in them.
macro_rules! cells {
    ($row:expr, $number:literal, $text:literal, $bytes:literal) => {
        (0..$row.len())
            .map(|column| {
                let value = $row.try_get_raw(column)?;
                if value.is_null() {
                    return Ok(Cell::Nothing);
                }
                let kind = value.type_info();
                Ok(match kind.name() {
                    $number => Cell::Number($row.try_get(column)?),
                    $text => Cell::Text($row.try_get(column)?),
                    $bytes => Cell::Bytes($row.try_get(column)?),
                    other => return Err(sqlx::Error::Decode(format!("a column of type {other}").into())),
                })
            })
            .collect::<Result<Vec<_>, sqlx::Error>>()
            .map(Row::new)
    };
}

pub(super) use {bind, cells};
