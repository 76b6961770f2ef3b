//! Taking files in: open, recognise, check every row, and keep each table whole or not at all.

use crate::again::{self, TakenAgain};
use crate::asked::Asked;
use crate::corrected;
use crate::fault::HouseFault;
use crate::folder::House;
use crate::mapping;
use crate::opened::{self, Given, Opened, Unreadable, name_of};
use crate::progress::Progress;
use crate::quarantine::Mending;
use crate::roster;
use crate::weather::bring::Intent;
pub use crate::weather::bring::{WeatherOutcome, WeatherTaken};
use intake::entry::{Entry, NewPlant, NewPlot, PlotNamed};
pub use intake::kind::Kind;
use intake::rejection::Rejection;
use intake::roster::Roster;
use intake::take::Taken;
pub use intake::take::Tally;
use jiff::{Timestamp, civil::Date};
pub use ledger::batch::BatchSummary;
use ledger::batch::{BatchInfo, BatchKind, Source};
use ledger::fault::LedgerFault;
use ledger::ledger::Ledger;
use ledger::lots::NewLot;
use ledger::quarantine::{Listed, Quarantined, Rejected};
use ledger::writer::{NewGrowOut, Writer};
use record::growout::{Plant, Plot};
use record::id::Id;
use std::collections::{BTreeMap, HashMap};
use std::ops::ControlFlow;
use std::panic::resume_unwind;
use std::sync::mpsc::{SyncSender, sync_channel};
use std::thread;

/// Who takes files in, when, and what they say of them.
#[derive(Clone, Debug)]
pub struct Request {
    /// Who.
    pub who: String,
    /// When.
    pub at: Timestamp,
    /// The day, for dates that lie ahead of it.
    pub today: Date,
    /// What they say where the headings do not.
    pub asked: Asked,
    /// Whether the reading is kept for files with the same headings.
    pub keep_reading: KeepReading,
    /// What was said by hand of what the rows are read from, where it is no table: a photograph.
    pub why: Option<String>,
}

/// Whether a reading is kept for files with the same headings.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum KeepReading {
    /// Only for this file.
    #[default]
    Once,
    /// For every file with the same headings.
    Always,
}

/// What became of the files.
#[derive(Debug)]
pub struct TakenIn {
    /// One a table, in the order they were taken.
    pub tables: Vec<TableTaken>,
    /// One a weather file.
    pub weather: Vec<WeatherTaken>,
    /// What could not be opened or recognised.
    pub unreadable: Vec<Unreadable>,
}

/// What became of one table.
#[derive(Debug)]
pub struct TableTaken {
    /// File and sheet.
    pub table: String,
    /// What it held.
    pub kind: Kind,
    /// What the file was read as.
    pub read_as: String,
    /// How it went.
    pub outcome: Outcome,
}

/// How taking a table went.
#[derive(Debug)]
pub enum Outcome {
    /// It was taken.
    Added {
        /// What the ledger gained.
        summary: Box<BatchSummary>,
        /// What its rows were.
        tally: Tally,
    },
    /// This very file was taken before; nothing was added.
    TakenBefore(Box<BatchInfo>),
    /// This very file was taken before; rows of it that waited for an answer were taken now.
    Answered(TakenAgain),
}

/// Takes files in. A file that cannot be read does not keep the others out.
///
/// # Errors
/// What the ledger refuses; tables taken before that stay taken.
pub fn take(
    house: &House,
    files: &[Given],
    request: &Request,
    progress: &dyn Progress,
) -> Result<TakenIn, HouseFault> {
    let mut ledger = Ledger::open(&house.ledger_location())?;
    let saved = mapping::saved(&mut ledger)?;
    let mut opening = opened::open_all(files, &saved, &request.asked);
    let (mut tables, mut unreadable) = (Vec::new(), Vec::new());
    let weather = opening.take_weather(&mut ledger, request, Intent::Keep)?;
    let mut known: Option<Roster> = None;
    for opened in opening.tables {
        let roster = match known.take() {
            Some(roster) => roster,
            None => roster::gather(&mut ledger)?,
        };
        match take_table(&mut ledger, &opened, &roster, request, progress) {
            Err(fault @ HouseFault::MostlyUnreadable { .. }) => {
                let table = name_of(&opened.table);
                unreadable.push(Unreadable { table, fault, top: Vec::new(), known_by: None });
            }
            taken => tables.push(taken?),
        }
        // Notes teach the roster nothing; varieties, plots and lots do, so it is gathered anew after those.
        known = Some(roster).filter(|_| Kind::Lots < opened.layout.kind);
    }
    for corrected in &opening.corrected {
        tables.extend(corrected::take(&mut ledger, corrected, request)?);
    }
    for unread in opening.unreadable {
        match taken_before(&mut ledger, &unread)? {
            Some(before) => tables.push(before),
            None => unreadable.push(unread),
        }
    }
    Ok(TakenIn { tables, weather, unreadable })
}

