//! The copy: what the catalogue's template is given to set, every word of it ready to print.

use crate::catalogue::entry::{self, EntryCopy};
use crate::catalogue::index::{self, Letter};
use crate::catalogue::scale::{self, PrintedScale, Room};
use crate::catalogue::{Catalogue, Entry, Evidence, Paper, Portrait, Section, Together};
use crate::typesetting::Fonts;
use jiff::civil::Date;
use record::language::counted;
use serde::Serialize;

/// Room for the portrait of an entry, in printed millimetres: under half of the page's width, and no
/// taller than the words beside it.
const ENTRY_ROOM: Room = Room { width: 72.0, height: 54.0 };
/// Least room for the portraits of a class, in printed millimetres: their column must hold a few words.
const LEAST_ENTRY_WIDTH: f64 = 30.0;
/// Varieties a class has, on average, from which each class begins a page of its own.
const FILLS_A_PAGE: usize = 4;
/// What the ruler in the foot of a page measures of a fruit: two inches, in millimetres, and its words.
const RULER: (f64, &str) = (50.8, "51 mm (2 in)");
/// Room for the shelves on the cover, in printed millimetres; both papers have it.
const COVER_ROOM: Room = Room { width: 166.0, height: 118.0 };
/// Shelves on the cover.
const COVER_SHELVES: usize = 3;
/// Space between portraits on a cover shelf, in millimetres.
const COVER_GAP: f64 = 6.0;
/// Portraits on the cover: one a class, as long as there are no more than these.
const COVER_PORTRAITS: usize = 15;

/// The whole book.
#[derive(Serialize)]
pub(super) struct Copy {
    families: Vec<String>,
    paper: &'static str,
    house: String,
    house_briefly: String,
    day: Day,
    printed: String,
    seasons: Option<String>,
    count: String,
    guides: Vec<String>,
    scale: String,
    cover: Cover,
    ruler: Option<Ruler>,
    classes_begin_pages: bool,
    sections: Vec<SectionCopy>,
    index: Vec<Letter>,
}

/// The day, for the document's own record.
#[derive(Serialize)]
struct Day {
    year: i16,
    month: i8,
    day: i8,
}

/// Shelves of portraits on the cover.
#[derive(Serialize)]
struct Cover {
    scale: String,
    gap: f64,
    shelves: Vec<Vec<Picture>>,
}

/// A length of fruit as it is printed, in millimetres, and what it measures.
#[derive(Serialize)]
struct Ruler {
    length: f64,
    words: &'static str,
}

/// One class.
#[derive(Serialize)]
struct SectionCopy {
    heading: String,
    about: Option<String>,
    count: String,
    portrait_width: f64,
    entries: Vec<EntryCopy>,
}

/// A picture at its printed size, in millimetres.
#[derive(Serialize)]
pub(super) struct Picture {
    svg: String,
    width: f64,
    height: f64,
}

impl Copy {
    /// What the document is: the same catalogue printed again keeps its identifier.
    pub(super) fn identity(&self) -> String {
        format!("locule catalogue of {}", self.house)
    }
}

/// Words a catalogue for its template.
pub(super) fn copy(catalogue: &Catalogue, paper: Paper, fonts: &Fonts) -> Copy {
    let scale = scale::for_entries(catalogue, ENTRY_ROOM);
    let house = fonts.legible(&catalogue.house);
    Copy {
        families: fonts.families().into_iter().map(str::to_owned).collect(),
        paper: paper.typst_name(),
        house_briefly: index::shortened(&house),
        house,
        day: day(catalogue.printed_on),
        printed: format!("Printed {}", catalogue.printed_on.strftime("%-d %B %Y")),
        seasons: seasons(catalogue),
        count: extent(catalogue),
        guides: catalogue.guides.iter().map(|guide| fonts.legible(guide)).collect(),
        scale: scale.words.to_owned(),
        cover: cover(catalogue),
        ruler: any_portrait(catalogue).then_some(Ruler { length: RULER.0 * scale.factor, words: RULER.1 }),
        classes_begin_pages: classes_begin_pages(catalogue),
        sections: sections(catalogue, scale, fonts),
        index: index::index(&catalogue.sections, fonts),
    }
}

/// A portrait at the book's scale, or as large as there is room where that is smaller.
pub(super) fn picture(portrait: &Portrait, scale: PrintedScale, room: Room) -> Picture {
    let (width, height) = (portrait.life_width.get(), portrait.life_height.get());
    let factor = [room.width / width, room.height / height].into_iter().fold(scale.factor, f64::min);
    Picture { svg: portrait.svg.clone(), width: width * factor, height: height * factor }
}

fn day(date: Date) -> Day {
    Day { year: date.year(), month: date.month(), day: date.day() }
}

