//! The tables of a walk sheet: one a kind of note, under headings that `take` reads.

use jiff::civil::Date;
use publish::walk_sheets::{Cell, Column, Row, Table};
use record::growout::Plot;
use record::language::Units;
use record::length::Millimetres;
use trial::due::Due;

/// A plot at which something is due.
pub(super) struct DuePlot {
    pub(super) plot: Plot,
    pub(super) variety: String,
    pub(super) due: Vec<Due>,
}

/// One column of a table: its heading, its width in millimetres of a page, and what must be due for a box.
struct Box {
    heading: &'static str,
    width: f64,
    due: Due,
}

const fn open(heading: &'static str, width: f64, due: Due) -> Box {
    Box { heading, width, due }
}

/// Widths of what is printed in every row, in millimetres of a page. Choices of the sheet.
const PLOT: f64 = 18.0;
const VARIETY: f64 = 34.0;
const DAY: f64 = 20.0;

const SEEN: [Box; 7] = [
    open("Plants standing", 17.0, Due::PlantsStanding),
    open("First flower", 13.0, Due::FirstFlower),
    open("Stem ended", 13.0, Due::StemEnded),
    open("Trusses", 15.0, Due::StemEnded),
    open("First ripe", 12.0, Due::FirstRipe),
    open("Off-types", 14.0, Due::OffTypes),
    open("Off-type notes", 30.0, Due::OffTypes),
];

/// Picks are weighed in kilograms or pounds, heights read in centimetres or inches.
fn picks(units: Units) -> [Box; 6] {
    let weight = units.either("Weight (lb)", "Weight (kg)");
    [
        open("Fruit count", 18.0, Due::Pick),
        open(weight, 22.0, Due::Pick),
        open("Culls cracked", 18.0, Due::Pick),
        open("Culls catfaced", 18.0, Due::Pick),
        open("Culls rotten", 18.0, Due::Pick),
        open("Culls other", 18.0, Due::Pick),
    ]
}

fn heights(units: Units) -> [Box; 2] {
    let height = units.either("Height (in)", "Height (cm)");
    [open("Plant", 16.0, Due::Height), open(height, 24.0, Due::Height)]
}

/// The tables of a walk past these plots; what is due at none of them has neither column nor table.
pub(super) fn tables(plots: &[DuePlot], day: Date, units: Units) -> Vec<Table> {
    let all = [
        table("What is seen", &SEEN, plots, day),
        table("Heights", &heights(units), plots, day),
        table("Picks and culls", &picks(units), plots, day),
    ];
    all.into_iter().filter(|table| !table.rows.is_empty()).collect()
}

fn table(title: &str, boxes: &[Box], plots: &[DuePlot], day: Date) -> Table {
    let boxes: Vec<&Box> =
        boxes.iter().filter(|open| plots.iter().any(|plot| plot.due.contains(&open.due))).collect();
    let column = |heading: &str, width: f64| Column {
        heading: heading.to_owned(),
        width: Millimetres::new(width).unwrap_or(Millimetres::NONE),
    };
    let mut columns = vec![column("Plot", PLOT), column("Variety", VARIETY), column("Date", DAY)];
    columns.extend(boxes.iter().map(|open| column(open.heading, open.width)));
    let mut rows = Vec::new();
    let mut before = None;
    for plot in plots.iter().filter(|plot| boxes.iter().any(|open| plot.due.contains(&open.due))) {
        let place = (plot.plot.layout.bed.clone(), plot.plot.row);
        let begins = begins(&place).filter(|_| before.as_ref() != Some(&place));
        rows.push(Row { cells: cells(&boxes, plot, day), begins });
        before = Some(place);
    }
    Table { title: title.to_owned(), columns, rows }
}

/// The bed and row that begin, as far as they are known.
fn begins((bed, row): &(Option<String>, Option<u32>)) -> Option<String> {
    let row = row.map(|row| format!("row {row}"));
    let told: Vec<String> = [bed.clone(), row].into_iter().flatten().collect();
    (!told.is_empty()).then(|| told.join(", "))
}

fn cells(boxes: &[&Box], plot: &DuePlot, day: Date) -> Vec<Cell> {
    let printed = [plot.plot.label.clone(), plot.variety.clone(), day.to_string()].map(Cell::Printed);
    let open = boxes.iter().map(|open| if plot.due.contains(&open.due) { Cell::Open } else { Cell::NotDue });
    printed.into_iter().chain(open).collect()
}
