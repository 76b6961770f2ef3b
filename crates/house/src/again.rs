//! Taking quarantined rows again: one that was mended, or all that may be readable by now because what
//! they needed has come in or a question was answered.

use crate::asked::{self, Asked};
use crate::fault::HouseFault;
use crate::folder::House;
use crate::mapping;
use crate::quarantine::Mending;
use crate::roster;
use crate::take::Desk;
use intake::layout::{Answers, ColumnAnswer, Layout, SavedMapping};
use intake::recognise::recognise;
use intake::rejection::Rejection;
use intake::table::Table;
use intake::take::{Taken, Tally};
use ledger::batch::{BatchNumber, BatchSummary, Source};
use ledger::ledger::Ledger;
use ledger::quarantine::{Listed, Quarantined};
use std::collections::{BTreeMap, BTreeSet};
use std::ops::ControlFlow;

/// What taking rows again came to.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct TakenAgain {
    /// The batches that the rows became, one a table that they came from.
    pub batches: Vec<BatchSummary>,
    /// Rows that were taken.
    pub solved: u64,
    /// Rows that still wait.
    pub waiting: u64,
}

/// Takes every row that waits again, read with what the user says now. Rows that still have a fault wait on.
///
/// # Errors
/// [`HouseFault::NoSuchColumn`] for a heading that every table lacks; what the ledger refuses.
pub fn again(house: &House, asked: &Asked, mending: &Mending) -> Result<TakenAgain, HouseFault> {
    let mut ledger = Ledger::open(&house.ledger_location())?;
    take_again(&mut ledger, Listed::Waiting, asked, mending)
}

/// Takes waiting rows again, as [`take_rows`] does.
pub(crate) fn take_again(
    ledger: &mut Ledger,
    listed: Listed,
    asked: &Asked,
    mending: &Mending,
) -> Result<TakenAgain, HouseFault> {
    let rows = ledger.quarantine(listed)?;
    take_rows(ledger, rows, asked, mending)
}

/// Takes rows again with the cells that they have now, table by table: varieties first, then grow-outs, then
/// notes. What is said of a column goes for every table that has it.
pub(crate) fn take_rows(
    ledger: &mut Ledger,
    rows: Vec<Quarantined>,
    asked: &Asked,
    mending: &Mending,
) -> Result<TakenAgain, HouseFault> {
    let mut by_batch: BTreeMap<BatchNumber, Vec<Quarantined>> = BTreeMap::new();
    for row in rows {
        by_batch.entry(row.batch).or_default().push(row);
    }
    let (mut groups, mut headings) = (Vec::new(), Vec::new());
    for (batch, rows) in by_batch {
        groups.push((ledger.batch(batch)?.source.kind, batch, rows));
        headings.extend(ledger.headings(batch)?);
    }
    if let Some(heading) = asked::column_of_none(asked, &headings) {
        return Err(HouseFault::NoSuchColumn { table: "the quarantine".to_owned(), heading });
    }
    groups.sort_by_key(|(kind, batch, _)| (*kind, *batch));
    let mut taken = TakenAgain::default();
    for (_, batch, rows) in groups {
        let before = taken.solved;
        if let Some((summary, solved)) = take_group(ledger, batch, &rows, asked, mending)? {
            taken.batches.push(summary);
            taken.solved += solved;
        }
        taken.waiting += rows.len() as u64 - (taken.solved - before);
    }
    Ok(taken)
}

/// Takes one mended row as a batch of its own.
///
/// # Errors
/// [`HouseFault::StillRejected`] where it still cannot be taken, and nothing has changed then.
pub(crate) fn mend_one(
    ledger: &mut Ledger,
    row: Quarantined,
    mending: &Mending,
) -> Result<BatchSummary, HouseFault> {
    let batch = row.batch;
    let read = read_again(ledger, batch, std::slice::from_ref(&row), &Asked::default(), mending)?;
    if let Some(rejection) = read.taken.iter().find_map(rejection) {
        return Err(still_rejected(rejection));
    }
    let why = format!("quarantined row {} mended", row.number);
    let mut writer = ledger.begin_mending(&read.source(mending, why))?;
    let mut desk = Desk::default();
    for one in read.taken {
        desk.put(&mut writer, one)?;
    }
    if let Some((_, clash)) = desk.clashes.pop_first() {
        return Err(clash.into());
    }
    writer.solve(row.number)?;
    Ok(writer.commit()?)
}

