//! The quarantine: rows that could not be read, with their reason and remedy, until they are mended.

use crate::batch::BatchNumber;
use crate::fault::LedgerFault;
use crate::kept::keys::batch_number;
use crate::ledger::Ledger;
use crate::store::row::Row;
use std::fmt;

/// The number of a quarantined row, as people say it: `quarantine mend 7`.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct QuarantineNumber(pub u32);

impl fmt::Display for QuarantineNumber {
    fn fmt(&self, to: &mut fmt::Formatter<'_>) -> fmt::Result {
        self.0.fmt(to)
    }
}

/// A row that could not be taken.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Rejected {
    /// The row of the file, counted from 1.
    pub row: u64,
    /// The heading of the column at fault, where one is.
    pub column: Option<String>,
    /// The value at fault, as it was written.
    pub value: String,
    /// What is wrong with it.
    pub reason: String,
    /// What to do about it.
    pub remedy: String,
    /// All cells of the row, as they were written.
    pub cells: Vec<String>,
}

/// A row in quarantine.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Quarantined {
    /// Its number.
    pub number: QuarantineNumber,
    /// The batch it came with, which knows the file, the kind and the headings.
    pub batch: BatchNumber,
    /// The file.
    pub file_name: Option<String>,
    /// The sheet of a workbook.
    pub sheet: Option<String>,
    /// The row and what is wrong with it.
    pub rejected: Rejected,
    /// The batch that took it after it was mended, where one did.
    pub solved_by: Option<BatchNumber>,
}

/// Which quarantined rows to list. Rows of undone batches are never listed.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Listed {
    /// Those that still wait.
    Waiting,
    /// Those of one batch that still wait.
    WaitingOf(BatchNumber),
    /// Those of one batch, solved or not.
    AllOf(BatchNumber),
    /// All, solved or not.
    All,
}

/// Everything that is told of a quarantined row.
const ROWS: &str =
    "SELECT q.number, q.batch, b.file_name, b.sheet, q.source_row, q.column_heading, q.value, q.reason,
    q.remedy, q.cells,
    (SELECT min(s.batch) FROM quarantine_solved s WHERE s.quarantine = q.number
        AND s.batch IN (SELECT number FROM standing_batch))
    FROM quarantine q JOIN batch b ON b.number = q.batch
    WHERE q.batch IN (SELECT number FROM standing_batch)";

const STILL_WAITING: &str = "AND q.number NOT IN (SELECT quarantine FROM quarantine_solved
    WHERE batch IN (SELECT number FROM standing_batch))";

impl Ledger {
    /// Lists quarantined rows by number.
    ///
    /// # Errors
    /// What the disk or server refuses.
    pub fn quarantine(&mut self, listed: Listed) -> Result<Vec<Quarantined>, LedgerFault> {
        let (which, batch) = match listed {
            Listed::Waiting => (STILL_WAITING.to_owned(), None),
            Listed::WaitingOf(batch) => (format!("{STILL_WAITING} AND q.batch = $1"), Some(batch)),
            Listed::AllOf(batch) => ("AND q.batch = $1".to_owned(), Some(batch)),
            Listed::All => (String::new(), None),
        };
        let values: Vec<_> = batch.into_iter().map(|batch| batch.0.into()).collect();
        self.store.rows(&format!("{ROWS} {which} ORDER BY q.number"), &values, read_quarantined)
    }

    /// One quarantined row.
    ///
    /// # Errors
    /// [`LedgerFault::NoSuchQuarantined`], or what the disk or server refuses.
    pub fn quarantined(&mut self, number: QuarantineNumber) -> Result<Quarantined, LedgerFault> {
        let row =
            self.store.first(&format!("{ROWS} AND q.number = $1"), &[number.0.into()], read_quarantined)?;
        row.ok_or(LedgerFault::NoSuchQuarantined(number))
    }
}

fn read_quarantined(row: &Row<'_>) -> Result<Quarantined, LedgerFault> {
    Ok(Quarantined {
        number: QuarantineNumber(row.small(0)?),
        batch: batch_number(row, 1)?,
        file_name: row.words_or_none(2)?,
        sheet: row.words_or_none(3)?,
        rejected: Rejected {
            row: row.count(4)?,
            column: row.words_or_none(5)?,
            value: row.words(6)?,
            reason: row.words(7)?,
            remedy: row.words(8)?,
            cells: cells(row.text(9)?),
        },
        solved_by: row.small_or_none(10)?.map(BatchNumber),
    })
}

/// Cells in one line: tabs between them, and tabs, line ends and backslashes in them written out.
pub(crate) fn one_line(cells: &[String]) -> String {
    let mut line = String::new();
    for (place, cell) in cells.iter().enumerate() {
        if place > 0 {
            line.push('\t');
        }
        for c in cell.chars() {
            match c {
                '\\' => line.push_str("\\\\"),
                '\t' => line.push_str("\\t"),
                '\n' => line.push_str("\\n"),
                '\r' => line.push_str("\\r"),
                other => line.push(other),
            }
        }
    }
    line
}

/// The cells of a line. A row without cells reads as one empty cell, which is as blank.
pub(crate) fn cells(line: &str) -> Vec<String> {
    line.split('\t').map(cell).collect()
}

fn cell(written: &str) -> String {
    let mut cell = String::with_capacity(written.len());
    let mut chars = written.chars();
    while let Some(c) = chars.next() {
        match c {
            '\\' => match chars.next() {
                Some('t') => cell.push('\t'),
                Some('n') => cell.push('\n'),
                Some('r') => cell.push('\r'),
                Some(other) => cell.push(other),
                None => {}
            },
            other => cell.push(other),
        }
    }
    cell
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    proptest! {
        /// Whatever stands in cells comes back, but for the NUL that no server keeps.
        #[test]
        fn cells_come_back(row in prop::collection::vec("[^\0]{0,9}|[\\\\\t\r\nnrt]{0,9}", 1..7)) {
            prop_assert_eq!(cells(&one_line(&row)), row);
        }
    }
}
