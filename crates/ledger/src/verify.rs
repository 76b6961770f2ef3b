//! Verifying a ledger: the file itself, the references within it, and what must always hold.

use crate::fault::LedgerFault;
use crate::ledger::Ledger;

/// What a verification found.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Verified {
    /// Each thing that was verified.
    pub checks: Vec<Verification>,
}

/// One thing that was verified.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Verification {
    /// What must hold, in words.
    pub what: &'static str,
    /// How many things were looked at, where they can be counted.
    pub seen: u64,
    /// What does not hold; none if all is well.
    pub findings: Vec<String>,
}

impl Verified {
    /// Whether all is well.
    #[must_use]
    pub fn is_sound(&self) -> bool {
        self.checks.iter().all(|check| check.findings.is_empty())
    }
}

impl Ledger {
    /// Verifies the whole ledger as it stands at one moment.
    ///
    /// # Errors
    /// What the disk or server refuses; findings are no error.
    pub fn verify(&mut self) -> Result<Verified, LedgerFault> {
        unimplemented!()
    }
}