/// Takes what can be taken of the rows of one table; nothing where none of them can.
fn take_group(
    ledger: &mut Ledger,
    batch: BatchNumber,
    rows: &[Quarantined],
    asked: &Asked,
    mending: &Mending,
) -> Result<Option<(BatchSummary, u64)>, HouseFault> {
    let read = match read_again(ledger, batch, rows, asked, mending) {
        Err(HouseFault::Recognise { .. }) => return Ok(None),
        read => read?,
    };
    let faulty: BTreeSet<u64> = read.taken.iter().filter_map(rejection).map(|fault| fault.row).collect();
    let waiting: BTreeMap<u64, &Quarantined> = rows.iter().map(|row| (row.rejected.row, row)).collect();
    let is_news = |taken: &Taken| match taken {
        Taken::Entry { row, .. } => !faulty.contains(row),
        Taken::Rejected(rejection) => has_another_fault(rejection, &waiting),
    };
    if !read.taken.iter().any(is_news) {
        return Ok(None);
    }
    let why = format!("quarantined rows of batch {batch} taken again");
    let mut writer = ledger.begin_mending(&read.source(mending, why))?;
    let (mut desk, mut taken, mut renamed) = (Desk::default(), BTreeSet::new(), BTreeSet::new());
    for one in read.taken {
        match &one {
            Taken::Entry { row, .. } if !faulty.contains(row) => drop(taken.insert(*row)),
            Taken::Rejected(rejection) if has_another_fault(rejection, &waiting) => {
                // The row waits on under its new fault, in the place of the old one.
                renamed.insert(rejection.row);
            }
            _ => continue,
        }
        desk.put(&mut writer, one)?;
    }
    taken.retain(|row| !desk.clashes.contains_key(row));
    for row in taken.union(&renamed).filter_map(|row| waiting.get(row)) {
        writer.solve(row.number)?;
    }
    Ok(Some((writer.commit()?, taken.len() as u64)))
}

fn has_another_fault(rejection: &Rejection, waiting: &BTreeMap<u64, &Quarantined>) -> bool {
    waiting.get(&rejection.row).is_some_and(|row| row.rejected.reason != rejection.fault.to_string())
}

/// Rows read again, and where they came from.
pub(crate) struct Read {
    pub(crate) from: Source,
    pub(crate) layout: Layout,
    pub(crate) tally: Tally,
    pub(crate) taken: Vec<Taken>,
    headings: Vec<String>,
    reading: String,
}

impl Read {
    /// The rows keep their file's name, so that each record still tells where it came from.
    fn source(&self, mending: &Mending, why: String) -> Source {
        Source {
            who: mending.who.clone(),
            at: mending.at,
            headings: self.headings.clone(),
            reading: Some(self.reading.clone()),
            sha256: None,
            why: Some(why),
            ..self.from.clone()
        }
    }
}

/// Reads rows as their whole table was read, with what the user says now.
pub(crate) fn read_again(
    ledger: &mut Ledger,
    batch: BatchNumber,
    rows: &[Quarantined],
    asked: &Asked,
    mending: &Mending,
) -> Result<Read, HouseFault> {
    let (from, headings) = (ledger.batch(batch)?.source, ledger.headings(batch)?);
    let file_name = from.file_name.clone().unwrap_or_default();
    let mut cells = vec![(0, headings.clone())];
    cells.extend(rows.iter().map(|row| (row.rejected.row, row.rejected.cells.clone())));
    let table = Table::of_rows(&file_name, from.sheet.as_deref(), &cells);
    let answers = over(asked::answers_for(&table, asked)?, read_before(&from));
    let layout = recognise(&table, &[], &Answers { heading_row: Some(0), ..answers })
        .map_err(|fault| HouseFault::Recognise { table: file_name.clone(), fault })?;
    let (roster, mut taken) = (roster::gather(ledger)?, Vec::new());
    let tally = intake::take::take(&table, &layout, &roster, mending.today, &mut |one| {
        taken.push(one);
        ControlFlow::Continue(())
    })
    .map_err(|fault| HouseFault::Read { file: file_name, fault })?;
    let reading = mapping::write(layout.heading_fingerprint, &layout.settled());
    Ok(Read { from, layout, tally, taken, headings, reading })
}

fn read_before(from: &Source) -> Answers {
    let kept = from.reading.as_deref().and_then(|reading| mapping::read("", reading));
    kept.map(|SavedMapping { answers, .. }| answers).unwrap_or_default()
}

/// What is said now, and where nothing is said, what was decided before.
fn over(now: Answers, before: Answers) -> Answers {
    let mut columns = before.columns;
    for said in now.columns {
        match columns.iter_mut().find(|column| column.place == said.place) {
            Some(column) => column_over(column, said),
            None => columns.push(said),
        }
    }
    Answers {
        kind: now.kind.or(before.kind),
        heading_row: None,
        columns,
        date_order: now.date_order.or(before.date_order),
        decimal_mark: now.decimal_mark.or(before.decimal_mark),
        mass_unit: now.mass_unit.or(before.mass_unit),
        length_unit: now.length_unit.or(before.length_unit),
        season: now.season.or(before.season),
        grow_out: now.grow_out.or(before.grow_out),
    }
}

fn column_over(column: &mut ColumnAnswer, said: ColumnAnswer) {
    column.reads = said.reads.or(column.reads);
    column.unit = said.unit.or(column.unit);
    column.date_order = said.date_order.or(column.date_order);
    column.decimal_mark = said.decimal_mark.or(column.decimal_mark);
}

fn rejection(taken: &Taken) -> Option<&Rejection> {
    match taken {
        Taken::Rejected(rejection) => Some(rejection),
        Taken::Entry { .. } => None,
    }
}

fn still_rejected(rejection: &Rejection) -> HouseFault {
    HouseFault::StillRejected {
        row: Some(rejection.row),
        column: rejection.column.clone(),
        reason: rejection.fault.to_string(),
        remedy: rejection.remedy.clone(),
    }
}
