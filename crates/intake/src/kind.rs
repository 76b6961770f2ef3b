//! The kinds of table that growers keep.

/// What a table is a table of.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Kind {
    /// Varieties with their other names and claims.
    Varieties,
    /// Plots and plants of a grow-out.
    GrowOut,
    /// Lots of seed.
    Lots,
    /// Fruit weighed, measured and cut.
    FruitSamples,
    /// Fruit picked on one day.
    Picks,
    /// Heights of plants.
    Heights,
    /// Things seen on a walk.
    Stages,
    /// Colours read.
    Colours,
    /// Replicates of seed weighed.
    SeedWeighings,
    /// Germination tests.
    GerminationTests,
}

impl Kind {
    /// Every kind, in the order in which a house comes to need them.
    pub const ALL: [Self; 10] = [
        Self::Varieties,
        Self::GrowOut,
        Self::Lots,
        Self::FruitSamples,
        Self::Picks,
        Self::Heights,
        Self::Stages,
        Self::Colours,
        Self::SeedWeighings,
        Self::GerminationTests,
    ];

    /// Its name for people, for files and for the command line: `fruit samples`.
    #[must_use]
    pub fn name(self) -> &'static str {
        match self {
            Self::Varieties => "varieties",
            Self::GrowOut => "grow-out",
            Self::FruitSamples => "fruit samples",
            Self::Picks => "picks",
            Self::Heights => "heights",
            Self::Stages => "stages",
            Self::Colours => "colours",
            Self::Lots => "lots",
            Self::SeedWeighings => "seed weighings",
            Self::GerminationTests => "germination tests",
        }
    }

    /// The kind of this name.
    #[must_use]
    pub fn named(name: &str) -> Option<Self> {
        Self::ALL.into_iter().find(|kind| kind.name() == name)
    }
}
