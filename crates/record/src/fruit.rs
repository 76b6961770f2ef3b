//! Fruit samples: what the scale, the callipers, the knife and the refractometer said.

use crate::colour::{Skin, TradeColour};
use crate::length::Millimetres;
use crate::mass::Grams;
use crate::share::Percent;
use crate::subject::Subject;
use jiff::civil::Date;
use std::num::NonZeroU32;

/// One fruit, or a few weighed together and written as their mean.
#[derive(Clone, Debug, PartialEq)]
pub struct FruitSample {
    /// Variety, season, plot and plant.
    pub subject: Subject,
    /// The day it was taken.
    pub sampled_on: Option<Date>,
    /// How many fruits the figures are the mean of; 1 for a single fruit.
    pub fruit_count: NonZeroU32,
    /// Weight of one fruit.
    pub weight: Option<Grams>,
    /// Stem end to blossom end.
    pub length: Option<Millimetres>,
    /// Greatest width across.
    pub width: Option<Millimetres>,
    /// Width a quarter of the way down from the stem.
    pub neck_width: Option<Millimetres>,
    /// Seed chambers seen in the cut face.
    pub locules: Option<u32>,
    /// Soluble solids (degrees Brix).
    pub soluble_solids: Option<Percent>,
    /// Dry matter, by mass.
    pub dry_matter: Option<Percent>,
    /// Lobes seen from the stem end; 0 is smooth.
    pub lobes: Option<u32>,
    /// Cracks.
    pub cracking: Option<Severity>,
    /// Corky scars at the blossom end.
    pub catfacing: Option<Severity>,
    /// Colour outside.
    pub exterior: Option<TradeColour>,
    /// Colour of the flesh.
    pub flesh: Option<TradeColour>,
    /// Colour of the peeled skin.
    pub skin: Option<Skin>,
}

/// How bad a blemish is, by eye.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Severity {
    /// None seen.
    Absent,
    /// Would still sell at full price.
    Slight,
    /// Would sell as seconds.
    Moderate,
    /// Would not sell.
    Severe,
}

impl Severity {
    /// The word a walk sheet has for it.
    #[must_use]
    pub fn name(self) -> &'static str {
        match self {
            Self::Absent => "none",
            Self::Slight => "slight",
            Self::Moderate => "moderate",
            Self::Severe => "severe",
        }
    }
}
