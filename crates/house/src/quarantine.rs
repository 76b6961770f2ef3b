//! The quarantine: seeing the rows that wait, mending one in place, and exporting them all.

use crate::again;
use crate::corrected;
use crate::fault::HouseFault;
use crate::folder::{self, House};
use crate::tables;
use jiff::{Timestamp, civil::Date};
use ledger::batch::BatchSummary;
use ledger::ledger::Ledger;
use ledger::quarantine::{Listed, Rejected};
pub use ledger::quarantine::{QuarantineNumber, Quarantined};
use publish::tables::Cell;
pub use publish::tables::Sheet;
use std::path::Path;

/// A cell of a quarantined row with its new value.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct NewValue {
    /// The heading of its column.
    pub heading: String,
    /// What to write there.
    pub value: String,
}

/// Who mends a row, and when.
#[derive(Clone, Debug)]
pub struct Mending {
    /// Who.
    pub who: String,
    /// When.
    pub at: Timestamp,
    /// The day, for dates that lie ahead of it.
    pub today: Date,
}

/// The rows that wait, by number.
///
/// # Errors
/// What the ledger refuses.
pub fn waiting(house: &House) -> Result<Vec<Quarantined>, HouseFault> {
    Ok(Ledger::open(&house.ledger_location())?.quarantine(Listed::Waiting)?)
}

/// One row with the headings of its table.
///
/// # Errors
/// [`ledger::fault::LedgerFault::NoSuchQuarantined`], or what the ledger refuses.
pub fn one(house: &House, number: QuarantineNumber) -> Result<(Quarantined, Vec<String>), HouseFault> {
    let mut ledger = Ledger::open(&house.ledger_location())?;
    let row = ledger.quarantined(number)?;
    let headings = ledger.headings(row.batch)?;
    Ok((row, headings))
}

/// Puts new values into a quarantined row and takes it again, as a batch of its own.
///
/// # Errors
/// [`HouseFault::NoSuchColumn`] for a heading that its table lacks; [`HouseFault::StillRejected`] where
/// the row still cannot be taken, and nothing has changed then; what the ledger refuses.
pub fn mend(
    house: &House,
    number: QuarantineNumber,
    values: &[NewValue],
    mending: &Mending,
) -> Result<BatchSummary, HouseFault> {
    let mut ledger = Ledger::open(&house.ledger_location())?;
    let row = ledger.quarantined(number)?;
    let headings = ledger.headings(row.batch)?;
    let cells = with_values(&row, &headings, values)?;
    again::mend_one(&mut ledger, Quarantined { rejected: Rejected { cells, ..row.rejected }, ..row }, mending)
}

/// The rows that wait as one table: to be corrected and taken again. Rows of tables with other headings
/// share the columns that they have in common. By its number each row is known when the table comes back.
///
/// # Errors
/// What the ledger refuses.
pub fn export(house: &House) -> Result<Sheet, HouseFault> {
    let mut ledger = Ledger::open(&house.ledger_location())?;
    let (mut headings, mut rows) = (ABOUT.map(str::to_owned).to_vec(), Vec::new());
    for row in ledger.quarantine(Listed::Waiting)? {
        let own = ledger.headings(row.batch)?;
        rows.push(exported(&row, &own, &mut headings));
    }
    Ok(Sheet { name: "quarantine".to_owned(), headings, rows })
}

/// What is told of each exported row before its own cells.
pub(crate) const ABOUT: [&str; 7] = ["number", "file", "sheet", "row", "column", "reason", "remedy"];

fn exported(row: &Quarantined, own: &[String], headings: &mut Vec<String>) -> Vec<Cell> {
    let rejected = &row.rejected;
    let text = |text: &str| Cell::Text(text.to_owned());
    let mut cells = vec![
        Cell::Count(row.number.0.into()),
        text(row.file_name.as_deref().unwrap_or_default()),
        text(row.sheet.as_deref().unwrap_or_default()),
        Cell::Count(rejected.row),
        text(rejected.column.as_deref().unwrap_or_default()),
        text(&rejected.reason),
        text(&rejected.remedy),
    ];
    for (own_place, (heading, cell)) in own.iter().zip(&rejected.cells).enumerate() {
        let beside = headings.get(ABOUT.len()..).unwrap_or_default();
        let at = corrected::column_of(own, own_place, beside);
        let place = at.map_or(headings.len(), |place| place + ABOUT.len());
        if at.is_none() {
            headings.push(heading.clone());
        }
        cells.resize(cells.len().max(place + 1), Cell::Empty);
        if let Some(free) = cells.get_mut(place) {
            *free = text(cell);
        }
    }
    cells
}

fn with_values(
    row: &Quarantined,
    headings: &[String],
    values: &[NewValue],
) -> Result<Vec<String>, HouseFault> {
    let mut cells = row.rejected.cells.clone();
    cells.resize(cells.len().max(headings.len()), String::new());
    for new in values {
        let wanted = new.heading.trim().to_lowercase();
        let place = headings.iter().position(|heading| heading.trim().to_lowercase() == wanted);
        let cell = place.and_then(|place| cells.get_mut(place)).ok_or_else(|| HouseFault::NoSuchColumn {
            table: format!("quarantined row {}", row.number),
            heading: new.heading.clone(),
        })?;
        cell.clone_from(&new.value);
    }
    Ok(cells)
}

/// Writes the rows that wait to a CSV, whole or not at all, and tells how many there are.
///
/// # Errors
/// What the ledger or the disk refuses.
pub fn export_to(house: &House, file: &Path) -> Result<usize, HouseFault> {
    let sheet = export(house)?;
    folder::write(file, tables::csv(&sheet)?)?;
    Ok(sheet.rows.len())
}

/// The rows that wait as the bytes of a CSV.
///
/// # Errors
/// What the ledger refuses.
pub fn export_csv(house: &House) -> Result<Vec<u8>, HouseFault> {
    tables::csv(&export(house)?)
}
