//! Fruit of 2025: a workbook, a neighbour's notes without years, and an open day whose dates cannot be
//! told.
//!
//! Start at [`bench()`].

use crate::faults::Slips;
use crate::files::SEASON_2025;
use crate::files::bench::{FruitRow, Style, StyleHeadings, sittings, spoil, write_row};
use crate::files::hand;
use crate::files::pen::{Meant, Pen};
use crate::fruit::BenchFruit;
use crate::garden::Plot;
use crate::house::{House, PlotNotes};
use crate::paper::{Cell, Format, Letters, Page, Sheaf};
use crate::season::Garden;
use jiff::civil::Date;
use record::mass::Grams;

const HOME_HEADINGS: [&str; 12] = [
    "Variety",
    "Plot",
    "Plant",
    "Date",
    "Fruits",
    "Weight",
    "Length",
    "Width",
    "Neck width",
    "Locules",
    "Brix",
    "Catfacing",
];
const FAR_HEADINGS: [&str; 13] = [
    "Variety",
    "Plot",
    "Plant",
    "Date",
    "Gross (g)",
    "Tray (g)",
    "Weight (g)",
    "Length (mm)",
    "Width (mm)",
    "Neck (mm)",
    "Locules",
    "Brix %",
    "DM %",
];

const STYLE: Style = Style {
    day: Cell::Day,
    weight: ounces_or_grams,
    length: |length| format!("{} in", hand::inches(length)),
    percent: |percent| format!("{percent:.1}"),
    headings: StyleHeadings {
        day: "Date",
        plot: "Plot",
        variety: "Variety",
        weight: "Weight",
        length: "Length",
        width: "Width",
        locules: "Locules",
    },
};

/// Two people at one scale: one reads ounces (and pounds), the other grams.
fn ounces_or_grams(weight: Grams) -> String {
    let by_the_second = ((weight.get() * 10.0) as u64).is_multiple_of(3);
    match weight.get() {
        small if small < 30.0 => hand::small_grams(weight),
        large if by_the_second => format!("{large:.0} g"),
        _ => hand::pounds_and_ounces(weight),
    }
}

/// The open day took the home fruit of the first dozen days of a month.
fn at_open_day(fruit: &BenchFruit, plot: &Plot) -> bool {
    fruit.day.day() <= 12 && fruit.day.day() != fruit.day.month() && plot.position.is_multiple_of(5)
}

/// The neighbour took every other row of Far Field.
fn is_neighbours(plot: &Plot) -> bool {
    !plot.row.is_multiple_of(2)
}

/// The bench workbook: a sheet a garden, merged titles, ounces and grams in one column at home,
/// weights by formula in Far Field.
#[must_use]
pub fn bench(house: &House, slips: &mut Slips) -> Sheaf {
    let path = format!("{SEASON_2025}/fruit-2025-bench.xlsx");
    let mut pen = Pen::new(house, slips, &path);
    let pages = vec![home_sheet(&mut pen), far_sheet(&mut pen)];
    Sheaf {
        path,
        about: "fruit of both gardens, a sheet each; merged titles, real dates, `2.1 oz`, `1 lb 3 oz` and `58 g` in one column with no unit in its heading, three weights without any unit, weights by formula (gross less tray), an average row by formula",
        format: Format::Workbook,
        pages,
    }
}

fn home_sheet(pen: &mut Pen) -> Page {
    let mut page = Page::named("Home Garden 2025");
    page.title("Fruit bench, Home Garden 2025", HOME_HEADINGS.len());
    page.blank();
    page.words(&HOME_HEADINGS);
    for (notes, fruit) in sittings(pen.house(), 2025, Garden::Home) {
        if at_open_day(fruit, &notes.plot) {
            continue;
        }
        let mut row = write_row(pen, &page, &STYLE, notes, fruit);
        spoil(pen, &page, &STYLE, (notes, fruit), &mut row);
        unitless(pen, &page, fruit, &mut row);
        page.record(home_cells(row));
    }
    page
}

