//! One column of a table: its heading, what it is read as, some cells, and the controls that say otherwise.

use house::asked::{ColumnAnswer, ColumnUse, DateOrder, DecimalMark, Measure, Unit};
use house::look::{Column, Question};
use maud::{Markup, html};

/// The row of one column.
pub(super) fn row(
    table: usize,
    column: &Column,
    answer: Option<&ColumnAnswer>,
    questions: &[Question],
) -> Markup {
    let controls = Controls { table, column, answer, asked: asked(column.place, questions) };
    html! {
        tr.not-understood[!column.understood] {
            th scope="row" { @if column.heading.trim().is_empty() { "(no heading)" } @else { (column.heading) } }
            td.reads {
                (controls.reads())
                (controls.unit())
                (controls.dates())
                (controls.mark())
            }
            td { @for sample in &column.samples { code { (sample) } " " } }
            td { @for note in &column.notes { span.note { (note) } } }
        }
    }
}

/// The row of a column of a table that was not recognised.
pub(super) fn bare_row(table: usize, place: usize, cells: &[&str], answer: Option<&ColumnAnswer>) -> Markup {
    let said = answer.and_then(|answer| answer.reads);
    html! {
        tr {
            th scope="row" { (place + 1) }
            td.reads {
                @let label = format!("Meaning of column {}", place + 1);
                select name=(format!("t{table}.c{place}.reads")) aria-label=(label) {
                    option value="" { "as its heading says" }
                    @for (reads, name) in ColumnUse::all() {
                        option value=(name) selected[said == Some(reads)] { (name) }
                    }
                }
            }
            td { @for cell in cells.iter().filter(|cell| !cell.is_empty()) { code { (cell) } " " } }
        }
    }
}

/// What is asked about a column.
#[derive(Clone, Copy, Default)]
struct AskedAbout {
    unit: Option<()>,
    dates: Option<()>,
    mark: Option<()>,
}

fn asked(of: usize, questions: &[Question]) -> AskedAbout {
    let mut asked = AskedAbout::default();
    for question in questions {
        match question {
            Question::Unit { place, .. } if *place == of => asked.unit = Some(()),
            Question::DateOrder { place, .. } if *place == of => asked.dates = Some(()),
            Question::DecimalMark { place, .. } if *place == of => asked.mark = Some(()),
            _ => {}
        }
    }
    asked
}

/// A column with what is needed to write its controls.
struct Controls<'a> {
    table: usize,
    column: &'a Column,
    answer: Option<&'a ColumnAnswer>,
    asked: AskedAbout,
}

impl Controls<'_> {
    fn name(&self, what: &str) -> String {
        format!("t{}.c{}.{what}", self.table, self.column.place)
    }

    fn id(&self, what: &str) -> String {
        format!("t{}-c{}-{what}", self.table, self.column.place)
    }

    fn label(&self, what: &str) -> String {
        format!("{what} of column {}", self.column.heading)
    }

    fn reads(&self) -> Markup {
        let said = self.answer.and_then(|answer| answer.reads);
        html! {
            select name=(self.name("reads")) aria-label=(self.label("Meaning")) {
                option value="" {
                    @if self.column.understood { (self.column.reads.name()) }
                    @else { "not understood, left out" }
                }
                @for (reads, name) in ColumnUse::all() {
                    option value=(name) selected[said == Some(reads)] { (name) }
                }
            }
        }
    }

    fn unit(&self) -> Markup {
        let said = self.answer.and_then(|answer| answer.unit);
        let measure = self.column.reads.measure();
        let fits = |unit: &Unit| {
            measure.is_none_or(|measure| (measure == Measure::Mass) == matches!(unit, Unit::Mass(_)))
        };
        html! {
            @if measure.is_some() || said.is_some() || self.asked.unit.is_some() {
                select.asked[self.asked.unit.is_some()] id=(self.id("unit")) name=(self.name("unit"))
                    aria-label=(self.label("Unit")) {
                    option value="" {
                        @match self.column.unit {
                            Some(unit) => { "in " (unit.symbol()) }
                            None => "unit as in each cell",
                        }
                    }
                    @for unit in Unit::ALL.into_iter().filter(fits) {
                        option value=(unit.symbol()) selected[said == Some(unit)] { "in " (unit.symbol()) }
                    }
                }
            }
        }
    }

    fn dates(&self) -> Markup {
        let said = self.answer.and_then(|answer| answer.date_order);
        html! {
            @if self.column.date_order.is_some() || said.is_some() || self.asked.dates.is_some() {
                select.asked[self.asked.dates.is_some()] id=(self.id("dates")) name=(self.name("dates"))
                    aria-label=(self.label("Order of dates")) {
                    option value="" {
                        @match self.column.date_order { Some(order) => (order.name()), None => "day or month first?" }
                    }
                    @for order in [DateOrder::DayFirst, DateOrder::MonthFirst] {
                        option value=(order.name()) selected[said == Some(order)] { (order.name()) }
                    }
                }
            }
        }
    }

    fn mark(&self) -> Markup {
        let said = self.answer.and_then(|answer| answer.decimal_mark);
        html! {
            @if self.column.decimal_mark.is_some() || said.is_some() || self.asked.mark.is_some() {
                select.asked[self.asked.mark.is_some()] id=(self.id("mark")) name=(self.name("mark"))
                    aria-label=(self.label("Decimal mark")) {
                    option value="" {
                        @match self.column.decimal_mark {
                            Some(mark) => { "decimal " (mark.name()) }
                            None => "thousands or decimals?",
                        }
                    }
                    @for mark in [DecimalMark::Point, DecimalMark::Comma] {
                        option value=(mark.name()) selected[said == Some(mark)] { "decimal " (mark.name()) }
                    }
                }
            }
        }
    }
}
