//! Reproducible chance: the same key gives the same draws on every machine and in any order of work.
//!
//! [`stream`] is a seeded generator for one named purpose (a variety, a trait, a plot). [`NormalPoints`]
//! are points spread evenly through a normal cloud: with a few hundred of them a class probability is
//! as steady as with many thousand random draws. Make them once and reuse them for every variety.

use crate::normal::inner_quantile;
use rand::SeedableRng;
use rand_chacha::ChaCha8Rng;
use rand_distr::{Distribution, StandardNormal, StudentT};
use sha2::{Digest, Sha256};

/// A generator that depends on nothing but `key`: one key for each purpose and subject, such as
/// `["fruit class", variety]`.
#[must_use]
pub fn stream(key: &[&str]) -> ChaCha8Rng {
    let mut hash = Sha256::new();
    for part in key {
        // The length goes first, so that ["ab", "c"] and ["a", "bc"] are different keys.
        hash.update((part.len() as u64).to_le_bytes());
        hash.update(part.as_bytes());
    }
    ChaCha8Rng::from_seed(hash.finalize().into())
}

/// One standard normal draw: mean 0, standard deviation 1.
pub fn normal(stream: &mut ChaCha8Rng) -> f64 {
    StandardNormal.sample(stream)
}

/// One draw of Student's t; `None` unless `degrees` of freedom are above 0.
pub fn student(stream: &mut ChaCha8Rng, degrees: f64) -> Option<f64> {
    StudentT::new(degrees).ok().map(|student| student.sample(stream))
}

/// Evenly spread standard normal points in a few dimensions.
#[derive(Clone, Debug)]
pub struct NormalPoints {
    dimensions: usize,
    coordinates: Vec<f64>,
}

impl NormalPoints {
    /// Makes `count` points of `dimensions` independent standard normal coordinates each, always the same.
    ///
    /// Point k is `k / g, k / g^2, ..` less its whole part, with g the positive root of
    /// `g^(dimensions + 1) = g + 1`, put through the normal quantile. Good for up to some eight dimensions.
    ///
    /// # Source
    /// The golden-ratio sequence widened to more dimensions (Roberts 2018, from memory, unverified); its
    /// evenness is tested here and not taken on trust.
    #[must_use]
    pub fn new(dimensions: usize, count: usize) -> Self {
        let ratio = widened_golden_ratio(dimensions);
        let mut places = vec![MIDDLE; dimensions];
        let mut coordinates = Vec::with_capacity(dimensions.saturating_mul(count));
        for _ in 0..count {
            let mut step = 1.0;
            for place in &mut places {
                step /= ratio;
                *place = (*place + step).fract();
                coordinates.push(inner_quantile(place.max(f64::MIN_POSITIVE)));
            }
        }
        Self { dimensions, coordinates }
    }

    /// The points, each a slice as long as there are dimensions.
    pub fn iter(&self) -> impl Iterator<Item = &[f64]> {
        self.coordinates.chunks_exact(self.dimensions.max(1))
    }
}

/// Where the sequence begins in every dimension: the middle, so that it leans to neither side.
const MIDDLE: f64 = 0.5;

/// The positive root of `g^(dimensions + 1) = g + 1`; the golden ratio for one dimension.
fn widened_golden_ratio(dimensions: usize) -> f64 {
    /// Each round shrinks the error by more than half, so these reach the last digit.
    const ROUNDS: usize = 64;
    #[expect(clippy::cast_precision_loss, reason = "a handful of dimensions")]
    let power = 1.0 / (dimensions as f64 + 1.0);
    (0..ROUNDS).fold(2.0, |ratio: f64, _| (1.0 + ratio).powf(power))
}

#[cfg(test)]
mod tests {
    use super::*;

    /// In one dimension the root is the golden ratio, in two the plastic number 1.324717957244746.
    #[test]
    fn ratios_are_the_known_numbers() {
        assert!((widened_golden_ratio(1) - 0.5 * (1.0 + 5.0_f64.sqrt())).abs() < 1e-15);
        assert!((widened_golden_ratio(2) - 1.324_717_957_244_746).abs() < 1e-15);
    }
}