/// A table that cannot be told by itself but was taken before, when somebody said what it was.
fn taken_before(ledger: &mut Ledger, unread: &Unreadable) -> Result<Option<TableTaken>, HouseFault> {
    let Some(known_by) = &unread.known_by else { return Ok(None) };
    let Some(mut before) = ledger.already_taken(known_by.sha256, known_by.sheet.as_deref())? else {
        return Ok(None);
    };
    before.waiting = waiting_of(ledger, &before)?.len() as u64;
    let (table, read_as) = (unread.table.clone(), String::new());
    Ok(kind_of(before.source.kind).map(|kind| {
        let outcome = Outcome::TakenBefore(Box::new(before));
        TableTaken { table, kind, read_as, outcome }
    }))
}

/// The rows that wait of a file: those of the batch that took it, and those that waited on under another fault
/// when they were taken again.
fn waiting_of(ledger: &mut Ledger, before: &BatchInfo) -> Result<Vec<Quarantined>, HouseFault> {
    let mut waiting = Vec::new();
    for row in ledger.quarantine(Listed::Waiting)? {
        let own = row.batch == before.number;
        let of_file = || {
            before.number < row.batch
                && (&row.file_name, &row.sheet) == (&before.source.file_name, &before.source.sheet)
        };
        if own || (of_file() && ledger.batch(row.batch)?.source.sha256.is_none()) {
            waiting.push(row);
        }
    }
    Ok(waiting)
}

/// What a batch of this kind of table is called in the ledger.
#[must_use]
pub fn batch_kind(kind: Kind) -> BatchKind {
    match kind {
        Kind::Varieties => BatchKind::Varieties,
        Kind::GrowOut => BatchKind::GrowOut,
        Kind::FruitSamples => BatchKind::FruitSamples,
        Kind::Picks => BatchKind::Picks,
        Kind::Heights => BatchKind::Heights,
        Kind::Stages => BatchKind::Stages,
        Kind::Colours => BatchKind::Colours,
        Kind::Lots => BatchKind::Lots,
        Kind::SeedWeighings => BatchKind::SeedWeighings,
        Kind::GerminationTests => BatchKind::GerminationTests,
    }
}

/// The kind of table that a batch took; `None` for what was done by hand.
pub(crate) fn kind_of(kind: BatchKind) -> Option<Kind> {
    Kind::ALL.into_iter().find(|known| batch_kind(*known) == kind)
}

/// Takes one table, whole or not at all.
///
/// # Errors
/// What the ledger refuses.
pub(crate) fn take_table(
    ledger: &mut Ledger,
    opened: &Opened,
    roster: &Roster,
    request: &Request,
    progress: &dyn Progress,
) -> Result<TableTaken, HouseFault> {
    let (table, layout) = (&opened.table, &opened.layout);
    let told = |outcome| TableTaken {
        table: name_of(table),
        kind: layout.kind,
        read_as: table.read_as().to_owned(),
        outcome,
    };
    if request.keep_reading == KeepReading::Always {
        mapping::save(ledger, &name_of(table), layout)?;
    }
    if let Some(before) = ledger.already_taken(opened.sha256, table.sheet())? {
        return Ok(told(answered(ledger, before, request)?));
    }
    progress.begin(&name_of(table), Some(layout.row_count));
    match put_rows(ledger, opened, roster, request, progress) {
        Ok((summary, tally)) => Ok(told(Outcome::Added { summary: Box::new(summary), tally })),
        // Another took it while this one waited for the pen.
        Err(HouseFault::Ledger(LedgerFault::TakenAlready(by))) => {
            Ok(told(Outcome::TakenBefore(Box::new(ledger.batch(by)?))))
        }
        Err(fault) => Err(fault),
    }
}

fn put_rows(
    ledger: &mut Ledger,
    opened: &Opened,
    roster: &Roster,
    request: &Request,
    progress: &dyn Progress,
) -> Result<(BatchSummary, Tally), HouseFault> {
    let mut writer = ledger.begin_batch(&source(opened, request))?;
    let tally = fill(&mut writer, opened, roster, request.today, progress)?;
    Ok((writer.commit()?, tally))
}

