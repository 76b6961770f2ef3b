//! The preserving guide: every printed cell with its source and status, read from text with faults that say where.
//!
//! Start at [`read`]. What a cell holds comes out through [`Cell::told`], which gives a number only if it was read in the
//! published guide or at the national centre.

mod check;
mod raw;

use crate::jars::Jar;
use crate::preserving::acid::QuarterTeaspoons;
use crate::preserving::altitude::Feet;
use crate::preserving::{Gauge, Product};
use identity::guide::reading::{GuideFault, Text};
use std::sync::Arc;

/// The shipped guide, as TOML text.
pub const SHIPPED: &str = include_str!("../../../../guides/preserving.toml");

/// A publication that cells are read from.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Source {
    /// Title, issuer and date, and through what it was read.
    pub title: String,
    /// Which of the editions that count it is, if any.
    pub edition: Edition,
}

/// Which edition a source is.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Edition {
    /// The 2015 revision of the published guide.
    Guide2015,
    /// The national centre's own pages.
    NationalCentre,
    /// Anything else: older editions, copies, memory.
    Other,
}

/// How a value came to be written down.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Status {
    /// Seen on the source's page.
    Read,
    /// From memory, unverified.
    FromMemory,
    /// Common practice, no source.
    CommonPractice,
}

/// Where a value comes from.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Cited {
    /// How it came to be written down.
    pub status: Status,
    /// From what.
    pub source: Arc<Source>,
}

impl Cited {
    /// Whether a process value so cited may be handed on.
    #[must_use]
    pub fn may_be_told(&self) -> bool {
        self.status == Status::Read && self.source.edition != Edition::Other
    }
}

/// A value of the table with its source, kept to itself unless it may be told.
#[derive(Clone, Debug, PartialEq)]
pub struct Cell<Of> {
    /// Highest altitude that it holds for; `None` where no upper end is printed.
    pub up_to: Option<Feet>,
    value: Of,
    /// Where it comes from.
    pub cited: Cited,
}

impl<Of> Cell<Of> {
    /// The value, if it may be handed on.
    #[must_use]
    pub fn told(&self) -> Option<&Of> {
        self.cited.may_be_told().then_some(&self.value)
    }

    /// The cell of an altitude, rounded up to the next band; `None` outside the printed ones.
    #[must_use]
    pub fn at(cells: &[Self], altitude: Feet) -> Option<&Self> {
        if altitude.get() < 0.0 {
            return None;
        }
        cells.iter().find(|cell| cell.up_to.is_none_or(|up_to| altitude <= up_to))
    }
}

/// Pounds on a gauge as printed. Ordered by what they ask of the canner: not recommended is beyond any.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Pounds {
    /// So many.
    Of(u32),
    /// Printed as not recommended.
    NotRecommended,
}

/// A row of boiling-water minutes.
#[derive(Clone, Debug, PartialEq)]
pub struct BoilingRow {
    /// The product.
    pub product: Product,
    /// The jar.
    pub jar: Jar,
    /// Minutes by altitude, from low to high.
    pub cells: Vec<Cell<u32>>,
}

/// A row of pressures: one printed time.
#[derive(Clone, Debug, PartialEq)]
pub struct PressureRow {
    /// The product.
    pub product: Product,
    /// The jar.
    pub jar: Jar,
    /// The gauge.
    pub gauge: Gauge,
    /// Minutes. Kept to this crate, as they may be told only with a cell that may.
    pub(crate) minutes: u32,
    /// Pounds by altitude, from low to high.
    pub cells: Vec<Cell<Pounds>>,
}

/// Where a product has its acid.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum AcidPlace {
    /// In every jar.
    PerJar,
    /// In the tested recipe.
    InTheRecipe,
}

/// What holds for a product in every canner.
#[derive(Clone, Debug, PartialEq)]
pub struct ProductRow {
    /// The product.
    pub product: Product,
    /// Where its acid goes.
    pub acid: AcidPlace,
    /// Room to leave at the top of the jar, in inches.
    pub headspace: Option<(f64, Cited)>,
}

/// An acid that will do.
#[derive(Clone, Debug, PartialEq)]
pub struct AcidRow {
    /// What it is.
    pub name: String,
    /// What to know of it.
    pub note: String,
    /// For a pint.
    pub pint: QuarterTeaspoons,
    /// For a quart.
    pub quart: QuarterTeaspoons,
    /// Where it was read.
    pub cited: Cited,
}

/// Something that has to be said beside every process.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Caution {
    /// A short name.
    pub name: String,
    /// What to say.
    pub words: String,
    /// Where it comes from.
    pub cited: Cited,
}

/// The whole guide, checked.
#[derive(Clone, Debug, PartialEq)]
pub struct PreservingGuide {
    /// Its title.
    pub title: String,
    /// Its version.
    pub version: String,
    /// Longest run of a steam canner, in minutes.
    pub steam: Cell<u32>,
    /// Acids that will do.
    pub acids: Vec<AcidRow>,
    /// What holds for each product.
    pub products: Vec<ProductRow>,
    /// Boiling-water minutes.
    pub boiling: Vec<BoilingRow>,
    /// Pressures.
    pub pressure: Vec<PressureRow>,
    /// Cautions, the gravest first.
    pub cautions: Vec<Caution>,
}

impl PreservingGuide {
    /// Where a product has its acid; in every jar where the guide says nothing.
    #[must_use]
    pub fn acid_place(&self, product: Product) -> AcidPlace {
        let row = self.products.iter().find(|row| row.product == product);
        row.map_or(AcidPlace::PerJar, |row| row.acid)
    }
}

/// Reads a preserving guide.
///
/// # Errors
/// [`GuideFault`] for what cannot be read, and for a table that no printed one can be: a quart that takes less than its
/// pint, a higher band that takes less than a lower one, a steam canner that runs too long.
pub fn read(file: &str, text: &str) -> Result<PreservingGuide, GuideFault> {
    raw::read(Text { file, text })
}
