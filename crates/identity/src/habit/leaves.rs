//! Leaves between trusses: near three and constant on indeterminate stems, fewer and falling on others.

use crate::guide::habit::{HabitGuide, Normal};
use crate::habit::Stem;
use crate::habit::normal::{density, log_mixed};
use crate::habit::patch::{LeafMean, Patch};

/// Chance density of a count that went wrong: anything from none to six leaves alike. Six is twice the
/// usual three. Common practice, no source.
const ANY_COUNT: f64 = 1.0 / 6.0;

/// Log-likelihood of a plot's leaf counts for each stem; `None` where none were taken.
pub(crate) fn log_odds(patch: &Patch, guide: &HabitGuide) -> Option<[f64; 3]> {
    let levels = mean_odds(patch.leaves?, guide);
    let Some(fallen) = patch.leaf_fall else { return Some(levels) };
    let mut odds = levels;
    for (sum, stem) in odds.iter_mut().zip(Stem::ALL) {
        *sum += fall(fallen, stem, guide);
    }
    Some(odds)
}

/// Log-likelihood of a mean number of leaves for each stem.
pub(crate) fn mean_odds(leaves: LeafMean, guide: &HabitGuide) -> [f64; 3] {
    Stem::ALL.map(|stem| level(leaves, guide.leaves.mean.of(stem), guide))
}

/// The mean of a plot's plants against what varieties of one stem show.
fn level(leaves: LeafMean, expected: &Normal, guide: &HabitGuide) -> f64 {
    let within = guide.leaves.plant_sd.number.powi(2) / f64::from(leaves.plants);
    let sd = (expected.sd.number.powi(2) + within).sqrt();
    let chance = density(leaves.mean, expected.mean.number, sd);
    log_mixed(chance, ANY_COUNT, guide.mistakes.off_type_rate.number)
}

/// The fall between first and last count of the same plants.
fn fall(fall: LeafMean, stem: Stem, guide: &HabitGuide) -> f64 {
    // Half the spread stays however many plants are counted: dates of walks and counters differ.
    let spread = guide.leaves.fall_sd.number * (0.5 + 0.5 / f64::from(fall.plants)).sqrt();
    let chance = density(fall.mean, guide.leaves.fall.of(stem).number, spread);
    log_mixed(chance, ANY_COUNT, guide.mistakes.off_type_rate.number)
}
