//! An unknown tomato: what somebody measured or saw of its fruits and of the plants that bore them.
//!
//! Unlike a [`crate::fruit::FruitSample`] it names no variety: that is what is being asked. Everything may
//! be missing. Start at [`FruitSeen`].

use crate::colour::{ColourSeen, Pattern, Skin, TradeColour};
use crate::growout::PlantNumber;
use crate::length::Millimetres;
use crate::mass::Grams;
use crate::share::Percent;
use crate::stage::LeafCount;

/// What was measured or seen of one fruit.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct FruitSeen {
    /// The plant it was taken from, where several bore the fruits. Fruits that name none are of one plant.
    pub plant: Option<PlantNumber>,
    /// Weight.
    pub weight: Option<Grams>,
    /// Stem end to blossom end.
    pub length: Option<Millimetres>,
    /// Greatest width across.
    pub width: Option<Millimetres>,
    /// Width a quarter of the way down from the stem.
    pub neck_width: Option<Millimetres>,
    /// Seed chambers seen in the cut face.
    pub locules: Option<u32>,
    /// Lobes seen from the stem end; 0 is smooth.
    pub lobes: Option<u32>,
    /// Soluble solids (degrees Brix).
    pub soluble_solids: Option<Percent>,
    /// Dry matter, by mass.
    pub dry_matter: Option<Percent>,
    /// Colour outside, as a word or measured.
    pub exterior: Option<ColourSeen>,
    /// Colour of the flesh.
    pub flesh: Option<TradeColour>,
    /// Colour of the peeled skin.
    pub skin: Option<Skin>,
    /// How the colour is laid out.
    pub pattern: Option<Pattern>,
}

/// What was seen of one plant that bore the fruit.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct PlantSeen {
    /// What its main stem does.
    pub stem: Option<StemSeen>,
    /// Mean number of leaves between one truss and the next.
    pub leaves_between: Option<LeafCount>,
    /// Soil to growing tip.
    pub height: Option<Millimetres>,
    /// Whether it still grows taller.
    pub growth: Option<GrowthSeen>,
    /// How long its fruit takes to ripen.
    pub ripening: Option<RipeningSeen>,
    /// What its leaves look like.
    pub leaves: Option<LeavesSeen>,
}

/// What a main stem does.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum StemSeen {
    /// It has ended in a truss; after how many, where counted, that one included.
    Ended(Option<u32>),
    /// It still grows after so many trusses.
    Growing(u32),
}

/// Whether a plant still grows taller.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum GrowthSeen {
    /// Its height has levelled off.
    LevelsOff,
    /// It keeps on growing.
    KeepsGrowing,
}

/// Days from the first tenth of a plant's fruit to nine tenths.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum RipeningSeen {
    /// All ripened within so many days.
    Within(u16),
    /// It was still in bearing after so many days.
    LongerThan(u16),
}

/// What a plant's leaves look like.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum LeavesSeen {
    /// Dark and crinkled on a short, sturdy stem, as a dwarf's are.
    Dwarf,
    /// As those of most tomatoes.
    Ordinary,
}

impl FruitSeen {
    /// Whether nothing at all was said of it.
    #[must_use]
    pub fn is_blank(&self) -> bool {
        let unnamed = Self { plant: None, ..self.clone() };
        unnamed == Self::default()
    }
}

impl PlantSeen {
    /// Whether nothing at all was said of it.
    #[must_use]
    pub fn is_blank(&self) -> bool {
        *self == Self::default()
    }
}
