//! A table: rows of cells that can be walked again and again in flat memory.

use crate::delimited::Lines;
use crate::encoding::{Decoding, TextEncoding};
use crate::file::Content;
use crate::grid::Grid;
use jiff::civil::{Date, date};
use std::io::{self, Read};
use std::ops::ControlFlow;
use std::sync::Arc;

/// One table of a file. Cheap to keep: text stays on disk.
#[derive(Clone, Debug)]
pub struct Table {
    file_name: String,
    sheet: Option<String>,
    read_as: String,
    rows: Rows,
}

#[derive(Clone, Debug)]
enum Rows {
    Text { content: Content, encoding: TextEncoding, delimiter: u8 },
    Grid(Arc<Grid>),
}

/// What a cell is, beyond its text.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum CellKind {
    /// Text as typed.
    Text,
    /// A workbook's number, written out with a decimal point whatever the country.
    Number,
    /// A workbook's date, written out as year-month-day.
    Day,
    /// A formula that was saved without its value; the text is the formula.
    Unworked,
    /// A formula that failed, such as `#DIV/0!`.
    Failed,
}

/// One cell, without the blanks round it.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Cell<'a> {
    /// Its text; empty where the cell is.
    pub text: &'a str,
    /// What it is.
    pub kind: CellKind,
}

/// Where one cell stands in the text of its row or sheet.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) struct Span {
    pub(crate) start: u32,
    pub(crate) end: u32,
    pub(crate) kind: CellKind,
}

/// One row of a table.
#[derive(Clone, Copy, Debug)]
pub struct Row<'a> {
    /// Its number as a spreadsheet shows it, from 1.
    pub number: u64,
    /// Why the row could not be split into cells, where it could not; its cells are then what could
    /// be made out.
    pub broken: Option<Broken>,
    text: &'a str,
    spans: &'a [Span],
}

/// Why a row could not be split into cells.
#[derive(Clone, Debug, Copy, PartialEq, Eq, thiserror::Error)]
pub enum Broken {
    /// A quote that is never closed.
    #[error("a quote opens in this row and never closes")]
    OpenQuote,
    /// A cell beyond the limit.
    #[error("a cell is longer than 1 MB")]
    LongCell,
    /// A row beyond the limit.
    #[error("the row is longer than 4 MB")]
    LongRow,
    /// More columns than are taken.
    #[error("the row has more than 512 cells")]
    ManyCells,
    /// A NUL byte, which no text holds.
    #[error("the row holds a NUL byte")]
    Nul,
}

/// Most cells that are taken from one row. A spreadsheet holds more, a notebook never does.
pub const MOST_COLUMNS: usize = 512;
/// Most bytes that are taken from one cell.
pub const MOST_CELL_BYTES: usize = 1024 * 1024;
/// Most bytes that are taken from one row.
pub const MOST_ROW_BYTES: usize = 4 * 1024 * 1024;

/// Day 0 of spreadsheets that count from 1900, which count the 29 February 1900 that never was.
/// Source: ECMA-376 Part 1, 18.17.4.1 (the 1900 date base systems).
const DAY_ZERO: Date = date(1899, 12, 30);

/// Why the walk along the rows ended early.
#[derive(Debug, thiserror::Error)]
#[error("reading stopped: {0}")]
pub struct ReadFault(#[from] io::Error);

impl Broken {
    /// What the grower can do about it, in lower case with no full stop.
    #[must_use]
    pub fn remedy(self) -> &'static str {
        match self {
            Self::OpenQuote => "close the quote, or take it away, in the first cell that begins with one",
            Self::LongCell | Self::LongRow => "check that the row ends where it should",
            Self::ManyCells => "check that the row ends where it should and that its cells are parted once",
            Self::Nul => "save the file again as text in UTF-8",
        }
    }
}

impl<'a> Row<'a> {
    pub(crate) fn new(number: u64, broken: Option<Broken>, text: &'a str, spans: &'a [Span]) -> Self {
        Self { number, broken, text, spans }
    }

    /// The cell at a place from the left, from 0; empty beyond the last.
    #[must_use]
    pub fn cell(&self, place: usize) -> Cell<'a> {
        self.spans.get(place).map_or(Cell::EMPTY, |span| self.at(span))
    }

    /// The cells from the left.
    pub fn cells(&self) -> impl Iterator<Item = Cell<'a>> + use<'a> {
        let row = *self;
        row.spans.iter().map(move |span| row.at(span))
    }

    /// How many cells the row has, empty ones at its end included.
    #[must_use]
    pub fn width(&self) -> usize {
        self.spans.len()
    }

    /// Whether every cell is empty.
    #[must_use]
    pub fn is_blank(&self) -> bool {
        self.cells().all(|cell| cell.text.is_empty())
    }

    fn at(&self, span: &Span) -> Cell<'a> {
        let text = self.text.get(span.start as usize..span.end as usize).unwrap_or_default();
        Cell { text: trimmed(text), kind: span.kind }.plain()
    }
}

impl<'a> Cell<'a> {
    /// A cell with nothing in it.
    pub const EMPTY: Self = Self { text: "", kind: CellKind::Text };

