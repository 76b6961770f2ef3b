//! The colours: words from the walk sheet, and in 2026 a colour meter.
//!
//! Start at [`colours_2024`].

use crate::faults::Slips;
use crate::files::hand;
use crate::files::pen::{Meant, Pen};
use crate::files::{NOVEMBER_2026, SEASON_2024, SEASON_2025};
use crate::house::{House, PlotNotes};
use crate::hue::ColourNote;
use crate::paper::{Cell, Format, Letters, Page, Sheaf};
use crate::season::Garden;
use crate::tables;
use record::colour::{FruitPart, Lab, Pattern, Skin, TradeColour};

fn looks(house: &House, year: i16) -> Vec<(&PlotNotes, &ColourNote)> {
    let plots = [Garden::Home, Garden::FarField].into_iter().flat_map(|garden| house.plots_of(year, garden));
    let mut notes: Vec<_> =
        plots.flat_map(|notes| notes.colours.iter().map(move |note| (notes, note))).collect();
    notes.sort_by_key(|(notes, note)| {
        (note.day, notes.plot.grow_out.garden, notes.plot.label.clone(), note.plant, part(note.part))
    });
    notes
}

fn part(part: FruitPart) -> &'static str {
    match part {
        FruitPart::Exterior => "outside",
        FruitPart::Flesh => "flesh",
        FruitPart::Gel => "gel",
    }
}

fn pattern(pattern: Pattern) -> &'static str {
    if pattern == Pattern::Plain { "" } else { tables::pattern(pattern) }
}

/// The words of the keeper of 2024, who calls yellow gold and white cream.
fn fancy(colour: TradeColour) -> &'static str {
    match colour {
        TradeColour::Yellow => "gold",
        TradeColour::White => "cream",
        TradeColour::Bicolour => "bicolor",
        other => other.name(),
    }
}

fn word_row(
    pen: &mut Pen,
    page: &Page,
    day: Cell,
    notes: &PlotNotes,
    (note, word): (&ColourNote, &str),
) -> Vec<Cell> {
    vec![
        day,
        notes.plot.grow_out.garden.name().into(),
        notes.plot.label.as_str().into(),
        note.plant.into(),
        pen.name(page, "Variety", notes).into(),
        part(note.part).into(),
        word.into(),
        note.skin.map(Skin::name).into(),
        pattern(note.pattern).into(),
    ]
}

const WORD_HEADINGS: [&str; 9] =
    ["Date", "Garden", "Plot", "Plant", "Variety", "Part", "Color", "Skin", "Pattern"];

/// 2024: words, among them gold and cream.
#[must_use]
pub fn colours_2024(house: &House, slips: &mut Slips) -> Sheaf {
    let path = format!("{SEASON_2024}/colours-2024.csv");
    let mut pen = Pen::new(house, slips, &path);
    let mut page = Page::default();
    page.words(&WORD_HEADINGS);
    for (notes, note) in looks(house, 2024) {
        let day = hand::month_first(note.day).into();
        let word = word_2024(&mut pen, &page, note);
        let row = word_row(&mut pen, &page, day, notes, (note, word));
        page.record(row);
    }
    Sheaf {
        path,
        about: "colours in words, `gold` and `cream` among them; peeled skins for some",
        format: Format::Text { delimiter: ',', letters: Letters::Utf8, line_end: "\n" },
        pages: vec![page],
    }
}

/// Three black fruits were called purple, which means pink in old catalogues and black in new ones.
fn word_2024(pen: &mut Pen, page: &Page, note: &ColourNote) -> &'static str {
    if note.colour == TradeColour::Black && note.part == FruitPart::Exterior && pen.is_due("purple", 3) {
        pen.slip(page, "Color", "purple", Meant::quarantined("a word that means two things", "black"));
        return "purple";
    }
    fancy(note.colour)
}

/// 2025: words, in a workbook.
#[must_use]
pub fn colours_2025(house: &House, slips: &mut Slips) -> Sheaf {
    let path = format!("{SEASON_2025}/colours-2025.xlsx");
    let mut pen = Pen::new(house, slips, &path);
    let mut page = Page::named("Colours 2025");
    page.title("Colours of ripe fruit, 2025", WORD_HEADINGS.len());
    page.words(&WORD_HEADINGS);
    for (notes, note) in looks(house, 2025) {
        let row = word_row(&mut pen, &page, note.day.into(), notes, (note, note.colour.name()));
        page.record(row);
    }
    Sheaf {
        path,
        about: "colours in words; merged title, real dates",
        format: Format::Workbook,
        pages: vec![page],
    }
}

/// 2026: L*, a*, b* by a meter.
#[must_use]
pub fn colours_2026(house: &House, slips: &mut Slips) -> Sheaf {
    let path = format!("{NOVEMBER_2026}/colours-2026.csv");
    let mut pen = Pen::new(house, slips, &path);
    let mut page = Page::default();
    page.words(&["date", "garden", "plot", "plant", "variety", "part", "L*", "a*", "b*", "skin", "pattern"]);
    for (notes, note) in looks(house, 2026) {
        let row = meter_row(&mut pen, &page, notes, note);
        page.record(row);
    }
    Sheaf {
        path,
        about: "colours by a meter: L*, a*, b*",
        format: Format::Text { delimiter: ',', letters: Letters::Utf8, line_end: "\n" },
        pages: vec![page],
    }
}

fn meter_row(pen: &mut Pen, page: &Page, notes: &PlotNotes, note: &ColourNote) -> Vec<Cell> {
    let read = |value: fn(Lab) -> f64| Cell::from(note.lab.map(|lab| format!("{:.1}", value(lab))));
    vec![
        note.day.to_string().into(),
        notes.plot.grow_out.garden.name().into(),
        notes.plot.label.as_str().into(),
        note.plant.into(),
        pen.name(page, "variety", notes).into(),
        part(note.part).into(),
        read(Lab::lightness),
        read(Lab::a),
        read(Lab::b),
        note.skin.map(Skin::name).into(),
        pattern(note.pattern).into(),
    ]
}
