//! The measures that a fruit guide's borders stand on.

use crate::guide::quantity::Dimension;

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

/// Every measure, in order.
pub const MEASURES: [Measure; MEASURE_COUNT] = [
    Measure::Weight,
    Measure::Width,
    Measure::Length,
    Measure::Shape,
    Measure::Neck,
    Measure::Fullness,
    Measure::Locules,
    Measure::Lobes,
    Measure::DryMatter,
    Measure::SolubleSolids,
];

impl Measure {
    /// Its name in a guide.
    #[must_use]
    pub fn key(self) -> &'static str {
        match self {
            Self::Weight => "weight",
            Self::Width => "width",
            Self::Length => "length",
            Self::Shape => "shape",
            Self::Neck => "neck",
            Self::Fullness => "fullness",
            Self::Locules => "locules",
            Self::Lobes => "lobes",
            Self::DryMatter => "dry_matter",
            Self::SolubleSolids => "soluble_solids",
        }
    }

    /// Its name in a sentence.
    #[must_use]
    pub fn words(self) -> &'static str {
        match self {
            Self::Shape => "length over width",
            Self::Neck => "neck over width",
            Self::Fullness => "weight against size",
            Self::DryMatter => "dry matter",
            Self::SolubleSolids => "soluble solids",
            plain => plain.key(),
        }
    }

    /// The measure of a guide's key.
    #[must_use]
    pub fn from_key(key: &str) -> Option<Self> {
        MEASURES.into_iter().find(|measure| measure.key() == key)
    }

    /// What its values are written in.
    #[must_use]
    pub fn dimension(self) -> Dimension {
        match self {
            Self::Weight => Dimension::Mass,
            Self::Width | Self::Length => Dimension::Length,
            Self::DryMatter | Self::SolubleSolids => Dimension::Percent,
            Self::Shape | Self::Neck | Self::Fullness | Self::Locules | Self::Lobes => Dimension::Plain,
        }
    }

    /// The least and greatest value that a border may take, in the measure's own unit. No tomato lies
    /// outside; a border that does is a slip of the pen. Common practice, no source.
    #[must_use]
    pub fn reach(self) -> (f64, f64) {
        match self {
            Self::Weight => (0.05, 5000.0),
            Self::Width | Self::Length => (1.0, 500.0),
            Self::Shape => (0.2, 10.0),
            Self::Neck => (0.1, 1.0),
            Self::Fullness => (0.1, 2.0),
            Self::Locules => (1.0, 100.0),
            Self::Lobes => (1.0, 50.0),
            Self::DryMatter | Self::SolubleSolids => (0.5, 30.0),
        }
    }

    /// A value on the scale that borders and draws are compared on: its logarithm, of lobes plus one as a
    /// smooth fruit has none.
    #[must_use]
    pub fn log(self, value: f64) -> f64 {
        if self == Self::Lobes { value.ln_1p() } else { value.ln() }
    }

    /// Back from [`Measure::log`] to the measure's own unit.
    #[must_use]
    pub fn value(self, log: f64) -> f64 {
        if self == Self::Lobes { log.exp_m1() } else { log.exp() }
    }
}
