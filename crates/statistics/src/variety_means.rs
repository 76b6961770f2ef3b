//! How far seasons, plants and fruits of one variety differ over the whole house, and what that makes
//! of each variety's mean.
//!
//! The model is `y = mean of the variety + season within variety + plant within season + fruit`, each
//! variety's mean a fixed number of its own and the three others normal with variances shared by the
//! whole house. Each plant comes in as a count, a mean and a sum of squares ([`PlantSums`]), so the work
//! grows with plants, not fruits, and no matrix is ever built.
//!
//! Start at [`fit`] (the variances, by REML) and [`variety_mean`] (one variety's mean, given them).

mod terms;
mod tree;

use crate::climb::{PerLevel, Summit, climb};
use crate::component::{Component, Prior, Standing, Why};
use tree::{Plan, Tree, plan};

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
        self.merge(&Self { season: self.season, fruit_count: 1, mean: value, sum_of_squares: 0.0 });
    }

    /// Adds another part of the same plant's fruits.
    ///
    /// # Source
    /// Chan, Golub and LeVeque 1983, The American Statistician 37:242-247 (citation from memory, unverified).
    pub fn merge(&mut self, other: &Self) {
        let (own, more) = (self.count(), other.count());
        let whole = own + more;
        if 0.0 < whole {
            let apart = other.mean - self.mean;
            self.mean += apart * (more / whole);
            self.sum_of_squares += other.sum_of_squares + apart * apart * (own * more / whole);
            self.fruit_count = self.fruit_count.saturating_add(other.fruit_count);
        }
    }

    #[expect(clippy::cast_precision_loss, reason = "a plant has far fewer fruits than 2^52")]
    fn count(&self) -> f64 {
        self.fruit_count as f64
    }

    fn is_possible(&self) -> bool {
        self.mean.is_finite() && self.sum_of_squares.is_finite() && 0.0 <= self.sum_of_squares
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
    let tree = Tree::grow(varieties)?;
    let plan = plan(&tree, priors)?;
    let top = climb(&plan.ground, |variances| terms::slope(&tree, variances)).ok_or(SpreadFault::NotFound)?;
    let bare = terms::slope(&tree, &top.variances).ok_or(SpreadFault::NotFound)?;
    let [season, plant, fruit] = components(&tree, &plan, &top);
    Ok(HouseSpread { season, plant, fruit, criterion: bare.criterion, evaluations: top.evaluations })
}

/// Says of each level what stands behind its variance.
fn components(tree: &Tree, plan: &Plan, top: &Summit) -> PerLevel<Component> {
    let degrees = tree.degrees();
    let mut levels = degrees.iter().zip(&top.variances).zip(&top.standard_errors).zip(&plan.left_out);
    [(); 3].map(|()| {
        let found = levels.next();
        found.map_or(Component::untold(Why::NothingToCompare), |(((degrees, variance), error), left_out)| {
            let standing = match (left_out, error) {
                (Some(why), _) => return Component::untold(*why),
                (None, None) => Standing::AtZero,
                (None, Some(standard_error)) if 0.0 < *degrees => {
                    Standing::Estimated { standard_error: *standard_error }
                }
                (None, Some(standard_error)) => Standing::FromPrior { standard_error: *standard_error },
            };
            Component { variance: *variance, standing }
        })
    })
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
/// A plant's mean has the variance `plant + fruit / n`; a season's adds its own to that of its plants' mean.
/// `None` where no fruit is measured.
///
/// # Examples
/// One season, two plants of four fruits, fruit variance 4 and plant variance 1: each plant's mean has
/// variance 1 + 4/4 = 2, the season's 2/2 + 3 = 4.
/// ```
/// use statistics::variety_means::{PlantSums, Variances, variety_mean};
/// let plant = |mean| PlantSums { season: 2031, fruit_count: 4, mean, sum_of_squares: 0.0 };
/// let given = Variances::new(3.0, 1.0, 4.0).expect("none is negative");
/// let mean = variety_mean(&[plant(10.0), plant(12.0)], &given).expect("fruits are measured");
/// assert_eq!((mean.estimate, mean.standard_error), (11.0, 2.0));
/// ```
#[must_use]
pub fn variety_mean(plants: &[PlantSums], variances: &Variances) -> Option<Mean> {
    let mut measured: Vec<&PlantSums> = plants.iter().filter(|plant| 0 < plant.fruit_count).collect();
    measured.sort_unstable_by_key(|plant| plant.season);
    let seasons = measured.chunk_by(|a, b| a.season == b.season).map(|season| {
        let plants =
            season.iter().map(|plant| (plant.mean, variances.plant + variances.fruit / plant.count()));
        let (mean, variance) = weighted_mean(plants);
        (mean, variances.season + variance)
    });
    let (estimate, variance) = weighted_mean(seasons);
    let mean = Mean { estimate, standard_error: variance.sqrt() };
    (mean.estimate.is_finite() && mean.standard_error.is_finite()).then_some(mean)
}

/// The mean of values weighted by the inverse of their variances, and its own variance.
fn weighted_mean(values: impl Iterator<Item = (f64, f64)>) -> (f64, f64) {
    let (mut whole, mut mean) = (0.0, 0.0);
    for (value, variance) in values {
        whole += variance.recip();
        mean += (value - mean) / (variance * whole);
    }
    (mean, whole.recip())
}
