//! What the user says of a table where its headings do not, in the user's own words for columns.

use crate::fault::HouseFault;
use crate::opened::name_of;
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
}

/// What the user says of one table of several.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct AskedTable {
    /// File and sheet, as [`crate::opened::name_of`] names it.
    pub table: String,
    /// Answers about it and, by place, about its columns.
    pub answers: Answers,
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

/// The answers for one table, its columns found by their headings.
///
/// # Errors
/// [`HouseFault::NoSuchColumn`] for a heading that the table does not have; a read fault.
pub fn answers_for(table: &Table, asked: &Asked) -> Result<Answers, HouseFault> {
    let own = asked.tables.iter().find(|own| own.table == name_of(table));
    let mut answers = own.map_or_else(|| asked.answers.clone(), |own| own.answers.clone());
    for column in &asked.columns {
        let place = place_of(table, &column.heading)?.ok_or_else(|| HouseFault::NoSuchColumn {
            table: table.file_name().to_owned(),
            heading: column.heading.clone(),
        })?;
        let (reads, unit) = (column.reads, column.unit);
        answers.columns.push(ColumnAnswer { place, reads, unit, ..ColumnAnswer::default() });
    }
    Ok(answers)
}

fn place_of(table: &Table, heading: &str) -> Result<Option<usize>, HouseFault> {
    let wanted = heading.trim().to_lowercase();
    let (mut found, mut seen) = (None, 0);
    table
        .walk(&mut |row| {
            found = row.cells().position(|cell| cell.text.trim().to_lowercase() == wanted);
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
