//! Workbooks in OpenDocument (ODS): their sheets as packed cells.
//!
//! Read here event by event rather than by the workbook library, which writes out every repeated cell
//! at once: eight bytes of a hostile sheet can ask for a billion of them. Here a repeated cell that is
//! empty costs nothing, and one that is not is counted against the limits.

use crate::file::OpenFault;
use crate::grid::Grid;
use crate::package::{Package, Part};
use crate::table::{CellKind, MOST_COLUMNS, Table};
use crate::workbook::{MOST_ROWS, MOST_SHEET_ROWS, MOST_SHEETS, day_cell, iso_day, too_full};
use quick_xml::Reader;
use quick_xml::events::{BytesStart, Event};

/// Reads every sheet that holds anything.
pub(crate) fn tables(file_name: &str, package: &mut Package) -> Result<Vec<Table>, OpenFault> {
    if is_encrypted(package)? {
        return Err(OpenFault::Encrypted);
    }
    let mut tables = Vec::new();
    let mut rows = 0;
    let mut sheets = Sheets::new(package.part("content.xml")?);
    while let Some((name, grid)) = sheets.next_sheet()? {
        rows += grid.row_count() as u64;
        if MOST_ROWS < rows {
            return Err(OpenFault::TooMany { what: "rows", most: MOST_ROWS });
        }
        if MOST_SHEETS <= tables.len() {
            return Err(OpenFault::TooMany { what: "sheets", most: MOST_SHEETS as u64 });
        }
        if 0 < grid.row_count() {
            tables.push(Table::of_grid(file_name, Some(&name), "an ODS workbook".to_owned(), grid));
        }
    }
    Ok(tables)
}

fn is_encrypted(package: &mut Package) -> Result<bool, OpenFault> {
    if !package.holds("META-INF/manifest.xml") {
        return Ok(false);
    }
    let mut xml = Xml::new(package.part("META-INF/manifest.xml")?);
    loop {
        match xml.next()? {
            Event::Start(element) if element.local_name().as_ref() == "encryption-data" => return Ok(true),
            Event::Eof => return Ok(false),
            _ => {}
        }
    }
}

/// A reader of XML that reuses its buffer.
struct Xml<'a> {
    reader: Reader<Part<'a>>,
    buffer: Vec<u8>,
}

impl<'a> Xml<'a> {
    fn new(part: Part<'a>) -> Self {
        let mut reader = Reader::from_reader(part);
        reader.config_mut().expand_empty_elements = true;
        Self { reader, buffer: Vec::new() }
    }

    fn next(&mut self) -> Result<Event<'_>, OpenFault> {
        self.buffer.clear();
        self.reader.read_event_into(&mut self.buffer).map_err(|fault| OpenFault::Damaged(fault.to_string()))
    }
}

struct Sheets<'a> {
    xml: Xml<'a>,
}

/// A cell as its element tells it.
#[derive(Default)]
struct OdsCell {
    repeat: usize,
    value: Option<String>,
    day: Option<String>,
    truth: Option<bool>,
    has_formula: bool,
    failed: bool,
    text: String,
}

impl<'a> Sheets<'a> {
    fn new(content: Part<'a>) -> Self {
        Self { xml: Xml::new(content) }
    }

    fn next_sheet(&mut self) -> Result<Option<(String, Grid)>, OpenFault> {
        loop {
            match self.xml.next()? {
                Event::Start(element) if element.local_name().as_ref() == "table" => {
                    let name = attribute(&element, "name").unwrap_or_default();
                    return Ok(Some((name, self.sheet()?)));
                }
                Event::Eof => return Ok(None),
                _ => {}
            }
        }
    }

    fn sheet(&mut self) -> Result<Grid, OpenFault> {
        let mut grid = Grid::new(None);
        let mut number = 1;
        loop {
            let repeat = match self.xml.next()? {
                Event::Start(element) if element.local_name().as_ref() == "table-row" => {
                    repeats(&element, "number-rows-repeated")
                }
                Event::End(element) if element.local_name().as_ref() == "table" => return Ok(grid),
                Event::Eof => return Err(cut_short()),
                _ => continue,
            };
            let cells = self.row()?;
            add_rows(&mut grid, number, repeat, &cells)?;
            number = number.saturating_add(repeat as u64);
        }
    }

    /// The cells of one row with their places, empty ones left out.
    fn row(&mut self) -> Result<Vec<(usize, OdsCell)>, OpenFault> {
        let mut cells = Vec::new();
        let mut place = 0_usize;
        loop {
            let cell = match self.xml.next()? {
                Event::Start(element) if is_cell(element.local_name().as_ref()) => OdsCell::begun(&element),
                Event::End(element) if element.local_name().as_ref() == "table-row" => return Ok(cells),
                Event::Eof => return Err(cut_short()),
                _ => continue,
            };
            let cell = self.inside(cell)?;
            let repeat = cell.repeat;
            if !cell.is_empty() && place <= MOST_COLUMNS {
                cells.push((place, cell));
            }
            place = place.saturating_add(repeat);
        }
    }

