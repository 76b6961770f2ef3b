//! Stage notes: what was seen on a walk along the plots.

use crate::subject::Subject;
use jiff::civil::Date;

/// One thing seen on one plant or plot on a walk.
#[derive(Clone, Debug, PartialEq)]
pub struct StageNote {
    /// Variety, season, plot and plant.
    pub subject: Subject,
    /// The day, where known.
    pub noted_on: Option<Date>,
    /// What was seen.
    pub seen: StageSeen,
}

/// What was seen.
#[derive(Clone, Debug, PartialEq)]
pub enum StageSeen {
    /// The first open flower.
    FirstFlower,
    /// The first ripe fruit.
    FirstRipe,
    /// The main stem has ended in a truss; after how many, where counted.
    StemEnded {
        /// Trusses on the main stem, the last included.
        trusses: Option<u32>,
    },
    /// The main stem still grows after this many trusses (frost or the walk ended the watching).
    StemGrowing {
        /// Trusses counted so far.
        trusses: u32,
    },
    /// Mean number of leaves between one truss and the next.
    LeavesBetweenTrusses(LeafCount),
    /// Plants standing.
    PlantCount(u32),
    /// Plants that are not true to the variety.
    OffType {
        /// How many.
        plants: u32,
        /// What is wrong with them, in the walker's words.
        words: String,
    },
    /// Short, sturdy stem and dark crinkled leaves, as dwarf varieties have.
    DwarfLeaves,
}

/// A mean count of leaves, from 0 to 20.
#[derive(Clone, Copy, Debug, PartialEq, PartialOrd)]
pub struct LeafCount(f64);

/// More leaves than this between two trusses is a slip of the pen: three are usual.
/// Common practice, no source.
const MOST_LEAVES: f64 = 20.0;

impl LeafCount {
    /// Takes 0 to 20, both included.
    #[must_use]
    pub fn new(leaves: f64) -> Option<Self> {
        (0.0..=MOST_LEAVES).contains(&leaves).then_some(Self(leaves))
    }

    /// The mean number of leaves.
    #[must_use]
    pub fn get(self) -> f64 {
        self.0
    }
}
