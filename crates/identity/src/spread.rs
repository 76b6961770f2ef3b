//! How far seasons, plants and fruits of one variety differ, trait by trait, over the whole house.
//!
//! One variety seldom has enough fruit to tell; a house has. Its variances are estimated over all varieties
//! at once by REML, leaning on published figures ([`beforehand`]) where it has measured too little, so that
//! a variety with eight fruits still gets an honest interval. Start at [`estimate`].

pub mod beforehand;

use crate::sums::traits::{TRAIT_COUNT, TRAITS};
use crate::sums::{FruitSums, Trait};
use rayon::prelude::{IntoParallelIterator, ParallelIterator};
use statistics::variety_means::{self, HouseSpread, PlantSums, Variances};

/// One trait's variances and what stands behind them.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct TraitSpread {
    /// The trait.
    pub of: Trait,
    /// Its variances, on the logarithm.
    pub variances: Variances,
    /// The house's own fit; `None` where the published figures stand alone.
    pub house: Option<HouseSpread>,
}

/// The house's variances of every trait.
#[derive(Clone, Debug, PartialEq)]
pub struct Spread {
    traits: Vec<TraitSpread>,
}

impl Spread {
    /// What is known before the house has measured anything.
    #[must_use]
    pub fn beforehand() -> Self {
        Self { traits: TRAITS.into_iter().map(|of| known(of, None)).collect() }
    }

    /// One trait's variances.
    #[must_use]
    pub fn of(&self, what: Trait) -> Option<Variances> {
        self.traits.get(what as usize).map(|known| known.variances)
    }

    /// One trait's spread with its standing.
    #[must_use]
    pub fn known(&self, what: Trait) -> TraitSpread {
        self.traits.get(what as usize).copied().unwrap_or_else(|| known(what, None))
    }

    /// Every trait's spread, in order.
    #[must_use]
    pub fn traits(&self) -> &[TraitSpread] {
        &self.traits
    }
}

/// Estimates every trait's variances over all varieties by REML, leaning on published values where the
/// house has measured too little.
///
/// # Shape
/// `varieties`: one a variety, in any order; the result does not depend on it beyond rounding.
#[must_use]
pub fn estimate(varieties: &[&FruitSums]) -> Spread {
    let traits: Vec<TraitSpread> = TRAITS.into_par_iter().map(|of| known(of, fit(varieties, of))).collect();
    debug_assert_eq!(traits.len(), TRAIT_COUNT);
    Spread { traits }
}

fn fit(varieties: &[&FruitSums], of: Trait) -> Option<HouseSpread> {
    let plants: Vec<Vec<PlantSums>> = varieties
        .iter()
        .map(|sums| sums.plants(of).into_iter().map(|(_, plant)| plant).collect::<Vec<_>>())
        .filter(|plants| !plants.is_empty())
        .collect();
    let slices: Vec<&[PlantSums]> = plants.iter().map(Vec::as_slice).collect();
    // A fault means that nothing can be compared yet; the published figures then stand alone.
    (!slices.is_empty()).then(|| variety_means::fit(&slices, &beforehand::priors(of)).ok()).flatten()
}

fn known(of: Trait, house: Option<HouseSpread>) -> TraitSpread {
    let own = house
        .and_then(|house| Variances::new(house.season.variance, house.plant.variance, house.fruit.variance));
    let variances = own.unwrap_or_else(|| published(of));
    TraitSpread { of, variances, house: own.and(house) }
}

#[expect(clippy::expect_used, reason = "published figures are constants; a test reads every one")]
fn published(of: Trait) -> Variances {
    let beforehand::Beforehand { season, plant, fruit } = beforehand::of(of);
    Variances::new(season * season, plant * plant, fruit * fruit).expect("constants are positive")
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_trait_is_known_beforehand() {
        let spread = Spread::beforehand();
        assert_eq!(spread.traits().len(), TRAIT_COUNT);
        for (of, known) in TRAITS.into_iter().zip(spread.traits()) {
            assert_eq!(known.of, of);
            assert!(0.0 < known.variances.fruit());
        }
    }

    #[test]
    fn a_house_without_fruit_keeps_the_published_figures() {
        assert_eq!(estimate(&[]), Spread::beforehand());
    }
}
