//! ODS spreadsheets, written by hand: a zip of a type, a manifest and one XML file of tables.
//!
//! Source: OASIS Open Document Format 1.3, part 3 (schema), from memory, unverified; read back by a
//! spreadsheet reader in the tests. Start at [`bytes`].

use crate::paper::{Cell, Page, PaperFault};
use std::io::{Cursor, Write};
use zip::write::SimpleFileOptions;
use zip::{CompressionMethod, DateTime, ZipWriter};

const TYPE: &str = "application/vnd.oasis.opendocument.spreadsheet";

const MANIFEST: &str = r#"<?xml version="1.0" encoding="UTF-8"?>
<manifest:manifest xmlns:manifest="urn:oasis:names:tc:opendocument:xmlns:manifest:1.0" manifest:version="1.3">
<manifest:file-entry manifest:full-path="/" manifest:version="1.3" manifest:media-type="application/vnd.oasis.opendocument.spreadsheet"/>
<manifest:file-entry manifest:full-path="content.xml" manifest:media-type="text/xml"/>
</manifest:manifest>
"#;

const OPENING: &str = r#"<?xml version="1.0" encoding="UTF-8"?>
<office:document-content xmlns:office="urn:oasis:names:tc:opendocument:xmlns:office:1.0" xmlns:table="urn:oasis:names:tc:opendocument:xmlns:table:1.0" xmlns:text="urn:oasis:names:tc:opendocument:xmlns:text:1.0" xmlns:of="urn:oasis:names:tc:opendocument:xmlns:of:1.2" office:version="1.3"><office:body><office:spreadsheet>
"#;

const CLOSING: &str = "</office:spreadsheet></office:body></office:document-content>\n";

/// Writes pages as the tables of an ODS spreadsheet. Dates in the archive are fixed, so that the
/// bytes are too.
///
/// # Errors
/// [`PaperFault::Archive`] or [`PaperFault::Bytes`] where the archive writer refuses.
pub fn bytes(pages: &[Page]) -> Result<Vec<u8>, PaperFault> {
    let mut archive = ZipWriter::new(Cursor::new(Vec::new()));
    let made = SimpleFileOptions::default().last_modified_time(DateTime::default());
    // The type comes first and uncompressed, so that a program can tell the file by its first bytes.
    archive.start_file("mimetype", made.compression_method(CompressionMethod::Stored))?;
    archive.write_all(TYPE.as_bytes())?;
    let packed = made.compression_method(CompressionMethod::Deflated);
    archive.start_file("META-INF/manifest.xml", packed)?;
    archive.write_all(MANIFEST.as_bytes())?;
    archive.start_file("content.xml", packed)?;
    archive.write_all(content(pages).as_bytes())?;
    Ok(archive.finish()?.into_inner())
}

fn content(pages: &[Page]) -> String {
    let tables: String = pages.iter().map(table).collect();
    [OPENING, &tables, CLOSING].concat()
}

fn table(page: &Page) -> String {
    let widest = page.rows.iter().map(Vec::len).max().unwrap_or(1).max(1);
    let rows: String = page.rows.iter().enumerate().map(|(index, cells)| row(page, index, cells)).collect();
    format!(
        "<table:table table:name=\"{}\"><table:table-column table:number-columns-repeated=\"{widest}\"/>\n{rows}</table:table>\n",
        escaped(&page.name)
    )
}

fn row(page: &Page, index: usize, cells: &[Cell]) -> String {
    let merged = page.merged.iter().find(|(row, _)| *row == index).map(|(_, columns)| *columns);
    let inside = match (merged, cells) {
        (_, []) => "<table:table-cell/>".to_owned(),
        (Some(columns), [first, ..]) => spanning(first, columns),
        (None, cells) => cells.iter().map(|cell| one_cell(cell, "")).collect(),
    };
    format!("<table:table-row>{inside}</table:table-row>\n")
}

fn spanning(cell: &Cell, columns: usize) -> String {
    let span = format!(" table:number-columns-spanned=\"{columns}\" table:number-rows-spanned=\"1\"");
    let covered = columns.saturating_sub(1);
    let rest = format!("<table:covered-table-cell table:number-columns-repeated=\"{covered}\"/>");
    one_cell(cell, &span) + &rest
}

fn one_cell(cell: &Cell, span: &str) -> String {
    let (kind, shown) = match cell {
        Cell::Empty => return format!("<table:table-cell{span}/>"),
        Cell::Text(text) => ("office:value-type=\"string\"".to_owned(), text.clone()),
        Cell::Number(number) => (number_kind(*number), number.to_string()),
        Cell::Day(day) => {
            (format!("office:value-type=\"date\" office:date-value=\"{day}\""), day.to_string())
        }
        Cell::Formula { formula, shows } => {
            let formula = format!("table:formula=\"of:={}\" ", escaped(&bracketed(formula)));
            (formula + &number_kind(*shows), shows.to_string())
        }
    };
    let lines: String = shown.lines().map(|line| format!("<text:p>{}</text:p>", escaped(line))).collect();
    format!("<table:table-cell{span} {kind}>{lines}</table:table-cell>")
}

fn number_kind(number: f64) -> String {
    format!("office:value-type=\"float\" office:value=\"{number}\"")
}

/// Puts each cell name of a formula in brackets, as this format wants: `D5-E5` is `[.D5]-[.E5]`, and a
/// range `D5:D9` is `[.D5:.D9]`.
fn bracketed(formula: &str) -> String {
    let mut written = String::new();
    let mut rest = formula;
    while let Some(start) = rest.find(|letter: char| letter.is_ascii_alphanumeric()) {
        let (before, from) = rest.split_at(start);
        let end =
            from.find(|letter: char| !letter.is_ascii_alphanumeric() && letter != ':').unwrap_or(from.len());
        let (word, after) = from.split_at(end);
        written += before;
        written +=
            &if is_reference(word) { format!("[.{}]", word.replace(':', ":.")) } else { word.to_owned() };
        rest = after;
    }
    written + rest
}

fn is_reference(word: &str) -> bool {
    word.starts_with(|first: char| first.is_ascii_uppercase())
        && word.ends_with(|last: char| last.is_ascii_digit())
}

fn escaped(text: &str) -> String {
    text.replace('&', "&amp;").replace('<', "&lt;").replace('>', "&gt;").replace('"', "&quot;")
}
