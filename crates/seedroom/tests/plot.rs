//! Plants that do not go with their plot, beside R.

#![expect(clippy::unwrap_used, reason = "a test stops at what it cannot work out")]

use proptest::prelude::*;
use record::growout::PlantNumber;
use record::id::Id;
use record::share::Share;
use seedroom::trueness::mixture::{Drawn, two_kinds};
use seedroom::trueness::plot::{Measured, PlantOf, PlotFault, strangers};

fn share(share: f64) -> Share {
    Share::new(share).unwrap()
}

/// Fruit weight in grams and length in millimetres of ten plants; the ninth is heavy for its length.
const PLANTS: [[f64; 2]; 10] = [
    [212.0, 58.0],
    [198.0, 55.0],
    [225.0, 60.0],
    [205.0, 57.0],
    [231.0, 62.0],
    [190.0, 54.0],
    [219.0, 59.0],
    [208.0, 56.0],
    [330.0, 61.0],
    [202.0, 57.0],
];

fn plant(number: u32) -> PlantOf {
    PlantOf { plot: Id::from_uuid(uuid::Uuid::nil()), number: PlantNumber(number) }
}

fn plot(plants: &[[f64; 2]]) -> Vec<Measured> {
    (1..)
        .zip(plants)
        .map(|(number, means)| Measured { plant: plant(number), means: means.to_vec() })
        .collect()
}

/// R: `pbeta(n*d/(n-1)^2, p/2, (n-p-1)/2, lower=FALSE)` with `d <- mahalanobis(X, colMeans(X), cov(X))` of the logarithms
/// is 4.660134318e-07 for the ninth plant, and ten times that by Holm's rule; the next is 0.124.
#[test]
fn a_stranger_is_told() {
    let told = strangers(&plot(&PLANTS), share(0.05)).unwrap();
    assert_eq!(told.iter().map(|stranger| stranger.plant).collect::<Vec<_>>(), [plant(9)]);
    assert!((told[0].chance.get() - 4.660_134_318e-6).abs() < 5e-15);
}

#[test]
fn what_cannot_be_compared_is_refused() {
    assert_eq!(strangers(&[], share(0.05)), Err(PlotFault::Measures));
    assert_eq!(strangers(&plot(&[[0.0, 1.0]; 6]), share(0.05)), Err(PlotFault::Measures));
    assert_eq!(strangers(&plot(&PLANTS[..3]), share(0.05)), Err(PlotFault::TooFew));
    assert_eq!(strangers(&plot(&[[200.0, 58.0]; 8]), share(0.05)), Err(PlotFault::TooFew));
}

/// Four plants of small, long fruit among eight of large, round ones: no one of them is far out, and together they are two kinds.
const MIXED: [[f64; 2]; 12] = [
    [212.0, 58.0],
    [198.0, 55.0],
    [83.0, 71.0],
    [205.0, 57.0],
    [231.0, 62.0],
    [79.0, 69.0],
    [219.0, 59.0],
    [88.0, 74.0],
    [190.0, 54.0],
    [74.0, 68.0],
    [225.0, 60.0],
    [208.0, 56.0],
];

#[test]
fn two_kinds_are_told_that_no_stranger_tells() {
    let mut drawn = Drawn::default();
    assert_eq!(strangers(&plot(&MIXED), share(0.05)).unwrap(), []);
    let found = two_kinds(&plot(&MIXED), share(0.01), &mut drawn).unwrap().unwrap();
    assert_eq!(found.fewer, [3, 6, 8, 10].map(plant));
    // The geometric means of 83, 79, 88 and 74 grams, and of the other eight.
    assert!(
        (found.middles[0].0 - 80.83).abs() < 0.01 && (found.middles[0].1 - 210.61).abs() < 0.01,
        "{found:?}"
    );
    // One kind is not parted, and too few plants tell nothing.
    assert_eq!(two_kinds(&plot(&PLANTS[..8]), share(0.01), &mut drawn), Ok(None));
    assert_eq!(two_kinds(&plot(&MIXED[..5]), share(0.05), &mut drawn), Ok(None));
    assert_eq!(two_kinds(&[], share(0.05), &mut drawn), Err(PlotFault::Measures));
}

proptest! {
    /// Ounces or grams, inches or millimetres: the same plants are strangers.
    #[test]
    fn units_do_not_matter(ounces in 0.01..100.0_f64, inches in 0.01..100.0_f64) {
        let other = PLANTS.map(|[weight, length]| [weight * ounces, length * inches]);
        let told = strangers(&plot(&other), share(0.05)).unwrap();
        prop_assert_eq!(told.len(), 1);
        prop_assert!((told[0].chance.get() / 4.660_134_318e-6 - 1.0).abs() < 1e-6);
    }
}
