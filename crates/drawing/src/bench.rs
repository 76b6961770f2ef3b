//! The bench: every variety on shelves, by class and habit, all to one scale.
//!
//! For the list, on screen and on paper. Start at [`bench()`]. Where there is width enough, classes are
//! columns from small fruit to large and habits are rows; on a phone, classes follow each other down
//! the page. Gaps and crowding in the assortment can be seen at once. `shelf` sets what
//! stands on one shelf, `columns` shares out the width.

use crate::columns::{self, Columns};
use crate::lettering::{Anchor, Hand};
use crate::look::FruitLook;
use crate::paint::{HAIR, INK, THIN_INK};
use crate::path::Point;
use crate::scale::{Pixels, Scale};
use crate::scale_bar;
use crate::shelf::{self, Item};
use crate::svg::{Canvas, Role, Svg};
use record::language::Units;
use record::share::Share;

/// What stands on the bench.
#[derive(Clone, Debug, PartialEq)]
pub struct Bench {
    /// What the whole drawing shows, in words, such as `130 varieties, all to one scale`.
    pub title: String,
    /// Names of the classes, small to large, one a column.
    pub columns: Vec<String>,
    /// Names of the habits, one a row.
    pub rows: Vec<String>,
    /// The varieties, in any order; a cell is set from small fruit to large.
    pub entries: Vec<BenchEntry>,
    /// Which units the scale bar and the words give first.
    pub units: Units,
}

/// One variety on the bench.
#[derive(Clone, Debug, PartialEq)]
pub struct BenchEntry {
    /// Its traits and name.
    pub look: FruitLook,
    /// Which of [`Bench::columns`]; `None` (or beyond them) stands under `Not called`.
    pub column: Option<usize>,
    /// Which of [`Bench::rows`]; `None` (or beyond them) stands under `Not called`.
    pub row: Option<usize>,
    /// How sure the call is: the length of the ink rule under the name.
    pub certainty: Option<Share>,
    /// Whether the call is contested: the rule is broken and says so.
    pub contested: bool,
    /// Where the portrait leads, as it should stand in `href`.
    pub link: Option<String>,
}

/// Narrowest bench that can still be read, in pixels.
const NARROWEST: f64 = 280.0;
/// Room at either side, in pixels.
const SIDE: f64 = 12.0;
/// Height of the heading with the title and the scale bar, in pixels.
const HEADING: f64 = 46.0;
/// Pixels a millimetre that a bench is drawn at for each pixel of its width, and the least and most.
/// A choice of the drawing: a desk's bench shows a 25 mm cherry some 20 pixels wide.
const SCALES: (f64, f64, f64) = (0.000_58, 0.56, 1.1);
/// Least scale at which columns are still tried, as a share of the scale wanted.
const LEAST_SHRUNK: f64 = 0.72;
const TITLE: Hand = Hand { class: "title", size: 13.0, ink: THIN_INK, anchor: Anchor::Start, slanted: false };
const CLASS: Hand = Hand { class: "class", size: 13.0, ink: INK, anchor: Anchor::Middle, slanted: false };
const HABIT: Hand = Hand { class: "habit", size: 13.0, ink: INK, anchor: Anchor::Start, slanted: false };
const COUNT: Hand = Hand { class: "count", size: 11.0, ink: THIN_INK, anchor: Anchor::Start, slanted: false };
/// What a column or a row of varieties without a call is headed.
const NOT_CALLED: &str = "Not called";

/// Draws the bench as wide as `width`: columns by class where they fit, else stacked by class.
#[must_use]
pub fn bench(bench: &Bench, width: Pixels) -> Svg {
    let width = width.get().max(NARROWEST);
    let cells = Cells::of(bench);
    let wanted = (width * SCALES.0).clamp(SCALES.1, SCALES.2);
    let shrunk = (0..6).map(|step| wanted * (1.0 - (1.0 - LEAST_SHRUNK) * f64::from(step) / 5.0));
    let fitting = shrunk
        .filter_map(|scale| cells.in_columns(scale, width - 2.0 * SIDE).map(|columns| (scale, columns)))
        .next();
    let mut canvas = Canvas::new("b", &bench.title);
    let height = match &fitting {
        Some((scale, columns)) => {
            heading(&mut canvas, bench, *scale, width);
            draw_columns(&mut canvas, &cells, columns, width)
        }
        None => {
            let scale = cells.scale_to_fit(wanted, width - 2.0 * SIDE);
            heading(&mut canvas, bench, scale, width);
            draw_stack(&mut canvas, &cells, scale, width)
        }
    };
    canvas.finish("bench", Role::Group, &bench.title, width, height)
}

/// The bench sorted into cells.
struct Cells<'a> {
    /// Names of the columns and rows, with one for what is not called where it is needed.
    columns: Vec<&'a str>,
    rows: Vec<&'a str>,
    entries: Vec<(usize, usize, &'a BenchEntry)>,
    units: Units,
}

