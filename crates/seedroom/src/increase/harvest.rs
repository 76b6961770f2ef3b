//! From packets back to plants, and from plants forward to seed, each with how far it may be out.
//!
//! Quantities that multiply are taken as log-normal: their logarithms add, and so do the variances of these. Start at
//! [`plan`] and [`expected_seed`].

use record::mass::Grams;
use record::share::Share;
use statistics::normal::quantile;
use statistics::students_t::{Degrees, critical};

/// A positive quantity that is only roughly known: 80 in 100 lie between two ends.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Rough {
    log_middle: f64,
    log_spread: f64,
}

/// What the ends of a rough quantity hold between them. Common practice, no source.
const BETWEEN_ENDS: f64 = 0.8;

impl Rough {
    /// Takes the two ends, above 0 and in order; equal ends are a known quantity.
    #[must_use]
    pub fn between(low: f64, high: f64) -> Option<Self> {
        let known = low.is_finite() && high.is_finite() && 0.0 < low && low <= high;
        let half = upper(BETWEEN_ENDS)?;
        known.then(|| Self {
            log_middle: 0.5 * (low.ln() + high.ln()),
            log_spread: 0.5 * (high.ln() - low.ln()) / half,
        })
    }

    /// The quantity that half of all such lie under.
    #[must_use]
    pub fn middle(self) -> f64 {
        self.log_middle.exp()
    }

    /// The value that a chance lies under; `None` for no chance and for certainty.
    #[must_use]
    pub fn at(self, chance: Share) -> Option<f64> {
        Some((self.log_middle + self.log_spread * quantile(chance)?).exp())
    }

    /// The ends that hold 80 in 100 between them.
    #[must_use]
    pub fn ends(self) -> Option<(f64, f64)> {
        let reach = self.log_spread * upper(BETWEEN_ENDS)?;
        Some(((self.log_middle - reach).exp(), (self.log_middle + reach).exp()))
    }

    /// Both multiplied, as they vary independently of each other.
    #[must_use]
    pub fn times(self, other: Self) -> Self {
        Self {
            log_middle: self.log_middle + other.log_middle,
            log_spread: self.log_spread.hypot(other.log_spread),
        }
    }
}

/// Standard deviations that a share about the middle of a normal curve reaches.
fn upper(between: f64) -> Option<f64> {
    Share::new(0.5 * (1.0 + between)).and_then(quantile)
}

/// Kinds of fruit whose usual numbers of seeds differ.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum FruitKind {
    /// Cherry and smaller.
    Cherry,
    /// Plum and paste.
    Plum,
    /// Slicer.
    Slicer,
    /// Beefsteak.
    Beefsteak,
}

/// Seeds of one fruit where nobody has counted yet. Source: a general web article (weak): cherry 10-30, plum and paste
/// 30-60, slicer 50-150, beefsteak 100-300; replace it by own counts.
#[must_use]
pub fn usual_seeds(kind: FruitKind) -> Option<Rough> {
    match kind {
        FruitKind::Cherry => Rough::between(10.0, 30.0),
        FruitKind::Plum => Rough::between(30.0, 60.0),
        FruitKind::Slicer => Rough::between(50.0, 150.0),
        FruitKind::Beefsteak => Rough::between(100.0, 300.0),
    }
}

/// Seeds of one fruit, on the mean over fruits, by own counts; `None` of fewer than two, or where a fruit had none.
///
/// The ends are Student's, of the logarithms.
///
/// # Shape
/// `counts`: seeds of each fruit that was opened.
#[must_use]
pub fn counted_seeds(counts: &[u32]) -> Option<Rough> {
    let logs: Vec<f64> =
        counts.iter().filter(|count| 0 < **count).map(|count| f64::from(*count).ln()).collect();
    let fruits = f64::from(u32::try_from(logs.len()).ok().filter(|fruits| 1 < *fruits)?);
    if logs.len() != counts.len() {
        return None;
    }
    let middle = logs.iter().sum::<f64>() / fruits;
    let variance = logs.iter().map(|log| (log - middle).powi(2)).sum::<f64>() / (fruits - 1.0);
    let reach = critical(Share::new(BETWEEN_ENDS)?, Degrees::new(fruits - 1.0)?)?;
    let error = (variance / fruits).sqrt();
    // The mean of a log-normal quantity lies above its middle by half the variance of its logarithm.
    Some(Rough { log_middle: middle + 0.5 * variance, log_spread: error * reach / upper(BETWEEN_ENDS)? })
}

/// What an increase is for.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Wanted {
    /// Packets.
    pub packets: u32,
    /// Seeds of each.
    pub seeds_each: u32,
    /// Seeds for tests, the file sample and the next increase.
    pub seeds_besides: u32,
    /// How sure it is to suffice.
    pub sure: Share,
}

/// What is known of the crop.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Crop {
    /// Seeds of one fruit.
    pub seeds_per_fruit: Rough,
    /// Fruits of one plant that are saved for seed.
    pub fruits_per_plant: Rough,
    /// Part of the seed that is kept after cleaning; above nothing.
    pub kept: Share,
}

/// Fruits and plants that suffice.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Planned {
    /// Seeds wanted.
    pub seeds: u64,
    /// Fruits to save.
    pub fruits: u64,
    /// Plants to grow them on.
    pub plants: u64,
}

/// Plans an increase; `None` where certainty is asked for, nothing is kept, or the numbers run beyond all counting.
#[must_use]
pub fn plan(wanted: Wanted, crop: &Crop) -> Option<Planned> {
    let seeds = u64::from(wanted.packets)
        .checked_mul(wanted.seeds_each.into())?
        .checked_add(wanted.seeds_besides.into())?;
    let poor = wanted.sure.rest();
    let sown_short = crop.kept.get();
    #[expect(clippy::cast_precision_loss, reason = "nobody grows 2^52 seeds")]
    let fruits = |yielded: Rough| whole(seeds as f64 / (yielded.at(poor)? * sown_short));
    Some(Planned {
        seeds,
        fruits: fruits(crop.seeds_per_fruit)?,
        plants: fruits(crop.seeds_per_fruit.times(crop.fruits_per_plant))?,
    })
}

/// The next whole number; `None` beyond all counting. A millionth beyond a whole one, as rounding leaves, asks for no more.
fn whole(count: f64) -> Option<u64> {
    const MOST: f64 = 1e15;
    const ROUNDING: f64 = 1e-6;
    #[expect(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "whole and in reach")]
    (0.0..=MOST).contains(&count).then(|| (count * (1.0 - ROUNDING)).ceil() as u64)
}

/// The seed that so many plants are expected to give, in grams: the middle, and the ends that hold 80 in 100.
///
/// `thousand`: the thousand-seed weight. `None` of no plants or no weight.
#[must_use]
pub fn expected_seed(plants: u32, crop: &Crop, thousand: Grams) -> Option<(Grams, (Grams, Grams))> {
    let fixed = f64::from(plants) * crop.kept.get() * thousand.get() / 1000.0;
    let seed = crop.seeds_per_fruit.times(crop.fruits_per_plant).times(Rough::between(fixed, fixed)?);
    let (low, high) = seed.ends()?;
    Some((Grams::new(seed.middle())?, (Grams::new(low)?, Grams::new(high)?)))
}
