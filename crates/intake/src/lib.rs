//! The door for files: untidy notes in, checked entries or a quarantine out.
//!
//! A grower's file goes through four steps, one call each:
//!
//! 1. [`file::open`] finds out what the file really is and gives its tables.
//! 2. [`recognise::recognise`] finds the heading row and says what each column was read as: a
//!    [`layout::Layout`] that can be shown, questioned, changed and saved.
//! 3. [`roster::Roster`] carries what the house already knows: names, plots, seasons.
//! 4. [`take::take`] turns every row into typed entries, each with its doubts, or into a
//!    rejection that names row, column, value, reason and remedy.
//!
//! Nothing is guessed: what cannot be decided from the file itself is a question in the layout, and
//! rows that hang on it are rejected until it is answered. This crate stores nothing, prints nothing
//! and does not know the date unless told.

pub mod file;
pub mod table;

pub mod column;
pub mod day;
pub mod kind;
pub mod layout;
pub mod number;
pub mod recognise;
pub mod unit;

pub mod roster;
pub mod suggestion;

pub mod entry;
pub mod rejection;
pub mod take;
