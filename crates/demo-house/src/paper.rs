//! Paper: the files that keepers write on, and how each becomes bytes.
//!
//! A [`Sheaf`] is one file of [`Page`]s; a page is rows of [`Cell`]s as a spreadsheet would number
//! them. [`delimited`] writes text files, [`workbook`] XLSX and [`open_document`] ODS. Start at [`bytes`].

pub mod delimited;
pub mod open_document;
pub mod workbook;

use jiff::civil::Date;
use thiserror::Error;

/// One cell.
#[derive(Clone, Debug, PartialEq)]
pub enum Cell {
    /// Nothing.
    Empty,
    /// Words, or a number as its keeper wrote it.
    Text(String),
    /// A number typed into a spreadsheet.
    Number(f64),
    /// A day typed into a spreadsheet.
    Day(Date),
    /// A formula and what it shows.
    Formula {
        /// The formula, without `=`, such as `D5-E5`.
        formula: String,
        /// Its result.
        shows: f64,
    },
}

impl From<&str> for Cell {
    fn from(words: &str) -> Self {
        if words.is_empty() { Self::Empty } else { Self::Text(words.to_owned()) }
    }
}

impl From<String> for Cell {
    fn from(words: String) -> Self {
        if words.is_empty() { Self::Empty } else { Self::Text(words) }
    }
}

impl From<u32> for Cell {
    fn from(count: u32) -> Self {
        Self::Number(f64::from(count))
    }
}

impl From<Date> for Cell {
    fn from(day: Date) -> Self {
        Self::Day(day)
    }
}

impl<T: Into<Cell>> From<Option<T>> for Cell {
    fn from(cell: Option<T>) -> Self {
        cell.map_or(Self::Empty, Into::into)
    }
}

/// One sheet of a workbook, or the whole of a text file.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Page {
    /// The sheet's name; empty in a text file.
    pub name: String,
    /// Rows from the top; a blank row has no cells.
    pub rows: Vec<Vec<Cell>>,
    /// Rows (from 0) whose first cell is merged over so many columns.
    pub merged: Vec<(usize, usize)>,
    /// Rows that hold a record of the house: not titles, headings, totals or blanks.
    pub records: u32,
}

impl Page {
    /// A page with this name and nothing on it.
    #[must_use]
    pub fn named(name: &str) -> Self {
        Self { name: name.to_owned(), ..Self::default() }
    }

    /// The number that a spreadsheet gives the next row, from 1.
    #[must_use]
    pub fn next_row(&self) -> u32 {
        self.rows.len() as u32 + 1
    }

    /// Adds a title over `columns` merged columns.
    pub fn title(&mut self, words: &str, columns: usize) {
        self.merged.push((self.rows.len(), columns));
        self.rows.push(vec![words.into()]);
    }

    /// Adds a row of words: headings, section names, totals.
    pub fn words(&mut self, words: &[&str]) {
        self.rows.push(words.iter().map(|word| (*word).into()).collect());
    }

    /// Adds a blank row.
    pub fn blank(&mut self) {
        self.rows.push(Vec::new());
    }

    /// Adds a record.
    pub fn record(&mut self, cells: Vec<Cell>) {
        self.rows.push(cells);
        self.records += 1;
    }
}

/// How a sheaf is kept.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Format {
    /// Delimited text.
    Text {
        /// Between cells.
        delimiter: char,
        /// Letters as bytes.
        letters: Letters,
        /// Ends each line.
        line_end: &'static str,
    },
    /// An XLSX workbook.
    Workbook,
    /// An ODS spreadsheet.
    OpenDocument,
}

/// How letters become bytes.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Letters {
    /// UTF-8.
    Utf8,
    /// UTF-8 behind a byte-order mark.
    Utf8Marked,
    /// UTF-16, little end first, behind a byte-order mark.
    Utf16,
    /// Windows-1252.
    Windows1252,
}

/// One file of the house.
#[derive(Clone, Debug)]
pub struct Sheaf {
    /// Where it lies under `raw/`.
    pub path: String,
    /// What it is and in what state, for the README.
    pub about: &'static str,
    /// How it is kept.
    pub format: Format,
    /// Its pages.
    pub pages: Vec<Page>,
}

impl Sheaf {
    /// Rows that hold a record.
    #[must_use]
    pub fn records(&self) -> u32 {
        self.pages.iter().map(|page| page.records).sum()
    }

    /// All rows, blank ones left out.
    #[must_use]
    pub fn rows(&self) -> usize {
        self.pages.iter().flat_map(|page| &page.rows).filter(|row| !row.is_empty()).count()
    }
}

/// Why a sheaf could not be made into bytes.
#[derive(Debug, Error)]
pub enum PaperFault {
    /// The workbook writer refused.
    #[error("the workbook cannot be written")]
    Workbook(#[from] rust_xlsxwriter::XlsxError),
    /// The archive writer refused.
    #[error("the archive cannot be written")]
    Archive(#[from] zip::result::ZipError),
    /// The archive's bytes could not be written.
    #[error("the bytes cannot be written")]
    Bytes(#[from] std::io::Error),
}

/// The sheaf as the bytes of its file; the same sheaf always gives the same bytes.
///
/// # Errors
/// [`PaperFault`] where a workbook or archive writer refuses.
pub fn bytes(sheaf: &Sheaf) -> Result<Vec<u8>, PaperFault> {
    match sheaf.format {
        Format::Text { delimiter, letters, line_end } => {
            Ok(delimited::bytes(&sheaf.pages, delimiter, letters, line_end))
        }
        Format::Workbook => workbook::bytes(&sheaf.pages),
        Format::OpenDocument => open_document::bytes(&sheaf.pages),
    }
}
