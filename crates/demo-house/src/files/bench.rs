//! The bench: fruit in the order in which it was weighed, written in one keeper's style, with the slips
//! that a long evening at the scale brings.
//!
//! For the three modules that write fruit files. Start at [`write_row`].

use crate::class::FruitClass;
use crate::files::pen::{Meant, Pen};
use crate::fruit::BenchFruit;
use crate::house::{House, PlotNotes};
use crate::paper::{Cell, Page};
use crate::season::Garden;
use jiff::civil::Date;
use record::colour::Skin;
use record::fruit::Severity;
use record::length::Millimetres;
use record::mass::Grams;

/// How one keeper writes measures, and the headings that slips are told by.
#[derive(Clone, Copy, Debug)]
pub struct Style {
    /// A day.
    pub day: fn(Date) -> Cell,
    /// A weight.
    pub weight: fn(Grams) -> String,
    /// A length.
    pub length: fn(Millimetres) -> String,
    /// A percentage.
    pub percent: fn(f64) -> String,
    /// Headings of the day, plot, weight, length, width and locules.
    pub headings: StyleHeadings,
}

/// The headings that slips are told by.
#[derive(Clone, Copy, Debug)]
pub struct StyleHeadings {
    /// Day.
    pub day: &'static str,
    /// Plot.
    pub plot: &'static str,
    /// Variety.
    pub variety: &'static str,
    /// Weight.
    pub weight: &'static str,
    /// Length.
    pub length: &'static str,
    /// Width.
    pub width: &'static str,
    /// Locules.
    pub locules: &'static str,
}

/// One fruit as written, cell by cell; each file puts the cells in its own order.
#[derive(Clone, Debug)]
pub struct FruitRow {
    /// Day.
    pub day: Cell,
    /// Plot.
    pub plot: Cell,
    /// Plant.
    pub plant: Cell,
    /// Variety.
    pub variety: Cell,
    /// Fruits measured together; empty for one.
    pub together: Cell,
    /// Weight.
    pub weight: Cell,
    /// Length.
    pub length: Cell,
    /// Width.
    pub width: Cell,
    /// Width a quarter down.
    pub neck: Cell,
    /// Locules.
    pub locules: Cell,
    /// Soluble solids.
    pub soluble_solids: Cell,
    /// Dry matter.
    pub dry_matter: Cell,
    /// Lobes.
    pub lobes: Cell,
    /// Outside colour.
    pub exterior: Cell,
    /// Flesh colour.
    pub flesh: Cell,
    /// Skin.
    pub skin: Cell,
    /// Cracks.
    pub cracking: Cell,
    /// Catfacing.
    pub catfacing: Cell,
}

/// The fruit of one season and garden, day by day.
#[must_use]
pub fn sittings(house: &House, year: i16, garden: Garden) -> Vec<(&PlotNotes, &BenchFruit)> {
    let plots = house.plots_of(year, garden);
    let mut fruits: Vec<_> =
        plots.flat_map(|notes| notes.fruits.iter().map(move |fruit| (notes, fruit))).collect();
    fruits.sort_by_key(|(notes, fruit)| (fruit.day, notes.plot.label.clone(), fruit.plant));
    fruits
}

/// Writes one fruit in a keeper's style.
#[must_use]
pub fn write_row(
    pen: &mut Pen,
    page: &Page,
    style: &Style,
    notes: &PlotNotes,
    fruit: &BenchFruit,
) -> FruitRow {
    let variety = pen.name(page, style.headings.variety, notes);
    if fruit.stranger && !notes.plot.is_mislabelled() {
        pen.slip(page, style.headings.variety, &variety, Meant::misleading("off-type plant", String::new()));
    }
    let blemish = |seen: Severity| if seen == Severity::Absent { "" } else { seen.name() };
    let small = fruit.together > 1;
    FruitRow {
        day: (style.day)(fruit.day),
        plot: notes.plot.label.as_str().into(),
        plant: fruit.plant.into(),
        variety: variety.into(),
        together: small.then_some(fruit.together).into(),
        weight: pen.measure(fruit.weight, style.weight).into(),
        length: pen.measure(fruit.length, style.length).into(),
        width: pen.measure(fruit.width, style.length).into(),
        neck: fruit.neck_width.map(style.length).into(),
        locules: pen.measure(fruit.locules, |count| count.to_string()).into(),
        soluble_solids: fruit.soluble_solids.map(|solids| (style.percent)(solids.get())).into(),
        dry_matter: fruit.dry_matter.map(|matter| (style.percent)(matter.get())).into(),
        lobes: Some(fruit.lobes).filter(|lobes| 0 < *lobes).into(),
        exterior: fruit.exterior.name().into(),
        flesh: fruit.locules.map(|_| fruit.flesh.name()).into(),
        skin: fruit.skin.map(Skin::name).into(),
        cracking: blemish(fruit.cracking).into(),
        catfacing: blemish(fruit.catfacing).into(),
    }
}

