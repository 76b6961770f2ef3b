//! One connection in use: statements in, rows out, and many rows added fast by kept statements on
//! SQLite and by `COPY` on PostgreSQL.

use crate::fault::LedgerFault;
use crate::store::row::Row;
use crate::store::sqlite::Adder;
use crate::store::value::{Value, without_nul};
use crate::store::{postgres, sqlite};
use ::postgres::Client;
use rusqlite::Connection;
use std::fmt::Write as _;
use std::io::Write as _;
use std::ops::ControlFlow;

/// Rows held back before they are copied to a server. Large enough that the round trip does not count.
const ROWS_A_COPY: usize = 8_192;

/// A table that rows are added to by the thousand.
#[derive(Debug)]
pub(crate) struct Table {
    /// Its name.
    pub(crate) name: &'static str,
    /// Its columns, in the order of the values.
    pub(crate) columns: &'static [&'static str],
    /// Which tables are copied before it.
    pub(crate) copied: Copied,
}

/// Rows that were held back are copied in this order, so that none comes before one it refers to.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub(crate) enum Copied {
    /// It refers to nothing that is held back.
    First,
    /// It refers to rows of the first tables.
    Then,
}

impl Table {
    fn insert(&self) -> String {
        let places: Vec<String> = (1..=self.columns.len()).map(|place| format!("${place}")).collect();
        format!("INSERT INTO {} ({}) VALUES ({})", self.name, self.columns.join(", "), places.join(", "))
    }
}

/// A connection in use. Making one costs nothing, so [`super::Store`] makes one for every question.
pub(crate) enum Session<'s> {
    /// Into a file.
    File(IntoFile<'s>),
    /// Into a server.
    Server(IntoServer<'s>),
}

pub(crate) struct IntoFile<'s> {
    connection: &'s Connection,
    adders: Vec<(&'static str, Adder<'s>)>,
}

pub(crate) struct IntoServer<'s> {
    client: &'s mut Client,
    held: Vec<Held>,
    rows: usize,
}

/// Rows of one table that wait to be copied, in the text form of `COPY`.
struct Held {
    table: &'static Table,
    text: String,
}

impl<'s> Session<'s> {
    pub(crate) fn file(connection: &'s Connection) -> Self {
        Self::File(IntoFile { connection, adders: Vec::new() })
    }

    pub(crate) fn server(client: &'s mut Client) -> Self {
        Self::Server(IntoServer { client, held: Vec::new(), rows: 0 })
    }

