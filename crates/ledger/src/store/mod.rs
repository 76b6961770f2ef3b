//! The two servers behind one small interface: statements with `$1` places, values in, rows out.
//!
//! Everything above this module is written once. What differs between SQLite and PostgreSQL is in
//! [`sqlite`] and [`postgres`]: how to open, how a writer shuts others out, and how rows are added fast.

pub(crate) mod files;
pub(crate) mod postgres;
pub(crate) mod row;
pub(crate) mod schema;
pub(crate) mod session;
pub(crate) mod sqlite;
pub(crate) mod value;

use crate::fault::LedgerFault;
use row::Row;
use session::Session;
use std::time::Duration;
use value::Value;

/// An open connection to one of the two servers.
pub(crate) enum Store {
    /// A file.
    File(rusqlite::Connection),
    /// A server.
    Server(Box<::postgres::Client>),
}

impl Store {
    /// This connection, to be used.
    pub(crate) fn session(&mut self) -> Session<'_> {
        match self {
            Self::File(connection) => Session::file(connection),
            Self::Server(client) => Session::server(client),
        }
    }

    /// Runs one statement and tells how many rows it made or changed.
    pub(crate) fn execute(&mut self, sql: &str, values: &[Value<'_>]) -> Result<u64, LedgerFault> {
        self.session().execute(sql, values)
    }

    /// Reads every row of a query.
    pub(crate) fn rows<T>(
        &mut self,
        sql: &str,
        values: &[Value<'_>],
        read: impl FnMut(&Row<'_>) -> Result<T, LedgerFault>,
    ) -> Result<Vec<T>, LedgerFault> {
        self.session().rows(sql, values, read)
    }

    /// Reads the first row of a query, if there is one.
    pub(crate) fn first<T>(
        &mut self,
        sql: &str,
        values: &[Value<'_>],
        read: impl FnMut(&Row<'_>) -> Result<T, LedgerFault>,
    ) -> Result<Option<T>, LedgerFault> {
        self.session().first(sql, values, read)
    }

    /// Runs several statements without values.
    pub(crate) fn script(&mut self, sql: &str) -> Result<(), LedgerFault> {
        match self {
            Self::File(connection) => connection.execute_batch(sql).map_err(sqlite::fault("run a script")),
            Self::Server(client) => client.batch_execute(sql).map_err(postgres::fault("run a script")),
        }
    }

    /// Begins a transaction that only one writer at a time can hold.
    pub(crate) fn begin_writing(&mut self) -> Result<(), LedgerFault> {
        match self {
            Self::File(connection) => sqlite::begin_writing(connection),
            Self::Server(client) => postgres::begin_writing(client),
        }
    }

    /// Begins a transaction that sees everything as it is now, whatever others do meanwhile.
    pub(crate) fn begin_reading(&mut self) -> Result<(), LedgerFault> {
        match self {
            Self::File(_) => self.script("BEGIN DEFERRED"),
            Self::Server(_) => self.script("BEGIN ISOLATION LEVEL REPEATABLE READ READ ONLY"),
        }
    }

    /// Does `work` as one writer: all of it or nothing.
    pub(crate) fn writing<T>(
        &mut self,
        work: impl FnOnce(&mut Session<'_>) -> Result<T, LedgerFault>,
    ) -> Result<T, LedgerFault> {
        self.begin_writing()?;
        let mut session = self.session();
        match work(&mut session) {
            Ok(done) => session.commit().map(|()| done),
            Err(fault) => {
                // The first fault is the one to tell; a failed rollback ends with the connection anyway.
                let _ = session.roll_back();
                Err(fault)
            }
        }
    }

    /// How long to wait for other writers.
    pub(crate) fn wait_for_writers(&mut self, longest: Duration) -> Result<(), LedgerFault> {
        match self {
            Self::File(connection) => {
                connection.busy_timeout(longest).map_err(sqlite::fault("set its patience"))
            }
            Self::Server(client) => postgres::wait_for_writers(client, longest),
        }
    }
}