/// Makes the slips that are due in this file: each kind a few times, on the first fruit that it fits.
pub fn spoil(
    pen: &mut Pen,
    page: &Page,
    style: &Style,
    (notes, fruit): (&PlotNotes, &BenchFruit),
    row: &mut FruitRow,
) {
    let Some(class) = pen.class(notes) else { return };
    let sized = fruit.length.is_some() && fruit.width.is_some() && fruit.weight.is_some();
    if notes.plot.is_mislabelled() || fruit.stranger || !sized {
        return;
    }
    match class {
        FruitClass::Currant => heavy_currant(pen, page, style, row),
        FruitClass::Paste => swapped(pen, page, style, row),
        FruitClass::Saladette => ten_times(pen, page, style, fruit, row),
        FruitClass::Beefsteak => blot(pen, page, style, row, &UNREADABLE),
        FruitClass::Slicer => blot(pen, page, style, row, &MISPLACED),
        FruitClass::Pear => nameless(pen, page, style, row),
        _ => {}
    }
}

fn shown(cell: &Cell) -> String {
    crate::paper::delimited::shown(cell)
}

fn heavy_currant(pen: &mut Pen, page: &Page, style: &Style, row: &mut FruitRow) {
    if pen.is_prone_to("currant of 900 g") && pen.is_due("currant of 900 g", 1) {
        let truth = shown(&row.weight);
        row.weight = "900 g".into();
        pen.slip(page, style.headings.weight, "900 g", Meant::doubted("currant of 900 g", &truth));
    }
}

fn swapped(pen: &mut Pen, page: &Page, style: &Style, row: &mut FruitRow) {
    if pen.is_prone_to("swapped") && pen.is_due("swapped", 5) {
        std::mem::swap(&mut row.length, &mut row.width);
        let truth = format!("{} is the width", shown(&row.length));
        let meant = Meant::doubted("length and width swapped", &truth);
        pen.slip(page, style.headings.length, &shown(&row.length), meant);
    }
}

fn ten_times(pen: &mut Pen, page: &Page, style: &Style, fruit: &BenchFruit, row: &mut FruitRow) {
    let Some(slipped) = fruit.weight.and_then(|weight| Grams::new(weight.get() * 10.0)) else { return };
    if pen.is_due("ten times", 1) {
        let truth = shown(&row.weight);
        row.weight = (style.weight)(slipped).into();
        let meant = Meant::doubted("weight against size", &truth);
        pen.slip(page, style.headings.weight, &shown(&row.weight), meant);
    }
}

/// Weights that hold more than one measure, and words where a number belongs.
const SEVERAL: [&str; 4] = ["1 lb 3 oz 540 g", "12-13 oz", "410 g / 388 g", "2 of 300 g"];
const NO_NUMBER: [&str; 4] = ["heavy", "huge", "see Monday", "broke the scale"];
const NO_COUNT: [&str; 3] = ["lots", "too many", "a dozen or so"];
const NO_SUCH_DAY: [&str; 3] = ["Feb 30", "31 September", "2025-13-02"];
const NO_SUCH_PLOT: [&str; 3] = ["Z-999", "H-1O1", "by the gate"];

/// A slip that replaces one cell and sends its row to the quarantine.
struct Blot {
    kind: &'static str,
    words: &'static [&'static str],
    cell: fn(&mut FruitRow) -> &mut Cell,
    heading: fn(&StyleHeadings) -> &'static str,
}

const UNREADABLE: [Blot; 3] = [
    Blot {
        kind: "more than one measure",
        words: &SEVERAL,
        cell: |row| &mut row.weight,
        heading: |of| of.weight,
    },
    Blot { kind: "not a count", words: &NO_COUNT, cell: |row| &mut row.locules, heading: |of| of.locules },
    Blot { kind: "below nothing", words: &["-12 g"], cell: |row| &mut row.weight, heading: |of| of.weight },
];
const MISPLACED: [Blot; 3] = [
    Blot { kind: "unknown plot", words: &NO_SUCH_PLOT, cell: |row| &mut row.plot, heading: |of| of.plot },
    Blot { kind: "no such day", words: &NO_SUCH_DAY, cell: |row| &mut row.day, heading: |of| of.day },
    Blot { kind: "not a number", words: &NO_NUMBER, cell: |row| &mut row.weight, heading: |of| of.weight },
];

/// Makes the first blot that this keeper is prone to and has not made yet.
fn blot(pen: &mut Pen, page: &Page, style: &Style, row: &mut FruitRow, blots: &[Blot]) {
    let due = blots.iter().find(|blot| pen.is_prone_to(blot.kind) && pen.is_due(blot.kind, 1));
    let Some(blot) = due else { return };
    let words = pen.usual_one_of(blot.words);
    let truth = shown((blot.cell)(row));
    *(blot.cell)(row) = words.into();
    pen.slip(page, (blot.heading)(&style.headings), words, Meant::quarantined(blot.kind, &truth));
}

fn nameless(pen: &mut Pen, page: &Page, style: &Style, row: &mut FruitRow) {
    if pen.is_prone_to("no variety") && pen.is_due("no variety", 1) {
        let truth = shown(&row.variety);
        (row.plot, row.variety) = (Cell::Empty, Cell::Empty);
        pen.slip(page, style.headings.variety, "", Meant::quarantined("no variety", &truth));
    }
}
