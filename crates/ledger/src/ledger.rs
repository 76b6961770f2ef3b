//! Opening a ledger.

use crate::fault::LedgerFault;
use crate::location::Location;
use crate::store::{Store, files, postgres, schema, sqlite};
use std::fmt;
use std::path::Path;
use std::time::Duration;

/// Longest that a ledger may be kept open unused by whoever reads it again and again, so that a backup can be put
/// in its place. A choice of ours: long enough for the next click.
pub const LET_GO_WITHIN: Duration = Duration::from_secs(2);

/// One open ledger. Open it for a piece of work and let it go; several may be open at once, here
/// and in other processes: readers never wait, and writers queue.
pub struct Ledger {
    location: Location,
    /// Which file was opened.
    file: Option<(u64, u64)>,
    pub(crate) store: Store,
}

impl fmt::Debug for Ledger {
    fn fmt(&self, to: &mut fmt::Formatter<'_>) -> fmt::Result {
        to.debug_struct("Ledger").field("location", &self.location).finish_non_exhaustive()
    }
}

impl Ledger {
    /// Makes an empty ledger.
    ///
    /// # Errors
    /// [`LedgerFault::ThereAlready`] where something stands there, or what the disk or server refuses.
    pub fn create(location: &Location) -> Result<Self, LedgerFault> {
        match location {
            Location::File(path) => create_file(path)?,
            Location::Postgres(url) => create_schema(url, location)?,
        }
        Self::open(location)
    }

    /// Opens a ledger, and brings one of an older form up to date.
    ///
    /// # Errors
    /// [`LedgerFault::NotThere`], [`LedgerFault::NotALedger`], [`LedgerFault::NewerForm`], or what the
    /// disk or server refuses.
    pub fn open(location: &Location) -> Result<Self, LedgerFault> {
        let mut store = match location {
            Location::File(path) => Store::File(sqlite::open(path)?),
            Location::Postgres(url) => Store::Server(Box::new(postgres::connect(url)?)),
        };
        let Some(found) = form(&mut store, location)? else {
            return Err(LedgerFault::NotALedger(location.to_string()));
        };
        let known = schema::newest();
        if known < found {
            return Err(LedgerFault::NewerForm { found, known });
        }
        if found < known {
            schema::bring_up_to_date(&mut store, found)?;
        }
        Ok(Self { location: location.clone(), file: file_at(location), store })
    }

    /// Whether what is open is what stands at that location, so that it may be read again: a backup may have
    /// taken its place. Where that cannot be told it is taken to be another.
    #[must_use]
    pub fn still_stands_at(&self, location: &Location) -> bool {
        let same_file = match location {
            Location::File(_) => self.file.is_some() && self.file == file_at(location),
            Location::Postgres(_) => true,
        };
        self.location == *location && same_file
    }

    /// Where it lives.
    #[must_use]
    pub fn location(&self) -> &Location {
        &self.location
    }

    /// Sets how long to wait for other writers, a minute if never set, before [`LedgerFault::Locked`].
    ///
    /// # Errors
    /// What the server refuses.
    pub fn wait_for_writers(&mut self, longest: Duration) -> Result<(), LedgerFault> {
        self.store.wait_for_writers(longest)
    }

    /// Reads several things as they stood at one moment, whatever others write meanwhile. Only read
    /// inside, and do not nest: a second beginning is a fault.
    ///
    /// # Errors
    /// What `read` gives, or what the disk or server refuses.
    pub fn at_one_moment<T, E: From<LedgerFault>>(
        &mut self,
        read: impl FnOnce(&mut Self) -> Result<T, E>,
    ) -> Result<T, E> {
        self.store.begin_reading()?;
        let seen = read(self);
        // Nothing was written, so a rollback ends the reading as well as a commit would.
        self.store.script("ROLLBACK")?;
        seen
    }
}

fn file_at(location: &Location) -> Option<(u64, u64)> {
    match location {
        Location::File(path) => files::identity(path),
        Location::Postgres(_) => None,
    }
}

/// Makes a ledger under another name first, so that nobody ever finds half a ledger.
fn create_file(path: &Path) -> Result<(), LedgerFault> {
    if path.exists() {
        return Err(LedgerFault::ThereAlready(path.display().to_string()));
    }
    let unfinished = files::beside(path, ".unfinished");
    files::remove(&unfinished)?;
    let mut store = Store::File(sqlite::create(&unfinished)?);
    schema::bring_up_to_date(&mut store, 0)?;
    sqlite::settle(store)?;
    files::publish(&unfinished, path)
}

fn create_schema(url: &str, location: &Location) -> Result<(), LedgerFault> {
    let mut client = postgres::connect(url)?;
    postgres::make_schema(&mut client, url)?;
    let mut store = Store::Server(Box::new(client));
    match form(&mut store, location)? {
        Some(_) => Err(LedgerFault::ThereAlready(location.to_string())),
        None => schema::bring_up_to_date(&mut store, 0),
    }
}

/// The form of the ledger that stands there, if one does.
fn form(store: &mut Store, location: &Location) -> Result<Option<u32>, LedgerFault> {
    let known = match location {
        Location::File(_) => "SELECT count(*) FROM sqlite_schema WHERE type = 'table' AND name = 'form'",
        Location::Postgres(_) => {
            "SELECT count(*) FROM pg_tables WHERE schemaname = current_schema() AND tablename = 'form'"
        }
    };
    if store.first(known, &[], |row| row.whole(0))?.unwrap_or(0) == 0 {
        return Ok(None);
    }
    store.first("SELECT max(number) FROM form", &[], |row| row.small_or_none(0)).map(Option::flatten)
}