    /// Reads what stands inside a cell: its paragraphs, notes pinned to it left out.
    fn inside(&mut self, mut cell: OdsCell) -> Result<OdsCell, OpenFault> {
        let mut notes = 0_u32;
        loop {
            match self.xml.next()? {
                Event::Start(element) => match element.local_name().as_ref() {
                    "annotation" => notes += 1,
                    "p" if notes == 0 && !cell.text.is_empty() => cell.text.push('\n'),
                    "s" if notes == 0 => cell.text.push(' '),
                    _ => {}
                },
                Event::Text(text) if notes == 0 => cell.text.push_str(&text.xml10_content()),
                Event::GeneralRef(name) if notes == 0 => cell.text.extend(entity(&name)),
                Event::End(element) => match element.local_name().as_ref() {
                    "annotation" => notes = notes.saturating_sub(1),
                    name if is_cell(name) => return Ok(cell),
                    _ => {}
                },
                Event::Eof => return Err(cut_short()),
                _ => {}
            }
        }
    }
}

fn add_rows(
    grid: &mut Grid,
    number: u64,
    repeat: usize,
    cells: &[(usize, OdsCell)],
) -> Result<(), OpenFault> {
    if cells.is_empty() {
        return Ok(());
    }
    let last = number.saturating_add(repeat as u64 - 1);
    if MOST_SHEET_ROWS < last {
        return Err(OpenFault::TooMany { what: "rows in a sheet", most: MOST_SHEET_ROWS });
    }
    for number in number..=last {
        for (place, cell) in cells {
            let (text, kind) = cell.read();
            for place in *place..place.saturating_add(cell.repeat).min(MOST_COLUMNS + 1) {
                grid.push(number, place, &text, kind).map_err(|_| too_full())?;
            }
        }
    }
    Ok(())
}

impl OdsCell {
    fn begun(element: &BytesStart<'_>) -> Self {
        let failed = attribute(element, "calcext:value-type").is_some_and(|sort| sort == "error");
        Self {
            repeat: repeats(element, "number-columns-repeated"),
            value: attribute(element, "office:value"),
            day: attribute(element, "date-value"),
            truth: attribute(element, "boolean-value").map(|truth| truth.eq_ignore_ascii_case("true")),
            has_formula: attribute(element, "formula").is_some(),
            failed,
            text: attribute(element, "string-value").unwrap_or_default(),
        }
    }

    fn is_empty(&self) -> bool {
        let valueless = self.value.is_none() && self.day.is_none() && self.truth.is_none();
        valueless && !self.has_formula && self.text.trim().is_empty()
    }

    fn read(&self) -> (std::borrow::Cow<'_, str>, CellKind) {
        if let Some(day) = self.day.as_deref().and_then(iso_day) {
            return day_cell(day);
        }
        if let Some(number) = self.value.as_deref().and_then(|value| value.parse::<f64>().ok()) {
            return (number.to_string().into(), CellKind::Number);
        }
        match self.truth {
            Some(truth) => (if truth { "yes" } else { "no" }.into(), CellKind::Text),
            None if self.failed || is_failure(&self.text) => (self.text.as_str().into(), CellKind::Failed),
            None if self.has_formula && self.text.is_empty() => ("=".into(), CellKind::Unworked),
            None => (self.text.as_str().into(), CellKind::Text),
        }
    }
}

fn is_failure(text: &str) -> bool {
    matches!(text, "#DIV/0!" | "#N/A" | "#NAME?" | "#NULL!" | "#NUM!" | "#REF!" | "#VALUE!")
}

fn is_cell(name: &str) -> bool {
    matches!(name, "table-cell" | "covered-table-cell")
}

/// The value of an attribute, by its full name or by the part behind its colon.
fn attribute(element: &BytesStart<'_>, name: &str) -> Option<String> {
    let is_named = |key: &str| key == name || key.rsplit(':').next() == Some(name);
    let found = element.attributes().flatten().find(|mark| is_named(mark.key.as_ref()))?;
    quick_xml::escape::unescape(&found.value).ok().map(std::borrow::Cow::into_owned)
}

/// How often an element stands for itself: at least once.
fn repeats(element: &BytesStart<'_>, name: &str) -> usize {
    attribute(element, name).and_then(|count| count.parse().ok()).unwrap_or(1).max(1)
}

/// The sign that `&name;` stands for.
fn entity(name: &quick_xml::events::BytesRef<'_>) -> Option<char> {
    if let Ok(Some(sign)) = name.resolve_char_ref() {
        return Some(sign);
    }
    quick_xml::escape::resolve_predefined_entity(name.as_ref()).and_then(|sign| sign.chars().next())
}

fn cut_short() -> OpenFault {
    OpenFault::Damaged("its cells break off".to_owned())
}
