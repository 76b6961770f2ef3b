//! SQLite: one file, written through a log that is forced to the disk at every commit.

use crate::fault::LedgerFault;
use crate::store::Store;
use crate::store::row::Row;
use crate::store::value::{Value, without_nul};
use rusqlite::types::{ToSqlOutput, ValueRef};
use rusqlite::{Connection, ErrorCode, OpenFlags, Statement, ToSql};
use std::borrow::Cow;
use std::ops::ControlFlow;
use std::path::Path;
use std::time::Duration;

/// How long a writer waits for another before it gives up. A million rows take a few seconds, so a
/// minute covers any file; common practice, no source.
pub(crate) const PATIENCE: Duration = Duration::from_secs(60);

/// Marks the file as ours, in the field that SQLite keeps for this: `locu` as four bytes.
const APPLICATION_ID: i64 = 0x6c6f_6375;

/// Set once in a new file. Chosen by measurement: see benches/README.md of this crate.
const FOR_NEW_FILES: &str = "PRAGMA page_size = 8192;";

/// Set at every opening; a backup that was put back is not in WAL mode yet. `cache_size` is in KiB when negative; with it and `wal_autocheckpoint` in pages
/// memory stays flat whatever comes in.
const FOR_EVERY_OPENING: &str = "PRAGMA journal_mode = WAL; PRAGMA synchronous = FULL; PRAGMA foreign_keys = ON; \
    PRAGMA cache_size = -32000; PRAGMA wal_autocheckpoint = 4000; PRAGMA trusted_schema = OFF;";

impl ToSql for Value<'_> {
    fn to_sql(&self) -> rusqlite::Result<ToSqlOutput<'_>> {
        Ok(ToSqlOutput::Borrowed(match *self {
            Value::Nothing => ValueRef::Null,
            Value::Whole(whole) => ValueRef::Integer(whole),
            Value::Real(real) => ValueRef::Real(real),
            Value::Text(text) => match without_nul(text) {
                Cow::Borrowed(text) => ValueRef::Text(text.as_bytes()),
                Cow::Owned(text) => return Ok(ToSqlOutput::Owned(text.into())),
            },
            Value::Bytes(bytes) => ValueRef::Blob(bytes),
        }))
    }
}

/// Makes a new file and marks it as ours.
pub(crate) fn create(path: &Path) -> Result<Connection, LedgerFault> {
    let connection = Connection::open(path).map_err(fault("make the file"))?;
    connection.busy_timeout(PATIENCE).map_err(fault("set its patience"))?;
    connection.execute_batch(FOR_NEW_FILES).map_err(fault("set up the file"))?;
    connection.pragma_update(None, "application_id", APPLICATION_ID).map_err(fault("mark the file"))?;
    prepared(connection)
}

/// Writes everything of the log into the one file and closes it. That needs the file alone, so this also
/// finds out whether somebody else has it open.
pub(crate) fn settle(store: Store) -> Result<(), LedgerFault> {
    let Store::File(connection) = store else { return Ok(()) };
    let doing = "settle the log";
    connection.busy_timeout(Duration::ZERO).map_err(fault(doing))?;
    connection.pragma_update(None, "journal_mode", "DELETE").map_err(fault(doing))?;
    connection.close().map_err(|(_, error)| fault(doing)(error))
}

/// Opens a file that is there and ours.
pub(crate) fn open(path: &Path) -> Result<Connection, LedgerFault> {
    if !path.is_file() {
        return Err(LedgerFault::NotThere(path.to_owned()));
    }
    let flags = OpenFlags::SQLITE_OPEN_READ_WRITE | OpenFlags::SQLITE_OPEN_NO_MUTEX;
    let connection = Connection::open_with_flags(path, flags).map_err(fault("open the file"))?;
    connection.busy_timeout(PATIENCE).map_err(fault("set its patience"))?;
    let marked = connection.pragma_query_value(None, "application_id", |row| row.get::<_, i64>(0));
    match marked {
        Ok(APPLICATION_ID) => prepared(connection),
        Ok(_) => Err(LedgerFault::NotALedger(path.display().to_string())),
        Err(error) => Err(match fault("read the file")(error) {
            LedgerFault::NotALedger(_) => LedgerFault::NotALedger(path.display().to_string()),
            other => other,
        }),
    }
}

fn prepared(connection: Connection) -> Result<Connection, LedgerFault> {
    connection.execute_batch(FOR_EVERY_OPENING).map_err(fault("set up the connection"))?;
    connection.set_prepared_statement_cache_capacity(64);
    Ok(connection)
}

/// The words of the shelf: an index only, without the text. Source: SQLite documentation, "FTS5 Extension",
/// contentless tables.
const WORDS_OF_THE_SHELF: &str = "CREATE VIRTUAL TABLE shelf_text USING fts5(words, content = '', \
    contentless_delete = 1, tokenize = 'unicode61 remove_diacritics 0', prefix = '2 3')";

