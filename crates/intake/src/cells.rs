//! Reading the cells of one row, each as its column says.

use crate::column::ColumnUse;
use crate::day::{self, DateOrder, SeasonCalendar};
use crate::layout::{Column, Layout};
use crate::number::{self, DecimalMark};
use crate::rejection::RowFault;
use crate::table::{Cell, CellKind, Row};
use crate::unit::{self, LengthUnit, MassUnit, Unit};
use crate::words::{self, Words};
use jiff::ToSpan;
use jiff::civil::Date;
use record::length::Millimetres;
use record::mass::Grams;
use record::season::Season;
use record::share::Percent;

/// What is wrong with a row, and in which column.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(crate) struct CellFault {
    pub(crate) place: Option<usize>,
    pub(crate) fault: RowFault,
}

impl From<RowFault> for CellFault {
    fn from(fault: RowFault) -> Self {
        Self { place: None, fault }
    }
}

/// Reads one column's cells. A column that the table lacks reads as empty.
#[derive(Clone, Copy, Debug)]
pub(crate) struct ColumnReader {
    place: usize,
    unit: Option<Unit>,
    mark: Option<DecimalMark>,
    order: Option<DateOrder>,
    day_zero: Date,
}

/// The place of a column that the table lacks.
const NOWHERE: usize = usize::MAX;

impl ColumnReader {
    /// The reader of the column that holds `reads`.
    pub(crate) fn new(layout: &Layout, day_zero: Date, reads: ColumnUse) -> Self {
        let column = layout.columns.iter().find(|column| column.reads == reads);
        column.map_or(Self::at(NOWHERE, day_zero), |column| Self::of(column, day_zero))
    }

    fn of(column: &Column, day_zero: Date) -> Self {
        Self {
            place: column.place,
            unit: column.unit,
            mark: column.decimal_mark,
            order: column.date_order,
            day_zero,
        }
    }

    /// The reader of a place of which nothing else is known.
    pub(crate) fn at(place: usize, day_zero: Date) -> Self {
        Self { place, unit: None, mark: None, order: None, day_zero }
    }

    /// The same with dates in this order.
    pub(crate) fn with_dates(self, order: Option<DateOrder>) -> Self {
        Self { order, ..self }
    }

    /// Whether the table has the column.
    pub(crate) fn is_there(self) -> bool {
        self.place != NOWHERE
    }

    /// A fault in this column.
    pub(crate) fn fault(self, fault: impl Into<RowFault>) -> CellFault {
        CellFault { place: self.is_there().then_some(self.place), fault: fault.into() }
    }

