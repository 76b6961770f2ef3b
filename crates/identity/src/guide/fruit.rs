//! The fruit-class guide: borders, classes, shape marks, and how soft the borders are.
//!
//! Borders are named once and shared by the classes on either side, so that two classes can neither
//! overlap nor drift apart when one number is edited. Start at [`read`].

use crate::guide::reading::{GuideFault, Text};
use crate::guide::source::Sourced;
use crate::guide::uses::Uses;
use std::fmt;
use std::sync::Arc;

pub mod measure;

mod check;
mod overlap;
mod raw;

use measure::{MEASURE_COUNT, Measure};

/// The name of a fruit class or shape mark, as the guide writes it.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct ClassName(Arc<str>);

impl ClassName {
    /// Takes any name.
    #[must_use]
    pub fn new(name: &str) -> Self {
        Self(name.into())
    }

    /// The name.
    #[must_use]
    pub fn as_str(&self) -> &str {
        &self.0
    }
}

impl fmt::Display for ClassName {
    fn fmt(&self, to: &mut fmt::Formatter<'_>) -> fmt::Result {
        to.write_str(&self.0)
    }
}

/// One limit, shared by the classes on either side of it.
#[derive(Clone, Debug, PartialEq)]
pub struct Border {
    /// Its name in the guide.
    pub name: String,
    /// What it stands on.
    pub measure: Measure,
    /// The value, in the measure's unit (grams, millimetres, a ratio, a count or per cent).
    pub at: f64,
    /// The value as the guide writes it, with its unit.
    pub written: String,
    /// Where the value comes from.
    pub sourced: Sourced,
}

impl Border {
    /// Its place on the scale that draws are compared on.
    #[must_use]
    pub fn log(&self) -> f64 {
        self.measure.log(self.at)
    }
}

/// A range of one measure: from one border (included) to below another.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Band {
    /// What it is a range of.
    pub measure: Measure,
    /// Index of the lower border in [`FruitGuide::borders`]; none is open downwards.
    pub from: Option<usize>,
    /// Index of the upper border; none is open upwards.
    pub below: Option<usize>,
}

/// One way into a class: every band must hold.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Way {
    /// The bands, in order of their measures.
    pub bands: Vec<Band>,
}

/// What a page says of a class.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct ClassWords {
    /// What it is, in one sentence.
    pub what: String,
    /// What it is good for.
    pub good_for: String,
    /// How it is mistaken for its neighbours.
    pub mistaken_for: String,
    /// How juicy, gelly and seedy it is.
    pub flesh: String,
}

/// A class and the ways into it; any one way is enough.
#[derive(Clone, Debug, PartialEq)]
pub struct FruitClass {
    /// Its name.
    pub name: ClassName,
    /// The ways into it.
    pub ways: Vec<Way>,
    /// What a page says of it.
    pub words: ClassWords,
    /// What it is good for, in words that a search knows.
    pub uses: Uses,
    /// Where its rule comes from.
    pub sourced: Sourced,
}

/// A shape mark that fruit of any class may carry.
#[derive(Clone, Debug, PartialEq)]
pub struct ShapeMark {
    /// Its name.
    pub name: ClassName,
    /// The ways into it.
    pub ways: Vec<Way>,
    /// What it is, in one sentence.
    pub what: String,
    /// What it is good for, in words that a search knows.
    pub uses: Uses,
    /// Where its rule comes from.
    pub sourced: Sourced,
}

/// How soft the borders of one measure are.
#[derive(Clone, Debug, PartialEq)]
pub struct Softness {
    /// Standard deviation of a border's logarithm: 0.1 is about a tenth of its value.
    pub log_sd: f64,
    /// Where it comes from.
    pub sourced: Sourced,
}

/// The house's fruit-class guide.
#[derive(Clone, Debug, PartialEq)]
pub struct FruitGuide {
    /// Its title.
    pub title: String,
    /// Its version, as its owner writes it.
    pub version: String,
    /// All borders, in order of their names.
    pub borders: Vec<Border>,
    /// Classes, from small to large.
    pub classes: Vec<FruitClass>,
    /// Shape marks.
    pub marks: Vec<ShapeMark>,
    /// Softness of each measure's borders, in the order of `measure::MEASURES`; `None` is a hard border.
    pub softness: [Option<Softness>; MEASURE_COUNT],
}

/// The guide that a new house is given. It may be edited; see docs/guides.md.
pub const SHIPPED: &str = include_str!("../../../../guides/fruit.toml");

/// Reads a fruit-class guide from its text. `file` is the name that faults tell.
///
/// # Errors
/// [`GuideFault`] with file, line, key, value and remedy: for text that is not TOML, unknown keys, values
/// without or with the wrong unit, bands that are inverted or name no border, and classes that overlap.
pub fn read(file: &str, text: &str) -> Result<FruitGuide, GuideFault> {
    let text = Text { file, text };
    let raw = crate::guide::reading::parse(&text)?;
    check::checked(&text, &raw)
}

impl FruitGuide {
    /// The names of all classes, from small to large.
    pub fn class_names(&self) -> impl Iterator<Item = &ClassName> {
        self.classes.iter().map(|class| &class.name)
    }

    /// A class by its name.
    #[must_use]
    pub fn class(&self, name: &ClassName) -> Option<&FruitClass> {
        self.classes.iter().find(|class| class.name == *name)
    }

    /// A band's lower and upper border.
    #[must_use]
    pub fn borders_of(&self, band: &Band) -> (Option<&Border>, Option<&Border>) {
        let border = |index: Option<usize>| index.and_then(|index| self.borders.get(index));
        (border(band.from), border(band.below))
    }

    /// The standard deviation of a measure's borders on the logarithm; 0 where they are hard.
    #[must_use]
    pub fn softness_of(&self, measure: Measure) -> f64 {
        let softness = self.softness.get(measure as usize).and_then(Option::as_ref);
        softness.map_or(0.0, |softness| softness.log_sd)
    }
}
