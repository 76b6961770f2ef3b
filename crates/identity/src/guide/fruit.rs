//! The fruit-class guide: borders, classes, shape marks, and how soft the borders are.
//!
//! Borders are named once and shared by the classes on either side, so that two classes can neither
//! overlap nor drift apart when one number is edited. Start at [`read`].

use crate::guide::reading::GuideFault;
use crate::guide::source::Sourced;
use std::fmt;
use std::sync::Arc;

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

/// A measure that a border can stand on. Borders and their softness live on its logarithm.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Measure {
    /// Weight of a fruit, in grams.
    Weight,
    /// Greatest width, in millimetres.
    Width,
    /// Stem end to blossom end, in millimetres.
    Length,
    /// Length over width.
    Shape,
    /// Width a quarter down from the stem over greatest width.
    Neck,
    /// Weight over the weight of a solid fruit of the same length and width.
    Fullness,
    /// Number of locules.
    Locules,
    /// Lobes seen from the stem end.
    Lobes,
    /// Dry matter, in per cent by mass.
    DryMatter,
    /// Soluble solids, in per cent by mass.
    SolubleSolids,
}

/// How many [`Measure`]s there are.
pub const MEASURE_COUNT: usize = 10;

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
    /// The bands.
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
    /// All borders.
    pub borders: Vec<Border>,
    /// Classes, from small to large.
    pub classes: Vec<FruitClass>,
    /// Shape marks.
    pub marks: Vec<ShapeMark>,
    /// Softness of each measure's borders, by `Measure as usize`; `None` is a hard border.
    pub softness: [Option<Softness>; MEASURE_COUNT],
}

/// The guide that a new house is given. It may be edited; see docs/guides.md.
pub const SHIPPED: &str = include_str!("../../../../guides/fruit.toml");

/// Reads a fruit-class guide from its text.
///
/// # Errors
/// [`GuideFault`] with file, line, key, value and remedy.
pub fn read(file: &str, text: &str) -> Result<FruitGuide, GuideFault> {
    let _ = text;
    Err(GuideFault {
        file: file.to_owned(),
        line: 1,
        key: String::new(),
        value: String::new(),
        fault: "not yet read".to_owned(),
        help: String::new(),
    })
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
}
