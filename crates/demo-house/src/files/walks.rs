//! The walks: first flowers and fruit, how stems end, leaves between trusses, plants standing, rogues.
//!
//! Start at [`walks_2024`].

use crate::chance::{between, happens, one_of};
use crate::faults::Slips;
use crate::files::hand;
use crate::files::pen::Pen;
use crate::files::{NOVEMBER_2026, SEASON_2024, SEASON_2025};
use crate::house::{House, PlotNotes};
use crate::paper::{Cell, Format, Letters, Page, Sheaf};
use crate::season::Garden;
use crate::vine::{Stem, Walk};
use jiff::civil::Date;

fn steps(house: &House, year: i16) -> Vec<(&PlotNotes, &Walk)> {
    let plots = [Garden::Home, Garden::FarField].into_iter().flat_map(|garden| house.plots_of(year, garden));
    let mut walks: Vec<_> =
        plots.flat_map(|notes| notes.walks.iter().map(move |walk| (notes, walk))).collect();
    walks.sort_by_key(|(notes, walk)| {
        (walk.day, notes.plot.grow_out.garden, notes.plot.label.clone(), walk.plant)
    });
    walks
}

/// How a keeper writes days and whether a stem has ended.
struct Style {
    day: fn(Date) -> Cell,
    ended: &'static str,
    growing: &'static str,
    temperature: fn(f64) -> String,
}

/// The cells of one walk: day, garden, plot, plant, variety, first flower, first ripe, stem ended,
/// trusses, leaves between trusses, plants standing, off-types, what is wrong, dwarf leaves.
fn cells(pen: &mut Pen, page: &Page, style: &Style, notes: &PlotNotes, walk: &Walk) -> Vec<Cell> {
    let (ended, trusses) = match walk.stem {
        Some(Stem::Ended(trusses)) => (style.ended, Some(trusses)),
        Some(Stem::Growing(trusses)) => (style.growing, Some(trusses)),
        None => ("", None),
    };
    vec![
        (style.day)(walk.day),
        notes.plot.grow_out.garden.name().into(),
        notes.plot.label.as_str().into(),
        walk.plant.into(),
        pen.name(page, "Variety", notes).into(),
        walk.first_flower.map(style.day).unwrap_or(Cell::Empty),
        walk.first_ripe.map(style.day).unwrap_or(Cell::Empty),
        ended.into(),
        trusses.into(),
        walk.leaves_between.map(|leaves| Cell::Number(leaves.get())).unwrap_or(Cell::Empty),
        walk.standing.into(),
        walk.off_types.as_ref().map(|(plants, _)| *plants).into(),
        walk.off_types.as_ref().map(|(_, words)| words.clone()).into(),
        if walk.dwarf_leaves { "yes".into() } else { Cell::Empty },
    ]
}

fn temperature(pen: &mut Pen, style: &Style, walk: &Walk) -> Cell {
    if walk.plant.is_some() || !happens(pen.draws(), 0.3) {
        return Cell::Empty;
    }
    let celsius = between(pen.draws(), (14.0, 34.0));
    (style.temperature)(celsius).into()
}

const REMARKS: [&str; 6] = [
    "leaning, needs a stake",
    "leaf spot low down\nbut the tops are clean",
    "best plot of the row",
    "hornworm, picked off\n\"two of them\"",
    "watered late",
    "n/a",
];

fn remark(pen: &mut Pen) -> Cell {
    if happens(pen.draws(), 0.12) { one_of(pen.draws(), &REMARKS).copied().into() } else { Cell::Empty }
}

/// 2024: commas, line breaks inside quotes, degrees Fahrenheit.
#[must_use]
pub fn walks_2024(house: &House, slips: &mut Slips) -> Sheaf {
    let path = format!("{SEASON_2024}/walks-2024.csv");
    let style = Style {
        day: |day| hand::month_first(day).into(),
        ended: "yes",
        growing: "no",
        temperature: fahrenheit,
    };
    let headings = [
        "Date",
        "Garden",
        "Plot",
        "Plant",
        "Variety",
        "First flower",
        "First ripe",
        "Main stem ended in a truss",
        "Trusses on main stem",
        "Leaves between trusses",
        "Plants standing",
        "Off-types",
        "Off-type notes",
        "Dwarf leaves",
        "Temp",
        "Remarks",
    ];
    let mut pen = Pen::new(house, slips, &path);
    let mut page = Page::default();
    page.words(&["Walk sheets 2024"]);
    page.words(&headings);
    for (notes, walk) in steps(house, 2024) {
        let mut row = cells(&mut pen, &page, &style, notes, walk);
        row.extend([temperature(&mut pen, &style, walk), remark(&mut pen)]);
        page.record(row);
    }
    Sheaf {
        path,
        about: "walk sheets of both gardens; line breaks and quotes inside quotes, temperatures in Fahrenheit beside the notes, month first with two-digit years",
        format: Format::Text { delimiter: ',', letters: Letters::Utf8, line_end: "\r\n" },
        pages: vec![page],
    }
}