    /// The cell, or `None` where it is empty or marked as missing.
    pub(crate) fn cell<'a>(self, row: &Row<'a>) -> Result<Option<Cell<'a>>, CellFault> {
        let cell = row.cell(self.place);
        match cell.kind {
            CellKind::Unworked => Err(self.fault(RowFault::Formula)),
            CellKind::Failed => Err(self.fault(RowFault::FailedFormula(cell.text.to_owned()))),
            _ if words::is_missing(cell.text) => Ok(None),
            _ => Ok(Some(cell)),
        }
    }

    pub(crate) fn text<'a>(self, row: &Row<'a>) -> Result<Option<&'a str>, CellFault> {
        Ok(self.cell(row)?.map(|cell| cell.text))
    }

    fn with<'a, T, F: Into<RowFault>>(
        self,
        row: &Row<'a>,
        read: impl FnOnce(&'a str, Option<DecimalMark>) -> Result<T, F>,
    ) -> Result<Option<T>, CellFault> {
        let Some(cell) = self.cell(row)? else { return Ok(None) };
        // A workbook's number is written with a point, whatever the rest of its column does.
        let mark = if cell.kind == CellKind::Number { Some(DecimalMark::Point) } else { self.mark };
        read(cell.text, mark).map(Some).map_err(|fault| self.fault(fault))
    }

    pub(crate) fn mass(self, row: &Row<'_>) -> Result<Option<Grams>, CellFault> {
        self.with(row, |text, mark| unit::mass(text, self.mass_unit(), mark))
    }

    pub(crate) fn length(self, row: &Row<'_>) -> Result<Option<Millimetres>, CellFault> {
        self.with(row, |text, mark| unit::length(text, self.length_unit(), mark))
    }

    pub(crate) fn percent(self, row: &Row<'_>) -> Result<Option<Percent>, CellFault> {
        self.with(row, unit::percent)
    }

    pub(crate) fn number(self, row: &Row<'_>) -> Result<Option<f64>, CellFault> {
        self.with(row, number::number)
    }

    /// A number that may be below zero, as a* and b* are.
    pub(crate) fn signed(self, row: &Row<'_>) -> Result<Option<f64>, CellFault> {
        self.with(row, |text, mark| match text.strip_prefix(['-', '−']) {
            Some(positive) => number::number(positive.trim_start(), mark).map(|value| -value),
            None => number::number(text, mark),
        })
    }

    pub(crate) fn count(self, row: &Row<'_>) -> Result<Option<u32>, CellFault> {
        self.with(row, number::count)
    }

    /// Counts one behind the other: `92 88 95 91`, or parted by commas, semicolons, slashes or plus signs.
    pub(crate) fn counts(self, row: &Row<'_>) -> Result<Vec<u32>, CellFault> {
        let Some(text) = self.text(row)? else { return Ok(Vec::new()) };
        let parts = text.split(|sign: char| sign.is_whitespace() || ",;/+|".contains(sign));
        let parts = parts.filter(|part| !part.is_empty());
        parts.map(|part| number::count(part, self.mark).map_err(|fault| self.fault(fault))).collect()
    }

    /// Masses one behind the other: `284 mg, 279 mg`, parted by semicolons, slashes or commas with a blank behind.
    pub(crate) fn masses(self, row: &Row<'_>) -> Result<Vec<Grams>, CellFault> {
        let Some(text) = self.text(row)? else { return Ok(Vec::new()) };
        let parts = text.split(LIST_SIGNS).flat_map(|part| part.split(", "));
        let parts = parts.map(str::trim).filter(|part| !part.is_empty());
        let read = |part| unit::mass(part, self.mass_unit(), self.mark.or(Some(DecimalMark::Point)));
        parts.map(|part| read(part).map_err(|fault| self.fault(fault))).collect()
    }

    /// A plant's or a bed row's number, with or without `#`, `no.` or the noun before it.
    pub(crate) fn ordinal(self, row: &Row<'_>) -> Result<Option<u32>, CellFault> {
        self.with(row, |text, mark| number::count(without_label(text), mark))
    }

    /// A day; `season` gives the year of a day without one.
    pub(crate) fn day(
        self,
        row: &Row<'_>,
        season: Option<(Season, SeasonCalendar)>,
    ) -> Result<Option<Date>, CellFault> {
        let Some(cell) = self.cell(row)? else { return Ok(None) };
        if let Some(day) = self.serial_day(cell) {
            return Ok(Some(day));
        }
        day::day(cell.text, self.order, season).map(Some).map_err(|fault| self.fault(fault))
    }

    /// A workbook's day that lost its dress and is a bare count of days.
    fn serial_day(self, cell: Cell<'_>) -> Option<Date> {
        if cell.kind != CellKind::Number {
            return None;
        }
        let days = cell.text.parse::<f64>().ok().filter(|days| LIKELY_SERIALS.contains(days))?;
        self.day_zero.checked_add((days as i64).days()).ok()
    }

    pub(crate) fn word<T: Copy>(
        self,
        row: &Row<'_>,
        known: &Words<T>,
        what: &'static str,
    ) -> Result<Option<T>, CellFault> {
        let cell = row.cell(self.place);
        if cell.text.is_empty() {
            return Ok(None);
        }
        if let Some(meaning) = words::meaning(known, cell.text).filter(|_| cell.kind != CellKind::Unworked) {
            return Ok(Some(meaning));
        }
        self.with(row, |text, _| {
            let allowed = words::allowed(known);
            Err(RowFault::Word { word: text.to_owned(), what, allowed })
        })
    }

    /// The cell as it would be typed, so that it reads the same from text.
    pub(crate) fn typed(self, row: &Row<'_>) -> String {
        let cell = row.cell(self.place);
        self.serial_day(cell).map_or_else(|| cell.text.to_owned(), |day| day.to_string())
    }

    /// The cell in words, with the column's unit behind words that name none.
    pub(crate) fn words(self, row: &Row<'_>) -> Result<Option<String>, CellFault> {
        let names_unit = |text: &str| {
            text.split(|sign: char| !sign.is_alphabetic()).any(|word| unit::unit_named(word).is_some())
        };
        let with_unit = |text: &str| match self.unit {
            Some(unit) if !names_unit(text) => format!("{text} {}", unit.symbol()),
            _ => text.to_owned(),
        };
        Ok(self.text(row)?.map(with_unit))
    }

    fn mass_unit(self) -> Option<MassUnit> {
        match self.unit {
            Some(Unit::Mass(unit)) => Some(unit),
            _ => None,
        }
    }

    fn length_unit(self) -> Option<LengthUnit> {
        match self.unit {
            Some(Unit::Length(unit)) => Some(unit),
            _ => None,
        }
    }
}

/// Signs between the entries of a list in one cell.
const LIST_SIGNS: [char; 5] = [';', '/', '|', '+', '\n'];

/// Counts of days that can be dates of notes: from 1927 to 2173 when counted from 1900. Smaller ones are
/// years or counts far more often. Common practice, no source.
const LIKELY_SERIALS: std::ops::RangeInclusive<f64> = 10_000.0..=100_000.0;

fn without_label(text: &str) -> &str {
    let digits = text.find(|sign: char| sign.is_ascii_digit()).unwrap_or(0);
    let (label, number) = text.split_at(digits);
    let label = label.trim().trim_end_matches('.').to_ascii_lowercase();
    let known = ["#", "no", "nr", "p", "plant", "row", "block", "b", "r"];
    if known.contains(&label.as_str()) { number } else { text }
}
