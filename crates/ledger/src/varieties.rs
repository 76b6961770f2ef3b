//! Varieties and the names they go by.

use crate::batch::{Act, BatchNumber};
use crate::fault::LedgerFault;
use crate::ledger::Ledger;
use record::id::Id;
use record::variety::{Claim, Variety};

impl Ledger {
    /// Every variety with its aliases and claims, by name.
    ///
    /// # Errors
    /// What the disk or server refuses.
    pub fn varieties(&mut self) -> Result<Vec<Variety>, LedgerFault> {
        unimplemented!()
    }

    /// One variety.
    ///
    /// # Errors
    /// [`LedgerFault::NoSuchVariety`], or what the disk or server refuses.
    pub fn variety(&mut self, id: Id<Variety>) -> Result<Variety, LedgerFault> {
        unimplemented!("{id}")
    }

    /// The variety of that name or alias; case and spaces do not count.
    ///
    /// # Errors
    /// What the disk or server refuses.
    pub fn variety_named(&mut self, name: &str) -> Result<Option<Variety>, LedgerFault> {
        unimplemented!("{name}")
    }

    /// Lets one more name mean a variety, as a batch of its own.
    ///
    /// # Errors
    /// [`LedgerFault::NameClash`] where it means another one; [`LedgerFault::NoSuchVariety`], or what the
    /// disk or server refuses.
    pub fn add_alias(
        &mut self,
        act: &Act,
        variety: Id<Variety>,
        alias: &str,
    ) -> Result<BatchNumber, LedgerFault> {
        unimplemented!("{act:?} {variety} {alias}")
    }

    /// Adds a claim, as a batch of its own.
    ///
    /// # Errors
    /// [`LedgerFault::NoSuchVariety`], or what the disk or server refuses.
    pub fn add_claim(
        &mut self,
        act: &Act,
        variety: Id<Variety>,
        claim: &Claim,
    ) -> Result<BatchNumber, LedgerFault> {
        unimplemented!("{act:?} {variety} {claim:?}")
    }
}
