//! Workbooks in XLSX: their sheets as packed cells.
//!
//! The sheets are read cell by cell, so that a sheet which claims a million empty columns costs
//! nothing. A formula gives the value it was saved with; one saved without a value says so.

use crate::file::{Content, OpenFault, Source};
use crate::grid::Grid;
use crate::package::{MOST_STRINGS, Package};
use crate::table::{CellKind, Table};
use calamine::{DataRef, ExcelDateTime, Reader, Xlsx, XlsxError, XlsxFormulaMetadata};
use jiff::civil::{Date, date};
use quick_xml::events::Event;
use std::io::BufRead;

/// Most sheets of a workbook. Common practice, no source.
pub(crate) const MOST_SHEETS: usize = 256;
/// Most rows of one sheet. Source: Microsoft, "Excel specifications and limits": 1,048,576 rows.
pub(crate) const MOST_SHEET_ROWS: u64 = 1_048_576;
/// Most rows of all sheets together.
pub(crate) const MOST_ROWS: u64 = 2_000_000;
/// Most shared strings that a workbook may announce; each has room made for it before it is read.
const MOST_SHARED_STRINGS: u64 = 4_000_000;
/// Day 0 of workbooks that count from 1904. Source: ECMA-376 Part 1, 18.17.4.1.
const DAY_ZERO_1904: Date = date(1904, 1, 1);

/// Reads every sheet that holds anything.
pub(crate) fn tables(
    file_name: &str,
    content: &Content,
    package: &mut Package,
) -> Result<Vec<Table>, OpenFault> {
    sane_strings(package)?;
    let mut book: Xlsx<Box<dyn Source>> = Xlsx::new(content.reader()?).map_err(book_fault)?;
    let names = book.sheet_names();
    if MOST_SHEETS < names.len() {
        return Err(OpenFault::TooMany { what: "sheets", most: MOST_SHEETS as u64 });
    }
    let mut tables = Vec::new();
    let mut rows = 0;
    for name in names {
        let Some(grid) = sheet(&mut book, &name)? else { continue };
        rows += grid.row_count() as u64;
        if MOST_ROWS < rows {
            return Err(OpenFault::TooMany { what: "rows", most: MOST_ROWS });
        }
        tables.push(Table::of_grid(file_name, Some(&name), "an XLSX workbook".to_owned(), grid));
    }
    Ok(tables)
}

/// The cells of one sheet, or `None` for a sheet of another sort (a chart) or with nothing in it.
fn sheet(book: &mut Xlsx<Box<dyn Source>>, name: &str) -> Result<Option<Grid>, OpenFault> {
    let day_zero = book.has_1904_epoch().then_some(DAY_ZERO_1904);
    let mut grid = Grid::new(day_zero);
    let mut cells = match book.worksheet_cells_reader(name) {
        Ok(cells) => cells,
        Err(XlsxError::NotAWorksheet(_) | XlsxError::WorksheetNotFound(_)) => return Ok(None),
        Err(fault) => return Err(book_fault(fault)),
    };
    while let Some(cell) = cells.next_cell_with_formula_metadata().map_err(book_fault)? {
        let (row, column) = cell.pos;
        let number = u64::from(row) + 1;
        if MOST_SHEET_ROWS < number {
            return Err(OpenFault::TooMany { what: "rows in a sheet", most: MOST_SHEET_ROWS });
        }
        let (text, kind) = read_cell(cell.value, cell.formula.as_ref());
        grid.push(number, column as usize, text.as_ref(), kind).map_err(|_| too_full())?;
    }
    Ok((0 < grid.row_count()).then_some(grid))
}

pub(crate) fn too_full() -> OpenFault {
    OpenFault::TooMany { what: "cells in a sheet", most: crate::grid::MOST_CELLS as u64 }
}

/// The text and kind of one cell.
fn read_cell<'a>(
    value: DataRef<'a>,
    formula: Option<&XlsxFormulaMetadata>,
) -> (std::borrow::Cow<'a, str>, CellKind) {
    match value {
        DataRef::Empty if formula.is_some() => ("=".into(), CellKind::Unworked),
        DataRef::Empty => ("".into(), CellKind::Text),
        DataRef::String(text) => (text.into(), CellKind::Text),
        DataRef::SharedString(text) => (text.into(), CellKind::Text),
        DataRef::Int(number) => (number.to_string().into(), CellKind::Number),
        DataRef::Float(number) => (number.to_string().into(), CellKind::Number),
        DataRef::Bool(truth) => (if truth { "yes" } else { "no" }.into(), CellKind::Text),
        DataRef::DateTime(moment) => read_moment(moment),
        DataRef::DateTimeIso(text) => iso_day(&text).map_or((text.into(), CellKind::Text), day_cell),
        DataRef::DurationIso(text) => (text.into(), CellKind::Text),
        DataRef::Error(fault) => (fault.to_string().into(), CellKind::Failed),
    }
}

fn read_moment<'a>(moment: ExcelDateTime) -> (std::borrow::Cow<'a, str>, CellKind) {
    // A time of day or a stretch of hours is no date; it is left as the number it is.
    let is_day = moment.is_datetime() && 1.0 <= moment.as_f64();
    let (year, month, day, ..) = moment.to_ymd_hms_milli();
    let civil = Date::new(year as i16, month as i8, day as i8).ok().filter(|_| is_day);
    civil.map_or((moment.as_f64().to_string().into(), CellKind::Number), day_cell)
}

pub(crate) fn day_cell<'a>(day: Date) -> (std::borrow::Cow<'a, str>, CellKind) {
    (day.to_string().into(), CellKind::Day)
}

/// The date at the beginning of an ISO date and time.
pub(crate) fn iso_day(text: &str) -> Option<Date> {
    text.get(..10)?.parse().ok()
}

/// Refuses shared strings that are more than memory should hold, before room is made for them.
fn sane_strings(package: &mut Package) -> Result<(), OpenFault> {
    let names = package.names();
    let strings = names.iter().filter(|name| name.to_ascii_lowercase().ends_with("sharedstrings.xml"));
    for name in strings {
        let part = package.part(name)?;
        if MOST_STRINGS < part.get_ref().size() {
            return Err(OpenFault::Bomb("more than 128 MB of words".to_owned()));
        }
        if announced(part).is_some_and(|count| MOST_SHARED_STRINGS < count) {
            return Err(OpenFault::TooMany { what: "different words", most: MOST_SHARED_STRINGS });
        }
    }
    Ok(())
}

/// How many strings the part says it holds; `None` where it does not say or is damaged.
fn announced(part: impl BufRead) -> Option<u64> {
    let mut xml = quick_xml::Reader::from_reader(part);
    let mut buffer = Vec::new();
    loop {
        buffer.clear();
        match xml.read_event_into(&mut buffer) {
            Ok(Event::Start(element) | Event::Empty(element)) if element.local_name().as_ref() == "sst" => {
                let count = element.attributes().flatten().find(|mark| mark.key.as_ref() == "uniqueCount")?;
                // A number too long to be read is beyond any limit.
                return Some(count.value.trim().parse().unwrap_or(u64::MAX));
            }
            Ok(Event::Eof) | Err(_) => return None,
            Ok(_) => {}
        }
    }
}

fn book_fault(fault: XlsxError) -> OpenFault {
    match fault {
        XlsxError::Password => OpenFault::Encrypted,
        XlsxError::Io(fault) => OpenFault::Unreadable(fault),
        fault => OpenFault::Damaged(fault.to_string()),
    }
}