/// Takes the rows that a file left in the quarantine, where the user now says something of the table.
fn answered(ledger: &mut Ledger, mut before: BatchInfo, request: &Request) -> Result<Outcome, HouseFault> {
    let waiting = waiting_of(ledger, &before)?;
    before.waiting = waiting.len() as u64;
    if waiting.is_empty() || request.asked == Asked::default() {
        return Ok(Outcome::TakenBefore(Box::new(before)));
    }
    let mending = Mending { who: request.who.clone(), at: request.at, today: request.today };
    let again = again::take_rows(ledger, waiting, &request.asked, &mending)?;
    Ok(if again.solved == 0 { Outcome::TakenBefore(Box::new(before)) } else { Outcome::Answered(again) })
}

fn source(opened: &Opened, request: &Request) -> Source {
    let (table, layout) = (&opened.table, &opened.layout);
    Source {
        who: request.who.clone(),
        at: request.at,
        kind: batch_kind(layout.kind),
        file_name: Some(table.file_name().to_owned()),
        sheet: table.sheet().map(str::to_owned),
        sha256: Some(opened.sha256),
        headings: layout.columns.iter().map(|column| column.heading.clone()).collect(),
        reading: Some(mapping::write(layout.heading_fingerprint, &layout.settled())),
        why: request.why.clone(),
    }
}

/// Things that rows gave which go from the reader to the ledger at a time, and how many such loads may wait:
/// enough that neither waits for the other, and too little to be seen in memory.
const LOAD: usize = 1000;
const LOADS_WAITING: usize = 4;

/// Reads the table on one core while the ledger is filled on another, row after row in the file's order.
fn fill(
    writer: &mut Writer<'_>,
    opened: &Opened,
    roster: &Roster,
    today: Date,
    progress: &dyn Progress,
) -> Result<Tally, HouseFault> {
    let mut desk = Desk::default();
    let (loads, unloaded) = sync_channel(LOADS_WAITING);
    let tally = thread::scope(|scope| {
        let reader = scope.spawn(move || read(opened, roster, today, &loads));
        for load in unloaded {
            let handed: Vec<Taken> = load;
            progress.advance(handed.len() as u64);
            for taken in handed {
                desk.put(writer, taken)?;
            }
        }
        reader.join().unwrap_or_else(|panic| resume_unwind(panic))
    })?;
    reject_clashes(writer, opened, &desk.clashes)?;
    Ok(tally)
}

/// Rows of one table that may wait in the quarantine. Nobody mends so many by hand: it is another kind of
/// table, or no table at all. Common practice, no source.
const MOST_QUARANTINED: u64 = 200_000;

/// Reads the table and hands on what its rows give, until the end or until nobody takes it any more.
fn read(
    opened: &Opened,
    roster: &Roster,
    today: Date,
    loads: &SyncSender<Vec<Taken>>,
) -> Result<Tally, HouseFault> {
    let (mut load, mut rejected) = (Vec::with_capacity(LOAD), 0);
    let tally = intake::take::take(&opened.table, &opened.layout, roster, today, &mut |taken| {
        rejected += u64::from(matches!(taken, Taken::Rejected(_)));
        load.push(taken);
        if MOST_QUARANTINED < rejected {
            return ControlFlow::Break(());
        }
        if load.len() < LOAD {
            return ControlFlow::Continue(());
        }
        let full = std::mem::replace(&mut load, Vec::with_capacity(LOAD));
        // The receiver is gone only where the ledger refused, and that fault is told instead.
        loads.send(full).map_or(ControlFlow::Break(()), ControlFlow::Continue)
    })
    .map_err(|fault| HouseFault::Read { file: opened.table.file_name().to_owned(), fault })?;
    if MOST_QUARANTINED < rejected {
        return Err(HouseFault::MostlyUnreadable { table: name_of(&opened.table), most: MOST_QUARANTINED });
    }
    let _ = loads.send(load);
    Ok(tally)
}

/// What must be remembered from row to row while one table is taken.
#[derive(Default)]
pub(crate) struct Desk {
    plots: HashMap<(String, String), Id<Plot>>,
    /// Rows that the ledger refused because a name or label means something else there.
    pub(crate) clashes: BTreeMap<u64, LedgerFault>,
}

