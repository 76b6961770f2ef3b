//! History: what was taken in and done, and undoing it as one.

use crate::fault::HouseFault;
use crate::folder::House;
pub use ledger::batch::{Act, BatchInfo, BatchKind, BatchNumber, BatchState, Counts};
use ledger::ledger::Ledger;
pub use ledger::undo::Resting;

/// Every batch, oldest first, the undone ones too.
///
/// # Errors
/// What the ledger refuses.
pub fn batches(house: &House) -> Result<Vec<BatchInfo>, HouseFault> {
    Ok(Ledger::open(&house.ledger_location())?.history()?)
}

/// One batch.
///
/// # Errors
/// What the ledger refuses, such as a number that no batch has.
pub fn one(house: &House, batch: BatchNumber) -> Result<BatchInfo, HouseFault> {
    Ok(Ledger::open(&house.ledger_location())?.batch(batch)?)
}

/// The standing batches that rest on one, newest first: undoing it would undo them too.
///
/// # Errors
/// What the ledger refuses, such as a number that no batch has.
pub fn resting_on(house: &House, batch: BatchNumber) -> Result<Vec<BatchNumber>, HouseFault> {
    Ok(Ledger::open(&house.ledger_location())?.resting_on(batch)?)
}

/// Undoes a batch as one and tells all that were undone, newest first.
///
/// # Errors
/// What the ledger refuses, such as batches that rest on it.
pub fn undo(
    house: &House,
    batch: BatchNumber,
    act: &Act,
    resting: Resting,
) -> Result<Vec<BatchNumber>, HouseFault> {
    Ok(Ledger::open(&house.ledger_location())?.undo(batch, act, resting)?)
}

/// Restores an undone batch.
///
/// # Errors
/// What the ledger refuses, such as a batch that it rests on being undone.
pub fn redo(house: &House, batch: BatchNumber, act: &Act) -> Result<(), HouseFault> {
    Ok(Ledger::open(&house.ledger_location())?.restore(batch, act)?)
}
