//! The picks: what came in from each plot on each picking day, and what was culled.
//!
//! Start at [`picks_2024`].

use crate::faults::Slips;
use crate::files::hand;
use crate::files::pen::{Meant, Pen};
use crate::files::{NOVEMBER_2026, SEASON_2024, SEASON_2025};
use crate::house::{House, PlotNotes};
use crate::paper::{Cell, Format, Letters, Page, Sheaf};
use crate::ripening::TruePick;
use crate::season::Garden;
use jiff::civil::Date;
use record::mass::{Grams, OUNCES_PER_POUND};
use record::pick::{Cull, CullCause};

const HEADINGS_2024: [&str; 9] =
    ["Date", "Garden", "Plot", "Variety", "Fruit count", "Weight", "Culls", "Cull reason", "Cull weight"];

fn baskets(house: &House, year: i16) -> Vec<(&PlotNotes, &TruePick)> {
    let plots = [Garden::Home, Garden::FarField].into_iter().flat_map(|garden| house.plots_of(year, garden));
    let mut picks: Vec<_> =
        plots.flat_map(|notes| notes.picks.iter().map(move |pick| (notes, pick))).collect();
    picks.sort_by_key(|(notes, pick)| (pick.day, notes.plot.grow_out.garden, notes.plot.label.clone()));
    picks
}

/// 2024: pounds and ounces at home, grams with thousands in Far Field, in one column; a total after
/// each month.
#[must_use]
pub fn picks_2024(house: &House, slips: &mut Slips) -> Sheaf {
    let path = format!("{SEASON_2024}/picks-2024.csv");
    let mut pen = Pen::new(house, slips, &path);
    let mut page = Page::default();
    page.words(&HEADINGS_2024);
    let mut month = (0, 0.0);
    for (notes, pick) in baskets(house, 2024) {
        if pick.day.month() != month.0 {
            if month.0 != 0 {
                month_total(&mut pen, &mut page, month);
            }
            month = (pick.day.month(), 0.0);
        }
        month.1 += pick.weight.get();
        let row = row_2024(&mut pen, &page, notes, pick);
        page.record(row);
    }
    month_total(&mut pen, &mut page, month);
    Sheaf {
        path,
        about: "picks of both gardens; `4 lb 6 oz` and `1,250 g` in one column, thousands marked by commas, culls with their cause in words, a total row and a blank row after each month, month first with four-digit years",
        format: Format::Text { delimiter: ',', letters: Letters::Utf8, line_end: "\n" },
        pages: vec![page],
    }
}

/// Months as a total row names them.
const MONTHS: [(i8, &str); 5] = [(6, "June"), (7, "July"), (8, "August"), (9, "September"), (10, "October")];

fn month_total(pen: &mut Pen, page: &mut Page, (month, grams): (i8, f64)) {
    let name = MONTHS.iter().find(|(number, _)| *number == month).map_or("month", |(_, name)| *name);
    let weight = format!("{} g", hand::thousands(grams, ','));
    let words = format!("Total {name}");
    pen.total(page, vec![words.into(), Cell::Empty, Cell::Empty, Cell::Empty, Cell::Empty, weight.into()]);
    page.blank();
}

fn row_2024(pen: &mut Pen, page: &Page, notes: &PlotNotes, pick: &TruePick) -> Vec<Cell> {
    let garden = notes.plot.grow_out.garden;
    let weigh = |weight: Grams| match garden {
        Garden::Home => hand::pounds_and_ounces(weight),
        Garden::FarField => format!("{} g", hand::thousands(weight.get(), ',')),
    };
    let name = pen.name(page, "Variety", notes);
    let day = day_2024(pen, page, notes, pick);
    let cull = pick.culls.first();
    vec![
        day.into(),
        garden.name().into(),
        notes.plot.label.as_str().into(),
        name.into(),
        pick.fruit_count.into(),
        weigh(pick.weight).into(),
        cull.and_then(|cull| cull.fruit_count).into(),
        cull.map(|cull| cause(cull.cause)).into(),
        cull.and_then(|cull| cull.weight).map(weigh).into(),
    ]
}

/// Two picks were dated before their plants went out: the keeper wrote 4 for 7.
fn day_2024(pen: &mut Pen, page: &Page, notes: &PlotNotes, pick: &TruePick) -> String {
    let right = pick.day.strftime("%-m/%-d/%Y").to_string();
    let july = pick.day.month() == 7 && notes.plot.grow_out.garden == Garden::Home;
    if !july || notes.plot.is_mislabelled() || !pen.is_due("pick before transplanting", 2) {
        return right;
    }
    let wrong = format!("4/{}/{}", pick.day.day(), pick.day.year());
    pen.slip(page, "Date", &wrong, Meant::doubted("before transplanting", &right));
    wrong
}

fn cause(cause: CullCause) -> &'static str {
    match cause {
        CullCause::Cracked => "cracked",
        CullCause::Catfaced => "catfaced",
        CullCause::BlossomEndRot => "blossom end rot",
        CullCause::Rotten => "rotten",
        CullCause::Sunscald => "sunscald",
        CullCause::Eaten => "eaten",
        CullCause::Undersized => "undersized",
        CullCause::Other => "other",
    }
}

