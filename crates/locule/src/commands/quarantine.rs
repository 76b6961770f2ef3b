//! `locule quarantine`: the rows that wait, mending one, and exporting them.

use super::reference::{Shape, shape};
use super::take::things;
use super::{Failure, answer, mending, parted, reading};
use crate::answer::{Answer, Ending, Form};
use crate::arguments::QuarantineAction;
use house::again;
use house::folder::House;
use house::quarantine::{self, NewValue, QuarantineNumber, Quarantined};
use record::language::counted;
use schemars::JsonSchema;
use serde::Serialize;
use std::io::{self, Write};
use std::path::Path;

pub(crate) fn run(house: &House, action: Option<QuarantineAction>, form: Form) -> Result<Ending, Failure> {
    match action {
        None => answer(&list(house)?, form),
        Some(QuarantineAction::Mend { number, values, by }) => {
            answer(&mend(house, number, &values, by.as_ref())?, form)
        }
        Some(QuarantineAction::Again { reading, by }) => {
            let (asked, mending) = (reading::asked(&reading)?, mending(house, by.as_ref()));
            answer(&told(&again::again(house, &asked, &mending)?), form)
        }
        Some(QuarantineAction::Export { file }) => answer(&export(house, &file)?, form),
    }
}

/// The rows that wait.
#[derive(Debug, Serialize, JsonSchema)]
struct Waiting {
    /// By number.
    rows: Vec<WaitingRow>,
}

/// One row that waits.
#[derive(Debug, Serialize, JsonSchema)]
struct WaitingRow {
    /// Its number, to mend it by.
    number: u32,
    /// The batch it came with.
    batch: u32,
    /// Its file.
    file: Option<String>,
    /// The sheet of a workbook.
    sheet: Option<String>,
    /// The row of its file.
    row: u64,
    /// The column at fault.
    column: Option<String>,
    /// The value at fault.
    value: String,
    /// What is wrong.
    reason: String,
    /// What to do.
    remedy: String,
    /// The whole row.
    cells: Vec<String>,
}

fn list(house: &House) -> Result<Waiting, Failure> {
    Ok(Waiting { rows: quarantine::waiting(house)?.into_iter().map(waiting_row).collect() })
}

fn waiting_row(row: Quarantined) -> WaitingRow {
    WaitingRow {
        number: row.number.0,
        batch: row.batch.0,
        file: row.file_name,
        sheet: row.sheet,
        row: row.rejected.row,
        column: row.rejected.column,
        value: row.rejected.value,
        reason: row.rejected.reason,
        remedy: row.rejected.remedy,
        cells: row.rejected.cells,
    }
}

impl Answer for Waiting {
    const SHAPE: &'static str = "quarantine/1";

    fn tell(&self, to: &mut dyn Write) -> io::Result<()> {
        for group in self.rows.chunk_by(WaitingRow::is_like) {
            if let Some(first) = group.first() {
                tell_group(to, first, group)?;
            }
        }
        match self.rows.len() as u64 {
            0 => writeln!(to, "Nothing waits in the quarantine."),
            waiting => {
                writeln!(to, "{} in the quarantine.", counted(waiting, "row waits", "rows wait"))?;
                writeln!(to, "Mend one: locule quarantine mend NUMBER \"HEADING=VALUE\"")?;
                writeln!(
                    to,
                    "Answer for all: locule quarantine again --dates month-first (or --unit, --comma, --season)"
                )?;
                writeln!(to, "Correct many in a spreadsheet: locule quarantine export FILE")
            }
        }
    }
}

impl WaitingRow {
    /// Rows that follow each other with one fault are told once.
    fn is_like(&self, other: &Self) -> bool {
        (&self.file, &self.sheet, &self.column, &self.remedy)
            == (&other.file, &other.sheet, &other.column, &other.remedy)
    }
}

