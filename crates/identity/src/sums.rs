//! What the scale, the callipers and the knife said of one variety, summed up plant by plant.
//!
//! A house may hold a million fruits; a call needs only how many there were of each plant, their mean and
//! their spread, trait by trait. Sums are whole numbers inside, so that the order in which fruits arrive
//! or parts are merged cannot change a single digit of a call. Start at [`FruitSums::take`].

pub mod moments;
pub mod traits;

use moments::{Moments, TraitMoments};
use record::fruit::{FruitSample, Severity};
use record::growout::{PlantNumber, Plot};
use record::id::Id;
use record::season::Season;
use record::subject::Subject;
use statistics::variety_means::PlantSums;
use std::collections::BTreeMap;

/// A trait of a fruit, summed as its natural logarithm (of lobes: plus one).
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

impl Trait {
    /// Back from the summed logarithm to the trait's own unit.
    #[must_use]
    pub fn value(self, log: f64) -> f64 {
        if self == Self::Lobes { log.exp_m1() } else { log.exp() }
    }
}

/// Where a fruit was taken: season, plot and plant, as far as noted.
///
/// Fruits that name no plant count as one plant of their plot and season: they may be of many plants, but
/// nothing says so, and too wide an interval is the honest error.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct PlantKey {
    /// The season.
    pub season: Season,
    /// The plot, where noted.
    pub plot: Option<Id<Plot>>,
    /// The plant, where noted.
    pub plant: Option<PlantNumber>,
}

impl PlantKey {
    /// The plant that a note is about.
    #[must_use]
    pub fn of(subject: &Subject) -> Self {
        Self { season: subject.season, plot: subject.plot, plant: subject.plant }
    }
}

/// How many fruits a blemish was looked for on, and how many bore it badly enough to sell as seconds.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Blemish {
    /// Fruits looked at.
    pub seen: u32,
    /// Fruits with a moderate or severe blemish.
    pub spoilt: u32,
}

impl Blemish {
    fn look(&mut self, severity: Option<Severity>, fruits: u32) {
        if let Some(severity) = severity {
            self.seen = self.seen.saturating_add(fruits);
            let spoilt = if Severity::Moderate <= severity { fruits } else { 0 };
            self.spoilt = self.spoilt.saturating_add(spoilt);
        }
    }

    fn merge(&mut self, other: Self) {
        self.seen = self.seen.saturating_add(other.seen);
        self.spoilt = self.spoilt.saturating_add(other.spoilt);
    }
}

/// A variety's fruits, summed up plant by plant.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct FruitSums {
    // Boxed so that the map's half-empty nodes stay small: a house of a million fruits must fit in memory.
    plants: BTreeMap<PlantKey, Box<TraitMoments>>,
    cracking: Blemish,
    catfacing: Blemish,
}

impl FruitSums {
    /// Adds one sample. Its variety is not looked at: that is the caller's sorting.
    pub fn take(&mut self, sample: &FruitSample) {
        let fruits = sample.fruit_count.get();
        let plant = self.plants.entry(PlantKey::of(&sample.subject)).or_default();
        plant.count_record(fruits);
        traits::of_sample(sample, |of, log| plant.add(of, log, fruits));
        self.cracking.look(sample.cracking, fruits);
        self.catfacing.look(sample.catfacing, fruits);
    }

    /// Adds the sums of other fruits of the same variety.
    pub fn merge(&mut self, other: &Self) {
        for (key, theirs) in &other.plants {
            self.plants.entry(*key).or_default().merge(theirs);
        }
        self.cracking.merge(other.cracking);
        self.catfacing.merge(other.catfacing);
    }

    /// How many fruits were taken in.
    #[must_use]
    pub fn fruit_count(&self) -> u64 {
        self.plants.values().map(|plant| u64::from(plant.fruits())).sum()
    }

    /// How many records were taken in: a few fruits weighed together are one.
    #[must_use]
    pub fn record_count(&self) -> u64 {
        self.plants.values().map(|plant| u64::from(plant.records())).sum()
    }

    /// How many plants they came from.
    #[must_use]
    pub fn plant_count(&self) -> u64 {
        self.plants.len() as u64
    }

    /// The seasons they came from, in order.
    #[must_use]
    pub fn seasons(&self) -> Vec<Season> {
        let mut seasons: Vec<Season> = self.plants.keys().map(|key| key.season).collect();
        seasons.dedup();
        seasons
    }

    /// The typical value (geometric mean) of a trait over all fruits, in its own unit, and how many fruits
    /// it rests on; for pictures and tables, not for calls.
    #[must_use]
    pub fn typical(&self, of: Trait) -> Option<(f64, u64)> {
        let mut all = Moments::default();
        for plant in self.plants.values() {
            all.merge(&plant.of(of));
        }
        all.mean().map(|log| (of.value(log), u64::from(all.fruits())))
    }

    /// One trait's sums, plant by plant, in order of [`PlantKey`]; plants without it are left out.
    #[must_use]
    pub fn plants(&self, of: Trait) -> Vec<(PlantKey, PlantSums)> {
        self.pooled(of, of)
    }

    /// Two traits that tell the same thing, such as weight by the scale and weight by size, as one; fruits
    /// never have both. Plants with neither are left out.
    #[must_use]
    pub fn pooled(&self, of: Trait, or: Trait) -> Vec<(PlantKey, PlantSums)> {
        let pooled = |plant: &TraitMoments| {
            let mut moments = plant.of(of);
            if or != of {
                moments.merge(&plant.of(or));
            }
            moments
        };
        let sums =
            |key: &PlantKey, plant| pooled(plant).plant_sums(*key, of).map(|sums: PlantSums| (*key, sums));
        self.plants.iter().filter_map(|(key, plant)| sums(key, plant)).collect()
    }

    /// How many fruits have this trait.
    #[must_use]
    pub fn fruits_with(&self, of: Trait) -> u64 {
        self.plants.values().map(|plant| u64::from(plant.of(of).fruits())).sum()
    }

    /// Fruits taken in of one plant.
    #[must_use]
    pub fn fruits_of(&self, key: &PlantKey) -> u64 {
        self.plants.get(key).map_or(0, |plant| u64::from(plant.fruits()))
    }

    /// The plants, in order.
    pub fn keys(&self) -> impl Iterator<Item = PlantKey> {
        self.plants.keys().copied()
    }

    /// The same sums without some plants. Blemishes are not kept by plant and stay.
    #[must_use]
    pub fn without(&self, left_out: impl Fn(&PlantKey) -> bool) -> Self {
        let mut rest = self.clone();
        rest.plants.retain(|key, _| !left_out(key));
        rest
    }

    /// Cracked fruits.
    #[must_use]
    pub fn cracking(&self) -> Blemish {
        self.cracking
    }

    /// Catfaced fruits.
    #[must_use]
    pub fn catfacing(&self) -> Blemish {
        self.catfacing
    }
}
