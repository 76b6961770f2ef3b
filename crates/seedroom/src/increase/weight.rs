//! Thousand-seed weight by replicate weighings, and how many seeds a mass holds.
//!
//! Start at [`thousand_seed_weight`].

use record::mass::Grams;
use record::share::Share;
use statistics::students_t::{Degrees, critical};

/// Seeds of one replicate weighing. Source: ISTA Rules, chapter 10 (from memory, unverified): eight replicates of 100 seeds.
pub const REPLICATE_SEEDS: u32 = 100;

/// Replicates that the rule takes. Source: as [`REPLICATE_SEEDS`].
pub const REPLICATES: usize = 8;

/// Most that weighings may vary, in per cent of their mean, for seed that is not chaffy. Source: as [`REPLICATE_SEEDS`].
pub const MOST_VARIATION_PERCENT: f64 = 4.0;

/// A thousand-seed weight.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct SeedWeight {
    /// The mass of a thousand seeds.
    pub thousand: Grams,
    /// Ends that hold the true mean with the level asked for.
    pub between: (Grams, Grams),
    /// Standard deviation of the weighings in per cent of their mean.
    pub variation_percent: f64,
    /// Replicates weighed, and degrees of freedom one less.
    pub replicates: usize,
    /// Seeds of each.
    pub seeds_each: u32,
    /// What the rule makes of it.
    pub verdict: WeightVerdict,
}

/// What the rule makes of replicate weighings.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum WeightVerdict {
    /// Eight replicates of 100 or more, and they vary little enough.
    Stands,
    /// They vary too much: weigh as many again.
    WeighAgain,
    /// Fewer replicates, or of other sizes, than the rule is for.
    NotByTheRule,
}

/// Makes a thousand-seed weight of replicate weighings; `None` of fewer than two, of no seeds or of no mass.
///
/// # Shape
/// `weighings`: two or more, each of `seeds_each` seeds.
#[must_use]
pub fn thousand_seed_weight(weighings: &[Grams], seeds_each: u32, level: Share) -> Option<SeedWeight> {
    let count = f64::from(u32::try_from(weighings.len()).ok().filter(|count| 1 < *count)?);
    let mean = weighings.iter().map(|grams| grams.get()).sum::<f64>() / count;
    if mean <= 0.0 || seeds_each == 0 {
        return None;
    }
    let squares: f64 = weighings.iter().map(|grams| (grams.get() - mean).powi(2)).sum();
    let deviation = (squares / (count - 1.0)).sqrt();
    let reach = critical(level, Degrees::new(count - 1.0)?)? * deviation / count.sqrt();
    let thousand = |grams: f64| Grams::new(grams.max(0.0) * 1000.0 / f64::from(seeds_each));
    let variation_percent = 100.0 * deviation / mean;
    Some(SeedWeight {
        thousand: thousand(mean)?,
        between: (thousand(mean - reach)?, thousand(mean + reach)?),
        variation_percent,
        replicates: weighings.len(),
        seeds_each,
        verdict: verdict(weighings.len(), seeds_each, variation_percent),
    })
}

fn verdict(replicates: usize, seeds_each: u32, variation_percent: f64) -> WeightVerdict {
    if replicates < REPLICATES || seeds_each != REPLICATE_SEEDS {
        WeightVerdict::NotByTheRule
    } else if variation_percent <= MOST_VARIATION_PERCENT {
        WeightVerdict::Stands
    } else {
        WeightVerdict::WeighAgain
    }
}

impl SeedWeight {
    /// Seeds that a mass holds, and ends with the level of the weight; `None` of a weight that may be nothing.
    #[must_use]
    pub fn seeds_in(&self, mass: Grams) -> Option<(f64, (f64, f64))> {
        let seeds = |thousand: Grams| (0.0 < thousand.get()).then(|| 1000.0 * mass.get() / thousand.get());
        Some((seeds(self.thousand)?, (seeds(self.between.1)?, seeds(self.between.0)?)))
    }

    /// How much single seeds vary, as a part of their mean: what weighings vary, times the root of their seeds.
    #[must_use]
    pub fn seed_variation(&self) -> f64 {
        0.01 * self.variation_percent * f64::from(self.seeds_each).sqrt()
    }
}
