//! Rows with their cells in line, as several commands write them. Start at [`columns`].

use std::io::{self, Write};

/// Writes rows with their cells in line, two spaces between columns.
///
/// # Errors
/// What the terminal or pipe refuses.
pub(crate) fn columns(to: &mut dyn Write, rows: &[Vec<String>]) -> io::Result<()> {
    let mut aligned = tabwriter::TabWriter::new(Vec::new()).padding(2);
    for row in rows {
        writeln!(aligned, "{}", row.join("\t"))?;
    }
    let text = aligned.into_inner().map_err(|error| io::Error::other(error.to_string()))?;
    for line in String::from_utf8_lossy(&text).lines() {
        writeln!(to, "{}", line.trim_end())?;
    }
    Ok(())
}
