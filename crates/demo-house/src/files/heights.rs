//! The heights: plants put to the tape every eleven days or so.
//!
//! Start at [`heights_2024`].

use crate::faults::Slips;
use crate::files::hand;
use crate::files::pen::{Meant, Pen};
use crate::files::{NOVEMBER_2026, SEASON_2024, SEASON_2025};
use crate::house::{House, PlotNotes};
use crate::paper::{Cell, Format, Letters, Page, Sheaf};
use crate::season::Garden;
use crate::vine::TrueHeight;
use record::length::Millimetres;

fn tapings(house: &House, year: i16) -> Vec<(&PlotNotes, &TrueHeight)> {
    let plots = [Garden::Home, Garden::FarField].into_iter().flat_map(|garden| house.plots_of(year, garden));
    let mut heights: Vec<_> =
        plots.flat_map(|notes| notes.heights.iter().map(move |height| (notes, height))).collect();
    heights.sort_by_key(|(notes, height)| {
        (height.day, notes.plot.grow_out.garden, notes.plot.label.clone(), height.plant)
    });
    heights
}

fn row(day: Cell, notes: &PlotNotes, name: String, height: &TrueHeight, tape: Cell) -> Vec<Cell> {
    vec![
        day,
        notes.plot.grow_out.garden.name().into(),
        notes.plot.label.as_str().into(),
        name.into(),
        height.plant.into(),
        tape,
    ]
}

/// 2024: tabs; feet and inches at home, centimetres in Far Field, in one column.
#[must_use]
pub fn heights_2024(house: &House, slips: &mut Slips) -> Sheaf {
    let path = format!("{SEASON_2024}/heights-2024.tsv");
    let mut pen = Pen::new(house, slips, &path);
    let mut page = Page::default();
    page.words(&["Plant heights 2024 (soil to tip)"]);
    page.words(&["Date", "Garden", "Plot", "Variety", "Plant", "Height"]);
    for (notes, height) in tapings(house, 2024) {
        let name = pen.name(&page, "Variety", notes);
        let tape = tape_2024(&mut pen, &page, notes.plot.grow_out.garden, height.height);
        page.record(row(hand::month_first(height.day).into(), notes, name, height, tape.into()));
    }
    Sheaf {
        path,
        about: "heights of both gardens; tabs, `5 ft 3 in`, `40 in` and `102 cm` in one column, month first with two-digit years (decidable), one plant of 63 ft",
        format: Format::Text { delimiter: '\t', letters: Letters::Utf8, line_end: "\n" },
        pages: vec![page],
    }
}

fn tape_2024(pen: &mut Pen, page: &Page, garden: Garden, height: Millimetres) -> String {
    let right = match garden {
        Garden::Home => hand::feet_and_inches(height),
        Garden::FarField => format!("{:.0} cm", height.get() / 10.0),
    };
    // A slip of the pen: 63 feet for 6 feet 3.
    if height.get() < 1900.0 || !pen.is_due("giant", 1) {
        return right;
    }
    pen.slip(page, "Height", "63 ft", Meant::doubted("beyond limit", &right));
    "63 ft".to_owned()
}

/// 2025: semicolons, metres with decimal commas, day first.
#[must_use]
pub fn heights_2025(house: &House, slips: &mut Slips) -> Sheaf {
    let path = format!("{SEASON_2025}/heights-2025.csv");
    let mut pen = Pen::new(house, slips, &path);
    let mut page = Page::default();
    page.words(&["Day", "Garden", "Plot", "Variety", "Plant", "Height (m)"]);
    for (notes, height) in tapings(house, 2025) {
        let name = pen.name(&page, "Variety", notes);
        let tape = hand::comma(height.height.get() / 1000.0, 2);
        page.record(row(hand::day_first(height.day).into(), notes, name, height, tape.into()));
    }
    Sheaf {
        path,
        about: "heights of both gardens; semicolons, metres with decimal commas, day first (decidable)",
        format: Format::Text { delimiter: ';', letters: Letters::Windows1252, line_end: "\r\n" },
        pages: vec![page],
    }
}

/// 2026: commas, centimetres, ISO dates.
#[must_use]
pub fn heights_2026(house: &House, slips: &mut Slips) -> Sheaf {
    let path = format!("{NOVEMBER_2026}/heights-2026.csv");
    let mut pen = Pen::new(house, slips, &path);
    let mut page = Page::default();
    page.words(&["date", "garden", "plot", "variety", "plant", "height (cm)"]);
    for (notes, height) in tapings(house, 2026) {
        let name = pen.name(&page, "variety", notes);
        let tape = format!("{:.0}", height.height.get() / 10.0);
        page.record(row(height.day.to_string().into(), notes, name, height, tape.into()));
    }
    Sheaf {
        path,
        about: "heights of both gardens; the tidiest file of all",
        format: Format::Text { delimiter: ',', letters: Letters::Utf8, line_end: "\n" },
        pages: vec![page],
    }
}
