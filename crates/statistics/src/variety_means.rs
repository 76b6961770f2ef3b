//! How far seasons, plants and fruits of one variety differ over the whole house, and what that makes
//! of each variety's mean.
//!
//! The model is `y = mean of the variety + season within variety + plant within season + fruit`, each
//! variety's mean a fixed number of its own and the three others normal with variances shared by the
//! whole house. Each plant comes in as a count, a mean and a sum of squares ([`PlantSums`]), so the work
//! grows with plants, not fruits, and no matrix is ever built.
//!
//! Start at [`fit`] (the variances, by REML) and [`variety_mean`] (one variety's mean, given them).

use crate::component::{Component, Prior};

/// What one plant's fruits say in one season: count, mean and spread of one trait.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct PlantSums {
    /// Any number that is the same for plants of the same season (and garden), else different.
    pub season: u32,
    /// How many fruits were measured.
    pub fruit_count: u64,
    /// Their mean.
    pub mean: f64,
    /// Sum of their squared distances from that mean.
    pub sum_of_squares: f64,
}

impl PlantSums {
    /// A plant of which nothing is measured yet.
    #[must_use]
    pub fn empty(season: u32) -> Self {
        Self { season, fruit_count: 0, mean: 0.0, sum_of_squares: 0.0 }
    }

    /// Adds one fruit.
    pub fn add(&mut self, value: f64) {
        let _ = value;
    }

    /// Adds another part of the same plant's fruits.
    pub fn merge(&mut self, other: &Self) {
        let _ = other;
    }
}

/// What is known beforehand of each component.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Priors {
    /// Of seasons within a variety.
    pub season: Option<Prior>,
    /// Of plants within a season.
    pub plant: Option<Prior>,
    /// Of fruits within a plant.
    pub fruit: Option<Prior>,
}

/// The three variances as plain numbers, to weigh means by: none negative, that of fruits above zero.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Variances {
    season: f64,
    plant: f64,
    fruit: f64,
}

impl Variances {
    /// Takes finite numbers, seasons' and plants' zero or more, fruits' more than zero.
    #[must_use]
    pub fn new(season: f64, plant: f64, fruit: f64) -> Option<Self> {
        let fits = |variance: f64| variance.is_finite() && 0.0 <= variance;
        (fits(season) && fits(plant) && fits(fruit) && 0.0 < fruit).then_some(Self { season, plant, fruit })
    }

    /// Between seasons of one variety.
    #[must_use]
    pub fn season(self) -> f64 {
        self.season
    }

    /// Between plants of one season.
    #[must_use]
    pub fn plant(self) -> f64 {
        self.plant
    }

    /// Between fruits of one plant.
    #[must_use]
    pub fn fruit(self) -> f64 {
        self.fruit
    }
}

/// The house's variance components.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct HouseSpread {
    /// Between seasons of one variety.
    pub season: Component,
    /// Between plants of one variety in one season.
    pub plant: Component,
    /// Between fruits of one plant.
    pub fruit: Component,
    /// The REML criterion at the optimum, with all constants (`lme4` prints the same); a prior's part is
    /// left out of it.
    pub criterion: f64,
    /// How many times the criterion was worked out.
    pub evaluations: u32,
}

/// Why the spread could not be estimated.
#[derive(Clone, Copy, Debug, PartialEq, Eq, thiserror::Error)]
pub enum SpreadFault {
    /// A mean or a sum of squares is not finite, or a sum of squares is negative.
    #[error("a plant's mean or sum of squares is not a possible number")]
    NotPossible,
    /// No variety has two fruits, and not every component has a prior.
    #[error("no variety has two measured fruits to compare")]
    NothingToCompare,
    /// All measurements within every variety are the same number, and there is no prior.
    #[error("all measurements of a variety are the same number")]
    NoSpread,
    /// The optimum was not reached.
    #[error("the variance components were not found")]
    NotFound,
}

/// Estimates the three variances over all varieties by REML, with each variety's mean as a fixed effect.
///
/// # Shape
/// `varieties`: one slice a variety, of its plants in any order.
///
/// # Errors
/// [`SpreadFault`] where there is nothing to estimate from.
pub fn fit(varieties: &[&[PlantSums]], priors: &Priors) -> Result<HouseSpread, SpreadFault> {
    let _ = (varieties, priors);
    Err(SpreadFault::NotFound)
}

/// A mean and how far it may be off.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Mean {
    /// The estimate.
    pub estimate: f64,
    /// Its standard error, the variances taken as known.
    pub standard_error: f64,
}

/// Weighs one variety's fruits, plants and seasons into its mean (generalised least squares).
///
/// `None` where no fruit is measured.
#[must_use]
pub fn variety_mean(plants: &[PlantSums], variances: &Variances) -> Option<Mean> {
    let _ = (plants, variances);
    None
}
