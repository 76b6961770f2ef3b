//! The label law of a packet: what a jurisdiction asks for, and what a packet's label leaves out or tells too late.
//!
//! What is asked for is data: [`guide`] reads it from a guide file, each item with its citation and whether its text was seen.
//! [`check`] puts a packet to it, and [`made`] makes the statements of a label out of what is known. Nothing here clears a packet for sale: a jurisdiction's own office decides.

pub mod check;
pub mod guide;
pub mod made;

use crate::dates::Month;
use record::lot::Packing;
use record::mass::Grams;
use record::share::WholePercent;

/// Something that a label may have to show.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Item {
    /// Who ships it, and where.
    NameAndAddress,
    /// The kind: tomato.
    Kind,
    /// The variety.
    Variety,
    /// That it is a hybrid.
    Hybrid,
    /// The lot number.
    LotNumber,
    /// The net weight.
    NetWeight,
    /// The number of seeds.
    SeedCount,
    /// Germination in per cent.
    Germination,
    /// Hard seed in per cent.
    HardSeed,
    /// Month and year of the test.
    TestMonth,
    /// The year that it was packed for.
    PackedFor,
    /// The year of closing.
    YearOfClosing,
    /// The words that say that it is below the standard.
    BelowStandard,
    /// The words that say what it was treated with.
    Treatment,
    /// The words that say that it is hermetically sealed and pre-conditioned as to moisture.
    Sealed,
    /// The words that say by which rules it was made, such as `EU rules`.
    Rules,
    /// The words that say its category, such as `standard seed`.
    Category,
}

/// Every item, with the name that a guide gives it.
pub const ITEMS: [(Item, &str); 17] = [
    (Item::NameAndAddress, "name-and-address"),
    (Item::Kind, "kind"),
    (Item::Variety, "variety"),
    (Item::Hybrid, "hybrid"),
    (Item::LotNumber, "lot-number"),
    (Item::NetWeight, "net-weight"),
    (Item::SeedCount, "seed-count"),
    (Item::Germination, "germination"),
    (Item::HardSeed, "hard-seed"),
    (Item::TestMonth, "test-month"),
    (Item::PackedFor, "packed-for"),
    (Item::YearOfClosing, "year-of-closing"),
    (Item::BelowStandard, "below-standard"),
    (Item::Treatment, "treatment"),
    (Item::Sealed, "sealed"),
    (Item::Rules, "rules"),
    (Item::Category, "category"),
];

impl Item {
    /// The name that a guide gives it.
    #[must_use]
    pub fn name(self) -> &'static str {
        ITEMS.iter().find(|(item, _)| *item == self).map_or("", |(_, name)| name)
    }

    /// The item of a name.
    #[must_use]
    pub fn named(name: &str) -> Option<Self> {
        ITEMS.iter().find(|(_, known)| *known == name).map(|(item, _)| *item)
    }
}

/// One thing that a label shows.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Printed {
    /// What.
    pub says: Says,
    /// The size of its type in points.
    pub points: u8,
}

/// What a label says, with its value where the value is checked.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Says {
    /// Germination.
    Germination(WholePercent),
    /// Hard seed.
    HardSeed(WholePercent),
    /// The month of the test.
    TestMonth(Month),
    /// The year that it was packed for.
    PackedFor(i16),
    /// Any other item, whose words are not checked here.
    Other(Item),
}

impl Says {
    /// The item that it is.
    #[must_use]
    pub fn item(self) -> Item {
        match self {
            Self::Germination(_) => Item::Germination,
            Self::HardSeed(_) => Item::HardSeed,
            Self::TestMonth(_) => Item::TestMonth,
            Self::PackedFor(_) => Item::PackedFor,
            Self::Other(item) => item,
        }
    }
}

/// The last test of the seed in a packet.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Tested {
    /// Its month.
    pub month: Month,
    /// Germination.
    pub germination: WholePercent,
    /// Hard seed.
    pub hard: WholePercent,
    /// Both together, rounded once: what is put to the standard.
    pub towards_standard: WholePercent,
}

/// Something about seed that a label must tell.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Trait {
    /// Its last test is below the standard. Never given: worked out from the test.
    BelowStandard,
    /// Treated, be it with a substance or by a process such as hot water.
    Treated,
    /// Hermetically sealed, and sold on the longer age of its test.
    Sealed,
    /// A hybrid.
    Hybrid,
    /// Fixed to a tape, mat or other carrier.
    InCarrier,
    /// Germination is told on it. Never given: worked out from the label.
    GerminationTold,
}

/// Every trait, with the name that a guide gives it.
pub const TRAITS: [(Trait, &str); 6] = [
    (Trait::BelowStandard, "below-standard"),
    (Trait::Treated, "treated"),
    (Trait::Sealed, "sealed"),
    (Trait::Hybrid, "hybrid"),
    (Trait::InCarrier, "in-carrier"),
    (Trait::GerminationTold, "germination-told"),
];

/// A packet: its seed, and its label.
#[derive(Clone, Debug, PartialEq)]
pub struct Packet {
    /// The seed in it.
    pub holds: Grams,
    /// The last test of its lot; `None` where it was never tested.
    pub tested: Option<Tested>,
    /// What is true of its seed.
    pub traits: Vec<Trait>,
    /// What its label shows.
    pub label: Vec<Printed>,
}

impl Packet {
    /// How it is packed, as far as the age of its test goes.
    #[must_use]
    pub fn packing(&self) -> Packing {
        if self.traits.contains(&Trait::Sealed) { Packing::Hermetic } else { Packing::Open }
    }
}
