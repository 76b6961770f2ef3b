//! Delimited text: commas, tabs or semicolons, in the bytes that its keeper's machine writes.
//!
//! Start at [`bytes`].

use crate::paper::{Cell, Letters, Page};

/// Writes pages, one below another, as delimited text.
#[must_use]
pub fn bytes(pages: &[Page], delimiter: char, letters: Letters, line_end: &str) -> Vec<u8> {
    let rows = pages.iter().flat_map(|page| &page.rows);
    let text: String = rows.map(|row| line(row, delimiter) + line_end).collect();
    encode(&text, letters)
}

fn line(row: &[Cell], delimiter: char) -> String {
    let cells: Vec<String> = row.iter().map(|cell| quoted(&shown(cell), delimiter)).collect();
    cells.join(&delimiter.to_string())
}

/// A cell as text: what a spreadsheet would show.
#[must_use]
pub fn shown(cell: &Cell) -> String {
    match cell {
        Cell::Empty => String::new(),
        Cell::Text(text) => text.clone(),
        Cell::Number(number) => number.to_string(),
        Cell::Day(day) => day.to_string(),
        Cell::Formula { shows, .. } => shows.to_string(),
    }
}

fn quoted(text: &str, delimiter: char) -> String {
    let quote = text.contains([delimiter, '"', '\n', '\r']);
    if quote { format!("\"{}\"", text.replace('"', "\"\"")) } else { text.to_owned() }
}

fn encode(text: &str, letters: Letters) -> Vec<u8> {
    match letters {
        Letters::Utf8 => text.as_bytes().to_vec(),
        Letters::Utf8Marked => ["\u{feff}", text].concat().into_bytes(),
        Letters::Utf16 => {
            "\u{feff}".encode_utf16().chain(text.encode_utf16()).flat_map(u16::to_le_bytes).collect()
        }
        Letters::Windows1252 => encoding_rs::WINDOWS_1252.encode(text).0.into_owned(),
    }
}
