//! XLSX: a workbook of sheets.

use crate::tables::guard::is_risky;
use crate::tables::{Cell, Sheet};
use jiff::civil::Date;
use rust_xlsxwriter::{DocProperties, ExcelDateTime, Format, Workbook, Worksheet, XlsxError};
use std::collections::HashSet;

/// Rows of a worksheet. Source: ECMA-376 leaves it open; Microsoft's "Excel specifications and limits",
/// from memory, unverified.
const MOST_ROWS: usize = 1_048_576;
/// Columns of a worksheet. Source: as above.
const MOST_COLUMNS: usize = 16_384;
/// Characters (UTF-16 units) of a cell's text. Source: as above.
const LONGEST_TEXT: usize = 32_767;
/// Characters of a worksheet's name. Source: as above.
const LONGEST_NAME: usize = 31;
/// Characters that a worksheet's name may not hold. Source: as above.
const BARRED_FROM_NAMES: [char; 7] = ['[', ']', ':', '*', '?', '/', '\\'];
/// Column width in pixels beyond which a sheet is no longer read at a glance. Common practice, no source.
const WIDEST_COLUMN: u32 = 400;

/// Why a workbook could not be written.
#[derive(Debug, thiserror::Error)]
pub enum XlsxFault {
    /// More rows or columns than a worksheet has.
    #[error("sheet {sheet:?} has {rows} rows and {columns} columns; a worksheet holds 1,048,576 and 16,384")]
    TooLarge {
        /// The sheet.
        sheet: String,
        /// Its rows, headings included.
        rows: usize,
        /// Its columns.
        columns: usize,
    },
    /// A text longer than a cell holds.
    #[error("sheet {sheet:?}, row {row}, column {column}: {length} characters of text; a cell holds 32,767")]
    TextTooLong {
        /// The sheet.
        sheet: String,
        /// The row as a spreadsheet numbers it, headings being 1.
        row: usize,
        /// The column, counted from 1.
        column: usize,
        /// Characters of the text, as a spreadsheet counts them.
        length: usize,
    },
    /// Anything else that stopped the writer.
    #[error("cannot write the workbook: {0}")]
    Writer(#[from] XlsxError),
}

/// Writes sheets as one workbook.
///
/// Text is always written as a text cell, never as a formula, and risky text carries the mark by which a
/// spreadsheet keeps it text even after it was edited; the text itself is unchanged. `made_on` is
/// written as the workbook's date, so that the same input gives the same bytes.
///
/// # Errors
/// [`XlsxFault`] where a sheet is larger than the format allows; write such a sheet as CSV.
pub fn to_xlsx(sheets: &[Sheet], made_on: Date) -> Result<Vec<u8>, XlsxFault> {
    let mut workbook = Workbook::new();
    workbook.set_properties(&DocProperties::new().set_creation_datetime(&day(made_on)?));
    let looks = Looks::default();
    for (sheet, name) in sheets.iter().zip(names(sheets)) {
        fits(sheet)?;
        let page = workbook.add_worksheet();
        page.set_name(name)?;
        write(page, sheet, &looks)?;
    }
    Ok(workbook.save_to_buffer()?)
}

/// How cells look.
struct Looks {
    heading: Format,
    guarded: Format,
    day: Format,
}

impl Default for Looks {
    fn default() -> Self {
        Self {
            heading: Format::new().set_bold().set_text_wrap(),
            guarded: Format::new().set_quote_prefix(),
            day: Format::new().set_num_format("yyyy-mm-dd"),
        }
    }
}

fn fits(sheet: &Sheet) -> Result<(), XlsxFault> {
    let rows = sheet.rows.len() + 1;
    let columns = sheet.rows.iter().map(Vec::len).fold(sheet.headings.len(), usize::max);
    let fits = rows <= MOST_ROWS && columns <= MOST_COLUMNS;
    fits.then_some(()).ok_or_else(|| XlsxFault::TooLarge { sheet: sheet.name.clone(), rows, columns })
}

fn write(page: &mut Worksheet, sheet: &Sheet, looks: &Looks) -> Result<(), XlsxFault> {
    for (column, heading) in sheet.headings.iter().enumerate() {
        let place = Place::of(sheet, 0, column)?;
        place.holds(heading)?;
        page.write_string_with_format(place.row, place.column, heading, &looks.heading)?;
    }
    for (row, cells) in sheet.rows.iter().enumerate() {
        for (column, cell) in cells.iter().enumerate() {
            write_cell(page, &Place::of(sheet, row + 1, column)?, cell, looks)?;
        }
    }
    page.set_freeze_panes(1, 0)?;
    page.set_autofit_max_width(WIDEST_COLUMN);
    page.autofit();
    Ok(())
}

/// A cell's place on its worksheet.
struct Place<'a> {
    sheet: &'a str,
    row: u32,
    column: u16,
}

