//! All traits in order, and how one fruit sample tells them.

use super::Trait;
use crate::ellipsoid;
use record::fruit::FruitSample;

/// How many traits there are.
pub const TRAIT_COUNT: usize = 12;

/// Every trait, in order.
pub const TRAITS: [Trait; TRAIT_COUNT] = [
    Trait::Weight,
    Trait::SizedWeight,
    Trait::Shape,
    Trait::ImpliedShape,
    Trait::Neck,
    Trait::Fullness,
    Trait::Length,
    Trait::Width,
    Trait::Locules,
    Trait::Lobes,
    Trait::SolubleSolids,
    Trait::DryMatter,
];

/// Tells every trait of one sample, as it is summed.
pub(super) fn of_sample(sample: &FruitSample, mut tell: impl FnMut(Trait, f64)) {
    let weight = log(sample.weight.map(record::mass::Grams::get));
    let length = log(sample.length.map(record::length::Millimetres::get));
    let width = log(sample.width.map(record::length::Millimetres::get));
    let neck = log(sample.neck_width.map(record::length::Millimetres::get));
    let mut maybe = |of: Trait, log: Option<f64>| {
        if let Some(log) = log {
            tell(of, log);
        }
    };
    maybe(Trait::Weight, weight);
    maybe(Trait::Length, length);
    maybe(Trait::Width, width);
    maybe(Trait::Neck, neck.zip(width).map(|(neck, width)| neck - width));
    match (weight, length, width) {
        (Some(weight), Some(length), Some(width)) => {
            maybe(Trait::Shape, Some(length - width));
            maybe(Trait::Fullness, Some(weight - ellipsoid::log_weight(length, width)));
        }
        (None, Some(length), Some(width)) => {
            maybe(Trait::Shape, Some(length - width));
            maybe(Trait::SizedWeight, Some(ellipsoid::log_weight(length, width)));
        }
        (Some(weight), None, Some(width)) => {
            maybe(Trait::ImpliedShape, Some(ellipsoid::log_shape_from_width(weight, width)));
        }
        (Some(weight), Some(length), None) => {
            maybe(Trait::ImpliedShape, Some(ellipsoid::log_shape_from_length(weight, length)));
        }
        _ => {}
    }
    maybe(Trait::Locules, log(sample.locules.map(f64::from)));
    maybe(Trait::Lobes, sample.lobes.map(|lobes| f64::from(lobes).ln_1p()));
    maybe(Trait::SolubleSolids, log(sample.soluble_solids.map(record::share::Percent::get)));
    maybe(Trait::DryMatter, log(sample.dry_matter.map(record::share::Percent::get)));
}

/// The logarithm of a measure above zero: a fruit of no weight was not weighed.
fn log(value: Option<f64>) -> Option<f64> {
    value.filter(|value| 0.0 < *value).map(f64::ln)
}