/// The schema's words as SQLite has them.
pub(crate) fn ddl(schema: &str) -> String {
    let words = [
        ("DOUBLE PRECISION", "REAL"),
        ("BIGINT", "INTEGER"),
        ("BYTES", "BLOB"),
        ("{strict}", " STRICT"),
        ("{bytewise}", ""),
        ("{words_of_the_shelf}", WORDS_OF_THE_SHELF),
    ];
    words.iter().fold(schema.to_owned(), |text, (ours, theirs)| text.replace(ours, theirs))
}

/// SQLite counts `?1`, `?2` by their number, and `$1`, `$2` by where they first stand.
fn numbered(sql: &str) -> Cow<'_, str> {
    match sql.contains('$') {
        true => Cow::Owned(sql.replace('$', "?")),
        false => Cow::Borrowed(sql),
    }
}

/// A statement that is run again and again, and remembers where nothing is bound: most rows leave most
/// columns open, and binding nothing over nothing costs time.
pub(crate) struct Adder<'c> {
    statement: Statement<'c>,
    open: Vec<bool>,
}

impl<'c> Adder<'c> {
    /// Prepares a statement with that many places.
    pub(crate) fn new(connection: &'c Connection, sql: &str, places: usize) -> Result<Self, LedgerFault> {
        let statement = connection.prepare(&numbered(sql)).map_err(fault("prepare a statement"))?;
        Ok(Self { statement, open: vec![true; places] })
    }

    /// Binds the values and runs the statement.
    pub(crate) fn run(&mut self, values: &[Value<'_>]) -> Result<(), LedgerFault> {
        for ((place, value), open) in (1..).zip(values).zip(&mut self.open) {
            let opens = matches!(value, Value::Nothing);
            if !(opens && *open) {
                self.statement.raw_bind_parameter(place, value).map_err(fault("bind a value"))?;
            }
            *open = opens;
        }
        self.statement.raw_execute().map(|_| ()).map_err(fault("write a row"))
    }
}

/// Binds the values and runs a statement.
fn run(statement: &mut Statement<'_>, values: &[Value<'_>]) -> Result<u64, LedgerFault> {
    bind(statement, values)?;
    statement.raw_execute().map(|rows| rows as u64).map_err(fault("write a row"))
}

fn bind(statement: &mut Statement<'_>, values: &[Value<'_>]) -> Result<(), LedgerFault> {
    for (place, value) in values.iter().enumerate() {
        statement.raw_bind_parameter(place + 1, value).map_err(fault("bind a value"))?;
    }
    Ok(())
}

pub(crate) fn execute(connection: &Connection, sql: &str, values: &[Value<'_>]) -> Result<u64, LedgerFault> {
    let mut statement = connection.prepare_cached(&numbered(sql)).map_err(fault("prepare a statement"))?;
    run(&mut statement, values)
}

pub(crate) fn stream(
    connection: &Connection,
    sql: &str,
    values: &[Value<'_>],
    each: &mut dyn FnMut(&Row<'_>) -> Result<ControlFlow<()>, LedgerFault>,
) -> Result<(), LedgerFault> {
    let mut statement = connection.prepare_cached(&numbered(sql)).map_err(fault("prepare a query"))?;
    bind(&mut statement, values)?;
    let mut rows = statement.raw_query();
    while let Some(row) = rows.next().map_err(fault("read rows"))? {
        if each(&Row::File(row))?.is_break() {
            break;
        }
    }
    Ok(())
}

/// Takes the right to write at once, so that two takers queue instead of failing half-way.
pub(crate) fn begin_writing(connection: &Connection) -> Result<(), LedgerFault> {
    connection.execute_batch("BEGIN IMMEDIATE").map_err(fault("begin to write"))
}

/// Tells apart what the disk, other programs and we ourselves got wrong.
pub(crate) fn fault(doing: &'static str) -> impl FnOnce(rusqlite::Error) -> LedgerFault {
    move |error| match error.sqlite_error_code() {
        Some(ErrorCode::DatabaseBusy | ErrorCode::DatabaseLocked) => LedgerFault::Locked,
        Some(ErrorCode::NotADatabase) => LedgerFault::NotALedger("the file".to_owned()),
        Some(ErrorCode::DatabaseCorrupt) => LedgerFault::Damaged(error.to_string()),
        Some(
            ErrorCode::CannotOpen
            | ErrorCode::DiskFull
            | ErrorCode::ReadOnly
            | ErrorCode::SystemIoFailure
            | ErrorCode::PermissionDenied,
        ) => LedgerFault::Disk(error.to_string()),
        _ => LedgerFault::Ours { doing, cause: told(&error) },
    }
}

/// The message without the statement, which may be pages long.
fn told(error: &rusqlite::Error) -> String {
    match error {
        rusqlite::Error::SqlInputError { msg, .. } => msg.clone(),
        other => other.to_string(),
    }
}
