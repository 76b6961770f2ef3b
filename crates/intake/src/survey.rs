//! The survey: what the cells of each column agree on, from one walk over the table.
//!
//! Decimal mark, order of day and month, and unit are decided by the column's own cells, or asked. The walk
//! ends early only in a long table whose every column was written without any doubt so far and that holds no
//! comma in any cell; a date written otherwise further down is then rejected, and still never guessed.

use crate::column::{ColumnUse, Measure};
use crate::day::{self, DateOrder};
use crate::layout::{Answers, Column, Layout, Question};
use crate::number::{self, DecimalMark};
use crate::table::{Cell, CellKind, ReadFault, Row, Table};
use crate::unit::Unit;
use crate::words;
use std::ops::ControlFlow;

/// Cells shown of each column.
const SAMPLES: usize = 3;

/// Rows after which a table without any doubt needs no further look: more than a season's notes of most houses,
/// and a fiftieth of a second.
const LONG_TABLE: u64 = 50_000;

/// What the cells of one column were seen to be.
#[derive(Default)]
struct Seen {
    points: bool,
    commas: bool,
    either_mark: Option<String>,
    typed_numbers: bool,
    day_first: bool,
    month_first: bool,
    either_order: Option<String>,
    yearless: Option<String>,
    unitless: Option<String>,
}

/// Walks over the rows below the headings and settles each column, or asks.
pub(crate) fn survey(table: &Table, layout: &mut Layout, answers: &Answers) -> Result<(), ReadFault> {
    let mut seen: Vec<Seen> = layout.columns.iter().map(|_| Seen::default()).collect();
    let glance = table.glance()?;
    let (mut rows, mut ends_early) = (0, false);
    table.walk(&mut |row| {
        if layout.heading_row < row.number && !row.is_blank() {
            rows += 1;
            look(&row, &mut layout.columns, &mut seen);
        }
        if rows < LONG_TABLE || glance.commas_in_cells || seen.iter().any(Seen::leaves_doubt) {
            return ControlFlow::Continue(());
        }
        ends_early = true;
        ControlFlow::Break(())
    })?;
    layout.row_count = if ends_early { glance.lines } else { rows };
    for (column, seen) in layout.columns.iter_mut().zip(&seen) {
        layout.questions.extend(settle_unit(column, seen, answers));
        layout.questions.extend(settle_mark(column, seen, answers));
        layout.questions.extend(settle_order(column, seen, answers));
    }
    let seasonless = seasonless(layout, &seen);
    layout.questions.extend(seasonless);
    Ok(())
}

fn look(row: &Row<'_>, columns: &mut [Column], seen: &mut [Seen]) {
    for (column, seen) in columns.iter_mut().zip(seen) {
        let cell = row.cell(column.place);
        if cell.text.is_empty() || is_heading_again(column, cell) {
            continue;
        }
        if column.samples.len() < SAMPLES {
            column.samples.push(cell.text.to_owned());
        }
        if column.reads.holds_numbers() {
            seen.look_at_number(cell, column);
        }
        if column.reads.holds_days() && cell.kind == CellKind::Text {
            seen.look_at_day(cell.text);
        }
    }
}

fn is_heading_again(column: &Column, cell: Cell<'_>) -> bool {
    cell.text.len() == column.heading.len() && cell.text.eq_ignore_ascii_case(&column.heading)
}

impl Seen {
    /// Whether some number or date so far could be read in two ways, or was written in one of them.
    fn leaves_doubt(&self) -> bool {
        let of_mark = self.commas || self.either_mark.is_some();
        let of_order = self.day_first || self.month_first || self.either_order.is_some();
        of_mark || of_order || self.yearless.is_some()
    }

    fn look_at_number(&mut self, cell: Cell<'_>, column: &Column) {
        if cell.kind == CellKind::Number {
            self.typed_numbers = true;
        } else {
            self.look_at_mark(cell.text);
        }
        let wants_unit = column.reads.measure().is_some() && column.unit.is_none();
        if wants_unit && self.unitless.is_none() && has_no_unit(cell.text) {
            self.unitless = Some(cell.text.to_owned());
        }
    }