/// 2025: semicolons, kilograms with decimal commas, a column for each cause of culls, day first.
#[must_use]
pub fn picks_2025(house: &House, slips: &mut Slips) -> Sheaf {
    let path = format!("{SEASON_2025}/picks-2025.csv");
    let mut pen = Pen::new(house, slips, &path);
    let mut page = Page::default();
    page.words(&[
        "Date picked",
        "Garden",
        "Plot",
        "Variety",
        "Fruits",
        "Weight (kg)",
        "Cracked",
        "Catfaced",
        "Blossom end rot",
        "Rotten",
        "Sunscald",
        "Eaten",
    ]);
    for (notes, pick) in baskets(house, 2025) {
        let row = row_2025(&mut pen, &page, notes, pick);
        page.record(row);
    }
    Sheaf {
        path,
        about: "picks of both gardens; semicolons, kilograms with decimal commas (`1,85`), a column for each cause of culls, day first (decidable), one year typed 2052 for 2025",
        format: Format::Text { delimiter: ';', letters: Letters::Utf8, line_end: "\r\n" },
        pages: vec![page],
    }
}

const CAUSES_2025: [CullCause; 6] = [
    CullCause::Cracked,
    CullCause::Catfaced,
    CullCause::BlossomEndRot,
    CullCause::Rotten,
    CullCause::Sunscald,
    CullCause::Eaten,
];

fn row_2025(pen: &mut Pen, page: &Page, notes: &PlotNotes, pick: &TruePick) -> Vec<Cell> {
    let name = pen.name(page, "Variety", notes);
    let day = day_2025(pen, page, pick.day);
    let plot = &notes.plot;
    let before = vec![
        day.into(),
        plot.grow_out.garden.name().into(),
        plot.label.as_str().into(),
        name.into(),
        pen.measure(pick.fruit_count, |count| count.to_string()).into(),
        hand::comma(pick.weight.get() / 1000.0, 2 + usize::from(pick.weight.get() < 100.0)).into(),
    ];
    let culled = |cause: &CullCause| Cell::from(count_of(&pick.culls, *cause));
    [before, CAUSES_2025.iter().map(culled).collect()].concat()
}

fn count_of(culls: &[Cull], cause: CullCause) -> Option<u32> {
    culls.iter().find(|cull| cull.cause == cause).and_then(|cull| cull.fruit_count)
}

fn day_2025(pen: &mut Pen, page: &Page, day: Date) -> String {
    let right = hand::day_first(day);
    if day.month() < 9 || !pen.is_due("wrong year", 1) {
        return right;
    }
    let wrong = right.replace("2025", "2052");
    pen.slip(page, "Date picked", &wrong, Meant::quarantined("a year that is no season", &right));
    wrong
}

/// The picks of 2025 once more: the same bytes, sent again in November 2026 by mistake.
#[must_use]
pub fn picks_2025_again(sheaves: &[Sheaf]) -> Option<Sheaf> {
    let first = sheaves.iter().find(|sheaf| sheaf.path == format!("{SEASON_2025}/picks-2025.csv"))?;
    Some(Sheaf {
        path: format!("{NOVEMBER_2026}/picks-2025.csv"),
        about: "the picks of 2025 sent a second time, the same bytes; they must add nothing",
        ..first.clone()
    })
}

/// 2026: tabs, pounds as decimals with the unit in the heading, `14 Jul 2026`.
#[must_use]
pub fn picks_2026(house: &House, slips: &mut Slips) -> Sheaf {
    let path = format!("{NOVEMBER_2026}/picks-2026.tsv");
    let mut pen = Pen::new(house, slips, &path);
    let mut page = Page::default();
    page.words(&["Picked", "Garden", "Plot", "Variety", "No. of fruits", "Weight (lb)", "Culls", "Cause"]);
    for (notes, pick) in baskets(house, 2026) {
        let name = pen.name(&page, "Variety", notes);
        let cull = pick.culls.first();
        let pounds = pick.weight.to_ounces() / OUNCES_PER_POUND;
        page.record(vec![
            day_2026(&mut pen, &page, pick.day).into(),
            notes.plot.grow_out.garden.name().into(),
            notes.plot.label.as_str().into(),
            name.into(),
            pen.measure(pick.fruit_count, |count| count.to_string()).into(),
            format!("{pounds:.2}").into(),
            cull.and_then(|cull| cull.fruit_count).into(),
            cull.map(|cull| cause(cull.cause)).into(),
        ]);
    }
    Sheaf {
        path,
        about: "picks of both gardens; tabs, decimal pounds, `14 Jul 2026`, culls with their cause in words, one pick dated after the file came in",
        format: Format::Text { delimiter: '\t', letters: Letters::Utf8, line_end: "\n" },
        pages: vec![page],
    }
}

/// One pick of September was dated into December, after the day on which the file came in.
fn day_2026(pen: &mut Pen, page: &Page, day: Date) -> String {
    let right = hand::spelt(day);
    if day.month() != 9 || !pen.is_due("in the future", 1) {
        return right;
    }
    let wrong = right.replace("Sep", "Dec");
    pen.slip(page, "Picked", &wrong, Meant::doubted("in the future", &right));
    wrong
}
