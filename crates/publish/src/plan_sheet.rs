//! The plan sheet: a garden's plan on paper. What to plant and buy, when it goes out, kitchen days, weeks of harvest, and what
//! has to be said beside every jar.
//!
//! Fill [`PlanSheet`] and hand it to [`plan_sheet`]. Words and figures arrive worded; they are never read as markup.

mod copy;

pub use crate::catalogue::Paper;
use crate::typesetting::{self, Fonts, Job, Template, TypesettingFault};
use jiff::civil::Date;

/// Everything that a plan sheet says.
#[derive(Clone, Debug)]
pub struct PlanSheet {
    /// The house's name.
    pub house: String,
    /// What it is of, such as the garden's weather.
    pub of: String,
    /// The day it is printed.
    pub printed_on: Date,
    /// What was wished for, a line each.
    pub wishes: Vec<String>,
    /// What came of it, in sentences.
    pub came: Vec<String>,
    /// What is planted; none where there is no plan.
    pub lines: Vec<Line>,
    /// Where it stands; nothing where there is no plan.
    pub beds: Option<Beds>,
    /// Kitchen days, by what they are for.
    pub kitchen_days: Vec<(String, Vec<String>)>,
    /// Weeks of harvest.
    pub harvests: Vec<Harvest>,
    /// What each thing that is put up takes.
    pub put_up: Vec<PutUp>,
    /// What has to be said beside every jar.
    pub cautions: Vec<String>,
    /// Where a preserver has to look.
    pub defers: String,
    /// What was assumed.
    pub assumed: Vec<String>,
    /// Font files of the house's own.
    pub house_fonts: Vec<Vec<u8>>,
}

/// A variety that is planted.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Line {
    /// Its letter on the sketch of the beds.
    pub letter: String,
    /// Its name.
    pub variety: String,
    /// How many plants.
    pub plants: String,
    /// The day they go out.
    pub out: String,
    /// Class, habit and colour.
    pub is: String,
    /// What a plant brings.
    pub brings: String,
    /// Seed of it.
    pub seed: String,
}

/// The sketch of the beds.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Beds {
    /// The drawing, as an SVG document.
    pub drawn: String,
    /// The same in words.
    pub words: String,
    /// What is said beside it.
    pub beside: String,
}

/// Weeks of harvest of a class.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Harvest {
    /// The class.
    pub of: String,
    /// The drawing, as an SVG document.
    pub drawn: String,
    /// The same in words.
    pub words: String,
}

/// What one thing that is put up takes.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct PutUp {
    /// What it is.
    pub title: String,
    /// Its sums and its process, a line each.
    pub lines: Vec<String>,
    /// Acid for every jar, one of which will do; none where the recipe or the freezer has no need of it.
    pub acid: Vec<String>,
}

/// Sets the plan sheet and returns it as a tagged PDF.
///
/// The same `sheet` and `paper` give the same bytes on every machine.
///
/// # Errors
/// [`TypesettingFault::UnreadableFont`] where a house font is no font; every other variant is a fault in
/// this program and not in what was asked.
pub fn plan_sheet(sheet: &PlanSheet, paper: Paper) -> Result<Vec<u8>, TypesettingFault> {
    let fonts = Fonts::with(&sheet.house_fonts)?;
    let copy = copy::copy(sheet, paper, &fonts);
    let data = serde_json::to_vec(&copy).map_err(TypesettingFault::Data)?;
    let identity = format!("locule plan sheet of {} {}", sheet.of, sheet.printed_on);
    typesetting::typeset(&Job { template: Template::PlanSheet, data, identity }, &fonts)
}
