//! CSV: the table that every program reads.

use crate::tables::guard::guarded;
use crate::tables::{Cell, Sheet};
use std::borrow::Cow;
use std::io::Write;

/// Whether the file opens with the byte order mark by which spreadsheets know UTF-8.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum ByteOrderMark {
    /// With it: for people, who open the file in a spreadsheet.
    #[default]
    Written,
    /// Without it: for other programs.
    LeftOut,
}

/// Why a CSV file could not be written.
#[derive(Debug, thiserror::Error)]
#[error("cannot write the table: {0}")]
pub struct CsvFault(#[from] csv::Error);

/// UTF-8's byte order mark.
const BYTE_ORDER_MARK: &[u8] = "\u{feff}".as_bytes();

/// Writes a sheet as CSV in UTF-8: commas, lines ended by CR LF, quotes only where needed.
///
/// Risky text is guarded; numbers, counts and days are written bare. Every line has as many cells as
/// the widest row.
///
/// # Errors
/// [`CsvFault`] where `to` cannot be written.
pub fn to_csv(sheet: &Sheet, mark: ByteOrderMark, mut to: impl Write) -> Result<(), CsvFault> {
    if mark == ByteOrderMark::Written {
        to.write_all(BYTE_ORDER_MARK).map_err(csv::Error::from)?;
    }
    let mut lines = csv::WriterBuilder::new().terminator(csv::Terminator::CRLF).from_writer(to);
    let widest = widest_row(sheet);
    write_line(&mut lines, sheet.headings.iter().map(|heading| guarded(heading)), widest)?;
    for row in &sheet.rows {
        write_line(&mut lines, row.iter().map(written), widest)?;
    }
    lines.flush().map_err(csv::Error::from)?;
    Ok(())
}

fn widest_row(sheet: &Sheet) -> usize {
    sheet.rows.iter().map(Vec::len).fold(sheet.headings.len(), usize::max)
}

fn write_line<'a>(
    lines: &mut csv::Writer<impl Write>,
    cells: impl Iterator<Item = Cow<'a, str>>,
    width: usize,
) -> Result<(), csv::Error> {
    for cell in cells.chain(std::iter::repeat(Cow::Borrowed(""))).take(width) {
        lines.write_field(cell.as_ref())?;
    }
    lines.write_record(None::<&[u8]>)
}

fn written(cell: &Cell) -> Cow<'_, str> {
    match cell {
        Cell::Text(text) => guarded(text),
        Cell::Number(number) if number.is_finite() => Cow::Owned(number.to_string()),
        Cell::Number(_) | Cell::Empty => Cow::Borrowed(""),
        Cell::Count(count) => Cow::Owned(count.to_string()),
        Cell::Day(day) => Cow::Owned(day.to_string()),
    }
}
