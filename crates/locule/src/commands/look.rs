//! `locule take --dry-run`: how files would be read and what would happen; stores nothing.

use super::Failure;
use super::reference::{Shape, shape};
use super::take::{NotRead, not_read, request, tell_unreadable};
use super::weather::{WeatherIn, tell_weather, weather_in};
use crate::answer::{Answer, Ending};
use crate::arguments::take::Take;
use crate::columns::columns;
use house::folder::House;
use house::look::{self, Column, TableLook};
use house::opened::Given;
use record::language::counted;
use schemars::JsonSchema;
use serde::Serialize;
use std::io::{self, Write};

pub(crate) fn look(house: &House, typed: &Take) -> Result<Looked, Failure> {
    let files: Vec<Given> = typed.files.iter().map(|file| Given::at(file)).collect();
    let looked = look::look(house, &files, &request(house, typed)?)?;
    Ok(Looked {
        tables: looked.tables.iter().map(table_look).collect(),
        weather: looked.weather.iter().map(weather_in).collect(),
        unreadable: looked.unreadable.iter().map(not_read).collect(),
    })
}

/// How files would be read.
#[derive(Debug, Serialize, JsonSchema)]
pub(crate) struct Looked {
    /// One a table, in the order they would be taken.
    tables: Vec<TableSeen>,
    /// One a weather file; nothing of it is stored yet.
    weather: Vec<WeatherIn>,
    /// What cannot be opened or recognised.
    unreadable: Vec<NotRead>,
}

/// How one table would be read.
#[derive(Debug, Serialize, JsonSchema)]
struct TableSeen {
    /// File and sheet.
    table: String,
    /// What the file was read as.
    read_as: String,
    /// What it would be taken for.
    kind: String,
    /// The row of the headings.
    heading_row: u64,
    /// The batch that took this very file before.
    taken_before: Option<u32>,
    /// What each column is read as.
    columns: Vec<ColumnSeen>,
    /// What was decided for the table as a whole.
    notes: Vec<String>,
    /// What must be answered first.
    questions: Vec<String>,
    /// Rows below the headings.
    rows: u64,
    /// Things that would be added, or are there already.
    entries: u64,
    /// Rows that would be quarantined.
    rejected: u64,
    /// Entries that would be set aside with a doubt.
    doubted: u64,
    /// Why rows would be quarantined, the commonest first.
    rejections: Vec<ReasonSeen>,
    /// Why entries would be doubted, the commonest first.
    doubts: Vec<ReasonSeen>,
}

/// What one column is read as.
#[derive(Debug, Serialize, JsonSchema)]
struct ColumnSeen {
    /// Its heading.
    heading: String,
    /// What it is read as.
    reads: String,
    /// Whether the heading was understood.
    understood: bool,
    /// The unit of cells that name none.
    unit: Option<String>,
    /// Some of its cells.
    samples: Vec<String>,
    /// What was decided about it, and from what.
    notes: Vec<String>,
}

/// A reason and how many rows share it.
#[derive(Debug, Serialize, JsonSchema)]
struct ReasonSeen {
    /// How many rows.
    rows: u64,
    /// The first of them.
    first_row: Option<u64>,
    /// Its column.
    column: Option<String>,
    /// The reason, in the words of the first row.
    reason: String,
    /// What to do.
    remedy: Option<String>,
}