    fn look_at_mark(&mut self, text: &str) {
        if memchr::memchr2(b'.', b',', text.as_bytes()).is_none() {
            return;
        }
        match number::evidence(number::first_numeral(text)) {
            number::Evidence::Only(DecimalMark::Point) => self.points = true,
            number::Evidence::Only(DecimalMark::Comma) => self.commas = true,
            number::Evidence::Either if self.either_mark.is_none() => {
                self.either_mark = Some(text.to_owned())
            }
            _ => {}
        }
    }

    fn look_at_day(&mut self, text: &str) {
        let (order, yearless) = day::evidence(text);
        match order {
            day::Evidence::Only(DateOrder::DayFirst) => self.day_first = true,
            day::Evidence::Only(DateOrder::MonthFirst) => self.month_first = true,
            day::Evidence::Either if self.either_order.is_none() => self.either_order = Some(text.to_owned()),
            _ => {}
        }
        if yearless && self.yearless.is_none() {
            self.yearless = Some(text.to_owned());
        }
    }
}

/// Whether a cell is a number with nothing that could be its unit.
fn has_no_unit(text: &str) -> bool {
    let signs = |sign: char| sign.is_alphabetic() || matches!(sign, '"' | '\'' | '″' | '′' | '”' | '’');
    !words::is_missing(text) && number::has_figure(text) && !text.contains(signs)
}

fn settle_unit(column: &mut Column, seen: &Seen, answers: &Answers) -> Option<Question> {
    let measure = column.reads.measure()?;
    if column.unit.is_some() {
        return None;
    }
    let sample = seen.unitless.clone()?;
    let stated = match measure {
        Measure::Mass => answers.mass_unit.map(Unit::Mass),
        Measure::Length => answers.length_unit.map(Unit::Length),
    };
    let Some(unit) = stated else {
        return Some(Question::Unit { place: column.place, heading: column.heading.clone(), sample });
    };
    column.unit = Some(unit);
    column.notes.push(format!("in {} where a cell names no unit, as was stated", unit.symbol()));
    None
}

fn settle_mark(column: &mut Column, seen: &Seen, answers: &Answers) -> Option<Question> {
    if column.decimal_mark.is_some() {
        return None;
    }
    let told = match (seen.points, seen.commas) {
        (true, false) => Some(DecimalMark::Point),
        (false, true) => Some(DecimalMark::Comma),
        (true, true) => {
            column.notes.push("decimal points and decimal commas both occur".to_owned());
            None
        }
        (false, false) => None,
    };
    let of_workbook = (seen.typed_numbers && !seen.commas).then_some(DecimalMark::Point);
    column.decimal_mark =
        told.or(answers.decimal_mark).or(of_workbook.filter(|_| seen.either_mark.is_none()));
    if let (Some(mark), true) = (told, seen.commas || seen.either_mark.is_some()) {
        column.notes.push(format!("decimal {}", mark.name()));
    }
    let sample = seen.either_mark.clone().filter(|_| column.decimal_mark.is_none())?;
    Some(Question::DecimalMark { place: column.place, heading: column.heading.clone(), sample })
}

fn settle_order(column: &mut Column, seen: &Seen, answers: &Answers) -> Option<Question> {
    if column.date_order.is_some() {
        return None;
    }
    let told = match (seen.day_first, seen.month_first) {
        (true, false) => Some(DateOrder::DayFirst),
        (false, true) => Some(DateOrder::MonthFirst),
        (true, true) => {
            column.notes.push("dates with the day first and with the month first both occur".to_owned());
            None
        }
        (false, false) => None,
    };
    column.date_order = told.or(answers.date_order);
    if let Some(order) = told {
        column.notes.push(format!("dates {}", order.name()));
    }
    let sample = seen.either_order.clone().filter(|_| column.date_order.is_none())?;
    Some(Question::DateOrder { place: column.place, heading: column.heading.clone(), sample })
}

/// Asks for the season where days lack their year and nothing in the table can give it.
fn seasonless(layout: &Layout, seen: &[Seen]) -> Option<Question> {
    let giving = [ColumnUse::Season, ColumnUse::GrowOut, ColumnUse::Plot];
    let given = layout.columns.iter().any(|column| giving.contains(&column.reads));
    if given || layout.season.is_some() || layout.grow_out.is_some() {
        return None;
    }
    let first =
        layout.columns.iter().zip(seen).find_map(|(column, seen)| Some((column, seen.yearless.clone()?)));
    let (column, sample) = first?;
    Some(Question::Season { place: column.place, heading: column.heading.clone(), sample })
}
