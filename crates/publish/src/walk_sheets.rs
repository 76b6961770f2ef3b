//! Walk sheets: paper for a walk along the plots, with a box for every note that is due that day.
//!
//! Fill [`WalkSheets`] and hand it to [`walk_sheets`]. Each walk is one person's part: a bed sketch, then a table for
//! each kind of note. Headings are printed as they are given, so that a sheet that is typed up reads like any other
//! table of notes. Words arrive worded; they are never read as markup.

mod copy;

pub use crate::catalogue::Paper;
use crate::typesetting::{self, Fonts, Job, Template, TypesettingFault};
use jiff::civil::Date;
use record::length::Millimetres;

/// Everything that the walk sheets of one day say.
#[derive(Clone, Debug)]
pub struct WalkSheets {
    /// The house's name.
    pub house: String,
    /// The grow-out's name.
    pub grow_out: String,
    /// The day of the walk.
    pub day: Date,
    /// The parts of the walk.
    pub walks: Vec<Walk>,
    /// The beds as an SVG document, where they are known.
    pub sketch: Option<String>,
    /// Font files of the house's own.
    pub house_fonts: Vec<Vec<u8>>,
}

/// One person's part.
#[derive(Clone, Debug)]
pub struct Walk {
    /// Whose it is, or which: `Wren`, `part 2 of 3`.
    pub whose: String,
    /// What is due, in a sentence.
    pub due: String,
    /// The tables, one a kind of note.
    pub tables: Vec<Table>,
}

/// One table.
#[derive(Clone, Debug, PartialEq)]
pub struct Table {
    /// What it is for: `Picks and culls`.
    pub title: String,
    /// Its columns.
    pub columns: Vec<Column>,
    /// Its rows, in walking order.
    pub rows: Vec<Row>,
}

/// A column.
#[derive(Clone, Debug, PartialEq)]
pub struct Column {
    /// Its heading.
    pub heading: String,
    /// Its width; the widest share what is left.
    pub width: Millimetres,
}

/// A row.
#[derive(Clone, Debug, PartialEq)]
pub struct Row {
    /// Its cells, one a column.
    pub cells: Vec<Cell>,
    /// What begins with it, such as another bed, told above it.
    pub begins: Option<String>,
}

/// A cell.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Cell {
    /// Words that are printed.
    Printed(String),
    /// A box for the pencil.
    Open,
    /// Nothing is due there.
    NotDue,
}

/// Sets the walk sheets and returns them as a tagged PDF.
///
/// The same `sheets` and `paper` give the same bytes on every machine.
///
/// # Errors
/// [`TypesettingFault::UnreadableFont`] where a house font is no font; every other variant is a fault in
/// this program and not in what was asked.
pub fn walk_sheets(sheets: &WalkSheets, paper: Paper) -> Result<Vec<u8>, TypesettingFault> {
    let fonts = Fonts::with(&sheets.house_fonts)?;
    let copy = copy::copy(sheets, paper, &fonts);
    let data = serde_json::to_vec(&copy).map_err(TypesettingFault::Data)?;
    let identity = format!("locule walk sheets of {} on {}", sheets.grow_out, sheets.day);
    typesetting::typeset(&Job { template: Template::WalkSheets, data, identity }, &fonts)
}
