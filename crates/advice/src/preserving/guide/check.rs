//! What no printed table can be, looked for in every table of the guide: told or not, a slip of the pen stops the reading.

use super::{BoilingRow, Cell, PressureRow};
use crate::jars::Jar;
use crate::preserving::altitude::Feet;
use identity::guide::reading::{GuideFault, Place, Text};

/// A row with its place in the text.
pub(super) struct Row<Of> {
    pub(super) row: Of,
    pub(super) place: Place,
}

impl<Of> Row<Of> {
    pub(super) fn into_row(self) -> Of {
        self.row
    }
}

const COMPARE: &str = "compare the row with the printed guide";

/// Checks the boiling-water rows.
///
/// # Errors
/// [`GuideFault`] at the first row that cannot be.
pub(super) fn boiling(text: Text<'_>, rows: &[Row<BoilingRow>]) -> Result<(), GuideFault> {
    for (index, Row { row, place }) in rows.iter().enumerate() {
        bands(text, place, &row.cells)?;
        let before = rows.iter().take(index).map(|other| &other.row);
        let same = |other: &&BoilingRow| (other.product, other.jar) == (row.product, row.jar);
        if before.clone().any(|other| same(&other)) {
            return Err(text.fault("cells", place, "the row stands twice", "keep one of the two"));
        }
        if rows.iter().any(|other| {
            other.row.product == row.product && is_short(&row.cells, row.jar, &other.row.cells, other.row.jar)
        }) {
            return Err(text.fault("cells", place, "a quart takes less than its pint", COMPARE));
        }
    }
    Ok(())
}

/// Whether quarts take less than pints at some altitude.
fn is_short(cells: &[Cell<u32>], jar: Jar, others: &[Cell<u32>], other_jar: Jar) -> bool {
    (jar, other_jar) == (Jar::Quart, Jar::Pint)
        && altitudes(cells, others)
            .any(|feet| matches!((Cell::at(cells, feet), Cell::at(others, feet)), (Some(quart), Some(pint)) if quart.value < pint.value))
}

/// The upper ends of the bands of two rows, and an altitude above all of them.
fn altitudes<'a, Of, Other>(
    cells: &'a [Cell<Of>],
    others: &'a [Cell<Other>],
) -> impl Iterator<Item = Feet> + 'a {
    let ends = cells.iter().map(|cell| cell.up_to).chain(others.iter().map(|cell| cell.up_to));
    ends.flatten().chain(Feet::new(f64::from(u32::MAX)))
}

/// Checks the pressure rows.
///
/// # Errors
/// [`GuideFault`] at the first row that cannot be.
pub(super) fn pressure(text: Text<'_>, rows: &[Row<PressureRow>]) -> Result<(), GuideFault> {
    for (index, Row { row, place }) in rows.iter().enumerate() {
        bands(text, place, &row.cells)?;
        let key = |row: &PressureRow| (row.product, row.jar, row.gauge, row.minutes);
        if rows.iter().take(index).any(|other| key(&other.row) == key(row)) {
            return Err(text.fault("cells", place, "the row stands twice", "keep one of the two"));
        }
        if row.jar == Jar::Quart && rows.iter().any(|other| is_flattened(row, &other.row)) {
            let fault = "at one pressure a quart takes less than its pint";
            return Err(text.fault("cells", place, fault, COMPARE));
        }
    }
    Ok(())
}

/// Whether a quart's row asks for fewer minutes than a pint's at the same pressure and altitude.
fn is_flattened(quart: &PressureRow, pint: &PressureRow) -> bool {
    pint.jar == Jar::Pint
        && (pint.product, pint.gauge) == (quart.product, quart.gauge)
        && quart.minutes < pint.minutes
        && altitudes(&quart.cells, &pint.cells)
            .any(|feet| matches!((Cell::at(&quart.cells, feet), Cell::at(&pint.cells, feet)), (Some(quart), Some(pint)) if quart.value == pint.value))
}

/// Bands rise, the last alone may be open, and no higher one asks for less.
fn bands<Of: PartialOrd>(text: Text<'_>, place: &Place, cells: &[Cell<Of>]) -> Result<(), GuideFault> {
    if cells.is_empty() {
        return Err(text.fault("cells", place, "the row has no cells", COMPARE));
    }
    for (lower, higher) in cells.iter().zip(cells.iter().skip(1)) {
        let rises = match (lower.up_to, higher.up_to) {
            (Some(lower), Some(higher)) => lower < higher,
            (Some(_), None) => true,
            (None, _) => false,
        };
        if !rises {
            let help = "write the bands from low to high, and leave up-to-ft out of the last alone";
            return Err(text.fault("cells", place, "the bands do not rise", help));
        }
        if higher.value < lower.value {
            return Err(text.fault("cells", place, "a higher band takes less than a lower one", COMPARE));
        }
    }
    Ok(())
}
