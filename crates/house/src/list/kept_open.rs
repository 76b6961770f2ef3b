//! A ledger kept open from one reading of the list to the next.
//!
//! For the workbench, where one page follows another: what the last reading fetched is still at hand for the
//! next one. It must be let go soon after ([`LET_GO_WITHIN`]), because a backup can take a ledger's place only
//! while nobody has it open.

use crate::fault::HouseFault;
use crate::folder::House;
use crate::list::filter::Filter;
use crate::list::{List, list_in};
pub use ledger::ledger::LET_GO_WITHIN;
use ledger::ledger::Ledger;
use std::fmt;
use std::sync::{Mutex, MutexGuard, PoisonError};

/// The ledger that was read last, as long as it is kept open.
#[derive(Default)]
pub struct KeptOpen {
    inner: Mutex<Inner>,
}

#[derive(Default)]
struct Inner {
    ledger: Option<Ledger>,
    readings: u64,
}

impl fmt::Debug for KeptOpen {
    fn fmt(&self, to: &mut fmt::Formatter<'_>) -> fmt::Result {
        to.debug_struct("KeptOpen").finish_non_exhaustive()
    }
}

impl KeptOpen {
    /// Reads the list as [`crate::list::list()`] does, from the ledger that is open if it is the house's still.
    ///
    /// # Errors
    /// As [`crate::list::list()`].
    pub fn list(&self, house: &House, filter: &Filter) -> Result<List, HouseFault> {
        let location = house.ledger_location();
        let kept = self.inner().ledger.take().filter(|ledger| ledger.still_stands_at(&location));
        if let Some(mut ledger) = kept
            && let Ok(list) = list_in(&mut ledger, house, filter)
        {
            self.keep(ledger);
            return Ok(list);
        }
        // What failed on a ledger that was open before may be its age: a server may have been started anew.
        let mut ledger = Ledger::open(&location)?;
        let list = list_in(&mut ledger, house, filter)?;
        self.keep(ledger);
        Ok(list)
    }

    /// How often the list was read.
    pub fn readings(&self) -> u64 {
        self.inner().readings
    }

    /// Closes the ledger unless the list was read again since.
    pub fn let_go_unless_read_since(&self, readings: u64) {
        let mut inner = self.inner();
        if inner.readings == readings {
            inner.ledger = None;
        }
    }

    fn keep(&self, ledger: Ledger) {
        let mut inner = self.inner();
        inner.readings += 1;
        inner.ledger = Some(ledger);
    }

    fn inner(&self) -> MutexGuard<'_, Inner> {
        // Whoever broke off while holding it left a ledger or none, and either is whole.
        self.inner.lock().unwrap_or_else(PoisonError::into_inner)
    }
}
