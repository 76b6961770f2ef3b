//! What a column can hold. Which headings mean which is told in `headings`.

use record::pick::CullCause;
use record::variety::ClaimSubject;

/// What one column holds.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum ColumnUse {
    /// Nothing that is kept: notes, weather, initials.
    Ignored,

    /// The variety's name.
    Variety,
    /// The grow-out's name.
    GrowOut,
    /// The year of harvest.
    Season,
    /// The garden.
    Garden,
    /// The plot's label.
    Plot,
    /// The plant's number within its plot.
    Plant,
    /// The day of the note.
    Day,

    /// Other names of the variety.
    Aliases,
    /// A claim about the variety.
    Claim(ClaimSubject),

    /// The strip of like ground.
    Block,
    /// Row of the bed map.
    BedRow,
    /// Place along the row.
    Position,
    /// The day plants went out.
    Transplanted,
    /// Plants set out, or standing.
    PlantCount,
    /// The day a plant was lost.
    Lost,

    /// Number of fruits: measured together, or picked.
    FruitCount,
    /// Weight of one fruit, or of the pick.
    Weight,
    /// Stem end to blossom end.
    Length,
    /// Greatest width.
    Width,
    /// Width a quarter down from the stem.
    NeckWidth,
    /// Seed chambers.
    Locules,
    /// Soluble solids.
    SolubleSolids,
    /// Dry matter.
    DryMatter,
    /// Lobes.
    Lobes,
    /// Cracks.
    Cracking,
    /// Catfacing.
    Catfacing,
    /// Colour outside, as a word.
    Exterior,
    /// Colour of the flesh, as a word.
    Flesh,
    /// Colour of the jelly round the seeds, as a word.
    Gel,
    /// The peeled skin.
    Skin,

    /// Culls of one cause, counted.
    CullCount(CullCause),
    /// Culls of one cause, weighed.
    CullWeight(CullCause),
    /// The cause of the row's culls, as a word.
    CullCause,
    /// Culls counted, of the cause beside them.
    Culls,
    /// Culls weighed, of the cause beside them.
    CullsWeighed,

    /// Height of a plant.
    Height,

    /// The first open flower: a day, or a mark against the row's day.
    FirstFlower,
    /// The first ripe fruit, likewise.
    FirstRipe,
    /// Whether the main stem ended in a truss: yes or no, or after how many.
    StemEnded,
    /// Trusses on the main stem.
    Trusses,
    /// Leaves between trusses.
    LeavesBetween,
    /// Plants that are not true.
    OffTypes,
    /// What is wrong with them.
    OffTypeWords,
    /// Dwarf leaves seen: yes or no.
    DwarfLeaves,
    /// The stage, as a word, seen on the row's day.
    Stage,
    /// A number that belongs to the stage in the column beside it.
    StageNumber,

    /// L*.
    Lightness,
    /// a*.
    GreenRed,
    /// b*.
    BlueYellow,
    /// Part of the fruit.
    Part,
    /// Colour, as a word.
    Colour,
    /// Pattern.
    Pattern,
}

/// What a column's numbers measure, where they need a unit.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Measure {
    /// A mass.
    Mass,
    /// A length.
    Length,
}

impl ColumnUse {
    /// Its name for people, for saved mappings and for the command line, such as `neck width` or
    /// `culls cracked`.
    #[must_use]
    pub fn name(self) -> &'static str {
        "ignored"
    }

    /// The use of this name.
    #[must_use]
    pub fn named(name: &str) -> Option<Self> {
        (name == "ignored").then_some(Self::Ignored)
    }

    /// What its numbers measure, where they need a unit.
    #[must_use]
    pub fn measure(self) -> Option<Measure> {
        match self {
            Self::Weight | Self::CullWeight(_) | Self::CullsWeighed => Some(Measure::Mass),
            Self::Length | Self::Width | Self::NeckWidth | Self::Height => Some(Measure::Length),
            _ => None,
        }
    }
}
