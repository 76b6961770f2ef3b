//! Undoing a batch as one, and undoing the undoing. Both are facts; nothing is ever deleted.

use crate::batch::{Act, BatchNumber};
use crate::fault::LedgerFault;
use crate::ledger::Ledger;

/// What to do with standing batches that use what an undone batch brought.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Resting {
    /// Undo nothing and name them.
    Refuse,
    /// Undo them too.
    UndoToo,
}

impl Ledger {
    /// The standing batches that rest on this one, directly or through others, newest first.
    ///
    /// A batch rests on another where it uses its varieties or plots, replaces one of its records, or
    /// took only what was new in a later version of its file.
    ///
    /// # Errors
    /// [`LedgerFault::NoSuchBatch`], or what the disk or server refuses.
    pub fn resting_on(&mut self, number: BatchNumber) -> Result<Vec<BatchNumber>, LedgerFault> {
        unimplemented!("{number}")
    }

    /// Undoes a batch, and tells all that were undone, newest first.
    ///
    /// # Errors
    /// [`LedgerFault::RestedOn`] where others rest on it and `resting` refuses;
    /// [`LedgerFault::NoSuchBatch`], [`LedgerFault::UndoneAlready`], or what the disk or server refuses.
    pub fn undo(
        &mut self,
        number: BatchNumber,
        act: &Act,
        resting: Resting,
    ) -> Result<Vec<BatchNumber>, LedgerFault> {
        unimplemented!("{number} {act:?} {resting:?}")
    }

    /// Restores an undone batch.
    ///
    /// # Errors
    /// [`LedgerFault::RestsOn`] where what it used is undone; [`LedgerFault::TakenSince`] where its file
    /// was taken again; [`LedgerFault::NameClash`] and its like where another has its names now;
    /// [`LedgerFault::NoSuchBatch`], [`LedgerFault::NotUndone`], or what the disk or server refuses.
    pub fn restore(&mut self, number: BatchNumber, act: &Act) -> Result<(), LedgerFault> {
        unimplemented!("{number} {act:?}")
    }
}
