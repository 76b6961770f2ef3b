//! Fruit of 2026: a file sent in August and again, grown longer, in November; and an ODS spreadsheet.
//!
//! Start at [`home`].

use crate::faults::Slips;
use crate::files::bench::{FruitRow, Style, StyleHeadings, sittings, spoil, write_row};
use crate::files::hand;
use crate::files::pen::Pen;
use crate::files::{AUGUST_2026, NOVEMBER_2026};
use crate::house::House;
use crate::paper::{Cell, Format, Letters, Page, Sheaf};
use crate::season::Garden;
use jiff::civil::{Date, date};
use record::mass::Grams;

/// The last day in the version that was sent in August.
const SENT_IN_AUGUST: Date = date(2026, 8, 21);
const FAR_HEADINGS: [&str; 14] = [
    "Plot",
    "Variety",
    "Plant",
    "Date",
    "n",
    "Weight, g",
    "Length, mm",
    "Width, mm",
    "Neck width, mm",
    "Locules",
    "Soluble solids %",
    "Dry matter %",
    "Colour",
    "Cracking",
];

/// The version of the home file that was sent in August.
#[must_use]
pub fn home_by_august(house: &House, slips: &mut Slips) -> Sheaf {
    let about = "fruit at home as far as it had come by August; UTF-8 with byte-order mark, ISO dates, grams with ounces where the other scale was used";
    home_until(house, slips, AUGUST_2026, about, SENT_IN_AUGUST)
}

/// The same file in November: the same rows and more.
#[must_use]
pub fn home(house: &House, slips: &mut Slips) -> Sheaf {
    let about = "a later version of the file of August, by the same name: the same rows and more; only the new ones count";
    home_until(house, slips, NOVEMBER_2026, about, date(2026, 12, 31))
}

const HOME_HEADINGS: [&str; 19] = [
    "date",
    "garden",
    "plot",
    "plant",
    "variety",
    "fruits",
    "weight (g)",
    "length (mm)",
    "width (mm)",
    "neck width (mm)",
    "locules",
    "soluble solids (%)",
    "dry matter (%)",
    "lobes",
    "colour",
    "flesh colour",
    "skin",
    "cracking",
    "catfacing",
];
const HOME_STYLE: Style = Style {
    day: |day| day.to_string().into(),
    weight: grams_or_ounces,
    length: |length| format!("{:.1}", length.get()),
    percent: |percent| format!("{percent:.1}"),
    headings: StyleHeadings {
        day: "date",
        plot: "plot",
        variety: "variety",
        weight: "weight (g)",
        length: "length (mm)",
        width: "width (mm)",
        locules: "locules",
    },
};

fn home_until(house: &House, slips: &mut Slips, folder: &str, about: &'static str, until: Date) -> Sheaf {
    let name = "fruit-2026-home.csv";
    let path = format!("{folder}/{name}");
    // Both versions are drawn from one pen, so that the rows they share are the same.
    let mut pen = Pen::new(house, slips, &path).as_for(name);
    let mut page = Page::default();
    page.words(&HOME_HEADINGS);
    let sent = sittings(house, 2026, Garden::Home).into_iter().filter(|(_, fruit)| fruit.day <= until);
    for (notes, fruit) in sent {
        let mut row = write_row(&mut pen, &page, &HOME_STYLE, notes, fruit);
        spoil(&mut pen, &page, &HOME_STYLE, (notes, fruit), &mut row);
        page.record(home_cells(row));
    }
    let format = Format::Text { delimiter: ',', letters: Letters::Utf8Marked, line_end: "\r\n" };
    Sheaf { path, about, format, pages: vec![page] }
}

fn home_cells(row: FruitRow) -> Vec<Cell> {
    let who = [row.day, Garden::Home.name().into(), row.plot, row.plant, row.variety, row.together];
    let size = [row.weight, row.length, row.width, row.neck];
    let inside = [row.locules, row.soluble_solids, row.dry_matter, row.lobes];
    let looks = [row.exterior, row.flesh, row.skin, row.cracking, row.catfacing];
    who.into_iter().chain(size).chain(inside).chain(looks).collect()
}

fn grams_or_ounces(weight: Grams) -> String {
    match weight.get() {
        small if small < 10.0 => format!("{small:.2}"),
        // One weighing in eight was on the ounce scale.
        large if 80.0 < large && ((large * 10.0) as u64).is_multiple_of(8) => hand::pounds_and_ounces(weight),
        middle => format!("{middle:.1}"),
    }
}

const FAR_STYLE: Style = Style {
    day: Cell::Day,
    weight: hand::kitchen_grams,
    length: |length| format!("{:.0}", length.get()),
    percent: |percent| format!("{percent:.1}"),
    headings: StyleHeadings {
        day: "Date",
        plot: "Plot",
        variety: "Variety",
        weight: "Weight, g",
        length: "Length, mm",
        width: "Width, mm",
        locules: "Locules",
    },
};

/// Far Field: an ODS spreadsheet with a merged title, real dates, and a sheet that was never filled in.
#[must_use]
pub fn far_field(house: &House, slips: &mut Slips) -> Sheaf {
    let path = format!("{NOVEMBER_2026}/fruit-2026-far-field.ods");
    let mut pen = Pen::new(house, slips, &path).with_curly_apostrophes();
    let mut page = far_page("Far Field 2026", "Fruit of Far Field, 2026");
    for (notes, fruit) in sittings(house, 2026, Garden::FarField) {
        let mut row = write_row(&mut pen, &page, &FAR_STYLE, notes, fruit);
        spoil(&mut pen, &page, &FAR_STYLE, (notes, fruit), &mut row);
        page.record(far_cells(row));
    }
    Sheaf {
        path,
        about: "fruit of Far Field; merged title, real dates, curly apostrophes in names, a second sheet with headings and no rows",
        format: Format::OpenDocument,
        pages: vec![page, far_page("After the frost", "After the frost")],
    }
}

fn far_page(name: &str, title: &str) -> Page {
    let mut page = Page::named(name);
    page.title(title, FAR_HEADINGS.len());
    page.words(&FAR_HEADINGS);
    page
}

fn far_cells(row: FruitRow) -> Vec<Cell> {
    let who = [row.plot, row.variety, row.plant, row.day, row.together];
    let size = [row.weight, row.length, row.width, row.neck];
    let inside = [row.locules, row.soluble_solids, row.dry_matter];
    who.into_iter().chain(size).chain(inside).chain([row.exterior, row.cracking]).collect()
}
