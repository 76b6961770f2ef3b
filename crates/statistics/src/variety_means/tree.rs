//! The house's fruits as a tree, laid flat: varieties hold seasons, seasons hold plants.
//!
//! [`Tree::grow`] sorts each variety's plants by season once, so that every later pass only reads
//! forwards. [`Tree::standing`] tells which levels can be compared at all.

use super::{PlantSums, Priors, SpreadFault};
use crate::climb::{Ground, LEVELS, PerLevel};
use crate::component::{Prior, Why};
use crate::levels::left_out;

/// A plant: how many fruits, and their mean.
#[derive(Clone, Copy, Debug)]
pub(super) struct Plant {
    /// How many fruits, at least one.
    pub(super) count: f64,
    /// Their mean, less its variety's plain mean so that sums stay small.
    pub(super) mean: f64,
}

/// The whole house, laid flat.
#[derive(Clone, Debug, Default)]
pub(super) struct Tree {
    plants: Vec<Plant>,
    /// Where each season's plants end.
    season_ends: Vec<usize>,
    /// Where each variety's seasons end.
    variety_ends: Vec<usize>,
    /// Sum of squares of fruits around their plants' means.
    pub(super) within: f64,
    /// How many fruits.
    pub(super) fruits: f64,
    /// The greatest mean, regardless of sign: what roundings are measured against.
    greatest: f64,
}

impl Tree {
    /// Lays the plants flat; plants without fruit and varieties without plants are left out.
    pub(super) fn grow(varieties: &[&[PlantSums]]) -> Result<Self, SpreadFault> {
        let mut tree = Self::default();
        let mut sorted = Vec::new();
        for plants in varieties {
            sorted.clear();
            sorted.extend(plants.iter().filter(|plant| 0 < plant.fruit_count).copied());
            sorted.sort_unstable_by_key(|plant| plant.season);
            tree.add_variety(&sorted)?;
        }
        Ok(tree)
    }

    fn add_variety(&mut self, plants: &[PlantSums]) -> Result<(), SpreadFault> {
        if !plants.iter().all(PlantSums::is_possible) {
            return Err(SpreadFault::NotPossible);
        }
        #[expect(clippy::cast_precision_loss, reason = "a house has far fewer plants than 2^52")]
        let centre = plants.iter().map(|plant| plant.mean).sum::<f64>() / plants.len().max(1) as f64;
        for season in plants.chunk_by(|a, b| a.season == b.season) {
            season.iter().for_each(|plant| self.add_plant(plant, centre));
            self.season_ends.push(self.plants.len());
        }
        if !plants.is_empty() {
            self.variety_ends.push(self.season_ends.len());
        }
        Ok(())
    }

    fn add_plant(&mut self, plant: &PlantSums, centre: f64) {
        let count = plant.count();
        self.plants.push(Plant { count, mean: plant.mean - centre });
        self.within += plant.sum_of_squares;
        self.fruits += count;
        self.greatest = self.greatest.max(plant.mean.abs());
    }

    /// The varieties, each a run of seasons, each a run of plants.
    pub(super) fn varieties(&self) -> impl Iterator<Item = impl Iterator<Item = &[Plant]> + Clone> {
        runs(&self.variety_ends).map(|(first, end)| {
            let begin =
                first.checked_sub(1).and_then(|before| self.season_ends.get(before)).copied().unwrap_or(0);
            let ends = self.season_ends.get(first..end).unwrap_or_default();
            ends.iter().scan(begin, |from, end| {
                let season = self.plants.get(*from..*end);
                *from = *end;
                season
            })
        })
    }

    /// Degrees of freedom of each level: seasons within varieties, plants within seasons, fruits within
    /// plants.
    pub(super) fn degrees(&self) -> PerLevel<f64> {
        #[expect(clippy::cast_precision_loss, reason = "a house has far fewer plants than 2^52")]
        let [varieties, seasons, plants] =
            [self.variety_ends.len(), self.season_ends.len(), self.plants.len()].map(|count| count as f64);
        [seasons - varieties, plants - seasons, self.fruits - plants]
    }