fn home_cells(row: FruitRow) -> Vec<Cell> {
    vec![
        row.variety,
        row.plot,
        row.plant,
        row.day,
        row.together,
        row.weight,
        row.length,
        row.width,
        row.neck,
        row.locules,
        row.soluble_solids,
        row.catfacing,
    ]
}

/// Three weights of a column whose cells carry the unit were typed without one.
fn unitless(pen: &mut Pen, page: &Page, fruit: &BenchFruit, row: &mut FruitRow) {
    let Some(weight) = fruit.weight.filter(|weight| 60.0 < weight.get() && fruit.length.is_none()) else {
        return;
    };
    if pen.is_due("no unit", 3) {
        let written = hand::ounces(weight);
        pen.slip(page, "Weight", &written, Meant::quarantined("no unit", &format!("{written} oz")));
        row.weight = written.into();
    }
}

fn far_sheet(pen: &mut Pen) -> Page {
    let mut page = Page::named("Far Field 2025");
    page.title("Fruit bench, Far Field 2025 (tray weighed with the fruit)", FAR_HEADINGS.len());
    page.words(&FAR_HEADINGS);
    let first = page.next_row();
    for (notes, fruit) in sittings(pen.house(), 2025, Garden::FarField) {
        if !is_neighbours(&notes.plot) {
            let cells = far_cells(pen, &page, notes, fruit);
            page.record(cells);
        }
    }
    let last = page.next_row() - 1;
    let average =
        Cell::Formula { formula: format!("AVERAGE(G{first}:G{last})"), shows: average(pen.house()) };
    let blanks = [Cell::Empty, Cell::Empty, Cell::Empty, Cell::Empty, Cell::Empty];
    pen.total(&mut page, [vec!["Average".into()], blanks.to_vec(), vec![average]].concat());
    page
}

fn average(house: &House) -> f64 {
    let mine =
        sittings(house, 2025, Garden::FarField).into_iter().filter(|(notes, _)| !is_neighbours(&notes.plot));
    let weights: Vec<f64> =
        mine.filter_map(|(_, fruit)| fruit.weight.map(|weight| tenth(weight.get()))).collect();
    tenth(weights.iter().sum::<f64>() / weights.len().max(1) as f64)
}

fn tenth(number: f64) -> f64 {
    (number * 10.0).round() / 10.0
}

/// Grams of the tray that stands on the scale.
const TRAY: f64 = 38.5;

fn far_cells(pen: &mut Pen, page: &Page, notes: &PlotNotes, fruit: &BenchFruit) -> Vec<Cell> {
    let row = write_row(pen, page, &STYLE, notes, fruit);
    let at = page.next_row();
    let millimetres = |length: record::length::Millimetres| Cell::Number(tenth(length.get()));
    let weighing = fruit.weight.map(|weight| {
        let formula = format!("E{at}-F{at}");
        // Fruit too small for this scale is weighed twenty together, and the mean typed in.
        let shows =
            if weight.get() < 1.0 { (weight.get() * 100.0).round() / 100.0 } else { tenth(weight.get()) };
        [
            Cell::Number(tenth((shows + TRAY) * 10.0) / 10.0),
            Cell::Number(TRAY),
            Cell::Formula { formula, shows },
        ]
    });
    let weighing = weighing.unwrap_or([Cell::Empty, Cell::Empty, Cell::Empty]);
    let before = [row.variety, row.plot, row.plant, row.day];
    let after = [
        fruit.length.map_or(Cell::Empty, millimetres),
        fruit.width.map_or(Cell::Empty, millimetres),
        fruit.neck_width.map_or(Cell::Empty, millimetres),
        fruit.locules.into(),
        fruit.soluble_solids.map_or(Cell::Empty, |solids| Cell::Number(tenth(solids.get()))),
        fruit.dry_matter.map_or(Cell::Empty, |matter| Cell::Number(tenth(matter.get()))),
    ];
    [before.to_vec(), weighing.to_vec(), after.to_vec()].concat()
}

