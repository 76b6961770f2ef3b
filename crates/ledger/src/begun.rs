//! What a house has begun: whether there is anything at all of each sort.

use crate::fault::LedgerFault;
use crate::ledger::Ledger;

/// Whether the ledger holds anything of each sort, as it stands now.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Begun {
    /// Names of varieties.
    pub varieties: bool,
    /// Plots of a grow-out.
    pub plots: bool,
    /// Fruit that was weighed, measured or cut.
    pub fruit: bool,
    /// Plants that were walked or put to the tape.
    pub plants: bool,
    /// Calls.
    pub calls: bool,
}

/// One row of noughts and ones, each a long number on either store; each stops at the first that it finds.
const BEGUN: &str = "WITH standing AS (SELECT number FROM standing_batch) SELECT
    CAST(CASE WHEN EXISTS (SELECT 1 FROM variety WHERE batch IN (SELECT number FROM standing))
        THEN 1 ELSE 0 END AS BIGINT),
    CAST(CASE WHEN EXISTS (SELECT 1 FROM plot WHERE batch IN (SELECT number FROM standing))
        THEN 1 ELSE 0 END AS BIGINT),
    CAST(CASE WHEN EXISTS (SELECT 1 FROM fruit_sample WHERE batch IN (SELECT number FROM standing))
        THEN 1 ELSE 0 END AS BIGINT),
    CAST(CASE WHEN EXISTS (SELECT 1 FROM stage_note WHERE batch IN (SELECT number FROM standing))
        OR EXISTS (SELECT 1 FROM height_reading WHERE batch IN (SELECT number FROM standing))
        THEN 1 ELSE 0 END AS BIGINT),
    CAST(CASE WHEN EXISTS (SELECT 1 FROM stored_call) THEN 1 ELSE 0 END AS BIGINT)";

impl Ledger {
    /// What was begun.
    ///
    /// # Errors
    /// What the disk or server refuses.
    pub fn begun(&mut self) -> Result<Begun, LedgerFault> {
        let begun = self.store.first(BEGUN, &[], |row| {
            let is = |column| row.whole(column).map(|one| one == 1);
            Ok(Begun { varieties: is(0)?, plots: is(1)?, fruit: is(2)?, plants: is(3)?, calls: is(4)? })
        })?;
        Ok(begun.unwrap_or_default())
    }
}
