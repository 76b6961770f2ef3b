//! Keeping a ledger safe: a copy made while others write, and a copy put back.

use crate::fault::LedgerFault;
use crate::ledger::Ledger;
use std::path::{Path, PathBuf};

/// A backup that was made.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct BackedUp {
    /// The backup.
    pub path: PathBuf,
    /// Its size in bytes.
    pub bytes: u64,
}

/// A backup that was put back.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct PutBack {
    /// Where the ledger that stood there before was set aside, if one stood there.
    pub set_aside: Option<PathBuf>,
}

impl Ledger {
    /// Copies the ledger to one file while others may write; the copy is whole and of one moment.
    ///
    /// # Errors
    /// [`LedgerFault::ThereAlready`] where a file stands at `to`; [`LedgerFault::ServerKeepsItself`] on a
    /// server; or what the disk refuses.
    pub fn back_up_to(&mut self, to: &Path) -> Result<BackedUp, LedgerFault> {
        unimplemented!("{to:?}")
    }
}

/// Puts a backup in the place of a ledger file. The backup is verified first and copied beside the
/// ledger; the old ledger is set aside under another name, and the copy takes its place in one step.
///
/// # Errors
/// [`LedgerFault::NotThere`], [`LedgerFault::NotALedger`], [`LedgerFault::DamagedBackup`],
/// [`LedgerFault::Locked`] where the ledger is in use, or what the disk refuses.
pub fn put_back(backup: &Path, ledger: &Path) -> Result<PutBack, LedgerFault> {
    unimplemented!("{backup:?} {ledger:?}")
}
