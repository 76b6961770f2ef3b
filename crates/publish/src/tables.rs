//! Tables for a spreadsheet: CSV and XLSX.
//!
//! Fill a [`Sheet`] and hand it to [`delimited::to_csv`] or [`workbook::to_xlsx`]. Text that a spreadsheet
//! would run as a formula is made harmless on the way out, by a rule ([`guard`]) that can be undone
//! exactly, so that a quarantined row can be exported, corrected and taken again.

pub mod delimited;
pub mod guard;
pub mod workbook;

use jiff::civil::Date;

/// A table with one row of headings.
#[derive(Clone, Debug, PartialEq)]
pub struct Sheet {
    /// Its name, as on the tab of a workbook.
    pub name: String,
    /// What each column holds, with its unit: `weight_g`.
    pub headings: Vec<String>,
    /// Rows of cells. A short row leaves its last columns empty.
    pub rows: Vec<Vec<Cell>>,
}

/// One cell.
#[derive(Clone, Debug, PartialEq)]
pub enum Cell {
    /// Nothing written.
    Empty,
    /// Words, or a number that must stay as it was written.
    Text(String),
    /// A number. One that is not finite is written as nothing.
    Number(f64),
    /// A count.
    Count(u64),
    /// A day.
    Day(Date),
}
