//! The cells of one workbook sheet, packed: one long text, and where each cell stands in it.

use crate::table::{Broken, CellKind, MOST_CELL_BYTES, MOST_COLUMNS, Row, Span};
use jiff::civil::Date;
use std::ops::ControlFlow;

/// Most bytes of text that are kept of one sheet.
pub(crate) const MOST_TEXT: usize = 256 * 1024 * 1024;
/// Most cells that are kept of one sheet, empty ones between others included.
pub(crate) const MOST_CELLS: usize = 20_000_000;

/// The cells of one sheet.
#[derive(Debug, Default)]
pub(crate) struct Grid {
    text: String,
    spans: Vec<Span>,
    rows: Vec<GridRow>,
    day_zero: Option<Date>,
}

#[derive(Debug)]
struct GridRow {
    number: u64,
    first: usize,
    end: usize,
    broken: Option<Broken>,
}

/// A sheet holds more than is kept.
#[derive(Debug, PartialEq, Eq)]
pub(crate) struct Full;

impl Grid {
    pub(crate) fn new(day_zero: Option<Date>) -> Self {
        Self { day_zero, ..Self::default() }
    }

    pub(crate) fn of_rows(rows: &[(u64, Vec<String>)]) -> Self {
        let mut grid = Self::default();
        for (number, cells) in rows {
            for (place, text) in cells.iter().enumerate() {
                // A hand-typed row beyond the limits keeps what fits; nobody types 256 MB.
                let _ = grid.push(*number, place, text, CellKind::Text);
            }
        }
        grid
    }

    pub(crate) fn day_zero(&self) -> Option<Date> {
        self.day_zero
    }

    pub(crate) fn row_count(&self) -> usize {
        self.rows.len()
    }

    /// Adds a cell. Cells come row by row and from left to right; gaps are filled with empty cells,
    /// and a cell that comes out of order is passed over.
    pub(crate) fn push(&mut self, number: u64, place: usize, text: &str, kind: CellKind) -> Result<(), Full> {
        if self.rows.last().is_none_or(|row| row.number < number) {
            let first = self.spans.len();
            self.rows.push(GridRow { number, first, end: first, broken: None });
        }
        let Some(row) = self.rows.last_mut().filter(|row| row.number == number) else { return Ok(()) };
        let filled = row.end - row.first;
        match (place, text) {
            (place, _) if place < filled => return Ok(()),
            (MOST_COLUMNS.., "") => return Ok(()),
            (MOST_COLUMNS.., _) => row.broken = Some(Broken::ManyCells),
            (_, text) if MOST_CELL_BYTES < text.len() => row.broken = Some(Broken::LongCell),
            (place, text) => {
                let at = self.text.len() as u32;
                let empty = Span { start: at, end: at, kind: CellKind::Text };
                self.spans.extend(std::iter::repeat_n(empty, place - filled));
                self.text.push_str(text);
                self.spans.push(Span { start: at, end: self.text.len() as u32, kind });
                row.end = self.spans.len();
            }
        }
        let full = MOST_TEXT < self.text.len() || MOST_CELLS < self.spans.len();
        if full { Err(Full) } else { Ok(()) }
    }

    /// Walks along the rows; rows that the sheet leaves out are not handed on.
    pub(crate) fn walk(&self, each: &mut dyn FnMut(Row<'_>) -> ControlFlow<()>) {
        for row in &self.rows {
            let spans = self.spans.get(row.first..row.end).unwrap_or_default();
            if each(Row::new(row.number, row.broken, &self.text, spans)).is_break() {
                return;
            }
        }
    }
}
