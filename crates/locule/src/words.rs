//! Small words that several commands share: counts, chances, columns.

use std::io::{self, Write};

/// `1 row`, `12 rows`, `1,204 rows`.
pub(crate) fn counted(count: u64, one: &str, many: &str) -> String {
    if count == 1 { format!("1 {one}") } else { format!("{} {many}", grouped(count)) }
}

/// A count with its thousands parted.
pub(crate) fn grouped(count: u64) -> String {
    let digits = count.to_string();
    let mut parted = String::with_capacity(digits.len() + digits.len() / 3);
    for (place, digit) in digits.chars().enumerate() {
        if place > 0 && (digits.len() - place).is_multiple_of(3) {
            parted.push(',');
        }
        parted.push(digit);
    }
    parted
}

/// A probability as it is told: `62 in 100`; never quite 0 or 100, which no evidence gives.
pub(crate) fn chance(share: f64) -> String {
    match share {
        nearly if 0.995 <= nearly => "over 99 in 100".to_owned(),
        hardly if hardly < 0.005 => "under 1 in 100".to_owned(),
        share => format!("{:.0} in 100", share * 100.0),
    }
}

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

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn counts_and_chances_read_as_people_say_them() {
        assert_eq!(counted(1, "row", "rows"), "1 row");
        assert_eq!(counted(1_204_567, "row", "rows"), "1,204,567 rows");
        assert_eq!(chance(0.6204), "62 in 100");
        assert_eq!(chance(0.9999), "over 99 in 100");
        assert_eq!(chance(0.0), "under 1 in 100");
    }
}
