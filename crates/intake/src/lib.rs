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

mod delimited;
mod encoding;
pub mod file;
mod grid;
mod opendocument;
mod package;
pub mod table;
mod workbook;

pub mod column;
pub mod day;
mod fingerprint;
mod headings;
pub mod kind;
pub mod layout;
pub mod number;
pub mod recognise;
mod survey;
pub mod synonyms;
pub mod unit;
pub mod words;

pub mod roster;
pub mod suggestion;

mod cells;
mod colours;
pub mod entry;
mod fruit;
mod germination;
mod growouts;
mod heights;
mod lots;
pub mod one_fruit;
mod picks;
mod plan;
mod plausible;
pub mod rejection;
pub mod sales;
mod stages;
mod subject;
pub mod take;
pub mod unnamed;
mod varieties;
mod weighings;
