//! The ledger on both its servers: every test here runs on a SQLite file, and again on the PostgreSQL
//! that `LOCULE_POSTGRES` names.

mod evidence;
mod ground;
mod keeping;
mod killing;
mod naming;
mod opening;
mod properties;
mod quarantine;
mod rounds;
mod saying;
mod taking;
mod undoing;