    /// Rough variances to begin the climb from: plain variances of means, level by level.
    pub(super) fn rough_variances(&self) -> PerLevel<f64> {
        let mut squares = [0.0, 0.0, self.within];
        for variety in self.varieties() {
            let season_means: Vec<f64> = variety.clone().map(plain_mean).collect();
            squares[0] += squared_distances(&season_means);
            for season in variety {
                let means: Vec<f64> = season.iter().map(|plant| plant.mean).collect();
                squares[1] += squared_distances(&means);
            }
        }
        let mut rough = [0.0; LEVELS];
        for ((rough, square), degrees) in rough.iter_mut().zip(squares).zip(self.degrees()) {
            *rough = if 0.0 < degrees { square / degrees } else { 0.0 };
        }
        rough
    }

    /// Whether measurements of some level, found with `variance`, differ by more than rounding.
    pub(super) fn differs(&self, variance: f64) -> bool {
        /// Relative rounding of a mean worked out in double precision, with a margin.
        const ROUNDING: f64 = 1e-13;
        (ROUNDING * self.greatest).powi(2) < variance
    }
}

/// Pairs of (where it begins, where it ends) from a list of ends.
fn runs(ends: &[usize]) -> impl Iterator<Item = (usize, usize)> {
    let begins = std::iter::once(0).chain(ends.iter().copied());
    begins.zip(ends.iter().copied())
}

#[expect(clippy::cast_precision_loss, reason = "a season has far fewer plants than 2^52")]
fn plain_mean(plants: &[Plant]) -> f64 {
    plants.iter().map(|plant| plant.mean).sum::<f64>() / plants.len().max(1) as f64
}

#[expect(clippy::cast_precision_loss, reason = "a variety has far fewer seasons than 2^52")]
fn squared_distances(means: &[f64]) -> f64 {
    let centre = means.iter().sum::<f64>() / means.len().max(1) as f64;
    means.iter().map(|mean| (mean - centre).powi(2)).sum()
}

/// Which variances may move, and why the others may not.
#[derive(Clone, Copy, Debug)]
pub(super) struct Plan {
    /// What the climb may do.
    pub(super) ground: Ground,
    /// Why a level is left out.
    pub(super) left_out: PerLevel<Option<Why>>,
}

/// Decides which levels can be told apart, and where the climb begins.
pub(super) fn plan(tree: &Tree, priors: &Priors) -> Result<Plan, SpreadFault> {
    let priors = [priors.season, priors.plant, priors.fruit];
    let left_out = left_out(&tree.degrees().map(|degrees| 0.0 < degrees), &priors);
    let left_out = left_out.ok_or(SpreadFault::NothingToCompare)?;
    let rough = tree.rough_variances();
    let start = start(&rough, &left_out, &priors);
    if priors[2].is_none() && !tree.differs(start[2]) {
        return Err(SpreadFault::NoSpread);
    }
    let ground = Ground { start, free: left_out.map(|why| why.is_none()), priors };
    Ok(Plan { ground, left_out })
}

/// Begins at the prior where there is one, else at the rough variance, never quite at zero.
fn start(
    rough: &PerLevel<f64>,
    left_out: &PerLevel<Option<Why>>,
    priors: &PerLevel<Option<Prior>>,
) -> PerLevel<f64> {
    /// A free variance begins no lower than this share of the largest, so that its score can speak.
    const LEAST_SHARE: f64 = 0.01;
    let largest = rough.iter().copied().fold(0.0, f64::max);
    let mut start = [0.0; LEVELS];
    for (level, to) in start.iter_mut().enumerate() {
        let prior = priors.get(level).copied().flatten();
        let own = rough.get(level).copied().unwrap_or(0.0);
        let free = left_out.get(level).is_some_and(Option::is_none);
        *to = if free { prior.map_or(own.max(LEAST_SHARE * largest), Prior::variance) } else { 0.0 };
    }
    start
}
