//! Fruit of 2024: two keepers who agree on nothing.
//!
//! Start at [`home`].

use crate::faults::Slips;
use crate::files::SEASON_2024;
use crate::files::bench::{FruitRow, Style, StyleHeadings, sittings, spoil, write_row};
use crate::files::hand;
use crate::files::pen::Pen;
use crate::house::House;
use crate::paper::{Cell, Format, Letters, Page, Sheaf};
use crate::season::Garden;

const HOME_HEADINGS: [&str; 18] = [
    "Date",
    "Plot",
    "Plant",
    "Variety",
    "Fruits",
    "Wt (oz)",
    "Length (in)",
    "Width (in)",
    "Neck width (in)",
    "Locules",
    "Brix",
    "Dry matter %",
    "Lobes",
    "Color",
    "Flesh",
    "Skin",
    "Cracking",
    "Catfacing",
];
const FAR_HEADINGS: [&str; 17] = [
    "Garden",
    "Stake",
    "Plant no.",
    "Variety",
    "Day",
    "Count",
    "Weight",
    "Length",
    "Diameter",
    "Neck",
    "Chambers",
    "°Brix",
    "Dry matter",
    "Ribs",
    "Colour",
    "Cracks",
    "Catface",
];

const HOME_STYLE: Style = Style {
    day: |day| hand::month_first(day).into(),
    weight: hand::ounces_or_small_grams,
    length: hand::inches,
    percent: |percent| format!("{percent:.1}"),
    headings: StyleHeadings {
        day: "Date",
        plot: "Plot",
        variety: "Variety",
        weight: "Wt (oz)",
        length: "Length (in)",
        width: "Width (in)",
        locules: "Locules",
    },
};
const FAR_STYLE: Style = Style {
    day: |day| hand::dotted(day).into(),
    weight: |weight| format!("{} g", grams_with_comma(weight.get())),
    length: |length| format!("{} cm", hand::comma(length.get() / 10.0, 1 + usize::from(length.get() < 20.0))),
    percent: |percent| format!("{} %", hand::comma(percent, 1)),
    headings: StyleHeadings {
        day: "Day",
        plot: "Stake",
        variety: "Variety",
        weight: "Weight",
        length: "Length",
        width: "Diameter",
        locules: "Chambers",
    },
};

/// Rows on a sheet of the home keeper's pad, after which the headings come again.
const ROWS_ON_A_SHEET: u32 = 60;

/// At home: commas, ounces and inches, month first with two-digit years, headings again on each sheet.
#[must_use]
pub fn home(house: &House, slips: &mut Slips) -> Sheaf {
    let path = format!("{SEASON_2024}/fruit-2024-home.csv");
    let mut pen = Pen::new(house, slips, &path);
    let mut page = Page::default();
    page.words(&["Crookstile Seed House, fruit bench, Home Garden 2024"]);
    page.blank();
    page.words(&HOME_HEADINGS);
    for (notes, fruit) in sittings(house, 2024, Garden::Home) {
        if page.records.is_multiple_of(ROWS_ON_A_SHEET) && 0 < page.records {
            page.blank();
            pen.headings_again(&mut page, &HOME_HEADINGS);
        }
        let mut row = write_row(&mut pen, &page, &HOME_STYLE, notes, fruit);
        spoil(&mut pen, &page, &HOME_STYLE, (notes, fruit), &mut row);
        page.record(home_cells(row));
    }
    let count = format!("{} fruit", page.records);
    pen.total(
        &mut page,
        vec!["Total".into(), Cell::Empty, Cell::Empty, Cell::Empty, Cell::Empty, count.into()],
    );
    Sheaf {
        path,
        about: "fruit at home in ounces and inches (`2 1/4`, `0.83`), the smallest in grams (`5.9 g` under a heading that says oz); title row, blank rows, headings again on each sheet, a total row, month first with two-digit years (decidable), `?`, `n/a`, slips of every kind",
        format: Format::Text { delimiter: ',', letters: Letters::Utf8, line_end: "\r\n" },
        pages: vec![page],
    }
}

fn home_cells(row: FruitRow) -> Vec<Cell> {
    let who = [row.day, row.plot, row.plant, row.variety, row.together];
    let size = [row.weight, row.length, row.width, row.neck];
    let inside = [row.locules, row.soluble_solids, row.dry_matter, row.lobes];
    let looks = [row.exterior, row.flesh, row.skin, row.cracking, row.catfacing];
    who.into_iter().chain(size).chain(inside).chain(looks).collect()
}

/// In Far Field: semicolons, decimal commas, centimetres in the cell, days with points, Windows-1252.
#[must_use]
pub fn far_field(house: &House, slips: &mut Slips) -> Sheaf {
    let path = format!("{SEASON_2024}/fruit-2024-far-field.csv");
    let mut pen = Pen::new(house, slips, &path);
    let mut page = Page::default();
    page.words(&FAR_HEADINGS);
    for (notes, fruit) in sittings(house, 2024, Garden::FarField) {
        let mut row = write_row(&mut pen, &page, &FAR_STYLE, notes, fruit);
        spoil(&mut pen, &page, &FAR_STYLE, (notes, fruit), &mut row);
        page.record(far_cells(row));
    }
    Sheaf {
        path,
        about: "fruit of Far Field; semicolons, decimal commas, units in the cells (`6,3 cm`, `1.024 g` for a kilogram and more), `25.07.2024`, Windows-1252 with a degree sign in a heading",
        format: Format::Text { delimiter: ';', letters: Letters::Windows1252, line_end: "\n" },
        pages: vec![page],
    }
}

fn far_cells(row: FruitRow) -> Vec<Cell> {
    let who = [Garden::FarField.name().into(), row.plot, row.plant, row.variety, row.day, row.together];
    let size = [row.weight, row.length, row.width, row.neck];
    let inside = [row.locules, row.soluble_solids, row.dry_matter, row.lobes];
    let looks = [row.exterior, row.cracking, row.catfacing];
    who.into_iter().chain(size).chain(inside).chain(looks).collect()
}

fn grams_with_comma(grams: f64) -> String {
    match grams {
        small if small < 1.0 => hand::comma(small, 2),
        middle if middle < 100.0 => hand::comma(middle, 1),
        _ => hand::thousands(grams, '.'),
    }
}