fn table_look(look: &TableLook) -> TableSeen {
    let layout = &look.layout;
    TableSeen {
        table: look.table.clone(),
        read_as: look.read_as.clone(),
        kind: layout.kind.name().to_owned(),
        heading_row: layout.heading_row,
        taken_before: look.taken_before.as_ref().map(|batch| batch.number.0),
        columns: layout.columns.iter().map(column_seen).collect(),
        notes: layout.notes.clone(),
        questions: layout.questions.iter().map(ToString::to_string).collect(),
        rows: look.tally.rows,
        entries: look.tally.entries,
        rejected: look.tally.rejected,
        doubted: look.tally.doubted,
        rejections: look
            .rejections
            .iter()
            .map(|alike| ReasonSeen {
                rows: alike.count,
                first_row: Some(alike.first.row),
                column: alike.first.column.clone(),
                reason: alike.first.fault.to_string(),
                remedy: Some(alike.first.remedy.clone()),
            })
            .collect(),
        doubts: look
            .doubts
            .iter()
            .map(|alike| ReasonSeen {
                rows: alike.count,
                first_row: None,
                column: None,
                reason: alike.first.clone(),
                remedy: None,
            })
            .collect(),
    }
}

fn column_seen(column: &Column) -> ColumnSeen {
    ColumnSeen {
        heading: column.heading.clone(),
        reads: column.reads.name().to_owned(),
        understood: column.understood,
        unit: column.unit.map(|unit| unit.symbol().to_owned()),
        samples: column.samples.clone(),
        notes: column.notes.clone(),
    }
}

impl Answer for Looked {
    const SHAPE: &'static str = "take-dry-run/1";

    fn tell(&self, to: &mut dyn Write) -> io::Result<()> {
        for table in &self.tables {
            tell_table(to, table)?;
        }
        tell_weather(to, &self.weather)?;
        tell_unreadable(to, &self.unreadable)?;
        writeln!(to, "Nothing was stored. Take the files without --dry-run to keep them.")
    }

    fn ending(&self) -> Ending {
        if self.unreadable.is_empty() { Ending::Done } else { Ending::BadInput }
    }
}

fn tell_table(to: &mut dyn Write, table: &TableSeen) -> io::Result<()> {
    writeln!(to, "{}: {} ({})", table.table, table.kind, table.read_as)?;
    if let Some(batch) = table.taken_before {
        writeln!(to, "  This very file was taken before, as batch {batch}; taking it adds nothing.")?;
    }
    let rows: Vec<Vec<String>> = table.columns.iter().map(column_row).collect();
    columns(to, &rows)?;
    for note in &table.notes {
        writeln!(to, "  {note}")?;
    }
    for question in &table.questions {
        writeln!(to, "  Asks: {question}")?;
    }
    if !table.questions.is_empty() {
        writeln!(to, "  Answer with --unit, --dates, --comma, --season or --grow-out: locule take --help")?;
    }
    writeln!(
        to,
        "  {}: {}, {} doubted, {} quarantined",
        counted(table.rows, "row", "rows"),
        counted(table.entries, "entry", "entries"),
        table.doubted,
        table.rejected
    )?;
    for reason in table.rejections.iter().chain(&table.doubts) {
        tell_reason(to, reason)?;
    }
    writeln!(to)
}

fn column_row(column: &ColumnSeen) -> Vec<String> {
    let reads = match (&column.unit, column.understood) {
        (Some(unit), _) => format!("{} in {unit}", column.reads),
        (None, true) => column.reads.clone(),
        (None, false) => format!("{} (not understood)", column.reads),
    };
    vec![
        format!("  {}", column.heading.replace('\n', " ")),
        reads,
        column.samples.join(" | ").replace('\n', " "),
    ]
}

fn tell_reason(to: &mut dyn Write, reason: &ReasonSeen) -> io::Result<()> {
    let place = match (reason.first_row, &reason.column) {
        (Some(row), Some(column)) => format!("row {row}, column {column:?}: "),
        (Some(row), None) => format!("row {row}: "),
        (None, _) => String::new(),
    };
    writeln!(to, "  {:>6} x  {place}{}", reason.rows, reason.reason)?;
    if let Some(remedy) = &reason.remedy {
        writeln!(to, "            help: {remedy}")?;
    }
    Ok(())
}

/// The shapes of these answers.
pub(super) fn shapes() -> Vec<Shape> {
    vec![shape::<Looked>()]
}