fn tell_group(to: &mut dyn Write, first: &WaitingRow, group: &[WaitingRow]) -> io::Result<()> {
    let file = first.file.as_deref().unwrap_or("by hand");
    let sheet = first.sheet.as_ref().map(|sheet| format!(", sheet {sheet:?}")).unwrap_or_default();
    let column = first.column.as_ref().map(|column| format!(", column {column:?}")).unwrap_or_default();
    writeln!(to, "{:>5}  {file}{sheet}, row {}{column}: {}", first.number, first.row, first.reason)?;
    if let [_, .., last] = group {
        let others = group.len() as u64 - 1;
        writeln!(
            to,
            "       and {} up to number {}",
            counted(others, "row like it", "rows like it"),
            last.number
        )?;
    }
    writeln!(to, "       help: {}", first.remedy)
}

/// A row that was mended.
#[derive(Debug, Serialize, JsonSchema)]
struct Mended {
    /// Its number in the quarantine.
    number: u32,
    /// The batch that took it.
    batch: u32,
    /// What it added.
    added: u64,
}

fn mend(house: &House, number: i64, typed: &[String], by: Option<&String>) -> Result<Mended, Failure> {
    let row = u32::try_from(number).map(QuarantineNumber).map_err(|_| Failure::Typed {
        message: format!("{number} is no number of the quarantine"),
        help: "see the numbers with locule quarantine".to_owned(),
    })?;
    let summary = quarantine::mend(house, row, &new_values(typed)?, &mending(house, by))?;
    Ok(Mended { number: row.0, batch: summary.batch.0, added: things(&summary.added) })
}

/// New values as they were typed.
///
/// # Errors
/// [`Failure::Typed`] where an equals sign is missing.
pub(super) fn new_values(typed: &[String]) -> Result<Vec<NewValue>, Failure> {
    let value = |typed: &String| {
        let (heading, value) = parted(typed)?;
        Ok(NewValue { heading: heading.to_owned(), value: value.to_owned() })
    };
    typed.iter().map(value).collect()
}

impl Answer for Mended {
    const SHAPE: &'static str = "quarantine-mend/1";

    fn tell(&self, to: &mut dyn Write) -> io::Result<()> {
        let (number, batch) = (self.number, self.batch);
        writeln!(
            to,
            "Row {number} was taken as batch {batch} ({}).",
            counted(self.added, "record", "records")
        )
    }
}

/// Rows that were taken again.
#[derive(Debug, Serialize, JsonSchema)]
struct TakenAgain {
    /// Rows that were taken.
    solved: u64,
    /// Rows that still wait.
    waiting: u64,
    /// The batches that they became.
    batches: Vec<u32>,
}

fn told(again: &again::TakenAgain) -> TakenAgain {
    let batches = again.batches.iter().map(|summary| summary.batch.0).collect();
    TakenAgain { solved: again.solved, waiting: again.waiting, batches }
}

impl Answer for TakenAgain {
    const SHAPE: &'static str = "quarantine-again/1";

    fn tell(&self, to: &mut dyn Write) -> io::Result<()> {
        let solved = counted(self.solved, "row was", "rows were");
        writeln!(
            to,
            "{solved} taken; {} still in the quarantine.",
            counted(self.waiting, "row is", "rows are")
        )
    }
}

/// Rows that were exported.
#[derive(Debug, Serialize, JsonSchema)]
struct Exported {
    /// The file.
    file: String,
    /// How many rows.
    rows: usize,
}

fn export(house: &House, file: &Path) -> Result<Exported, Failure> {
    Ok(Exported { file: file.display().to_string(), rows: quarantine::export_to(house, file)? })
}

impl Answer for Exported {
    const SHAPE: &'static str = "quarantine-export/1";

    fn tell(&self, to: &mut dyn Write) -> io::Result<()> {
        writeln!(to, "{} written to {}.", counted(self.rows as u64, "row", "rows"), self.file)?;
        writeln!(to, "Correct the cells and take it again: locule take {}", self.file)
    }
}

/// The shapes of these answers.
pub(super) fn shapes() -> Vec<Shape> {
    vec![shape::<Waiting>(), shape::<Mended>(), shape::<TakenAgain>(), shape::<Exported>()]
}
