//! Keeping the house safe: backup, restore, verify.

use crate::calls;
use crate::fault::HouseFault;
use crate::folder::House;
use crate::list::shelving;
use crate::progress::Progress;
use ledger::keep::{BackedUp, PutBack};
use ledger::ledger::Ledger;
use ledger::location::Location;
pub use ledger::verify::Verified;
use std::path::Path;

/// Copies the ledger to one file while work goes on.
///
/// # Errors
/// What the ledger or the disk refuses.
pub fn back_up(house: &House, to: &Path) -> Result<BackedUp, HouseFault> {
    Ok(Ledger::open(&house.ledger_location())?.back_up_to(to)?)
}

/// Puts a backup in the ledger's place; the old ledger is set aside.
///
/// # Errors
/// A damaged backup, a ledger in use or on a server; what the disk refuses.
pub fn restore(house: &House, backup: &Path) -> Result<PutBack, HouseFault> {
    match house.ledger_location() {
        Location::File(ledger) => Ok(ledger::keep::put_back(backup, &ledger)?),
        Location::Postgres(_) => Err(ledger::fault::LedgerFault::ServerKeepsItself.into()),
    }
}

/// What a verification found.
#[derive(Debug)]
pub struct HouseVerified {
    /// The ledger itself.
    pub ledger: Verified,
    /// How many kept calls were made again.
    pub calls_made_again: u64,
    /// Kept calls that came out otherwise, by variety and subject.
    pub calls_that_differ: Vec<String>,
    /// How many rows of the list were made again.
    pub rows_made_again: u64,
    /// Rows of the list that came out otherwise, by variety.
    pub rows_that_differ: Vec<String>,
}

impl HouseVerified {
    /// Whether all is well.
    #[must_use]
    pub fn is_sound(&self) -> bool {
        self.ledger.is_sound() && self.calls_that_differ.is_empty() && self.rows_that_differ.is_empty()
    }
}

/// Verifies the ledger, and makes every kept call and every row of the list again to compare.
///
/// # Errors
/// What the ledger refuses; findings are no error.
pub fn verify(house: &House, progress: &dyn Progress) -> Result<HouseVerified, HouseFault> {
    let mut ledger = Ledger::open(&house.ledger_location())?;
    let found = ledger.verify()?;
    let (calls_made_again, calls_that_differ) = calls::compare_kept(house, &mut ledger, progress)?;
    let (rows_made_again, rows_that_differ) = shelving::compare(&mut ledger)?;
    Ok(HouseVerified {
        ledger: found,
        calls_made_again,
        calls_that_differ,
        rows_made_again,
        rows_that_differ,
    })
}
