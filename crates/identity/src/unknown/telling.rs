//! How far a fruit or a handful speaks for its variety, in words. Start at [`how_far`].

use crate::fruit_class::evidence::{Evidence, Line, LineEvidence};
use crate::fruit_class::words::{count, measure_of};
use crate::spread::Spread;
use crate::sums::FruitSums;
use statistics::variety_means::{PlantSums, Variances, variety_mean};

/// Plants that a handful is held against: one fruit of each.
const TEN_PLANTS: usize = 10;

/// What these fruits say of their variety's size, beside what one fruit of each of ten plants would;
/// `None` where no fruit was weighed or measured.
///
/// # Examples
/// `1 fruit of 1 plant stands for its variety here. Fruits, plants and seasons of one variety differ, so
/// the variety's weight is known give or take 42 %; one fruit of each of ten plants would tell it give or
/// take 22 %.`
#[must_use]
pub fn how_far(sums: &FruitSums, spread: &Spread) -> Option<String> {
    let evidence = Evidence::of(sums, spread);
    let size = evidence.line(Line::Size)?;
    let about = measure_of(Line::Size, &evidence).words();
    let known = seen(size)?;
    let plants = size.plants.len();
    let fruits: u64 = size.plants.iter().map(|plant| plant.fruit_count).sum();
    let stand = if fruits == 1 { "stands for its" } else { "stand for their" };
    let (fruits, counted) = (count(fruits, "fruit"), count(plants as u64, "plant"));
    let told = format!(
        "{fruits} of {counted} {stand} variety here. Fruits, plants and seasons of one variety differ, so the variety's {about} is known give or take {known:.0} %"
    );
    let better = ten_plants(&size.variances).filter(|better| *better + 1.0 < known);
    Some(match better {
        Some(better) => {
            format!("{told}; one fruit of each of ten plants would tell it give or take {better:.0} %.")
        }
        None => format!("{told}."),
    })
}

/// Give or take how many per cent.
fn seen(size: &LineEvidence) -> Option<f64> {
    size.seen().map(|seen| 100.0 * seen.variance.sqrt())
}

fn ten_plants(variances: &Variances) -> Option<f64> {
    let plants = [PlantSums { fruit_count: 1, ..PlantSums::empty(0) }; TEN_PLANTS];
    variety_mean(&plants, variances).map(|mean| 100.0 * mean.standard_error)
}
