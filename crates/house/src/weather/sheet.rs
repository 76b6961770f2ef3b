//! A spreadsheet's days as the text that weather is read from: the only sheet of a workbook, a line a row.

use intake::file::{self, Content};
use intake::table::Table;
use std::ops::ControlFlow;

/// How a packed workbook begins. Source: PKWARE, APPNOTE.TXT, local file header signature.
const PACKED: &[u8] = b"PK\x03\x04";

/// Whether bytes may be a workbook's.
pub(super) fn is_packed(bytes: &[u8]) -> bool {
    bytes.starts_with(PACKED)
}

/// The text of a workbook's only sheet.
///
/// # Errors
/// What the workbook says against it, or that it has several sheets.
pub(super) fn only(name: &str, bytes: Vec<u8>) -> Result<String, String> {
    let tables = file::open(name, Content::Bytes(bytes.into())).map_err(|fault| fault.to_string())?;
    let [table] = tables.as_slice() else {
        return Err(format!("has {} sheets with something in them", tables.len()));
    };
    text(table, usize::MAX).ok_or_else(|| "cannot be read to its end".to_owned())
}

/// A sheet's first rows as lines of cells parted by commas, each row on the line of its number; `None` where it cannot be read.
pub(super) fn text(table: &Table, most: usize) -> Option<String> {
    let mut text = String::new();
    let (mut lines, mut rows) = (0, 0);
    let walked = table.walk(&mut |row| {
        if row.is_blank() {
            return ControlFlow::Continue(());
        }
        for _ in lines + 1..row.number {
            text.push('\n');
        }
        lines = row.number;
        let cells: Vec<String> = row.cells().map(|cell| quoted(cell.text)).collect();
        text += &cells.join(",");
        text.push('\n');
        rows += 1;
        if rows < most { ControlFlow::Continue(()) } else { ControlFlow::Break(()) }
    });
    walked.ok().map(|()| text)
}

/// A cell in quotes, where it holds what would part it; its line breaks are blanks.
fn quoted(cell: &str) -> String {
    let cell = cell.replace(['\n', '\r'], " ");
    if cell.contains([',', '"', ';', '\t']) { format!("\"{}\"", cell.replace('"', "'")) } else { cell }
}
