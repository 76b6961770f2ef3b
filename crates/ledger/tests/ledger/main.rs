//! The ledger on both its servers: every test here runs on a SQLite file, and again on the PostgreSQL
//! that `LOCULE_POSTGRES` names.

#![expect(clippy::unwrap_used, clippy::indexing_slicing, reason = "a test breaks off where it cannot go on")]
#![expect(clippy::print_stdout, reason = "a test says what it left out")]

mod evidence;
mod ground;
mod keeping;
mod killing;
mod layouts;
mod naming;
mod opening;
mod properties;
mod quarantine;
mod rounds;
mod saying;
mod shelf;
mod taking;
mod undoing;
mod weather;
