//! XLSX workbooks, with merged titles, real dates and formulas.
//!
//! Start at [`bytes`].

use crate::paper::{Cell, Page, PaperFault};
use rust_xlsxwriter::{DocProperties, ExcelDateTime, Format, Formula, Workbook, Worksheet, XlsxError};

/// Writes pages as the sheets of a workbook. The creation date is fixed, so that the bytes are too.
///
/// # Errors
/// [`PaperFault::Workbook`] where the writer refuses.
pub fn bytes(pages: &[Page]) -> Result<Vec<u8>, PaperFault> {
    let mut workbook = Workbook::new();
    let made = ExcelDateTime::from_ymd(2026, 11, 1)?;
    workbook.set_properties(&DocProperties::new().set_creation_datetime(&made));
    for page in pages {
        write_page(workbook.add_worksheet(), page)?;
    }
    Ok(workbook.save_to_buffer()?)
}

fn write_page(sheet: &mut Worksheet, page: &Page) -> Result<(), XlsxError> {
    sheet.set_name(&page.name)?;
    for (row, cells) in (0u32..).zip(&page.rows) {
        for (column, cell) in (0u16..).zip(cells) {
            write_cell(sheet, row, column, cell)?;
        }
    }
    for (row, columns) in &page.merged {
        merge(sheet, page, *row, *columns)?;
    }
    Ok(())
}

fn merge(sheet: &mut Worksheet, page: &Page, row: usize, columns: usize) -> Result<(), XlsxError> {
    let Some(Cell::Text(words)) = page.rows.get(row).and_then(|cells| cells.first()) else { return Ok(()) };
    let (row, last) = (row as u32, columns.saturating_sub(1) as u16);
    sheet.merge_range(row, 0, row, last, words, &Format::new().set_bold())?;
    Ok(())
}

fn write_cell(sheet: &mut Worksheet, row: u32, column: u16, cell: &Cell) -> Result<(), XlsxError> {
    match cell {
        Cell::Empty => {}
        Cell::Text(text) => drop(sheet.write_string(row, column, text)?),
        Cell::Number(number) => drop(sheet.write_number(row, column, *number)?),
        Cell::Day(day) => {
            let (year, month, date) = (day.year() as u16, day.month() as u8, day.day() as u8);
            let shown = Format::new().set_num_format("d mmm yyyy");
            sheet.write_datetime_with_format(
                row,
                column,
                ExcelDateTime::from_ymd(year, month, date)?,
                &shown,
            )?;
        }
        Cell::Formula { formula, shows } => {
            let formula = Formula::new(formula).set_result(shows.to_string());
            sheet.write_formula(row, column, formula)?;
        }
    }
    Ok(())
}