impl Desk {
    /// Puts what one row gave into the ledger.
    ///
    /// # Errors
    /// What the ledger refuses, but for clashes, which are noted.
    pub(crate) fn put(&mut self, writer: &mut Writer<'_>, taken: Taken) -> Result<(), LedgerFault> {
        let (row, entry, doubts) = match taken {
            Taken::Rejected(rejection) => return writer.reject(&rejected(&rejection)).map(drop),
            Taken::Entry { row, entry, doubts, .. } => (row, entry, doubts),
        };
        let put = match entry {
            Entry::Note(note) => writer.add_note(row, &note, &doubts).map(drop),
            Entry::Variety(new) => {
                let (name, aliases, claims) = (new.name, new.aliases, new.claims);
                writer.add_variety(row, &ledger::writer::NewVariety { name, aliases, claims }).map(drop)
            }
            Entry::Plot(plot) => self.put_plot(writer, row, plot),
            Entry::Plant(plant) => self.put_plant(writer, row, &plant),
            Entry::Lot(lot) => {
                let new = NewLot { number: lot.number, variety: lot.variety, season: lot.season };
                writer.add_lot(row, &new, &lot.notes).map(drop)
            }
            Entry::LotNote(noted) => writer.add_lot_note(row, noted.lot, &noted.note).map(drop),
        };
        match put {
            Err(clash) if is_clash(&clash) => drop(self.clashes.insert(row, clash)),
            other => other?,
        }
        Ok(())
    }

    fn put_plot(&mut self, writer: &mut Writer<'_>, row: u64, plot: NewPlot) -> Result<(), LedgerFault> {
        let grow_out =
            NewGrowOut { name: plot.grow_out.clone(), season: plot.season, garden: plot.garden.clone() };
        let grow_out = writer.add_grow_out(row, &grow_out)?.id;
        let placed = writer.add_plot(
            row,
            &ledger::writer::NewPlot {
                grow_out,
                label: plot.label.clone(),
                variety: plot.variety,
                block: plot.block,
                row: plot.row,
                position: plot.position,
                transplanted: plot.transplanted,
                plant_count: plot.plant_count,
                layout: plot.layout,
            },
        )?;
        self.plots.insert((plot.grow_out, plot.label), placed.id);
        Ok(())
    }

    fn put_plant(&mut self, writer: &mut Writer<'_>, row: u64, new: &NewPlant) -> Result<(), LedgerFault> {
        let plot = match &new.plot {
            PlotNamed::Known(plot) => Some(*plot),
            PlotNamed::Earlier { grow_out, label } => {
                self.plots.get(&(grow_out.clone(), label.clone())).copied()
            }
        };
        // The row that named the plot clashed, so its plants wait in the quarantine with it.
        let Some(plot) = plot else { return Ok(()) };
        let (number, transplanted, lost) = (new.number, new.transplanted, new.lost);
        writer.add_plant(row, &Plant { plot, number, transplanted, lost }).map(drop)
    }
}

fn is_clash(fault: &LedgerFault) -> bool {
    use LedgerFault::{GrowOutClash, LotThere, NameClash, PlotClash};
    matches!(fault, NameClash { .. } | GrowOutClash { .. } | PlotClash { .. } | LotThere(_))
}

/// Puts rows that clashed into the quarantine, with their cells read once more.
fn reject_clashes(
    writer: &mut Writer<'_>,
    opened: &Opened,
    clashes: &BTreeMap<u64, LedgerFault>,
) -> Result<(), HouseFault> {
    if clashes.is_empty() {
        return Ok(());
    }
    let mut rows: Vec<Rejected> = Vec::new();
    let read = opened.table.walk(&mut |row| {
        if let Some(fault) = clashes.get(&row.number) {
            let cells = row.cells().map(|cell| cell.text.to_owned()).collect();
            rows.push(clash_rejected(row.number, fault, cells));
        }
        ControlFlow::Continue(())
    });
    read.map_err(|fault| HouseFault::Read { file: opened.table.file_name().to_owned(), fault })?;
    for rejected in &rows {
        writer.reject(rejected)?;
    }
    Ok(())
}

fn clash_rejected(row: u64, fault: &LedgerFault, cells: Vec<String>) -> Rejected {
    let value = match fault {
        LedgerFault::NameClash { name, .. } | LedgerFault::GrowOutClash { name, .. } => name.clone(),
        LedgerFault::PlotClash { label, .. } => label.clone(),
        _ => String::new(),
    };
    let remedy = fault.help().unwrap_or("mend the row, or the row that it clashes with").to_owned();
    Rejected { row, column: None, value, reason: fault.to_string(), remedy, cells }
}

pub(crate) fn rejected(rejection: &Rejection) -> Rejected {
    Rejected {
        row: rejection.row,
        column: rejection.column.clone(),
        value: rejection.value.clone(),
        reason: rejection.fault.to_string(),
        remedy: rejection.remedy.clone(),
        cells: rejection.cells.clone(),
    }
}
