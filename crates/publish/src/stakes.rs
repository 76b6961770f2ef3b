//! Stakes: a label a plot, or a plant, on sheets of weatherproof label stock.
//!
//! Fill [`Stakes`] with the sheet's geometry and hand it to [`stakes`]. Each label carries the plot's label as large as
//! it fits, the variety, where the plot lies, and a code that a phone reads: the plot's identifier as a URN.
//! Words arrive worded; they are never read as markup.

mod code;
mod copy;

pub use crate::catalogue::Paper;
use crate::typesetting::{self, Fonts, Job, Template, TypesettingFault};
pub use code::{code, code_of};
use jiff::civil::Date;
use record::length::Millimetres;
use uuid::Uuid;

/// A sheet of labels, all of one size, in columns and rows.
#[derive(Clone, Debug, PartialEq)]
pub struct LabelSheet {
    /// Its name, by size: `63.5 x 38.1 mm, 3 x 7`.
    pub name: String,
    /// The paper.
    pub paper: Paper,
    /// Width of a label.
    pub width: Millimetres,
    /// Height of a label.
    pub height: Millimetres,
    /// Labels side by side.
    pub columns: u32,
    /// Labels one below the other.
    pub rows: u32,
    /// From the paper's left edge to the first label.
    pub left: Millimetres,
    /// From its top edge to the first label.
    pub top: Millimetres,
    /// Between two labels side by side.
    pub gap_across: Millimetres,
    /// Between two labels one below the other.
    pub gap_down: Millimetres,
}

/// A hair by which labels may seem to reach beyond their paper, in millimetres: sizes are rounded where they are told.
const ROUNDING: f64 = 0.2;

impl LabelSheet {
    /// Whether its labels lie on its paper.
    #[must_use]
    pub fn fits(&self) -> bool {
        let reach = |start: Millimetres, size: Millimetres, gap: Millimetres, count: u32| {
            start.get() + f64::from(count) * size.get() + f64::from(count.saturating_sub(1)) * gap.get()
        };
        let (width, height) = page(self.paper);
        0 < self.columns * self.rows
            && reach(self.left, self.width, self.gap_across, self.columns) <= width + ROUNDING
            && reach(self.top, self.height, self.gap_down, self.rows) <= height + ROUNDING
    }

    /// Labels of one sheet.
    #[must_use]
    pub fn labels(&self) -> usize {
        self.columns as usize * self.rows as usize
    }
}

/// Width and height of a paper, in millimetres.
pub(crate) fn page(paper: Paper) -> (f64, f64) {
    const INCH: f64 = record::length::MILLIMETRES_PER_INCH;
    match paper {
        Paper::A4 => (210.0, 297.0),
        Paper::UsLetter => (8.5 * INCH, 11.0 * INCH),
    }
}

/// Everything that the stakes of a grow-out say.
#[derive(Clone, Debug)]
pub struct Stakes {
    /// The house's name.
    pub house: String,
    /// The grow-out's name.
    pub grow_out: String,
    /// The day they are printed. The same input and the same day give the same bytes.
    pub printed_on: Date,
    /// The stakes, in the order in which one walks past them.
    pub stakes: Vec<Stake>,
    /// Font files of the house's own.
    pub house_fonts: Vec<Vec<u8>>,
}

/// One stake.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Stake {
    /// The plot's label.
    pub label: String,
    /// The variety.
    pub variety: String,
    /// Where the plot lies: `replicate 2, block 4` and `row 3, position 7`.
    pub place: Vec<String>,
    /// The plant, on a stake of a plant: `plant 2 of 6`.
    pub plant: Option<String>,
    /// The plot's identifier, for the code.
    pub plot: Uuid,
}

/// Sets the stakes and returns them as a tagged PDF.
///
/// The same `stakes` and `sheet` give the same bytes on every machine.
///
/// # Errors
/// [`TypesettingFault::UnreadableFont`] where a house font is no font; every other variant is a fault in
/// this program and not in what was asked.
pub fn stakes(stakes: &Stakes, sheet: &LabelSheet) -> Result<Vec<u8>, TypesettingFault> {
    let fonts = Fonts::with(&stakes.house_fonts)?;
    let copy = copy::copy(stakes, sheet, &fonts);
    let data = serde_json::to_vec(&copy).map_err(TypesettingFault::Data)?;
    let identity = format!("locule stakes of {}", stakes.grow_out);
    typesetting::typeset(&Job { template: Template::Stakes, data, identity }, &fonts)
}
