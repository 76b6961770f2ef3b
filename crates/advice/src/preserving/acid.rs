//! Acid for every jar, whatever the variety, its colour or a reading of its pH: none of these is asked for.
//!
//! Start at [`acid`].

use crate::jars::Jar;
use crate::preserving::Product;
use crate::preserving::guide::{AcidPlace, Cited, PreservingGuide};

/// An amount by the spoon, in quarter teaspoons: spoons are printed, and are not turned into grams.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub struct QuarterTeaspoons(u32);

/// Quarter teaspoons in a tablespoon, 3 teaspoons. Source: NIST Handbook 44, Appendix C.
const QUARTERS_PER_TABLESPOON: u32 = 12;
const QUARTERS_PER_TEASPOON: u32 = 4;

impl QuarterTeaspoons {
    /// Reads what guides print: `2 Tbsp`, `1 tsp`, `1/4 tsp`.
    #[must_use]
    pub fn read(words: &str) -> Option<Self> {
        let (number, unit) = words.trim().split_once(' ')?;
        let quarters = match unit.trim() {
            "Tbsp" => QUARTERS_PER_TABLESPOON,
            "tsp" => QUARTERS_PER_TEASPOON,
            _ => return None,
        };
        let (above, below) = number.split_once('/').unwrap_or((number, "1"));
        let (above, below): (u32, u32) = (above.parse().ok()?, below.parse().ok()?);
        let whole = above.checked_mul(quarters)?;
        (0 < whole && below != 0 && whole.is_multiple_of(below)).then(|| Self(whole / below))
    }

    /// So many times as much; as much as can be counted where that is more.
    #[must_use]
    pub fn times(self, jars: u32) -> Self {
        Self(self.0.saturating_mul(jars))
    }

    /// In teaspoons.
    #[must_use]
    pub fn teaspoons(self) -> f64 {
        f64::from(self.0) / f64::from(QUARTERS_PER_TEASPOON)
    }

    /// In tablespoons.
    #[must_use]
    pub fn tablespoons(self) -> f64 {
        f64::from(self.0) / f64::from(QUARTERS_PER_TABLESPOON)
    }
}

/// One acid that will do.
#[derive(Clone, Debug, PartialEq)]
pub struct Dose<'guide> {
    /// What it is.
    pub name: &'guide str,
    /// What to know of it; may be empty.
    pub note: &'guide str,
    /// For one jar.
    pub each: QuarterTeaspoons,
    /// For all of them.
    pub all: QuarterTeaspoons,
    /// Where the figure was read.
    pub cited: &'guide Cited,
}

/// Acid for a product.
#[derive(Clone, Debug, PartialEq)]
pub enum Acid<'guide> {
    /// One of these goes into every jar.
    PerJar(Vec<Dose<'guide>>),
    /// The tested recipe holds it, and must not be changed.
    InTheRecipe,
}

/// Acid for so many jars of a product, pressure canning included.
///
/// # Shape
/// One dose an acid that will do, in the guide's order; never empty.
#[must_use]
pub fn acid(guide: &PreservingGuide, product: Product, jar: Jar, jars: u32) -> Acid<'_> {
    let dose = |acid: &'_ crate::preserving::guide::AcidRow| {
        let each = match jar {
            Jar::Pint => acid.pint,
            Jar::Quart => acid.quart,
        };
        (each, each.times(jars))
    };
    match guide.acid_place(product) {
        AcidPlace::InTheRecipe => Acid::InTheRecipe,
        AcidPlace::PerJar => Acid::PerJar(
            guide
                .acids
                .iter()
                .map(|acid| {
                    let (each, all) = dose(acid);
                    Dose { name: &acid.name, note: &acid.note, each, all, cited: &acid.cited }
                })
                .collect(),
        ),
    }
}