impl<'a> Cells<'a> {
    fn of(bench: &'a Bench) -> Self {
        let place =
            |index: Option<usize>, count: usize| index.filter(|index| *index < count).unwrap_or(count);
        let entries: Vec<_> = bench
            .entries
            .iter()
            .map(|entry| {
                (place(entry.column, bench.columns.len()), place(entry.row, bench.rows.len()), entry)
            })
            .collect();
        let mut columns: Vec<&str> = bench.columns.iter().map(String::as_str).collect();
        let mut rows: Vec<&str> = bench.rows.iter().map(String::as_str).collect();
        if entries.iter().any(|entry| entry.0 == columns.len()) {
            columns.push(NOT_CALLED);
        }
        if entries.iter().any(|entry| entry.1 == rows.len()) {
            rows.push(NOT_CALLED);
        }
        Self { columns, rows, entries, units: bench.units }
    }

    /// What stands in each cell, by column and then row, each from small fruit to large.
    fn items(&self, scale: f64) -> Vec<Vec<Vec<Item<'a>>>> {
        let scale = Scale::nearest(scale);
        let mut cells: Vec<Vec<Vec<Item<'a>>>> = Vec::new();
        for column in 0..self.columns.len() {
            let within =
                |row: usize| self.entries.iter().filter(move |entry| (entry.0, entry.1) == (column, row));
            let cell = |row: usize| {
                let mut items: Vec<_> =
                    within(row).map(|entry| Item::of(entry.2, scale, self.units)).collect();
                items.sort_by(|a, b| a.bulk().total_cmp(&b.bulk()).then_with(|| a.name().cmp(b.name())));
                items
            };
            cells.push((0..self.rows.len()).map(cell).collect());
        }
        cells
    }

    fn in_columns(&self, scale: f64, width: f64) -> Option<Columns<'a>> {
        let headings: Vec<f64> = self.columns.iter().map(|name| CLASS.width(name) + 10.0).collect();
        columns::share(self.items(scale), &headings, width)
    }

    /// The wanted scale, or the largest at which the largest portrait fits into `width`.
    fn scale_to_fit(&self, wanted: f64, width: f64) -> f64 {
        let items = self.entries.iter().map(|entry| Item::of(entry.2, Scale::nearest(wanted), self.units));
        let widest = items.map(|item| item.portrait_width()).fold(0.0, f64::max);
        wanted * (width / widest.max(1.0)).min(1.0)
    }
}

/// Draws the columns form and returns its height.
fn draw_columns(canvas: &mut Canvas, cells: &Cells<'_>, columns: &Columns<'_>, width: f64) -> f64 {
    let top = HEADING + 18.0;
    for (name, (left, wide)) in cells.columns.iter().zip(columns.places()) {
        CLASS.set(canvas, name, Point::new(SIDE + left + wide / 2.0, top));
    }
    let mut floor = top + 10.0;
    for (row, name) in cells.rows.iter().enumerate() {
        floor += 22.0;
        let count = cells.entries.iter().filter(|entry| entry.1 == row).count();
        HABIT.set(canvas, &format!("{name} · {count}"), Point::new(SIDE, floor));
        for shelf in columns.shelves(row) {
            floor += shelf.height() + shelf::HEADROOM;
            line(canvas, (SIDE, floor), (width - SIDE, floor), INK);
            shelf.draw(canvas, SIDE, floor);
            floor += shelf.labels();
        }
    }
    for (left, _) in columns.places().skip(1) {
        line(canvas, (SIDE + left, HEADING + 4.0), (SIDE + left, floor), HAIR);
    }
    floor + SIDE
}

/// Draws the stacked form and returns its height.
fn draw_stack(canvas: &mut Canvas, cells: &Cells<'_>, scale: f64, width: f64) -> f64 {
    let mut floor = HEADING;
    for (name, rows) in cells.columns.iter().zip(cells.items(scale)) {
        floor += 30.0;
        let count: usize = rows.iter().map(Vec::len).sum();
        let class = CLASS.anchored(Anchor::Start);
        line(canvas, (SIDE, floor - 19.0), (width - SIDE, floor - 19.0), HAIR);
        let words = if count == 0 { format!("{name} · none") } else { format!("{name} · {count}") };
        class.set(canvas, &words, Point::new(SIDE, floor));
        for (habit, items) in cells.rows.iter().zip(rows).filter(|(_, items)| !items.is_empty()) {
            floor += 20.0;
            let words = format!("{habit} · {}", items.len());
            Hand { slanted: true, ..COUNT }.set(canvas, &words, Point::new(SIDE, floor));
            for shelf in shelf::packed(items, width - 2.0 * SIDE) {
                floor += shelf.height() + shelf::HEADROOM;
                line(canvas, (SIDE, floor), (width - SIDE, floor), INK);
                shelf.draw(canvas, (SIDE, width - 2.0 * SIDE), floor);
                floor += shelf.labels();
            }
        }
    }
    floor + SIDE
}

fn heading(canvas: &mut Canvas, bench: &Bench, scale: f64, width: f64) {
    let bar = scale_bar::width(scale);
    let room = width - 2.0 * SIDE - bar - 16.0;
    for (index, words) in TITLE.broken(&bench.title, room).iter().enumerate() {
        TITLE.set(canvas, words, Point::new(SIDE, if index == 0 { 20.0 } else { 36.0 }));
    }
    scale_bar::draw(canvas, Point::new(width - SIDE - bar, 22.0), scale, bench.units);
}

fn line(canvas: &mut Canvas, from: (f64, f64), to: (f64, f64), ink: &str) {
    let line = canvas.element("line").at("x1", from.0).at("y1", from.1).at("x2", to.0).at("y2", to.1);
    line.set("stroke", ink).at("stroke-width", 0.8).end();
}