/// Two walkers with two thermometers.
fn celsius_or_fahrenheit(celsius: f64) -> String {
    let tenths = (celsius * 10.0) as u32;
    if tenths.is_multiple_of(2) { format!("{celsius:.0} °C") } else { fahrenheit(celsius) }
}

fn fahrenheit(celsius: f64) -> String {
    format!("{:.0} °F", celsius * 1.8 + 32.0)
}

/// 2025: a workbook of a sheet a garden, with a total by formula.
#[must_use]
pub fn walks_2025(house: &House, slips: &mut Slips) -> Sheaf {
    let path = format!("{SEASON_2025}/walks-2025.xlsx");
    let style = Style { day: Cell::Day, ended: "y", growing: "n", temperature: celsius_or_fahrenheit };
    let mut pen = Pen::new(house, slips, &path);
    let pages = [Garden::Home, Garden::FarField].map(|garden| sheet_2025(&mut pen, &style, garden));
    Sheaf {
        path,
        about: "walk sheets, a sheet a garden; merged titles, real dates, temperatures in Celsius and Fahrenheit, a total row by formula; Far Field's early frost cut the counting short",
        format: Format::Workbook,
        pages: pages.to_vec(),
    }
}

fn sheet_2025(pen: &mut Pen, style: &Style, garden: Garden) -> Page {
    let headings = [
        "Date",
        "Garden",
        "Plot",
        "Plant",
        "Variety",
        "First flower",
        "First ripe fruit",
        "Stem ended",
        "Trusses",
        "Leaves between trusses",
        "Plants",
        "Off types",
        "Off-type notes",
        "Dwarf leaves",
        "Temperature",
    ];
    let mut page = Page::named(&format!("{} 2025", garden.name()));
    page.title(&format!("Walk sheets, {} 2025", garden.name()), headings.len());
    page.words(&headings);
    let first = page.next_row();
    let house = pen.house();
    let steps = steps(house, 2025).into_iter().filter(|(notes, _)| notes.plot.grow_out.garden == garden);
    let mut standing = 0;
    for (notes, walk) in steps {
        standing += walk.standing.unwrap_or(0);
        let mut row = cells(pen, &page, style, notes, walk);
        row.push(temperature(pen, style, walk));
        page.record(row);
    }
    let sum = Cell::Formula {
        formula: format!("SUM(K{first}:K{})", page.next_row() - 1),
        shows: f64::from(standing),
    };
    let blanks = vec![Cell::Empty; 9];
    pen.total(&mut page, [vec!["Total".into()], blanks, vec![sum]].concat());
    page
}

/// 2026: semicolons, day first, a cross for a stem that has ended.
#[must_use]
pub fn walks_2026(house: &House, slips: &mut Slips) -> Sheaf {
    let path = format!("{NOVEMBER_2026}/walks-2026.csv");
    let style = Style {
        day: |day| hand::day_first(day).into(),
        ended: "x",
        growing: "no",
        temperature: |celsius| format!("{} °C", hand::comma(celsius, 1)),
    };
    let headings = [
        "Date",
        "Garden",
        "Plot",
        "Plant",
        "Variety",
        "First flower",
        "First ripe",
        "Stem ended",
        "Trusses",
        "Leaves between trusses",
        "Plants standing",
        "Off-types",
        "Off-type notes",
        "Dwarf leaves",
        "Temp",
        "Remarks",
    ];
    let mut pen = Pen::new(house, slips, &path);
    let mut page = Page::default();
    page.words(&headings);
    for (notes, walk) in steps(house, 2026) {
        let mut row = cells(&mut pen, &page, &style, notes, walk);
        row.extend([temperature(&mut pen, &style, walk), remark(&mut pen)]);
        page.record(row.into_iter().map(with_comma).collect());
    }
    Sheaf {
        path,
        about: "walk sheets of both gardens; semicolons, decimal commas, `x` or `no` where a stem has ended or not, line breaks inside quotes, temperatures in Celsius with commas, day first (decidable)",
        format: Format::Text { delimiter: ';', letters: Letters::Utf8Marked, line_end: "\r\n" },
        pages: vec![page],
    }
}

fn with_comma(cell: Cell) -> Cell {
    match cell {
        Cell::Number(number) => Cell::Text(number.to_string().replace('.', ",")),
        other => other,
    }
}
