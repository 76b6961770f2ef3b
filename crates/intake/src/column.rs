//! What a column can hold. Which headings mean which is told in `synonyms`.

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
    /// The replicate.
    Replicate,
    /// The name of the bed.
    Bed,
    /// What the plot is there for: check, guard or neither.
    Role,
    /// Where the plot begins along its bed.
    PlotStart,
    /// Where it ends.
    PlotEnd,
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
    /// Weight of several fruits together, beside their number.
    TotalWeight,
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

    /// The lot's number.
    Lot,
    /// Seed that came in.
    SeedMass,
    /// The day its last seed was taken from fruit.
    Harvested,
    /// The lot that its parents were sown from.
    SownFrom,
    /// Plants that its fruit was taken from.
    Parents,
    /// The distance to other varieties.
    Isolation,
    /// How its seed was taken out of the fruit.
    Extraction,
    /// How it was dried.
    Drying,
    /// What it was treated with.
    Treatment,
    /// The shelf, jar or room.
    Location,
    /// How warm it is there.
    Warmth,
    /// Water in per cent of fresh weight.
    Moisture,
    /// Seeds of each replicate.
    SeedsEach,
    /// What replicates weighed, one behind the other in one cell.
    ReplicateMasses,
    /// What one replicate weighed, counted from 1.
    ReplicateMass(u8),
    /// Normal seedlings of replicates, one behind the other in one cell.
    Normal,
    /// Normal seedlings of one replicate, counted from 1.
    NormalOf(u8),
    /// The day seeds were laid out.
    LaidOut,
    /// The day of the first count.
    FirstCounted,
    /// Abnormal seedlings of each replicate.
    Abnormal,
    /// Hard seeds of each.
    HardSeeds,
    /// Normal seedlings of each at the first count.
    FirstCount,
    /// Whether a laboratory made the test.
    Laboratory,

    /// A column that our own export of the quarantine added: reason, remedy or row.
    Quarantine,
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
    /// Every use, with its name for people, for saved mappings and for the command line.
    const NAMES: [(Self, &'static str); 117] = [
        (Self::Ignored, "ignored"),
        (Self::Variety, "variety"),
        (Self::GrowOut, "grow-out"),
        (Self::Season, "season"),
        (Self::Garden, "garden"),
        (Self::Plot, "plot"),
        (Self::Plant, "plant"),
        (Self::Day, "day"),
        (Self::Aliases, "aliases"),
        (Self::Claim(ClaimSubject::Habit), "claimed habit"),
        (Self::Claim(ClaimSubject::FruitClass), "claimed class"),
        (Self::Claim(ClaimSubject::Colour), "claimed colour"),
        (Self::Claim(ClaimSubject::FruitWeight), "claimed weight"),
        (Self::Claim(ClaimSubject::DaysToMaturity), "claimed days"),
        (Self::Claim(ClaimSubject::Purpose), "claimed purpose"),
        (Self::Claim(ClaimSubject::Other), "other claim"),
        (Self::Block, "block"),
        (Self::Replicate, "replicate"),
        (Self::Bed, "bed"),
        (Self::Role, "role"),
        (Self::PlotStart, "plot start"),
        (Self::PlotEnd, "plot end"),
        (Self::BedRow, "bed row"),
        (Self::Position, "position"),
        (Self::Transplanted, "transplanted"),
        (Self::PlantCount, "plant count"),
        (Self::Lost, "lost"),
        (Self::FruitCount, "fruit count"),
        (Self::Weight, "weight"),
        (Self::TotalWeight, "total weight"),
        (Self::Length, "length"),
        (Self::Width, "width"),
        (Self::NeckWidth, "neck width"),
        (Self::Locules, "locules"),
        (Self::SolubleSolids, "soluble solids"),
        (Self::DryMatter, "dry matter"),
        (Self::Lobes, "lobes"),
        (Self::Cracking, "cracking"),
        (Self::Catfacing, "catfacing"),
        (Self::Exterior, "exterior colour"),
        (Self::Flesh, "flesh colour"),
        (Self::Gel, "gel colour"),
        (Self::Skin, "skin"),
        (Self::CullCount(CullCause::Cracked), "culls cracked"),
        (Self::CullCount(CullCause::Catfaced), "culls catfaced"),
        (Self::CullCount(CullCause::BlossomEndRot), "culls blossom-end rot"),
        (Self::CullCount(CullCause::Rotten), "culls rotten"),
        (Self::CullCount(CullCause::Sunscald), "culls sunscald"),
        (Self::CullCount(CullCause::Eaten), "culls eaten"),
        (Self::CullCount(CullCause::Undersized), "culls undersized"),
        (Self::CullCount(CullCause::Other), "culls other"),
        (Self::CullWeight(CullCause::Cracked), "weight of culls cracked"),
        (Self::CullWeight(CullCause::Catfaced), "weight of culls catfaced"),
        (Self::CullWeight(CullCause::BlossomEndRot), "weight of culls blossom-end rot"),
        (Self::CullWeight(CullCause::Rotten), "weight of culls rotten"),
        (Self::CullWeight(CullCause::Sunscald), "weight of culls sunscald"),
        (Self::CullWeight(CullCause::Eaten), "weight of culls eaten"),
        (Self::CullWeight(CullCause::Undersized), "weight of culls undersized"),
        (Self::CullWeight(CullCause::Other), "weight of culls other"),
        (Self::CullCause, "cull cause"),
        (Self::Culls, "culls"),
        (Self::CullsWeighed, "weight of culls"),
        (Self::Height, "height"),
        (Self::FirstFlower, "first flower"),
        (Self::FirstRipe, "first ripe"),
        (Self::StemEnded, "stem ended"),
        (Self::Trusses, "trusses"),
        (Self::LeavesBetween, "leaves between trusses"),
        (Self::OffTypes, "off-types"),
        (Self::OffTypeWords, "off-type words"),
        (Self::DwarfLeaves, "dwarf leaves"),
        (Self::Stage, "stage"),
        (Self::StageNumber, "stage number"),
        (Self::Lightness, "L*"),
        (Self::GreenRed, "a*"),
        (Self::BlueYellow, "b*"),
        (Self::Part, "part"),
        (Self::Colour, "colour"),
        (Self::Pattern, "pattern"),
        (Self::Lot, "lot"),
        (Self::SeedMass, "seed that came in"),
        (Self::Harvested, "harvested"),
        (Self::SownFrom, "sown from"),
        (Self::Parents, "parent plants"),
        (Self::Isolation, "isolation"),
        (Self::Extraction, "extraction"),
        (Self::Drying, "drying"),
        (Self::Treatment, "treatment"),
        (Self::Location, "location"),
        (Self::Warmth, "warmth"),
        (Self::Moisture, "moisture"),
        (Self::SeedsEach, "seeds each"),
        (Self::ReplicateMasses, "weights of replicates"),
        (Self::ReplicateMass(1), "weight of replicate 1"),
        (Self::ReplicateMass(2), "weight of replicate 2"),
        (Self::ReplicateMass(3), "weight of replicate 3"),
        (Self::ReplicateMass(4), "weight of replicate 4"),
        (Self::ReplicateMass(5), "weight of replicate 5"),
        (Self::ReplicateMass(6), "weight of replicate 6"),
        (Self::ReplicateMass(7), "weight of replicate 7"),
        (Self::ReplicateMass(8), "weight of replicate 8"),
        (Self::Normal, "normal seedlings"),
        (Self::NormalOf(1), "normal seedlings of replicate 1"),
        (Self::NormalOf(2), "normal seedlings of replicate 2"),
        (Self::NormalOf(3), "normal seedlings of replicate 3"),
        (Self::NormalOf(4), "normal seedlings of replicate 4"),
        (Self::NormalOf(5), "normal seedlings of replicate 5"),
        (Self::NormalOf(6), "normal seedlings of replicate 6"),
        (Self::NormalOf(7), "normal seedlings of replicate 7"),
        (Self::NormalOf(8), "normal seedlings of replicate 8"),
        (Self::LaidOut, "laid out"),
        (Self::FirstCounted, "first counted"),
        (Self::Abnormal, "abnormal"),
        (Self::HardSeeds, "hard seeds"),
        (Self::FirstCount, "first count"),
        (Self::Laboratory, "laboratory"),
        (Self::Quarantine, "quarantine"),
    ];

    /// Its name, such as `neck width` or `culls cracked`.
    #[must_use]
    pub fn name(self) -> &'static str {
        Self::NAMES.iter().find(|(reads, _)| *reads == self).map_or("ignored", |(_, name)| name)
    }

    /// The use of this name.
    #[must_use]
    pub fn named(name: &str) -> Option<Self> {
        Self::NAMES.iter().find(|(_, known)| *known == name).map(|(reads, _)| *reads)
    }

    /// Every use and its name, for lists to choose from.
    pub fn all() -> impl Iterator<Item = (Self, &'static str)> {
        Self::NAMES.into_iter()
    }

    /// What its numbers measure, where they need a unit.
    #[must_use]
    pub fn measure(self) -> Option<Measure> {
        match self {
            Self::Weight
            | Self::TotalWeight
            | Self::CullWeight(_)
            | Self::CullsWeighed
            | Self::SeedMass
            | Self::ReplicateMass(_) => Some(Measure::Mass),
            Self::Length
            | Self::Width
            | Self::NeckWidth
            | Self::Height
            | Self::PlotStart
            | Self::PlotEnd
            | Self::Isolation => Some(Measure::Length),
            _ => None,
        }
    }

    /// Whether its cells are dates; a stage column may hold dates or marks.
    pub(crate) fn holds_days(self) -> bool {
        matches!(
            self,
            Self::Day
                | Self::Transplanted
                | Self::Lost
                | Self::FirstFlower
                | Self::FirstRipe
                | Self::Harvested
                | Self::LaidOut
                | Self::FirstCounted
        )
    }

    /// Whether its cells are numbers, with or without a unit.
    pub(crate) fn holds_numbers(self) -> bool {
        let other_numbers = [
            Self::FruitCount,
            Self::PlantCount,
            Self::SolubleSolids,
            Self::DryMatter,
            Self::LeavesBetween,
            Self::StageNumber,
            Self::Lightness,
            Self::GreenRed,
            Self::BlueYellow,
            Self::Culls,
        ];
        self.measure().is_some() || matches!(self, Self::CullCount(_)) || other_numbers.contains(&self)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_use_is_found_by_its_name() {
        for (reads, name) in ColumnUse::all() {
            assert_eq!((ColumnUse::named(name), reads.name()), (Some(reads), name));
        }
    }
}
