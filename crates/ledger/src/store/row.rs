//! A row on its way out of either server.

use crate::fault::LedgerFault;
use crate::store::{postgres, sqlite};
use jiff::Timestamp;
use jiff::civil::Date;
use rusqlite::types::ValueRef;

/// A row on its way out; its columns are counted from 0.
pub(crate) enum Row<'r> {
    /// From a file.
    File(&'r rusqlite::Row<'r>),
    /// From a server.
    Server(&'r ::postgres::Row),
}

const READING: &str = "read a row";

impl Row<'_> {
    /// A whole number, where known.
    pub(crate) fn whole_or_none(&self, column: usize) -> Result<Option<i64>, LedgerFault> {
        match self {
            Self::File(row) => match row.get_ref(column).map_err(sqlite::fault(READING))? {
                ValueRef::Null => Ok(None),
                ValueRef::Integer(whole) => Ok(Some(whole)),
                other => Err(unlike(column, "a whole number", &other)),
            },
            Self::Server(row) => row.try_get(column).map_err(postgres::fault(READING)),
        }
    }

    /// A measured number, where known.
    pub(crate) fn real_or_none(&self, column: usize) -> Result<Option<f64>, LedgerFault> {
        match self {
            Self::File(row) => match row.get_ref(column).map_err(sqlite::fault(READING))? {
                ValueRef::Null => Ok(None),
                ValueRef::Real(real) => Ok(Some(real)),
                other => Err(unlike(column, "a number", &other)),
            },
            Self::Server(row) => row.try_get(column).map_err(postgres::fault(READING)),
        }
    }

    /// Words, where known.
    pub(crate) fn text_or_none(&self, column: usize) -> Result<Option<&str>, LedgerFault> {
        match self {
            Self::File(row) => match row.get_ref(column).map_err(sqlite::fault(READING))? {
                ValueRef::Null => Ok(None),
                ValueRef::Text(bytes) => {
                    std::str::from_utf8(bytes).map(Some).map_err(|_| unlike(column, "text", &"other bytes"))
                }
                other => Err(unlike(column, "text", &other)),
            },
            Self::Server(row) => row.try_get(column).map_err(postgres::fault(READING)),
        }
    }

    /// Exactly `N` bytes, where known.
    pub(crate) fn bytes_or_none<const N: usize>(
        &self,
        column: usize,
    ) -> Result<Option<[u8; N]>, LedgerFault> {
        let bytes: Option<&[u8]> = match self {
            Self::File(row) => match row.get_ref(column).map_err(sqlite::fault(READING))? {
                ValueRef::Null => None,
                ValueRef::Blob(bytes) => Some(bytes),
                other => return Err(unlike(column, "bytes", &other)),
            },
            Self::Server(row) => row.try_get(column).map_err(postgres::fault(READING))?,
        };
        bytes
            .map(|bytes| bytes.try_into().map_err(|_| unlike(column, "bytes of its length", &bytes.len())))
            .transpose()
    }

    /// A whole number.
    pub(crate) fn whole(&self, column: usize) -> Result<i64, LedgerFault> {
        self.whole_or_none(column)?.ok_or_else(|| missing(column))
    }

    /// A measured number.
    pub(crate) fn real(&self, column: usize) -> Result<f64, LedgerFault> {
        self.real_or_none(column)?.ok_or_else(|| missing(column))
    }

    /// Words.
    pub(crate) fn text(&self, column: usize) -> Result<&str, LedgerFault> {
        self.text_or_none(column)?.ok_or_else(|| missing(column))
    }

    /// Words of one's own, where known.
    pub(crate) fn words_or_none(&self, column: usize) -> Result<Option<String>, LedgerFault> {
        Ok(self.text_or_none(column)?.map(str::to_owned))
    }

    /// Words of one's own.
    pub(crate) fn words(&self, column: usize) -> Result<String, LedgerFault> {
        Ok(self.text(column)?.to_owned())
    }

    /// Exactly `N` bytes.
    pub(crate) fn bytes<const N: usize>(&self, column: usize) -> Result<[u8; N], LedgerFault> {
        self.bytes_or_none(column)?.ok_or_else(|| missing(column))
    }

    /// A count.
    pub(crate) fn count(&self, column: usize) -> Result<u64, LedgerFault> {
        let whole = self.whole(column)?;
        u64::try_from(whole).map_err(|_| unlike(column, "a count", &whole))
    }

    /// A small count.
    pub(crate) fn small(&self, column: usize) -> Result<u32, LedgerFault> {
        self.small_or_none(column)?.ok_or_else(|| missing(column))
    }

    /// A small count, where known.
    pub(crate) fn small_or_none(&self, column: usize) -> Result<Option<u32>, LedgerFault> {
        let small = |whole| u32::try_from(whole).map_err(|_| unlike(column, "a small count", &whole));
        self.whole_or_none(column)?.map(small).transpose()
    }

    /// A day, where known.
    pub(crate) fn day_or_none(&self, column: usize) -> Result<Option<Date>, LedgerFault> {
        let day = |whole| crate::store::value::day(whole).ok_or_else(|| unlike(column, "a day", &whole));
        self.whole_or_none(column)?.map(day).transpose()
    }

    /// A day.
    pub(crate) fn day(&self, column: usize) -> Result<Date, LedgerFault> {
        self.day_or_none(column)?.ok_or_else(|| missing(column))
    }

    /// A moment.
    pub(crate) fn moment(&self, column: usize) -> Result<Timestamp, LedgerFault> {
        let micros = self.whole(column)?;
        Timestamp::from_microsecond(micros).map_err(|_| unlike(column, "a moment", &micros))
    }

    /// A value of a type that takes only some numbers, where known.
    pub(crate) fn unit_or_none<T>(
        &self,
        column: usize,
        make: impl Fn(f64) -> Option<T>,
    ) -> Result<Option<T>, LedgerFault> {
        let unit = |real| make(real).ok_or_else(|| unlike(column, "a measure", &real));
        self.real_or_none(column)?.map(unit).transpose()
    }
}

fn unlike(column: usize, wanted: &str, found: &dyn std::fmt::Debug) -> LedgerFault {
    LedgerFault::Damaged(format!("column {column} of a row should be {wanted} and is {found:?}"))
}

fn missing(column: usize) -> LedgerFault {
    LedgerFault::Damaged(format!("column {column} of a row is empty"))
}
