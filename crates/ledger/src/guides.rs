//! The guides that the house has accepted, each version word for word.

use crate::batch::Act;
use crate::fault::LedgerFault;
use crate::ledger::Ledger;

/// One accepted version of a guide.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct GuideVersion {
    /// Which guide, such as `fruit`.
    pub guide: String,
    /// Its version, counted from 1.
    pub version: u32,
    /// Who accepted it, when and why.
    pub accepted: Act,
    /// Its whole text.
    pub text: String,
}

impl Ledger {
    /// Keeps a guide's text as its newest version; the text that is newest already is not kept twice.
    ///
    /// # Errors
    /// What the disk or server refuses.
    pub fn accept_guide(&mut self, act: &Act, guide: &str, text: &str) -> Result<GuideVersion, LedgerFault> {
        unimplemented!("{act:?} {guide} {text}")
    }

    /// The newest accepted version of a guide.
    ///
    /// # Errors
    /// What the disk or server refuses.
    pub fn accepted_guide(&mut self, guide: &str) -> Result<Option<GuideVersion>, LedgerFault> {
        unimplemented!("{guide}")
    }

    /// Every accepted version of a guide, oldest first.
    ///
    /// # Errors
    /// What the disk or server refuses.
    pub fn guide_versions(&mut self, guide: &str) -> Result<Vec<GuideVersion>, LedgerFault> {
        unimplemented!("{guide}")
    }
}
