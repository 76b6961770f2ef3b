//! Plants and plots whose fruit does not fit their variety: off-types and mislabelled lots.
//!
//! Every plant's mean is held against the middle (median) of its variety, trait by trait, in units of how
//! far plants and seasons of this house differ anyway. Those far out are told, and a call sets them aside
//! as long as they are few; where they are many, the name covers two kinds and no call may choose between
//! them. Start at [`unlike`].

use crate::fruit_class::words::value;
use crate::guide::fruit::measure::Measure;
use crate::spread::Spread;
use crate::sums::{FruitSums, PlantKey, Trait};
use record::language::Units;
use statistics::variety_means::{PlantSums, Variances};
use std::borrow::Cow;
use std::collections::{BTreeMap, BTreeSet};

/// Standard errors from its variety's middle at which a plant does not fit. By chance alone one plant in
/// 16 000 lies further out in one trait. Common practice, no source.
const DOES_NOT_FIT: f64 = 4.0;

/// Fewer plants than this have no middle to be far from.
const FEWEST_PLANTS: usize = 3;

/// Plants set aside are at most one in this many; more are two kinds under one name.
const ONE_IN: usize = 3;

/// Variance of a median over that of a mean, normal data: pi / 2.
const MEDIAN_OVER_MEAN: f64 = std::f64::consts::FRAC_PI_2;

/// The traits that tell one kind of fruit from another, with what stands in for each and how it is told.
const TELLING: [(Trait, Trait, Measure); 4] = [
    (Trait::Weight, Trait::SizedWeight, Measure::Weight),
    (Trait::Shape, Trait::ImpliedShape, Measure::Shape),
    (Trait::Neck, Trait::Neck, Measure::Neck),
    (Trait::Locules, Trait::Locules, Measure::Locules),
];

/// A plant, or a whole plot of a season, whose fruit does not fit the rest of its variety.
#[derive(Clone, Debug, PartialEq)]
pub struct Unlike {
    /// The plant; `plant: None` means all plants of the plot in that season.
    pub key: PlantKey,
    /// Fruits concerned.
    pub fruits: u64,
    /// How many standard errors away, in the worst trait.
    pub distance: f64,
    /// What is odd, in words with numbers and units.
    pub words: String,
}

/// Finds the plants and plots that do not fit their variety, the worst first.
///
/// A plot all of whose plants do not fit is told once, as a plot: most likely a mislabelled lot.
#[must_use]
pub fn unlike(sums: &FruitSums, spread: &Spread, units: Units) -> Vec<Unlike> {
    let odd = odd_plants(sums, spread);
    let mut told: Vec<Unlike> =
        by_plot(sums, &odd).into_iter().map(|(key, odd)| tell(sums, key, odd, units)).collect();
    told.sort_by(|one, other| other.distance.total_cmp(&one.distance));
    told
}

/// The sums without the plants that do not fit, as a call rests on them and as a page should tell them.
#[must_use]
pub fn fitting<'a>(sums: &'a FruitSums, spread: &Spread) -> Cow<'a, FruitSums> {
    set_aside(sums, spread).0
}

/// The sums without the plants that do not fit, and how many records that leaves out. Where too many do not
/// fit, all stay.
pub(crate) fn set_aside<'a>(sums: &'a FruitSums, spread: &Spread) -> (Cow<'a, FruitSums>, u64) {
    let odd: BTreeSet<PlantKey> = odd_plants(sums, spread).into_keys().collect();
    let plants = sums.keys().count();
    if odd.is_empty() || plants < odd.len() * ONE_IN {
        return (Cow::Borrowed(sums), 0);
    }
    let rest = sums.without(|key| odd.contains(key));
    let left_out = sums.record_count() - rest.record_count();
    (Cow::Owned(rest), left_out)
}

/// A trait in which a plant does not fit.
#[derive(Clone, Copy, Debug)]
struct Odd {
    measure: Measure,
    mean: f64,
    middle: f64,
    distance: f64,
}

/// Every plant that does not fit, with its worst trait.
fn odd_plants(sums: &FruitSums, spread: &Spread) -> BTreeMap<PlantKey, Odd> {
    let mut worst: BTreeMap<PlantKey, Odd> = BTreeMap::new();
    for (of, or, measure) in TELLING {
        let plants = sums.pooled(of, or);
        let variances = spread.known(of).variances;
        for (key, odd) in odd_in(&plants, &variances, measure) {
            let known = worst.entry(key).or_insert(odd);
            if known.distance < odd.distance {
                *known = odd;
            }
        }
    }
    worst
}

fn odd_in(plants: &[(PlantKey, PlantSums)], variances: &Variances, measure: Measure) -> Vec<(PlantKey, Odd)> {
    if plants.len() < FEWEST_PLANTS {
        return Vec::new();
    }
    let Some(middle) = median(plants.iter().map(|(_, plant)| plant.mean)) else { return Vec::new() };
    #[expect(clippy::cast_precision_loss, reason = "counts of fruit and plants")]
    let odd = |(key, plant): &(PlantKey, PlantSums)| {
        let own =
            variances.season() + variances.plant() + variances.fruit() / plant.fruit_count.max(1) as f64;
        let error = (own * (1.0 + MEDIAN_OVER_MEAN / plants.len() as f64)).sqrt();
        let distance = (plant.mean - middle).abs() / error;
        let odd = Odd { measure, mean: plant.mean, middle, distance };
        (DOES_NOT_FIT <= distance).then_some((*key, odd))
    };
    plants.iter().filter_map(odd).collect()
}

fn median(values: impl Iterator<Item = f64>) -> Option<f64> {
    let mut values: Vec<f64> = values.collect();
    values.sort_by(f64::total_cmp);
    let upper = values.get(values.len() / 2)?;
    let lower = values.get((values.len().max(1) - 1) / 2)?;
    Some((upper + lower) / 2.0)
}

/// Joins the odd plants of a plot where no plant of it fits.
fn by_plot(sums: &FruitSums, odd: &BTreeMap<PlantKey, Odd>) -> BTreeMap<PlantKey, Odd> {
    let whole = |key: &PlantKey| PlantKey { plant: None, ..*key };
    let mut told: BTreeMap<PlantKey, Odd> = BTreeMap::new();
    for (key, trait_of) in odd {
        let mut mates = sums.keys().filter(|mate| whole(mate) == whole(key));
        let all_odd = key.plot.is_some() && mates.all(|mate| odd.contains_key(&mate));
        let known = told.entry(if all_odd { whole(key) } else { *key }).or_insert(*trait_of);
        if known.distance < trait_of.distance {
            *known = *trait_of;
        }
    }
    told
}

fn tell(sums: &FruitSums, key: PlantKey, odd: Odd, units: Units) -> Unlike {
    let mates = sums
        .keys()
        .filter(|mate| *mate == key || (key.plant.is_none() && PlantKey { plant: None, ..*mate } == key));
    let fruits = mates.map(|mate| sums.fruits_of(&mate)).sum();
    let told = |log: f64| value(odd.measure, odd.measure.value(log), units);
    let words = format!(
        "{} {} where the variety has {}: {:.0} times what plants and seasons differ by",
        odd.measure.words(),
        told(odd.mean),
        told(odd.middle),
        odd.distance
    );
    Unlike { key, fruits, distance: odd.distance, words }
}
