//! PostgreSQL: one server that several people share.
//!
//! The connection is not encrypted (`NoTls`): it is meant for a server on this machine or behind a
//! tunnel, as the documentation says.

use crate::fault::LedgerFault;
use crate::location::Location;
use crate::store::row::Row;
use crate::store::sqlite::PATIENCE;
use crate::store::value::{Value, without_nul};
use ::postgres::fallible_iterator::FallibleIterator;
use ::postgres::types::{IsNull, ToSql, Type, to_sql_checked};
use ::postgres::{Client, Error, NoTls};
use bytes::BytesMut;
use std::error::Error as AnyError;
use std::ops::ControlFlow;
use std::time::Duration;

/// The schema that a ledger stands in unless its address names another.
const USUAL_SCHEMA: &str = "public";

impl ToSql for Value<'_> {
    fn to_sql(&self, wanted: &Type, out: &mut BytesMut) -> Result<IsNull, Box<dyn AnyError + Sync + Send>> {
        match (self, wanted) {
            (Value::Nothing, _) => Ok(IsNull::Yes),
            (Value::Whole(whole), &Type::INT8) => whole.to_sql(wanted, out),
            (Value::Real(real), &Type::FLOAT8) => real.to_sql(wanted, out),
            (Value::Text(text), &Type::TEXT) => without_nul(text).to_sql(wanted, out),
            (Value::Bytes(bytes), &Type::BYTEA) => bytes.to_sql(wanted, out),
            (value, wanted) => Err(format!("{value:?} is no {wanted}").into()),
        }
    }

    fn accepts(wanted: &Type) -> bool {
        [Type::INT8, Type::FLOAT8, Type::TEXT, Type::BYTEA].contains(wanted)
    }

    to_sql_checked!();
}

/// Connects, and makes the schema if it is to be new.
pub(crate) fn connect(url: &str) -> Result<Client, LedgerFault> {
    let (address, schema) = address_and_schema(url)?;
    let unreachable = |error: Error| LedgerFault::CannotReach {
        place: Location::Postgres(address.clone()).to_string(),
        cause: told(&error),
    };
    let mut client = Client::connect(&address, NoTls).map_err(unreachable)?;
    let path = format!("SET search_path TO {schema}; SET client_min_messages TO warning;");
    client.batch_execute(&path).map_err(fault("choose its schema"))?;
    wait_for_writers(&mut client, PATIENCE)?;
    Ok(client)
}

/// Makes the schema that the address names, where it is not there yet.
pub(crate) fn make_schema(client: &mut Client, url: &str) -> Result<(), LedgerFault> {
    let (_, schema) = address_and_schema(url)?;
    client.batch_execute(&format!("CREATE SCHEMA IF NOT EXISTS {schema}")).map_err(fault("make its schema"))
}

/// Splits our own `schema=name` off an address. The name goes into a statement, so it may hold only
/// small letters, digits and underscores.
fn address_and_schema(url: &str) -> Result<(String, String), LedgerFault> {
    if !["postgres://", "postgresql://"].iter().any(|scheme| url.starts_with(scheme)) {
        return Err(LedgerFault::CannotReach {
            place: Location::Postgres(url.to_owned()).to_string(),
            cause: "an address begins with postgresql://".to_owned(),
        });
    }
    let Some((address, queries)) = url.split_once('?') else {
        return Ok((url.to_owned(), USUAL_SCHEMA.to_owned()));
    };
    let (ours, theirs): (Vec<_>, Vec<_>) = queries.split('&').partition(|query| query.starts_with("schema="));
    let schema = ours.first().and_then(|query| query.strip_prefix("schema=")).unwrap_or(USUAL_SCHEMA);
    let plain = |c: char| c.is_ascii_lowercase() || c.is_ascii_digit() || c == '_';
    if schema.is_empty() || !schema.chars().all(plain) || schema.starts_with(|c: char| c.is_ascii_digit()) {
        return Err(LedgerFault::CannotReach {
            place: Location::Postgres(address.to_owned()).to_string(),
            cause: format!("{schema:?} is no name for a schema: use small letters, digits and underscores"),
        });
    }
    let address = match theirs.is_empty() {
        true => address.to_owned(),
        false => format!("{address}?{}", theirs.join("&")),
    };
    Ok((address, schema.to_owned()))
}