    /// Takes away the guard that our own exports put before `=`, `+`, `-` and `@`, and marks text
    /// that would be a formula.
    fn plain(self) -> Self {
        match (self.kind, self.text.as_bytes()) {
            (CellKind::Text, [b'\'', b'=' | b'+' | b'-' | b'@', ..]) => {
                Self { text: self.text.get(1..).unwrap_or_default(), kind: CellKind::Text }
            }
            (CellKind::Text, [b'=', ..]) => Self { text: self.text, kind: CellKind::Unworked },
            _ => self,
        }
    }
}

/// Trims blanks, the no-break ones of word processors included.
fn trimmed(text: &str) -> &str {
    match text.as_bytes() {
        [first, .., last] if first.is_ascii_graphic() && last.is_ascii_graphic() => text,
        [only] if only.is_ascii_graphic() => text,
        _ => text.trim_matches(|sign: char| sign.is_whitespace() || matches!(sign, '\u{feff}' | '\u{200b}')),
    }
}

/// Bytes read at a time while glancing over a text.
const PIECE: usize = 1 << 16;

/// What one glance over a table tells.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Glance {
    /// Line breaks, those within quotes too.
    pub(crate) lines: u64,
    /// Whether some cell may hold a comma.
    pub(crate) commas_in_cells: bool,
}

impl Table {
    /// A table typed in by hand or mended in the quarantine: numbered rows of cells.
    #[must_use]
    pub fn of_rows(file_name: &str, sheet: Option<&str>, rows: &[(u64, Vec<String>)]) -> Self {
        let grid = Grid::of_rows(rows);
        Self::of_grid(file_name, sheet, "rows typed in".to_owned(), grid)
    }

    pub(crate) fn of_grid(file_name: &str, sheet: Option<&str>, read_as: String, grid: Grid) -> Self {
        Self {
            file_name: file_name.to_owned(),
            sheet: sheet.map(str::to_owned),
            read_as,
            rows: Rows::Grid(Arc::new(grid)),
        }
    }

    pub(crate) fn of_text(
        file_name: &str,
        read_as: String,
        content: Content,
        encoding: TextEncoding,
        delimiter: u8,
    ) -> Self {
        let rows = Rows::Text { content, encoding, delimiter };
        Self { file_name: file_name.to_owned(), sheet: None, read_as, rows }
    }

    /// The name of the file it came from.
    #[must_use]
    pub fn file_name(&self) -> &str {
        &self.file_name
    }

    /// The name of its sheet, in a workbook.
    #[must_use]
    pub fn sheet(&self) -> Option<&str> {
        self.sheet.as_deref()
    }

    /// What the file was read as, in words: `text with semicolons in Windows-1252`.
    #[must_use]
    pub fn read_as(&self) -> &str {
        &self.read_as
    }

    /// The day that a workbook counts as 0.
    pub(crate) fn day_zero(&self) -> Date {
        match &self.rows {
            Rows::Grid(grid) => grid.day_zero().unwrap_or(DAY_ZERO),
            Rows::Text { .. } => DAY_ZERO,
        }
    }

    /// Glances over a text without splitting it.
    pub(crate) fn glance(&self) -> Result<Glance, ReadFault> {
        let (content, delimiter) = match &self.rows {
            Rows::Grid(grid) => return Ok(Glance { lines: grid.row_count() as u64, commas_in_cells: true }),
            Rows::Text { content, delimiter, .. } => (content, *delimiter),
        };
        // Where commas part the cells, a comma within a cell needs quotes round it.
        let sign = if delimiter == b',' { b'"' } else { b',' };
        let (mut reader, mut piece) = (content.reader()?, vec![0; PIECE]);
        let mut glance = Glance { lines: 0, commas_in_cells: false };
        loop {
            let read = reader.read(&mut piece)?;
            let Some(read) = piece.get(..read).filter(|read| !read.is_empty()) else { return Ok(glance) };
            glance.lines += memchr::memchr_iter(b'\n', read).count() as u64;
            glance.commas_in_cells |= memchr::memchr(sign, read).is_some();
        }
    }

    /// Walks along the rows from the first until `each` breaks off.
    ///
    /// # Errors
    /// [`ReadFault`] when the file can no longer be read.
    pub fn walk(&self, each: &mut dyn FnMut(Row<'_>) -> ControlFlow<()>) -> Result<(), ReadFault> {
        match &self.rows {
            Rows::Grid(grid) => grid.walk(each),
            Rows::Text { content, encoding, delimiter } => {
                let reader = content.reader()?;
                if *encoding == TextEncoding::Utf8 {
                    Lines::new(reader, *delimiter).walk(each)?;
                } else {
                    Lines::new(Decoding::new(reader, *encoding), *delimiter).walk(each)?;
                }
            }
        }
        Ok(())
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_guard_of_our_own_exports_is_taken_away() {
        let cells = ["'=1+2", "'-", "'@home", "=1+2", "'tis", "\u{a0}58 g \u{200b}"].map(str::to_owned);
        let table = Table::of_rows("mended", None, &[(1, cells.to_vec())]);
        let mut seen = Vec::new();
        table
            .walk(&mut |row| {
                seen.extend(row.cells().map(|cell| (cell.text.to_owned(), cell.kind)));
                ControlFlow::Continue(())
            })
            .unwrap();
        let text = |text: &str| (text.to_owned(), CellKind::Text);
        let formula = ("=1+2".to_owned(), CellKind::Unworked);
        assert_eq!(seen, [text("=1+2"), text("-"), text("@home"), formula, text("'tis"), text("58 g")]);
    }
}
