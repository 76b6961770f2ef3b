//! The bed plans: which variety stands in which plot, where, since when, how many plants.
//!
//! Start at [`beds_2024`].

use crate::faults::Slips;
use crate::files::pen::Pen;
use crate::files::{AUGUST_2026, SEASON_2024, SEASON_2025};
use crate::house::{House, PlotNotes};
use crate::paper::{Cell, Format, Letters, Page, Sheaf};
use crate::season::Garden;

const HEADINGS: [&str; 8] = ["Garden", "Plot", "Variety", "Block", "Row", "Place", "Set out", "Plants"];

/// 2024, a workbook of two sheets: merged titles, blank rows between blocks, headings again at each
/// block, a total by formula.
#[must_use]
pub fn beds_2024(house: &House, slips: &mut Slips) -> Sheaf {
    let path = format!("{SEASON_2024}/beds-2024.xlsx");
    let mut pen = Pen::new(house, slips, &path);
    let pages = vec![sheet(&mut pen, 2024, Garden::Home), sheet(&mut pen, 2024, Garden::FarField)];
    Sheaf {
        path,
        about: "bed plans of both gardens, a sheet each; merged titles, blank rows, repeated headings, a total row by formula",
        format: Format::Workbook,
        pages,
    }
}

/// 2025, an ODS spreadsheet: likewise, and a third sheet that was never filled in.
#[must_use]
pub fn beds_2025(house: &House, slips: &mut Slips) -> Sheaf {
    let path = format!("{SEASON_2025}/beds-2025.ods");
    let mut pen = Pen::new(house, slips, &path);
    let mut glasshouse = Page::named("Glasshouse 2025");
    glasshouse.title("Glasshouse 2025", HEADINGS.len());
    glasshouse.words(&HEADINGS);
    let pages =
        vec![sheet(&mut pen, 2025, Garden::Home), sheet(&mut pen, 2025, Garden::FarField), glasshouse];
    Sheaf {
        path,
        about: "bed plans of both gardens; merged titles, blank rows, repeated headings, a total row by formula, a third sheet with headings and no rows",
        format: Format::OpenDocument,
        pages,
    }
}

fn sheet(pen: &mut Pen, year: i16, garden: Garden) -> Page {
    let house = pen.house();
    let mut page = Page::named(&format!("{} {year}", garden.name()));
    page.title(&format!("{} {year}", garden.name()), HEADINGS.len());
    page.blank();
    page.words(&HEADINGS);
    let first = page.next_row();
    let mut block = 1;
    for notes in house.plots_of(year, garden) {
        if notes.plot.block != block {
            block = notes.plot.block;
            page.blank();
            pen.headings_again(&mut page, &HEADINGS);
        }
        let garden = vec![garden.name().into()];
        page.record([garden, plot_row(house, notes)].concat());
    }
    page.blank();
    let rows = (first, page.next_row() - 2);
    pen.total(&mut page, total(house, year, garden, rows));
    page
}

fn plot_row(house: &House, notes: &PlotNotes) -> Vec<Cell> {
    let plot = &notes.plot;
    let name = plot.label_of(&house.truth).map(|variety| variety.entry.name.as_str());
    vec![
        plot.label.as_str().into(),
        name.into(),
        plot.block.into(),
        plot.row.into(),
        plot.position.into(),
        plot.transplanted.into(),
        (plot.plants.len() as u32).into(),
    ]
}

fn total(house: &House, year: i16, garden: Garden, (first, last): (u32, u32)) -> Vec<Cell> {
    let plants: usize = house.plots_of(year, garden).map(|notes| notes.plot.plants.len()).sum();
    let sum = Cell::Formula { formula: format!("SUM(H{first}:H{last})"), shows: plants as f64 };
    [vec!["Total plants".into()], vec![Cell::Empty; 6], vec![sum]].concat()
}

/// 2026, UTF-16 text with tabs: both gardens in one table.
#[must_use]
pub fn beds_2026(house: &House) -> Sheaf {
    let mut page = Page::default();
    page.words(&[
        "Grow-out",
        "Garden",
        "Season",
        "Stake",
        "Variety",
        "Block",
        "Row",
        "Position",
        "Transplanted",
        "No. of plants",
    ]);
    for garden in [Garden::Home, Garden::FarField] {
        for notes in house.plots_of(2026, garden) {
            page.record(stake_row(house, notes));
        }
        page.blank();
    }
    Sheaf {
        path: format!("{AUGUST_2026}/beds-2026.tsv"),
        about: "bed plans of both gardens in one table; UTF-16 with tabs, a blank row between the gardens",
        format: Format::Text { delimiter: '\t', letters: Letters::Utf16, line_end: "\r\n" },
        pages: vec![page],
    }
}

fn stake_row(house: &House, notes: &PlotNotes) -> Vec<Cell> {
    let plot = &notes.plot;
    let before = [
        plot.grow_out.name().into(),
        plot.grow_out.garden.name().into(),
        plot.grow_out.year.to_string().into(),
    ];
    [before.to_vec(), plot_row(house, notes)].concat()
}
