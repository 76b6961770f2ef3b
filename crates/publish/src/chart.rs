//! The type chart: every class and habit of the house's guides, to hang on a wall or to leaf through.
//!
//! Fill a [`Chart`] and hand it to [`chart`] with a [`Sheet`]: the two large sheets are a poster on one
//! side of paper, the two small ones a booklet. All fruit of one chart is printed to one scale, and all
//! plants to another. Words arrive worded; they are never read as markup.

mod copy;
mod described;
mod drawn;
mod room;

pub use described::{ClassType, HabitType, Limit, MarkType, Tell, Types};

use crate::typesetting::{self, Fonts, Job, Template, TypesettingFault};
use jiff::civil::Date;
use record::language::Units;

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
    /// What it is drawn from.
    pub types: Types,
    /// The house's units, for the words of the portraits.
    pub units: Units,
    /// Font files of the house's own, for words in writing that the shipped fonts lack.
    pub house_fonts: Vec<Vec<u8>>,
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
