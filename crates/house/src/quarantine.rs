//! The quarantine: seeing the rows that wait, mending one in place, and exporting them all.

use crate::fault::HouseFault;
use crate::folder::{self, House};
use crate::mapping;
use crate::roster;
use crate::take::Desk;
use intake::layout::{Answers, SavedMapping};
use intake::recognise::recognise;
use intake::rejection::Rejection;
use intake::table::Table;
use intake::take::Taken;
use jiff::{Timestamp, civil::Date};
use ledger::batch::{BatchSummary, Source};
use ledger::ledger::Ledger;
use ledger::quarantine::Listed;
pub use ledger::quarantine::{QuarantineNumber, Quarantined};
use ledger::writer::Writer;
use publish::tables::Cell;
pub use publish::tables::Sheet;
use publish::tables::delimited::{ByteOrderMark, to_csv};
use std::ops::ControlFlow;
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
    retake(&mut ledger, &row, &headings, cells, mending)
}

/// Takes the rows that wait for one name again, now that it means a variety. Rows that have another
/// fault still wait.
///
/// # Errors
/// What the ledger refuses.
pub(crate) fn retake_named(
    ledger: &mut Ledger,
    name: &str,
    mending: &Mending,
) -> Result<Vec<BatchSummary>, HouseFault> {
    let key = ledger::names::key(name);
    let mut taken = Vec::new();
    for row in ledger.quarantine(Listed::Waiting)? {
        if ledger::names::key(&row.rejected.value) != key {
            continue;
        }
        let headings = ledger.headings(row.batch)?;
        let cells = row.rejected.cells.clone();
        match retake(ledger, &row, &headings, cells, mending) {
            Ok(summary) => taken.push(summary),
            Err(HouseFault::StillRejected { .. } | HouseFault::Recognise { .. }) => {}
            Err(fault) => return Err(fault),
        }
    }
    Ok(taken)
}

/// The rows that wait as one table: to be corrected and taken again. Rows of tables with other headings
/// share the columns that they have in common.
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
const ABOUT: [&str; 6] = ["file", "sheet", "row", "column", "reason", "remedy"];

fn exported(row: &Quarantined, own: &[String], headings: &mut Vec<String>) -> Vec<Cell> {
    let rejected = &row.rejected;
    let text = |text: &str| Cell::Text(text.to_owned());
    let mut cells = vec![
        text(row.file_name.as_deref().unwrap_or_default()),
        text(row.sheet.as_deref().unwrap_or_default()),
        Cell::Count(rejected.row),
        text(rejected.column.as_deref().unwrap_or_default()),
        text(&rejected.reason),
        text(&rejected.remedy),
    ];
    for (heading, cell) in own.iter().zip(&rejected.cells) {
        let at = headings.iter().skip(ABOUT.len()).position(|known| known == heading);
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

/// Reads one row as its whole table was read, and keeps what it gives.
fn retake(
    ledger: &mut Ledger,
    row: &Quarantined,
    headings: &[String],
    cells: Vec<String>,
    mending: &Mending,
) -> Result<BatchSummary, HouseFault> {
    let from = ledger.batch(row.batch)?.source;
    let file_name = from.file_name.clone().unwrap_or_default();
    let rows = [(0, headings.to_vec()), (row.rejected.row, cells)];
    let table = Table::of_rows(&file_name, from.sheet.as_deref(), &rows);
    let answers = Answers { heading_row: Some(0), ..read_before(&from) };
    let layout = recognise(&table, &[], &answers)
        .map_err(|fault| HouseFault::Recognise { table: file_name.clone(), fault })?;
    let roster = roster::gather(ledger)?;
    let source = Source {
        who: mending.who.clone(),
        at: mending.at,
        headings: headings.to_vec(),
        sha256: None,
        file_name: None,
        why: Some(format!("quarantined row {} mended", row.number)),
        ..from
    };
    let mut writer = ledger.begin_batch(&source)?;
    let (mut desk, mut taken) = (Desk::default(), Vec::new());
    intake::take::take(&table, &layout, &roster, mending.today, &mut |one| {
        taken.push(one);
        ControlFlow::Continue(())
    })
    .map_err(|fault| HouseFault::Read { file: file_name, fault })?;
    put_all(&mut writer, &mut desk, taken)?;
    writer.solve(row.number)?;
    Ok(writer.commit()?)
}

fn put_all(writer: &mut Writer<'_>, desk: &mut Desk, taken: Vec<Taken>) -> Result<(), HouseFault> {
    for one in taken {
        if let Taken::Rejected(rejection) = &one {
            return Err(still_rejected(rejection));
        }
        desk.put(writer, one)?;
    }
    match std::mem::take(&mut desk.clashes).into_values().next() {
        Some(clash) => Err(clash.into()),
        None => Ok(()),
    }
}

fn read_before(from: &Source) -> Answers {
    let kept = from.reading.as_deref().and_then(|reading| mapping::read("", reading));
    kept.map(|SavedMapping { answers, .. }| answers).unwrap_or_default()
}

fn still_rejected(rejection: &Rejection) -> HouseFault {
    HouseFault::StillRejected {
        row: rejection.row,
        column: rejection.column.clone().unwrap_or_default(),
        value: rejection.value.clone(),
        reason: rejection.fault.to_string(),
        remedy: rejection.remedy.clone(),
    }
}

/// Writes the rows that wait to a CSV, whole or not at all, and tells how many there are.
///
/// # Errors
/// What the ledger or the disk refuses.
pub fn export_to(house: &House, file: &Path) -> Result<usize, HouseFault> {
    let sheet = export(house)?;
    folder::write(file, as_csv(&sheet)?)?;
    Ok(sheet.rows.len())
}

/// The rows that wait as the bytes of a CSV.
///
/// # Errors
/// What the ledger refuses.
pub fn export_csv(house: &House) -> Result<Vec<u8>, HouseFault> {
    as_csv(&export(house)?)
}

fn as_csv(sheet: &Sheet) -> Result<Vec<u8>, HouseFault> {
    let mut csv = Vec::new();
    to_csv(sheet, ByteOrderMark::Written, &mut csv).map_err(|fault| HouseFault::Table(fault.to_string()))?;
    Ok(csv)
}
