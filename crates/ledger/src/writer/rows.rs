//! Rows that cannot be taken, and rows that were mended.

use crate::fault::LedgerFault;
use crate::kept::print::Print;
use crate::quarantine::{QuarantineNumber, Rejected, one_line};
use crate::store::session::{Copied, Table};
use crate::store::value::whole;
use crate::writer::{Standing, Writer};

static QUARANTINE: Table = Table {
    name: "quarantine",
    columns: &[
        "number",
        "batch",
        "source_row",
        "print",
        "column_heading",
        "value",
        "reason",
        "remedy",
        "cells",
    ],
    copied: Copied::First,
};

impl Writer<'_> {
    /// Puts one row into quarantine, unless it was quarantined from an earlier version of this file.
    ///
    /// # Errors
    /// What the disk or server refuses.
    pub fn reject(&mut self, rejected: &Rejected) -> Result<Standing, LedgerFault> {
        let cells = one_line(&rejected.cells);
        // A new program may word the reason anew; the row is the same row by its cells.
        let print = Print::new().add(&[cells.as_str().into()]).done();
        if self.earlier.take_reject(print) {
            return Ok(Standing::AlreadyThere);
        }
        let number = self.next_quarantined;
        let row = [
            number.into(),
            self.batch.into(),
            whole(rejected.row).into(),
            print.into(),
            rejected.column.as_deref().into(),
            rejected.value.as_str().into(),
            rejected.reason.as_str().into(),
            rejected.remedy.as_str().into(),
            cells.as_str().into(),
        ];
        self.session.add(&QUARANTINE, &row)?;
        self.next_quarantined += 1;
        self.quarantined += 1;
        Ok(Standing::Added)
    }

    /// Marks a quarantined row of an earlier batch as solved by this one.
    ///
    /// # Errors
    /// [`LedgerFault::NoSuchQuarantined`], [`LedgerFault::SolvedAlready`], or what the disk or server refuses.
    pub fn solve(&mut self, quarantined: QuarantineNumber) -> Result<(), LedgerFault> {
        let row = i64::from(quarantined.0);
        let batch = self.session.first(
            "SELECT batch FROM quarantine WHERE number = $1 AND batch IN (SELECT number FROM standing_batch)",
            &[row.into()],
            |row| row.whole(0),
        )?;
        let batch = batch.ok_or(LedgerFault::NoSuchQuarantined(quarantined))?;
        if self.is_solved(row)? {
            return Err(LedgerFault::SolvedAlready(quarantined));
        }
        self.rest_on(batch);
        self.mark_solved(row)
    }

    /// Marks what earlier versions of the file had in quarantine and this one no longer holds.
    pub(super) fn solve_those_gone(&mut self) -> Result<u64, LedgerFault> {
        let mut solved = 0;
        for row in self.earlier.rejects_gone() {
            if !self.is_solved(row)? {
                self.mark_solved(row)?;
                solved += 1;
            }
        }
        Ok(solved)
    }

    fn is_solved(&mut self, row: i64) -> Result<bool, LedgerFault> {
        let solved = self.session.first(
            "SELECT batch FROM quarantine_solved WHERE quarantine = $1
             AND (batch = $2 OR batch IN (SELECT number FROM standing_batch))",
            &[row.into(), self.batch.into()],
            |row| row.whole(0),
        )?;
        Ok(solved.is_some())
    }

    fn mark_solved(&mut self, row: i64) -> Result<(), LedgerFault> {
        let values = [row.into(), self.batch.into()];
        self.session
            .execute("INSERT INTO quarantine_solved (quarantine, batch) VALUES ($1, $2)", &values)
            .map(|_| ())
    }
}