const NEIGHBOUR_HEADINGS: [&str; 13] = [
    "Plot",
    "Plant",
    "Variety",
    "Date",
    "count",
    "weight grams",
    "length mm",
    "width mm",
    "neck mm",
    "locules",
    "colour",
    "flesh",
    "skin",
];
const NEIGHBOUR_STYLE: Style = Style {
    day: |day| hand::month_and_day(day).into(),
    weight: hand::kitchen_grams,
    length: |length| format!("{:.0}", length.get()),
    headings: StyleHeadings {
        weight: "weight grams",
        length: "length mm",
        width: "width mm",
        locules: "locules",
        ..STYLE.headings
    },
    ..STYLE
};

/// The neighbour's notes: `Jul 14` without a year, Windows-1252.
#[must_use]
pub fn neighbour(house: &House, slips: &mut Slips) -> Sheaf {
    let path = format!("{SEASON_2025}/fruit-2025-neighbour.csv");
    let mut pen = Pen::new(house, slips, &path).with_curly_apostrophes();
    let mut page = Page::default();
    page.words(&["Far Field 2025 – my half, weighed on the kitchen scale"]);
    page.words(&NEIGHBOUR_HEADINGS);
    for (notes, fruit) in sittings(house, 2025, Garden::FarField) {
        if is_neighbours(&notes.plot) {
            let mut row = write_row(&mut pen, &page, &NEIGHBOUR_STYLE, notes, fruit);
            spoil(&mut pen, &page, &NEIGHBOUR_STYLE, (notes, fruit), &mut row);
            page.record(neighbour_cells(row));
        }
    }
    Sheaf {
        path,
        about: "half of Far Field's fruit by a neighbour; `Jul 14` with the year only in the title, Windows-1252 with a dash and curly apostrophes in names",
        format: Format::Text { delimiter: ',', letters: Letters::Windows1252, line_end: "\r\n" },
        pages: vec![page],
    }
}

fn neighbour_cells(row: FruitRow) -> Vec<Cell> {
    let who = [row.plot, row.plant, row.variety, row.day, row.together];
    let size = [row.weight, row.length, row.width, row.neck, row.locules];
    who.into_iter().chain(size).chain([row.exterior, row.flesh, row.skin]).collect()
}

fn undecidable(day: Date) -> Cell {
    day.strftime("%m/%d/%Y").to_string().into()
}

/// The open day: every date reads as well day first as month first.
#[must_use]
pub fn open_day(house: &House, slips: &mut Slips) -> Sheaf {
    let path = format!("{SEASON_2025}/fruit-2025-open-day.csv");
    let style = Style { day: undecidable, weight: |weight| format!("{:.1} g", weight.get()), ..STYLE };
    let mut pen = Pen::new(house, slips, &path);
    let mut page = Page::default();
    page.words(&["Home Garden 2025, fruit weighed with visitors"]);
    page.words(&["Date", "Plot", "Plant", "Variety", "Weight", "Length", "Width", "Locules"]);
    pen.slip_of_column(&page, "Date", Meant::quarantined("day or month first cannot be told", "month first"));
    for (notes, fruit) in sittings(house, 2025, Garden::Home) {
        if at_open_day(fruit, &notes.plot) {
            let row = write_row(&mut pen, &page, &style, notes, fruit);
            page.record(vec![
                row.day,
                row.plot,
                row.plant,
                row.variety,
                row.weight,
                row.length,
                row.width,
                row.locules,
            ]);
        }
    }
    Sheaf {
        path,
        about: "fruit weighed with visitors; every date reads as well day first as month first (`08/09/2025`), so the column must be asked about",
        format: Format::Text { delimiter: ',', letters: Letters::Utf8, line_end: "\n" },
        pages: vec![page],
    }
}
