//! Correcting and withdrawing single records. The old record stays and is no longer counted.

use crate::batch::{Act, BatchNumber};
use crate::fault::LedgerFault;
use crate::ledger::Ledger;
use record::doubt::Doubt;
use record::id::Id;
use record::note::Note;

/// A record that replaced another.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Corrected {
    /// The batch in which it did.
    pub batch: BatchNumber,
    /// The new record.
    pub id: Id<Note>,
}

impl Ledger {
    /// Replaces a record by a corrected one, as one batch. It takes the old record's row for its own.
    ///
    /// # Errors
    /// [`LedgerFault::NoSuchRecord`], [`LedgerFault::NoLongerStands`], [`LedgerFault::NoSuchVariety`],
    /// [`LedgerFault::NoSuchPlot`], or what the disk or server refuses.
    pub fn correct(
        &mut self,
        act: &Act,
        old: Id<Note>,
        note: &Note,
        doubts: &[Doubt],
    ) -> Result<Corrected, LedgerFault> {
        unimplemented!("{act:?} {old} {note:?} {doubts:?}")
    }

    /// Withdraws records, as one batch.
    ///
    /// # Errors
    /// [`LedgerFault::NoSuchRecord`], [`LedgerFault::NoLongerStands`], or what the disk or server refuses.
    pub fn withdraw(&mut self, act: &Act, records: &[Id<Note>]) -> Result<BatchNumber, LedgerFault> {
        unimplemented!("{act:?} {records:?}")
    }
}
