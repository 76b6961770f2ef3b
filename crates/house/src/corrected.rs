//! The quarantine come back: rows that were exported, corrected by hand and are brought in again.
//!
//! Each is the row that waits under its number, so it is read as its own table was, whatever stands beside it
//! in the export, and leaves the quarantine when it can be taken. Start at [`read`].

use crate::again;
use crate::fault::HouseFault;
use crate::opened::name_of;
use crate::quarantine::{ABOUT, Mending};
use crate::take::{Outcome, Request, TableTaken, kind_of};
use intake::kind::Kind;
use intake::table::{ReadFault, Row, Table};
use ledger::ledger::Ledger;
use ledger::quarantine::{Listed, Quarantined, Rejected};
use publish::tables::guard::unguarded;
use std::collections::BTreeMap;
use std::ops::ControlFlow;

/// An export of the quarantine, as it came back.
#[derive(Debug)]
pub(crate) struct Corrected {
    pub(crate) table: String,
    pub(crate) read_as: String,
    headings: Vec<String>,
    rows: Vec<CorrectedRow>,
}

#[derive(Debug)]
struct CorrectedRow {
    number: u32,
    cells: Vec<String>,
}

/// Reads a table that is an export of the quarantine; `None` where it is any other table.
///
/// # Errors
/// [`HouseFault::NotExported`] for a row whose number was lost; a read fault.
pub(crate) fn read(table: &Table) -> Result<Option<Corrected>, HouseFault> {
    let (mut headings, mut rows, mut lost) = (None, Vec::new(), None);
    let walked = table.walk(&mut |row| {
        if row.is_blank() {
            return ControlFlow::Continue(());
        }
        match &headings {
            None => headings = own_headings(&row),
            Some(_) => match corrected_row(&row) {
                Ok(corrected) => rows.push(corrected),
                Err(value) => lost = Some((row.number, value)),
            },
        }
        if headings.is_none() || lost.is_some() { ControlFlow::Break(()) } else { ControlFlow::Continue(()) }
    });
    walked.map_err(|fault: ReadFault| HouseFault::Read { file: table.file_name().to_owned(), fault })?;
    if let Some((row, value)) = lost {
        return Err(HouseFault::NotExported { table: name_of(table), row, value });
    }
    let (table, read_as) = (name_of(table), table.read_as().to_owned());
    Ok(headings.map(|headings| Corrected { table, read_as, headings, rows }))
}

/// The headings behind those that tell of each row; nothing where the row is not the head of an export.
fn own_headings(row: &Row<'_>) -> Option<Vec<String>> {
    let mut cells = row.cells().map(|cell| cell.text.trim().to_owned());
    let is_export =
        ABOUT.iter().all(|about| cells.next().is_some_and(|cell| cell.eq_ignore_ascii_case(about)));
    is_export.then(|| cells.collect())
}

fn corrected_row(row: &Row<'_>) -> Result<CorrectedRow, String> {
    let mut cells = row.cells().map(|cell| cell.text.to_owned());
    let number = cells.next().unwrap_or_default();
    let Ok(number) = number.trim().parse() else { return Err(number) };
    let cells = cells.skip(ABOUT.len() - 1).map(|cell| unguarded(&cell).to_owned()).collect();
    Ok(CorrectedRow { number, cells })
}

/// Takes the corrected rows, one answer a kind of table. Rows that still have a fault wait on.
///
/// # Errors
/// What the ledger refuses.
pub(crate) fn take(
    ledger: &mut Ledger,
    corrected: &Corrected,
    request: &Request,
) -> Result<Vec<TableTaken>, HouseFault> {
    let mending = Mending { who: request.who.clone(), at: request.at, today: request.today };
    let mut taken = Vec::new();
    for (kind, rows) in by_kind(ledger, corrected)? {
        let again = again::take_rows(ledger, rows, &request.asked, &mending)?;
        let (table, read_as) = (corrected.table.clone(), corrected.read_as.clone());
        taken.push(TableTaken { table, kind, read_as, outcome: Outcome::Answered(again) });
    }
    Ok(taken)
}

/// The rows that still wait with their corrected cells. A kind whose rows were all taken meanwhile has none.
pub(crate) fn by_kind(
    ledger: &mut Ledger,
    corrected: &Corrected,
) -> Result<BTreeMap<Kind, Vec<Quarantined>>, HouseFault> {
    let all = ledger.quarantine(Listed::All)?;
    let known: BTreeMap<u32, Quarantined> = all.into_iter().map(|row| (row.number.0, row)).collect();
    let mut kinds: BTreeMap<Kind, Vec<Quarantined>> = BTreeMap::new();
    for row in &corrected.rows {
        let Some(waits) = known.get(&row.number) else { continue };
        let Some(kind) = kind_of(ledger.batch(waits.batch)?.source.kind) else { continue };
        let rows = kinds.entry(kind).or_default();
        if waits.solved_by.is_none() {
            let own = ledger.headings(waits.batch)?;
            let cells = corrected_cells(waits, &own, &corrected.headings, &row.cells);
            rows.push(Quarantined {
                rejected: Rejected { cells, ..waits.rejected.clone() },
                ..waits.clone()
            });
        }
    }
    Ok(kinds)
}

/// The row's own cells with what now stands under their headings; the second of two like headings is the
/// export's second.
fn corrected_cells(
    waits: &Quarantined,
    own: &[String],
    headings: &[String],
    cells: &[String],
) -> Vec<String> {
    let mut corrected = waits.rejected.cells.clone();
    corrected.resize(corrected.len().max(own.len()), String::new());
    for (place, cell) in corrected.iter_mut().enumerate().take(own.len()) {
        if let Some(now) = column_of(own, place, headings).and_then(|column| cells.get(column)) {
            cell.clone_from(now);
        }
    }
    corrected
}

/// Where the heading at `place` of a table's own headings stands in an export's.
pub(crate) fn column_of(own: &[String], place: usize, headings: &[String]) -> Option<usize> {
    let heading = own.get(place)?.trim();
    let before = own.iter().take(place).filter(|other| other.trim() == heading).count();
    let alike = headings.iter().enumerate().filter(|(_, other)| other.trim() == heading);
    alike.map(|(column, _)| column).nth(before)
}
