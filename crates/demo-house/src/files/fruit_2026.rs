//! Fruit of 2026: a file sent in August and again, grown longer, in November; and an ODS spreadsheet.
//!
//! Start at [`home`].

use crate::faults::Slips;
use crate::files::bench::{Style, StyleHeadings, sittings, spoil, write_row};
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

fn home_until(house: &House, slips: &mut Slips, folder: &str, about: &'static str, until: Date) -> Sheaf {
    // Both versions are drawn from one pen, so that the rows they share are the same.
    let name = "fruit-2026-home.csv";
    let path = format!("{folder}/{name}");
    let style = Style {
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
    let mut pen = Pen::new(house, slips, &path).as_for(name);
    let mut page = Page::default();
    page.words(&[
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
    ]);
    let sent = sittings(house, 2026, Garden::Home).into_iter().filter(|(_, fruit)| fruit.day <= until);
    for (notes, fruit) in sent {
        let mut row = write_row(&mut pen, &page, &style, notes, fruit);
        spoil(&mut pen, &page, &style, (notes, fruit), &mut row);
        page.record(vec![
            row.day,
            "Home Garden".into(),
            row.plot,
            row.plant,
            row.variety,
            row.together,
            row.weight,
            row.length,
            row.width,
            row.neck,
            row.locules,
            row.soluble_solids,
            row.dry_matter,
            row.lobes,
            row.exterior,
            row.flesh,
            row.skin,
            row.cracking,
            row.catfacing,
        ]);
    }
    let format = Format::Text { delimiter: ',', letters: Letters::Utf8Marked, line_end: "\r\n" };
    Sheaf { path, about, format, pages: vec![page] }
}

fn grams_or_ounces(weight: Grams) -> String {
    match weight.get() {
        small if small < 10.0 => format!("{small:.2}"),
        // One weighing in eight was on the ounce scale.
        large if 80.0 < large && (large * 10.0) as u64 % 8 == 0 => hand::pounds_and_ounces(weight),
        middle => format!("{middle:.1}"),
    }
}

/// Far Field: an ODS spreadsheet with a merged title, real dates, and a sheet that was never filled in.
#[must_use]
pub fn far_field(house: &House, slips: &mut Slips) -> Sheaf {
    let path = format!("{NOVEMBER_2026}/fruit-2026-far-field.ods");
    let style = Style {
        day: Cell::Day,
        weight: |weight| {
            if weight.get() < 10.0 { format!("{:.2}", weight.get()) } else { format!("{:.0}", weight.get()) }
        },
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
    let mut pen = Pen::new(house, slips, &path).with_curly_apostrophes();
    let mut page = Page::named("Far Field 2026");
    page.title("Fruit of Far Field, 2026", FAR_HEADINGS.len());
    page.words(&FAR_HEADINGS);
    for (notes, fruit) in sittings(house, 2026, Garden::FarField) {
        let mut row = write_row(&mut pen, &page, &style, notes, fruit);
        spoil(&mut pen, &page, &style, (notes, fruit), &mut row);
        page.record(vec![
            row.plot,
            row.variety,
            row.plant,
            row.day,
            row.together,
            row.weight,
            row.length,
            row.width,
            row.neck,
            row.locules,
            row.soluble_solids,
            row.dry_matter,
            row.exterior,
            row.cracking,
        ]);
    }
    let mut empty = Page::named("After the frost");
    empty.title("After the frost", FAR_HEADINGS.len());
    empty.words(&FAR_HEADINGS);
    Sheaf {
        path,
        about: "fruit of Far Field; merged title, real dates, curly apostrophes in names, a second sheet with headings and no rows",
        format: Format::OpenDocument,
        pages: vec![page, empty],
    }
}
