//! What the scale, the callipers and the knife said of one variety, summed up plant by plant.
//!
//! A house may hold a million fruits; a call needs only how many there were of each plant, their mean and
//! their spread, trait by trait. Sums are whole numbers inside, so that the order in which fruits arrive
//! or parts are merged cannot change a single digit of a call. Start at [`FruitSums::take`].

use record::fruit::FruitSample;
use record::growout::{PlantNumber, Plot};
use record::id::Id;
use record::season::Season;
use statistics::variety_means::PlantSums;

/// A trait of a fruit that calls rest on, each summed as its natural logarithm unless said otherwise.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Trait {
    /// Weight, in grams, of fruits that were weighed.
    Weight,
    /// Weight, in grams, worked out from length and width of fruits that were not weighed.
    SizedWeight,
    /// Length over width.
    Shape,
    /// Length over width, worked out from weight and one of the two.
    ImpliedShape,
    /// Width a quarter down from the stem over greatest width.
    Neck,
    /// Weight over that of a solid fruit of the same length and width.
    Fullness,
    /// Length, in millimetres.
    Length,
    /// Greatest width, in millimetres.
    Width,
    /// Locules.
    Locules,
    /// Lobes, plus one.
    Lobes,
    /// Soluble solids, in per cent.
    SolubleSolids,
    /// Dry matter, in per cent.
    DryMatter,
}

/// Where a fruit was taken: season, plot and plant, as far as noted.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct PlantKey {
    /// The season.
    pub season: Season,
    /// The plot, where noted.
    pub plot: Option<Id<Plot>>,
    /// The plant, where noted.
    pub plant: Option<PlantNumber>,
}

/// How many fruits a blemish was looked for on, and how many bore it badly enough to sell as seconds.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Blemish {
    /// Fruits looked at.
    pub seen: u32,
    /// Fruits with a moderate or severe blemish.
    pub spoilt: u32,
}

/// A variety's fruits, summed up plant by plant.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct FruitSums {}

impl FruitSums {
    /// Adds one sample. Its variety is not looked at: that is the caller's sorting.
    pub fn take(&mut self, sample: &FruitSample) {
        let _ = sample;
    }

    /// Adds the sums of other fruits of the same variety.
    pub fn merge(&mut self, other: &Self) {
        let _ = other;
    }

    /// How many fruits were taken in.
    #[must_use]
    pub fn fruit_count(&self) -> u64 {
        0
    }

    /// The typical value (geometric mean) of a trait over all fruits, in its own unit, and how many fruits
    /// it rests on; for pictures and tables, not for calls.
    #[must_use]
    pub fn typical(&self, of: Trait) -> Option<(f64, u64)> {
        let _ = of;
        None
    }

    /// One trait's sums, plant by plant, in order of [`PlantKey`].
    #[must_use]
    pub fn plants(&self, of: Trait) -> Vec<(PlantKey, PlantSums)> {
        let _ = of;
        Vec::new()
    }

    /// Cracked fruits.
    #[must_use]
    pub fn cracking(&self) -> Blemish {
        Blemish::default()
    }

    /// Catfaced fruits.
    #[must_use]
    pub fn catfacing(&self) -> Blemish {
        Blemish::default()
    }
}
