//! Doubted records that wait for somebody to look at them.

use crate::batch::{Act, BatchNumber};
use crate::fault::LedgerFault;
use crate::ledger::Ledger;
use crate::records::Recorded;
use record::id::Id;
use record::note::Note;

impl Ledger {
    /// Records that are set aside until somebody confirms, corrects or withdraws them, oldest first, at
    /// most `most` of them.
    ///
    /// # Errors
    /// What the disk or server refuses.
    pub fn doubted(&mut self, most: u32) -> Result<Vec<Recorded>, LedgerFault> {
        unimplemented!("{most}")
    }

    /// Confirms doubted records, so that they count, as one batch.
    ///
    /// # Errors
    /// [`LedgerFault::NoSuchRecord`], [`LedgerFault::NoLongerStands`], or what the disk or server refuses.
    pub fn confirm(&mut self, act: &Act, records: &[Id<Note>]) -> Result<BatchNumber, LedgerFault> {
        unimplemented!("{act:?} {records:?}")
    }
}
