//! The ledger: everything the house has seen, said and done, and nothing it has worked out alone.
//!
//! This is the only crate that speaks SQL. Facts are added and never edited: a correction, a
//! withdrawal and the undoing of a whole file are facts of their own, so nothing is ever lost and
//! every number on a packet can be traced to a row of a file that somebody brought in. The same
//! tables live in one SQLite file or on a PostgreSQL server.
//!
//! Start at [`ledger::Ledger`] to open one, then [`writer::Writer`] to bring rows in and
//! [`evidence`] to read them back. It knows nothing of file formats, screens or calls.

pub mod fault;
pub mod ledger;
pub mod location;

pub mod batch;
pub mod history;
pub mod undo;
pub mod writer;

pub mod begun;
pub mod gardens;
pub mod growouts;
pub mod layouts;
pub mod lots;
pub mod names;
pub mod sales;
pub mod varieties;
pub mod weather;

pub mod amend;
pub mod doubts;
pub mod evidence;
pub mod quarantine;
pub mod records;

pub mod calls;
pub mod guides;
pub mod keep;
pub mod settings;
pub mod shelf;
pub mod verify;

mod kept;
mod store;
