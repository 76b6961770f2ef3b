//! A lot: seed of one harvest of one variety with one history, and what is noted of it.

use crate::germination::GerminationTest;
use crate::growout::Plot;
use crate::id::Id;
use crate::length::Millimetres;
use crate::mass::Milligrams;
use crate::season::Season;
use crate::share::Percent;
use crate::stock::Movement;
use crate::temperature::Celsius;
use crate::variety::Variety;
use jiff::civil::Date;
use uuid::Uuid;

/// Seed of one harvest with one history, told by one number from the drying screen to the packet.
#[derive(Clone, Debug, PartialEq)]
pub struct Lot {
    /// Its identifier.
    pub id: Id<Lot>,
    /// The lot number that stands on its jar, such as `31-014`.
    pub number: String,
    /// The variety.
    pub variety: Id<Variety>,
    /// The season of its harvest.
    pub season: Season,
    /// Where it comes from and how it was made, as far as somebody said.
    pub origin: LotOrigin,
}

/// Stands for the lot itself in a movement that is written down for it.
pub const ITSELF: Id<Lot> = Id::from_uuid(Uuid::nil());

/// Where a lot comes from and how it was made.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct LotOrigin {
    /// The day its last seed was taken from fruit.
    pub harvested_on: Option<Date>,
    /// The plot it was grown in; `None` of seed that was bought.
    pub plot: Option<Id<Plot>>,
    /// The lot its parents were sown from.
    pub sown_from: Option<Id<Lot>>,
    /// Plants that its fruit was taken from.
    pub parents: Option<u32>,
    /// The distance to the nearest tomato of another variety that was kept.
    pub isolation: Option<Millimetres>,
    /// How its seed was taken out of the fruit.
    pub extraction: Option<String>,
    /// How it was dried.
    pub drying: Option<String>,
    /// What it was treated with, be it a substance or a process such as hot water.
    pub treatment: Option<String>,
}

/// One thing noted of a lot.
#[derive(Clone, Debug, PartialEq)]
pub enum LotNote {
    /// Where it comes from; the newest that stands counts, whole.
    Origin(LotOrigin),
    /// How it is kept from a day on.
    Keeping(LotKeeping),
    /// Seed moved from place to place.
    Movement(Movement),
    /// Replicates of its seed weighed.
    Weighing(SeedWeighing),
    /// Its moisture read.
    Moisture(MoistureReading),
    /// A germination test.
    Germination(GerminationTest),
    /// Plants grown from it, looked at one by one.
    Inspection(Inspection),
}

impl LotNote {
    /// The day that it tells of; `None` of where a lot comes from, which is so on every day.
    #[must_use]
    pub fn on(&self) -> Option<Date> {
        match self {
            Self::Origin(_) => None,
            Self::Keeping(keeping) => Some(keeping.since),
            Self::Movement(movement) => Some(movement.on),
            Self::Weighing(weighing) => Some(weighing.on),
            Self::Moisture(reading) => Some(reading.on),
            Self::Germination(test) => Some(test.counted_on),
            Self::Inspection(inspection) => Some(inspection.on),
        }
    }
}

/// How a lot is kept from a day on.
#[derive(Clone, Debug, PartialEq)]
pub struct LotKeeping {
    /// The first day.
    pub since: Date,
    /// The shelf, jar or room.
    pub location: Option<String>,
    /// How warm it is there.
    pub temperature: Option<Celsius>,
    /// In what it is kept.
    pub packing: Packing,
    /// Water vapour through the packet or jar, in grams a day and 100 square inches, as its maker tells.
    pub vapour_g: Option<f64>,
}

/// How seed is packed, as far as the age of its test goes.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Packing {
    /// Paper, or any packet that breathes.
    Open,
    /// Hermetically sealed.
    Hermetic,
}

/// Replicates of as many seeds each, weighed.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct SeedWeighing {
    /// The day.
    pub on: Date,
    /// Seeds of each replicate.
    pub seeds_each: u32,
    /// What each weighed.
    pub masses: Vec<Milligrams>,
}

/// Moisture of seed.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct MoistureReading {
    /// The day.
    pub on: Date,
    /// Water in per cent of fresh weight.
    pub moisture: Percent,
}

/// Plants grown from a lot, looked at one by one.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Inspection {
    /// The day.
    pub on: Date,
    /// Plants looked at.
    pub plants: u32,
    /// Plants that are something else, by kind.
    pub off_types: Vec<OffType>,
}

/// Off-types of one kind.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct OffType {
    /// What they are, such as `potato leaf`.
    pub kind: String,
    /// How many plants.
    pub plants: u32,
}
