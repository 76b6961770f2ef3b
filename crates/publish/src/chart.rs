//! The type chart: every class and habit of the house's guides, to hang on a wall or to leaf through.
//!
//! Fill a [`Chart`] and hand it to [`chart`] with a [`Sheet`]: the two large sheets are a poster on one
//! side of paper, the two small ones a booklet. All fruit of one chart is printed to one scale, and all
//! plants to another. Words arrive worded; they are never read as markup.

mod copy;
mod room;

pub use crate::catalogue::Portrait;
use crate::typesetting::{self, Fonts, Job, Template, TypesettingFault};
use jiff::civil::Date;

/// The paper of a chart.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Sheet {
    /// A booklet on 210 mm by 297 mm.
    A4,
    /// A booklet on 8.5 in by 11 in.
    UsLetter,
    /// A poster on 420 mm by 297 mm.
    A3,
    /// A poster on 17 in by 11 in.
    Tabloid,
}

/// Everything that a chart shows.
#[derive(Clone, Debug)]
pub struct Chart {
    /// The house's name.
    pub house: String,
    /// The day it is printed. The same input and the same day give the same bytes.
    pub printed_on: Date,
    /// The guides that it is drawn from, with their versions.
    pub guides: Vec<String>,
    /// Fruit classes, from small to large.
    pub classes: Vec<ClassPanel>,
    /// Habits, from the smallest plant to the largest.
    pub habits: Vec<HabitPanel>,
    /// Shape marks that fruit of any class may carry.
    pub marks: Vec<MarkPanel>,
    /// The trade's colours.
    pub colours: Vec<NamedPicture>,
    /// The trade's patterns.
    pub patterns: Vec<NamedPicture>,
    /// Font files of the house's own, for words in writing that the shipped fonts lack.
    pub house_fonts: Vec<Vec<u8>>,
}

/// One fruit class.
#[derive(Clone, Debug)]
pub struct ClassPanel {
    /// Its name.
    pub name: String,
    /// The fruit in the middle of its bands; `None` where the guide allows no fruit.
    pub portrait: Option<Portrait>,
    /// What it is.
    pub what: String,
    /// What it is good for, in a sentence.
    pub good_for: String,
    /// How its flesh is.
    pub flesh: String,
    /// How it is mistaken for its neighbours, and the look that tells them apart.
    pub mistaken_for: String,
    /// What holds of all its fruit.
    pub limits: Vec<Limit>,
    /// The ways into it where there are several: one of them must hold.
    pub ways: Vec<String>,
    /// What it is good for, in single words.
    pub uses: Vec<String>,
}

/// A range of one measure.
#[derive(Clone, Debug)]
pub struct Limit {
    /// What is measured: `Weight`.
    pub about: String,
    /// The range, with both systems of units.
    pub words: String,
    /// The range as a bar, an SVG document without text.
    pub bar: String,
}

/// One habit.
#[derive(Clone, Debug)]
pub struct HabitPanel {
    /// Its name.
    pub name: String,
    /// The plant, to scale.
    pub plant: Option<Portrait>,
    /// What it is.
    pub what: String,
    /// What it is good for, in a sentence.
    pub good_for: String,
    /// How it is mistaken for its neighbours.
    pub mistaken_for: String,
    /// How it is told: what to look at, and what is then seen.
    pub tells: Vec<Tell>,
    /// What it is good for, in single words.
    pub uses: Vec<String>,
}

/// One thing to look at.
#[derive(Clone, Debug)]
pub struct Tell {
    /// What to look at.
    pub about: String,
    /// What is seen.
    pub words: String,
}

/// One shape mark.
#[derive(Clone, Debug)]
pub struct MarkPanel {
    /// Its name.
    pub name: String,
    /// A fruit that carries it.
    pub portrait: Option<Portrait>,
    /// What it is, and by which limit.
    pub words: String,
}

/// A picture with a word under it.
#[derive(Clone, Debug)]
pub struct NamedPicture {
    /// The word.
    pub name: String,
    /// The picture.
    pub portrait: Portrait,
}

/// Sets the chart and returns it as a tagged PDF.
///
/// The same `chart` and `sheet` give the same bytes on every machine.
///
/// # Errors
/// [`TypesettingFault::UnreadableFont`] where a house font is no font; every other variant is a fault in
/// this program and not in what was asked.
pub fn chart(chart: &Chart, sheet: Sheet) -> Result<Vec<u8>, TypesettingFault> {
    let fonts = Fonts::with(&chart.house_fonts)?;
    let copy = copy::copy(chart, sheet, &fonts);
    let data = serde_json::to_vec(&copy).map_err(TypesettingFault::Data)?;
    let identity = format!("locule type chart of {}", chart.house);
    typesetting::typeset(&Job { template: Template::Chart, data, identity }, &fonts)
}
