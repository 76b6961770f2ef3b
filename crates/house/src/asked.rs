//! What the user says of a table where its headings do not, in the user's own words for columns.

use crate::fault::HouseFault;
use crate::opened::name_of;
use crate::weather::Scale;
pub use intake::column::{ColumnUse, Measure};
pub use intake::day::DateOrder;
pub use intake::layout::Answers;
pub use intake::layout::ColumnAnswer;
pub use intake::number::DecimalMark;
use intake::table::Table;
pub use intake::unit::Unit;
use std::ops::ControlFlow;

/// What the user says of a table.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Asked {
    /// Answers about the table as a whole.
    pub answers: Answers,
    /// Answers about columns, by heading.
    pub columns: Vec<AskedColumn>,
    /// Answers about single tables of several that are taken together; they go before the others.
    pub tables: Vec<AskedTable>,
    /// The degrees of weather files that do not say.
    pub scale: Option<Scale>,
    /// The station of weather files that name none.
    pub station: Option<String>,
}

/// What the user says of one table of several.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct AskedTable {
    /// File and sheet, as [`crate::opened::name_of`] names it.
    pub table: String,
    /// Answers about it and, by place, about its columns.
    pub answers: Answers,
    /// The degrees of a weather file.
    pub scale: Option<Scale>,
    /// The station that is meant, of a weather file with many.
    pub station: Option<String>,
}

impl Asked {
    /// The degrees of a weather file, as far as somebody said.
    #[must_use]
    pub(crate) fn scale_of(&self, file: &str) -> Option<Scale> {
        let own = self.tables.iter().find(|own| own.table == file);
        own.and_then(|own| own.scale).or(self.scale)
    }

    /// The station of a weather file, as far as somebody said.
    #[must_use]
    pub(crate) fn station_of(&self, file: &str) -> Option<String> {
        let own = self.tables.iter().find(|own| own.table == file);
        own.and_then(|own| own.station.clone()).or_else(|| self.station.clone())
    }

    /// Whether somebody said that a file holds notes.
    pub(crate) fn says_notes(&self, file: &str) -> bool {
        let own = self.tables.iter().filter(|own| own.table == file);
        let mut kinds = own.map(|own| own.answers.kind).chain([self.answers.kind]);
        kinds.any(|kind| kind.is_some()) || !self.columns.is_empty()
    }
}

/// What the user says of one column.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct AskedColumn {
    /// Its heading as written in the table; case does not count.
    pub heading: String,
    /// What it holds.
    pub reads: Option<ColumnUse>,
    /// The unit of cells that name none.
    pub unit: Option<Unit>,
}

/// Rows from the top among which a heading is looked for.
const ROWS_WITH_HEADINGS: u32 = 60;

/// The first heading that something is said of and that is none of `headings`.
pub(crate) fn column_of_none(asked: &Asked, headings: &[String]) -> Option<String> {
    let known = |wanted: &str| headings.iter().any(|heading| folded(heading) == wanted);
    asked.columns.iter().map(|column| &column.heading).find(|heading| !known(&folded(heading))).cloned()
}

fn folded(heading: &str) -> String {
    heading.trim().to_lowercase()
}

/// The answers for one table, its columns found by their headings. What is said of a column that it does not
/// have is said of other tables.
///
/// # Errors
/// A read fault.
pub fn answers_for(table: &Table, asked: &Asked) -> Result<Answers, HouseFault> {
    let own = asked.tables.iter().find(|own| own.table == name_of(table));
    let mut answers = own.map_or_else(|| asked.answers.clone(), |own| own.answers.clone());
    for column in &asked.columns {
        let Some(place) = place_of(table, &column.heading)? else { continue };
        // What a column holds and its unit may be said one after the other.
        match answers.columns.iter_mut().find(|said| said.place == place) {
            Some(said) => {
                said.reads = column.reads.or(said.reads);
                said.unit = column.unit.or(said.unit);
            }
            None => {
                let (reads, unit) = (column.reads, column.unit);
                answers.columns.push(ColumnAnswer { place, reads, unit, ..ColumnAnswer::default() });
            }
        }
    }
    Ok(answers)
}

/// Where a table has a column of this heading; `None` where it has none.
pub(crate) fn place_of(table: &Table, heading: &str) -> Result<Option<usize>, HouseFault> {
    let wanted = folded(heading);
    let (mut found, mut seen) = (None, 0);
    table
        .walk(&mut |row| {
            found = row.cells().position(|cell| folded(cell.text) == wanted);
            seen += 1;
            if found.is_some() || ROWS_WITH_HEADINGS <= seen {
                ControlFlow::Break(())
            } else {
                ControlFlow::Continue(())
            }
        })
        .map_err(|fault| HouseFault::Read { file: table.file_name().to_owned(), fault })?;
    Ok(found)
}
