//! The plants, one by one: when each went out, and when it was lost.
//!
//! Start at [`plants_2024`].

use crate::files::hand;
use crate::files::{NOVEMBER_2026, SEASON_2024, SEASON_2025};
use crate::garden::{Plant, Plot};
use crate::house::House;
use crate::paper::{Cell, Format, Letters, Page, Sheaf};
use crate::season::Garden;
use jiff::civil::Date;

/// 2024: commas, month first, both gardens.
#[must_use]
pub fn plants_2024(house: &House) -> Sheaf {
    let mut page = Page::default();
    page.words(&["Season", "Garden", "Plot", "Variety", "Plant", "Set out", "Lost", "Remarks"]);
    for (plot, plant) in plants(house, 2024) {
        page.record(row(house, plot, plant, |day| hand::month_first(day).into()));
    }
    Sheaf {
        path: format!("{SEASON_2024}/plants-2024.csv"),
        about: "plants of both gardens one by one; two-digit years, month first (decidable)",
        format: Format::Text { delimiter: ',', letters: Letters::Utf8, line_end: "\n" },
        pages: vec![page],
    }
}

/// 2025: an ODS spreadsheet with real dates.
#[must_use]
pub fn plants_2025(house: &House) -> Sheaf {
    let mut page = Page::named("Plants 2025");
    page.title("Plants as set out, 2025", 8);
    page.words(&["Season", "Garden", "Plot", "Variety", "Plant no.", "Transplanted", "Date lost", "Notes"]);
    for (plot, plant) in plants(house, 2025) {
        page.record(row(house, plot, plant, Cell::Day));
    }
    Sheaf {
        path: format!("{SEASON_2025}/plants-2025.ods"),
        about: "plants of both gardens one by one; merged title, real dates",
        format: Format::OpenDocument,
        pages: vec![page],
    }
}

/// 2026: semicolons, day first.
#[must_use]
pub fn plants_2026(house: &House) -> Sheaf {
    let mut page = Page::default();
    page.words(&["Year", "Garden", "Stake", "Variety", "Plant number", "Planted out", "Died", "Remarks"]);
    for (plot, plant) in plants(house, 2026) {
        page.record(row(house, plot, plant, |day| hand::day_first(day).into()));
    }
    Sheaf {
        path: format!("{NOVEMBER_2026}/plants-2026.csv"),
        about: "plants of both gardens one by one; semicolons, day first (decidable)",
        format: Format::Text { delimiter: ';', letters: Letters::Utf8, line_end: "\r\n" },
        pages: vec![page],
    }
}

fn plants(house: &House, year: i16) -> impl Iterator<Item = (&Plot, &Plant)> {
    let gardens = [Garden::Home, Garden::FarField];
    let plots = gardens.into_iter().flat_map(move |garden| house.plots_of(year, garden));
    plots.flat_map(|notes| notes.plot.plants.iter().map(|plant| (&notes.plot, plant)))
}

fn row(house: &House, plot: &Plot, plant: &Plant, day: impl Fn(Date) -> Cell) -> Vec<Cell> {
    let name = plot.label_of(&house.truth).map(|variety| variety.entry.name.as_str());
    vec![
        plot.grow_out.year.to_string().into(),
        plot.grow_out.garden.name().into(),
        plot.label.as_str().into(),
        name.into(),
        plant.number.into(),
        day(plot.transplanted),
        plant.lost.map(&day).unwrap_or(Cell::Empty),
        plant.lost.map(|_| "found dead").into(),
    ]
}
