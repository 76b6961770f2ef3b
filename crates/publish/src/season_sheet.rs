//! The season sheet: a garden's year on paper for the shed wall. When frost comes, what to do when, and what a few varieties
//! would bring week by week.
//!
//! Fill [`SeasonSheet`] and hand it to [`season_sheet`]. Words and figures arrive worded; they are never read as markup.

mod copy;

pub use crate::catalogue::Paper;
use crate::typesetting::{self, Fonts, Job, Template, TypesettingFault};
use jiff::civil::Date;

/// Everything that a season sheet says.
#[derive(Clone, Debug)]
pub struct SeasonSheet {
    /// The house's name.
    pub house: String,
    /// The garden's or the station's.
    pub garden: String,
    /// The year of planting.
    pub year: i16,
    /// The day it is printed.
    pub printed_on: Date,
    /// Whose weather it goes by, in a sentence.
    pub weather: String,
    /// What to do or expect, in order.
    pub days: Vec<Day>,
    /// Why plants go out on their day, in sentences.
    pub why: String,
    /// Frosts by temperature.
    pub frosts: Vec<FrostRows>,
    /// How days of frost were worked out, in a sentence.
    pub estimated: String,
    /// The harvest to expect, where the house's plots tell one.
    pub harvest: Option<Harvest>,
    /// Font files of the house's own.
    pub house_fonts: Vec<Vec<u8>>,
}

/// A day of the calendar.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Day {
    /// The day, such as `Mon 12 April`.
    pub on: String,
    /// What is done or expected.
    pub what: String,
}

/// Frosts of one temperature.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct FrostRows {
    /// The temperature and the years behind it.
    pub so_cold: String,
    /// What a row tells, then its three chances.
    pub rows: Vec<(String, [String; 3])>,
}

/// The harvest to expect.
#[derive(Clone, Debug, PartialEq)]
pub struct Harvest {
    /// What it rests on, in sentences.
    pub told: String,
    /// The line of months above the ribbons, as an SVG document.
    pub months: String,
    /// The varieties, the earliest first.
    pub varieties: Vec<Expected>,
}

/// What to expect of one variety.
#[derive(Clone, Debug, PartialEq)]
pub struct Expected {
    /// Its name.
    pub name: String,
    /// Its ribbon as an SVG document, and the same in words.
    pub ribbon: (String, String),
    /// First and last pick of a middling season.
    pub picks: [String; 2],
    /// A plant's season: poor, middling, good.
    pub season: [String; 3],
    /// Its weeks.
    pub weeks: Vec<Week>,
}

/// One week of a plant's harvest.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Week {
    /// The day it begins.
    pub of: String,
    /// Poor, middling, good.
    pub brings: [String; 3],
}

/// Sets the season sheet and returns it as a tagged PDF.
///
/// The same `sheet` and `paper` give the same bytes on every machine.
///
/// # Errors
/// [`TypesettingFault::UnreadableFont`] where a house font is no font; every other variant is a fault in
/// this program and not in what was asked.
pub fn season_sheet(sheet: &SeasonSheet, paper: Paper) -> Result<Vec<u8>, TypesettingFault> {
    let fonts = Fonts::with(&sheet.house_fonts)?;
    let copy = copy::copy(sheet, paper, &fonts);
    let data = serde_json::to_vec(&copy).map_err(TypesettingFault::Data)?;
    let identity = format!("locule season sheet of {} {}", sheet.garden, sheet.year);
    typesetting::typeset(&Job { template: Template::SeasonSheet, data, identity }, &fonts)
}