    /// Adds one row; a server gets it some thousand rows later, or at [`Session::flush`].
    pub(crate) fn add(&mut self, table: &'static Table, values: &[Value<'_>]) -> Result<(), LedgerFault> {
        match self {
            Self::File(file) => file.add(table, values),
            Self::Server(server) => server.add(table, values),
        }
    }

    /// Sends what was held back.
    pub(crate) fn flush(&mut self) -> Result<(), LedgerFault> {
        match self {
            Self::File(_) => Ok(()),
            Self::Server(server) => server.flush(),
        }
    }

    /// Runs one statement at once.
    pub(crate) fn execute(&mut self, sql: &str, values: &[Value<'_>]) -> Result<u64, LedgerFault> {
        match self {
            Self::File(file) => sqlite::execute(file.connection, sql, values),
            Self::Server(server) => postgres::execute(server.client, sql, values),
        }
    }

    /// Runs one query and hands on its rows one by one, until `each` breaks off or fails. Rows that were
    /// held back are not among them.
    pub(crate) fn stream(
        &mut self,
        sql: &str,
        values: &[Value<'_>],
        each: &mut dyn FnMut(&Row<'_>) -> Result<ControlFlow<()>, LedgerFault>,
    ) -> Result<(), LedgerFault> {
        match self {
            Self::File(file) => sqlite::stream(file.connection, sql, values, each),
            Self::Server(server) => postgres::stream(server.client, sql, values, each),
        }
    }

    /// Reads every row of a query.
    pub(crate) fn rows<T>(
        &mut self,
        sql: &str,
        values: &[Value<'_>],
        mut read: impl FnMut(&Row<'_>) -> Result<T, LedgerFault>,
    ) -> Result<Vec<T>, LedgerFault> {
        let mut all = Vec::new();
        self.stream(sql, values, &mut |row| {
            all.push(read(row)?);
            Ok(ControlFlow::Continue(()))
        })?;
        Ok(all)
    }

    /// Reads the first row of a query, if there is one.
    pub(crate) fn first<T>(
        &mut self,
        sql: &str,
        values: &[Value<'_>],
        mut read: impl FnMut(&Row<'_>) -> Result<T, LedgerFault>,
    ) -> Result<Option<T>, LedgerFault> {
        let mut first = None;
        self.stream(sql, values, &mut |row| {
            first = Some(read(row)?);
            Ok(ControlFlow::Break(()))
        })?;
        Ok(first)
    }

    /// The next free number of a table that counts from 1.
    pub(crate) fn next_number(&mut self, table: &str) -> Result<i64, LedgerFault> {
        let last =
            self.first(&format!("SELECT max(number) FROM {table}"), &[], |row| row.whole_or_none(0))?;
        Ok(last.flatten().unwrap_or(0) + 1)
    }

    /// Makes everything durable.
    pub(crate) fn commit(&mut self) -> Result<(), LedgerFault> {
        self.flush()?;
        self.end("COMMIT")
    }

    /// Forgets everything.
    pub(crate) fn roll_back(&mut self) -> Result<(), LedgerFault> {
        self.end("ROLLBACK")
    }

    fn end(&mut self, how: &'static str) -> Result<(), LedgerFault> {
        match self {
            Self::File(file) => {
                file.adders.clear();
                file.connection.execute_batch(how).map_err(sqlite::fault("end a batch"))
            }
            Self::Server(server) => server.client.batch_execute(how).map_err(postgres::fault("end a batch")),
        }
    }
}

impl IntoFile<'_> {
    fn add(&mut self, table: &'static Table, values: &[Value<'_>]) -> Result<(), LedgerFault> {
        let found = self.adders.iter_mut().find(|(name, _)| std::ptr::eq(*name, table.name));
        if let Some((_, adder)) = found {
            return adder.run(values);
        }
        let mut adder = Adder::new(self.connection, &table.insert(), table.columns.len())?;
        adder.run(values)?;
        self.adders.push((table.name, adder));
        Ok(())
    }
}

impl IntoServer<'_> {
    fn add(&mut self, table: &'static Table, values: &[Value<'_>]) -> Result<(), LedgerFault> {
        match self.held.iter_mut().find(|held| std::ptr::eq(held.table, table)) {
            Some(held) => held.push(values),
            None => {
                let mut held = Held { table, text: String::new() };
                held.push(values);
                self.held.push(held);
                self.held.sort_by_key(|held| held.table.copied);
            }
        }
        self.rows += 1;
        if self.rows < ROWS_A_COPY { Ok(()) } else { self.flush() }
    }

    fn flush(&mut self) -> Result<(), LedgerFault> {
        for held in self.held.iter_mut().filter(|held| !held.text.is_empty()) {
            let into = format!("COPY {} ({}) FROM STDIN", held.table.name, held.table.columns.join(", "));
            let mut copy = self.client.copy_in(&into).map_err(postgres::fault("begin to copy rows"))?;
            copy.write_all(held.text.as_bytes()).map_err(broken)?;
            copy.finish().map_err(postgres::fault("copy rows"))?;
            held.text.clear();
        }
        self.rows = 0;
        Ok(())
    }
}

fn broken(error: std::io::Error) -> LedgerFault {
    LedgerFault::CannotReach { place: "the server".to_owned(), cause: error.to_string() }
}

impl Held {
    fn push(&mut self, values: &[Value<'_>]) {
        for (place, value) in values.iter().enumerate() {
            if place > 0 {
                self.text.push('\t');
            }
            push_copied(&mut self.text, *value);
        }
        self.text.push('\n');
    }
}

/// Writes one value in the text form of `COPY`. Source: PostgreSQL 15 documentation, "COPY", text format.
fn push_copied(text: &mut String, value: Value<'_>) {
    // Writing to a string cannot fail.
    let _ = match value {
        Value::Nothing => text.write_str("\\N"),
        Value::Whole(whole) => write!(text, "{whole}"),
        Value::Real(real) => write!(text, "{real:?}"),
        Value::Text(words) => without_nul(words).chars().try_for_each(|c| push_escaped(text, c)),
        Value::Bytes(bytes) => {
            text.push_str("\\\\x");
            bytes.iter().try_for_each(|byte| write!(text, "{byte:02x}"))
        }
    };
}

fn push_escaped(text: &mut String, c: char) -> std::fmt::Result {
    match c {
        '\\' => text.write_str("\\\\"),
        '\t' => text.write_str("\\t"),
        '\n' => text.write_str("\\n"),
        '\r' => text.write_str("\\r"),
        other => text.write_char(other),
    }
}