impl<'a> Place<'a> {
    fn of(sheet: &'a Sheet, row: usize, column: usize) -> Result<Self, XlsxFault> {
        let outside = |_| XlsxError::RowColumnLimitError;
        let row = u32::try_from(row).map_err(outside)?;
        let column = u16::try_from(column).map_err(outside)?;
        Ok(Self { sheet: &sheet.name, row, column })
    }

    fn holds(&self, text: &str) -> Result<(), XlsxFault> {
        let length = text.encode_utf16().count();
        if length <= LONGEST_TEXT {
            return Ok(());
        }
        let (row, column) = (self.row as usize + 1, usize::from(self.column) + 1);
        Err(XlsxFault::TextTooLong { sheet: self.sheet.to_owned(), row, column, length })
    }
}

fn write_cell(page: &mut Worksheet, place: &Place<'_>, cell: &Cell, looks: &Looks) -> Result<(), XlsxFault> {
    let (row, column) = (place.row, place.column);
    match cell {
        Cell::Text(text) if text.is_empty() => {}
        Cell::Text(text) => {
            place.holds(text)?;
            if is_risky(text) {
                page.write_string_with_format(row, column, text, &looks.guarded)?;
            } else {
                page.write_string(row, column, text)?;
            }
        }
        Cell::Number(number) if number.is_finite() => {
            page.write_number(row, column, *number)?;
        }
        Cell::Number(_) | Cell::Empty => {}
        Cell::Count(count) => write_count(page, place, *count)?,
        Cell::Day(date) => write_day(page, place, *date, looks)?,
    }
    Ok(())
}

/// A spreadsheet's numbers are doubles, which hold whole numbers up to 2^53; a larger count is written
/// as text rather than rounded.
fn write_count(page: &mut Worksheet, place: &Place<'_>, count: u64) -> Result<(), XlsxFault> {
    #[expect(clippy::cast_precision_loss, reason = "the line below says whether the cast was exact")]
    let number = count as f64;
    if count <= 1 << 53 {
        page.write_number(place.row, place.column, number)?;
    } else {
        page.write_string(place.row, place.column, count.to_string())?;
    }
    Ok(())
}

/// A spreadsheet's calendar begins in 1900; an older day is written as text.
fn write_day(page: &mut Worksheet, place: &Place<'_>, date: Date, looks: &Looks) -> Result<(), XlsxFault> {
    match day(date) {
        Ok(written) => page.write_datetime_with_format(place.row, place.column, &written, &looks.day)?,
        Err(_) => page.write_string(place.row, place.column, date.to_string())?,
    };
    Ok(())
}

fn day(date: Date) -> Result<ExcelDateTime, XlsxError> {
    let part = |part: i8| u8::try_from(part).unwrap_or_default();
    let year = u16::try_from(date.year()).unwrap_or_default();
    ExcelDateTime::from_ymd(year, part(date.month()), part(date.day()))
}

/// Names that a worksheet may have, all different whatever their letters' size.
fn names(sheets: &[Sheet]) -> Vec<String> {
    let mut taken = HashSet::new();
    sheets.iter().map(|sheet| free_name(&allowed_name(&sheet.name), &mut taken)).collect()
}

fn free_name(wanted: &str, taken: &mut HashSet<String>) -> String {
    let mut name = wanted.to_owned();
    let mut number = 1_u32;
    while !taken.insert(name.to_lowercase()) {
        number += 1;
        let ending = format!(" {number}");
        name = shortened(wanted, LONGEST_NAME - ending.len()) + &ending;
    }
    name
}

fn allowed_name(name: &str) -> String {
    let barred = |letter: char| BARRED_FROM_NAMES.contains(&letter) || letter.is_control();
    let kept = name.replace(barred, " ");
    let kept = shortened(kept.trim_matches(|edge: char| edge == '\'' || edge.is_whitespace()), LONGEST_NAME);
    let kept = kept.trim_end_matches(|edge: char| edge == '\'' || edge.is_whitespace());
    // Spreadsheets keep the name "History" for themselves.
    if kept.is_empty() || kept.eq_ignore_ascii_case("history") {
        format!("Sheet {kept}").trim_end().to_owned()
    } else {
        kept.to_owned()
    }
}

/// The first `most` characters as a spreadsheet counts them (UTF-16 units).
fn shortened(name: &str, most: usize) -> String {
    let mut length = 0;
    name.chars()
        .take_while(|letter| {
            length += letter.len_utf16();
            length <= most
        })
        .collect()
}
