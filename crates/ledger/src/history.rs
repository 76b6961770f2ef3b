//! What has been taken in and done, by whom, when and from where.

use crate::batch::{BatchInfo, BatchNumber, Sha256};
use crate::fault::LedgerFault;
use crate::ledger::Ledger;

impl Ledger {
    /// Every batch, oldest first, the undone ones too.
    ///
    /// # Errors
    /// What the disk or server refuses.
    pub fn history(&mut self) -> Result<Vec<BatchInfo>, LedgerFault> {
        unimplemented!()
    }

    /// One batch.
    ///
    /// # Errors
    /// [`LedgerFault::NoSuchBatch`], or what the disk or server refuses.
    pub fn batch(&mut self, number: BatchNumber) -> Result<BatchInfo, LedgerFault> {
        unimplemented!("{number}")
    }

    /// The heading cells of a batch's table; none for what was done by hand.
    ///
    /// # Errors
    /// What the disk or server refuses.
    pub fn headings(&mut self, number: BatchNumber) -> Result<Vec<String>, LedgerFault> {
        unimplemented!("{number}")
    }

    /// The standing batch that took this very file and sheet, if one did.
    ///
    /// # Errors
    /// What the disk or server refuses.
    pub fn already_taken(
        &mut self,
        file: Sha256,
        sheet: Option<&str>,
    ) -> Result<Option<BatchInfo>, LedgerFault> {
        unimplemented!("{file:?} {sheet:?}")
    }
}