fn seasons(catalogue: &Catalogue) -> Option<String> {
    let (first, last) = catalogue.seasons?;
    Some(if first == last {
        format!("Grown and measured in {first}")
    } else {
        format!("Grown and measured {first} to {last}")
    })
}

fn extent(catalogue: &Catalogue) -> String {
    let varieties: usize = catalogue.sections.iter().map(|section| section.entries.len()).sum();
    let classes = catalogue.sections.iter().filter(|section| section.of == Together::Class);
    let classes = classes.filter(|section| !section.entries.is_empty()).count();
    format!("{} in {}", counted_varieties(varieties), counted(whole(classes), "class", "classes"))
}

fn counted_varieties(count: usize) -> String {
    counted(whole(count), "variety", "varieties")
}

fn whole(count: usize) -> u64 {
    u64::try_from(count).unwrap_or(u64::MAX)
}

fn cover(catalogue: &Catalogue) -> Cover {
    let faces = catalogue.sections.iter().filter_map(face);
    let portraits: Vec<&Portrait> = faces.take(COVER_PORTRAITS).collect();
    let scale = scale::for_shelves(&portraits, COVER_SHELVES, COVER_GAP, COVER_ROOM);
    let shelves = scale::pack(&portraits, scale.factor, COVER_GAP, COVER_ROOM.width);
    let pictures = |shelf: Vec<&Portrait>| {
        shelf.into_iter().map(|portrait| picture(portrait, scale, COVER_ROOM)).collect()
    };
    Cover {
        scale: scale.words.to_owned(),
        gap: COVER_GAP,
        shelves: shelves.into_iter().take(COVER_SHELVES).map(pictures).collect(),
    }
}

/// The portrait that stands for a class: of its entries that are uncontested and have a cut face to show,
/// the one with the most fruit behind it.
fn face(section: &Section) -> Option<&Portrait> {
    let drawn = section.entries.iter().filter(|entry| entry.portrait.is_some());
    let worth = |entry: &&Entry| {
        (!entry.fruit_class.contested, entry.facts.locules.is_some(), entry.evidence.fruit_count)
    };
    drawn.max_by_key(worth).and_then(|entry| entry.portrait.as_ref())
}

fn any_portrait(catalogue: &Catalogue) -> bool {
    catalogue.sections.iter().flat_map(|section| &section.entries).any(|entry| entry.portrait.is_some())
}

fn sections(catalogue: &Catalogue, scale: PrintedScale, fonts: &Fonts) -> Vec<SectionCopy> {
    let mut number = 0;
    let mut told = |section: &Section| SectionCopy {
        heading: index::shortened(&fonts.legible(&section.heading)),
        about: section.about.as_deref().map(|about| fonts.legible(about)),
        count: counted_varieties(section.entries.len()),
        portrait_width: if classes_begin_pages(catalogue) {
            widest(std::slice::from_ref(section), scale)
        } else {
            widest(&catalogue.sections, scale)
        },
        entries: section
            .entries
            .iter()
            .map(|entry| numbered(entry, &mut number, catalogue, scale, fonts))
            .collect(),
    };
    catalogue.sections.iter().filter(|section| !section.entries.is_empty()).map(&mut told).collect()
}

fn numbered(
    entry: &Entry,
    number: &mut usize,
    catalogue: &Catalogue,
    scale: PrintedScale,
    fonts: &Fonts,
) -> EntryCopy {
    let picture = entry.portrait.as_ref().map(|portrait| picture(portrait, scale, ENTRY_ROOM));
    let told = entry::told(entry, *number, picture, catalogue.units, fonts);
    *number += 1;
    told
}

/// In a short book the classes follow each other on one page, and their columns line up.
fn classes_begin_pages(catalogue: &Catalogue) -> bool {
    let filled = catalogue.sections.iter().filter(|section| !section.entries.is_empty());
    let (classes, entries) =
        filled.fold((0, 0), |(classes, entries), section| (classes + 1, entries + section.entries.len()));
    FILLS_A_PAGE * classes <= entries
}

/// The column that classes need for their portraits, in printed millimetres.
fn widest(sections: &[Section], scale: PrintedScale) -> f64 {
    let entries = sections.iter().flat_map(|section| &section.entries);
    let portraits = entries.filter_map(|entry| entry.portrait.as_ref());
    let widths = portraits.map(|portrait| portrait.life_width.get() * scale.factor);
    widths.fold(LEAST_ENTRY_WIDTH, f64::max).min(ENTRY_ROOM.width)
}

/// Words how much was looked at.
pub(crate) fn evidence(counts: &Evidence) -> String {
    if *counts == Evidence::default() {
        return "Not yet grown out.".to_owned();
    }
    let seasons = counted(counts.season_count, "season", "seasons");
    let (fruits, plants) =
        (counted(counts.fruit_count, "fruit", "fruits"), counted(counts.plant_count, "plant", "plants"));
    format!("Rests on {fruits} and {plants} over {seasons}.")
}