/// The words of the shelf. Source: PostgreSQL 15 documentation, "Full Text Search", GIN indexes.
const WORDS_OF_THE_SHELF: &str = "CREATE TABLE shelf_text (rowid BIGINT PRIMARY KEY, words TSVECTOR NOT NULL); \
    CREATE INDEX shelf_text_by_words ON shelf_text USING GIN (words)";

/// The schema's words as PostgreSQL has them.
pub(crate) fn ddl(schema: &str) -> String {
    let words = [
        ("BYTES", "BYTEA"),
        ("{strict}", ""),
        ("{bytewise}", " COLLATE \"C\""),
        ("{words_of_the_shelf}", WORDS_OF_THE_SHELF),
    ];
    words.iter().fold(schema.to_owned(), |text, (ours, theirs)| text.replace(ours, theirs))
}

pub(crate) fn execute(client: &mut Client, sql: &str, values: &[Value<'_>]) -> Result<u64, LedgerFault> {
    let values: Vec<&(dyn ToSql + Sync)> = values.iter().map(|value| value as &(dyn ToSql + Sync)).collect();
    client.execute(sql, &values).map_err(fault("write rows"))
}

pub(crate) fn stream(
    client: &mut Client,
    sql: &str,
    values: &[Value<'_>],
    each: &mut dyn FnMut(&Row<'_>) -> Result<ControlFlow<()>, LedgerFault>,
) -> Result<(), LedgerFault> {
    let mut rows = client.query_raw(sql, values.iter()).map_err(fault("ask for rows"))?;
    while let Some(row) = rows.next().map_err(fault("read rows"))? {
        if each(&Row::Server(&row))?.is_break() {
            break;
        }
    }
    Ok(())
}

/// Shuts out other writers, not readers, by a lock on the table that every writer adds to first.
pub(crate) fn begin_writing(client: &mut Client) -> Result<(), LedgerFault> {
    let begun = client.batch_execute("BEGIN; LOCK TABLE batch IN SHARE ROW EXCLUSIVE MODE");
    begun.map_err(|error| {
        let told = fault("begin to write")(error);
        // A failed statement leaves the transaction open; the first fault is the one to tell.
        let _ = client.batch_execute("ROLLBACK");
        told
    })
}

pub(crate) fn wait_for_writers(client: &mut Client, longest: Duration) -> Result<(), LedgerFault> {
    // PostgreSQL reads 0 as "for ever".
    let set = format!("SET lock_timeout TO {}", longest.as_millis().max(1));
    client.batch_execute(&set).map_err(fault("set its patience"))
}

/// Tells apart what the server, other programs and we ourselves got wrong, by the classes of
/// SQLSTATE. Source: PostgreSQL 15 documentation, Appendix A, "PostgreSQL Error Codes".
pub(crate) fn fault(doing: &'static str) -> impl FnOnce(Error) -> LedgerFault {
    move |error| {
        let cause = told(&error);
        let Some(code) = error.code().map(|state| state.code().to_owned()) else {
            return LedgerFault::CannotReach { place: "the server".to_owned(), cause };
        };
        match code.get(..2) {
            Some("08" | "28" | "57") => LedgerFault::CannotReach { place: "the server".to_owned(), cause },
            Some("53" | "58") => LedgerFault::Disk(cause),
            Some("40") => LedgerFault::Locked,
            _ if code == "55P03" => LedgerFault::Locked,
            _ => LedgerFault::Ours { doing, cause },
        }
    }
}

/// The driver's message with what the server itself said.
fn told(error: &Error) -> String {
    match error.as_db_error() {
        Some(said) => said.to_string(),
        None => match error.source() {
            Some(source) => format!("{error}: {source}"),
            None => error.to_string(),
        },
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_schema_is_split_off_and_never_trusted() {
        let split = |url: &str| address_and_schema(url).ok();
        let plain = Some(("postgres://a@b/c".to_owned(), "public".to_owned()));
        assert_eq!(split("postgres://a@b/c"), plain);
        let named = Some(("postgres://a@b/c?connect_timeout=3".to_owned(), "house_1".to_owned()));
        assert_eq!(split("postgres://a@b/c?schema=house_1&connect_timeout=3"), named);
        for hostile in ["", "1x", "a;b", "a\"b", "A"] {
            assert_eq!(split(&format!("postgres://a@b/c?schema={hostile}")), None, "{hostile}");
        }
    }
}
