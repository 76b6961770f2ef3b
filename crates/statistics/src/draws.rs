//! Reproducible chance: the same key gives the same draws on every machine and in any order of work.
//!
//! [`stream`] is a seeded generator for one named purpose (a variety, a trait, a plot). [`NormalPoints`]
//! are points spread evenly through a normal cloud: with a few hundred of them a class probability is
//! as steady as with many thousand random draws. Make them once and reuse them for every variety.

mod even;

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
    /// Sobol's sequence put through the normal quantile. Powers of two (256, 512, ..) are the most even. From
    /// the eleventh dimension on, coordinates are plain seeded draws.
    #[must_use]
    pub fn new(dimensions: usize, count: usize) -> Self {
        let mut coordinates = Vec::with_capacity(dimensions.saturating_mul(count));
        let mut beyond = stream(&["normal points", "beyond the even axes"]);
        for point in even::points(dimensions, u32::try_from(count).unwrap_or(u32::MAX)) {
            coordinates.extend(point.into_iter().map(inner_quantile));
            coordinates.extend((even::AXES..dimensions).map(|_| normal(&mut beyond)));
        }
        Self { dimensions, coordinates }
    }

    /// The points, each a slice as long as there are dimensions.
    pub fn iter(&self) -> impl Iterator<Item = &[f64]> {
        self.coordinates.chunks_exact(self.dimensions.max(1))
    }
}
