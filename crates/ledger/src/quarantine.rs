//! The quarantine: rows that could not be read, with their reason and remedy, until they are mended.

use crate::batch::BatchNumber;
use crate::fault::LedgerFault;
use crate::ledger::Ledger;
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

impl Ledger {
    /// Lists quarantined rows by number.
    ///
    /// # Errors
    /// What the disk or server refuses.
    pub fn quarantine(&mut self, listed: Listed) -> Result<Vec<Quarantined>, LedgerFault> {
        unimplemented!("{listed:?}")
    }

    /// One quarantined row.
    ///
    /// # Errors
    /// [`LedgerFault::NoSuchQuarantined`], or what the disk or server refuses.
    pub fn quarantined(&mut self, number: QuarantineNumber) -> Result<Quarantined, LedgerFault> {
        unimplemented!("{number}")
    }
}
