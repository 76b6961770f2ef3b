//! Settings and saved column mappings: what the house prefers, not what it has seen.

use crate::batch::BatchKind;
use crate::fault::LedgerFault;
use crate::ledger::Ledger;

/// A column mapping that the house saved for tables with the same headings.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct SavedMapping {
    /// Its name.
    pub name: String,
    /// What such tables hold.
    pub kind: BatchKind,
    /// The heading cells it is for.
    pub headings: Vec<String>,
    /// The mapping, in the form that the house gives it.
    pub mapping: String,
}

impl Ledger {
    /// A setting.
    ///
    /// # Errors
    /// What the disk or server refuses.
    pub fn setting(&mut self, name: &str) -> Result<Option<String>, LedgerFault> {
        unimplemented!("{name}")
    }

    /// Every setting, by name.
    ///
    /// # Errors
    /// What the disk or server refuses.
    pub fn settings(&mut self) -> Result<Vec<(String, String)>, LedgerFault> {
        unimplemented!()
    }

    /// Changes a setting.
    ///
    /// # Errors
    /// What the disk or server refuses.
    pub fn set(&mut self, name: &str, value: &str) -> Result<(), LedgerFault> {
        unimplemented!("{name} {value}")
    }

    /// Saves a mapping in the place of the one of that name.
    ///
    /// # Errors
    /// What the disk or server refuses.
    pub fn save_mapping(&mut self, mapping: &SavedMapping) -> Result<(), LedgerFault> {
        unimplemented!("{mapping:?}")
    }

    /// Every saved mapping, by name.
    ///
    /// # Errors
    /// What the disk or server refuses.
    pub fn mappings(&mut self) -> Result<Vec<SavedMapping>, LedgerFault> {
        unimplemented!()
    }

    /// Forgets a saved mapping; tells whether there was one.
    ///
    /// # Errors
    /// What the disk or server refuses.
    pub fn forget_mapping(&mut self, name: &str) -> Result<bool, LedgerFault> {
        unimplemented!("{name}")
    }
}
