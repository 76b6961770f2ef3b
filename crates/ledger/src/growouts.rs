//! Grow-outs, their plots and their plants, as they stand now.

use crate::fault::LedgerFault;
use crate::ledger::Ledger;
use record::growout::{GrowOut, Plant, Plot};

impl Ledger {
    /// Every grow-out, by season and name.
    ///
    /// # Errors
    /// What the disk or server refuses.
    pub fn grow_outs(&mut self) -> Result<Vec<GrowOut>, LedgerFault> {
        unimplemented!()
    }

    /// Every plot with the newest details of it, by grow-out in the order they came in.
    ///
    /// # Errors
    /// What the disk or server refuses.
    pub fn plots(&mut self) -> Result<Vec<Plot>, LedgerFault> {
        unimplemented!()
    }

    /// Every plant that the house notes by itself, by plot and number.
    ///
    /// # Errors
    /// What the disk or server refuses.
    pub fn plants(&mut self) -> Result<Vec<Plant>, LedgerFault> {
        unimplemented!()
    }
}
