//! How far fruits, plants and seasons of one variety differ, as known before the house has measured any.
//!
//! All are standard deviations of natural logarithms: 0.30 is about 30 %. The measured ones come from wild
//! and cherry types for the most part, so they only start a house off; its own fruit soon outweighs them.

use crate::sums::Trait;
use statistics::component::Prior;
use statistics::variety_means::Priors;

/// How far a trait spreads at each level, as standard deviations of its logarithm.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Beforehand {
    /// Between seasons of one variety.
    pub season: f64,
    /// Between plants of one season.
    pub plant: f64,
    /// Between fruits of one plant.
    pub fruit: f64,
}

/// Between seasons of one variety in one garden, log weight. Source: 18-site trial (Ortiz et al. 2007,
/// Euphytica 153:119, data in agridat), what is left of log weight once site and genotype are taken out,
/// worked out in facts of the trade, section 5. It holds plot error too, so it is an upper figure.
pub const SEASON_LOG_WEIGHT: f64 = 0.19;

/// Between far-apart sites, log weight, over all varieties alike. Source: the same trial and sum. A garden
/// does not move this much from year to year; the figure tells how far a call may move elsewhere.
pub const SITE_LOG_WEIGHT: f64 = 0.27;

/// Weight. Source: fruits .30 to .33 within a plant, plants .19 to .24 within an accession (facts of the
/// trade, section 5, worked out from about 1,740 measured fruits); season as above.
const WEIGHT: Beforehand = Beforehand { season: SEASON_LOG_WEIGHT, plant: 0.21, fruit: 0.31 };

/// Length over width. Source: fruit .042, plant .02 (the same); season: taken as plants, no source.
const SHAPE: Beforehand = Beforehand { season: 0.02, plant: 0.02, fruit: 0.042 };

/// Length over width worked out from weight: the ellipsoid's 5 % comes on top of the fruits' own .042.
const IMPLIED_SHAPE: Beforehand = Beforehand { season: 0.02, plant: 0.03, fruit: 0.065 };

/// Neck over width. Common practice, no source: somewhat wider than length over width.
const NECK: Beforehand = Beforehand { season: 0.02, plant: 0.025, fruit: 0.05 };

/// Weight against size. Source: residual 5 % round the ellipsoid (facts of the trade, section 5); plant and
/// season: common practice, no source.
const FULLNESS: Beforehand = Beforehand { season: 0.02, plant: 0.02, fruit: 0.05 };

/// Length or width by itself: a third of weight's, as weight goes with the cube of size.
const SIZE: Beforehand = Beforehand { season: 0.063, plant: 0.07, fruit: 0.103 };

/// Locules. Common practice, no source.
const LOCULES: Beforehand = Beforehand { season: 0.06, plant: 0.08, fruit: 0.20 };

/// Lobes, plus one. Common practice, no source.
const LOBES: Beforehand = Beforehand { season: 0.10, plant: 0.10, fruit: 0.25 };

/// Soluble solids. Source: fruit .124, plant .10 (facts of the trade, section 5); season: taken as plants,
/// no source.
const SOLUBLE_SOLIDS: Beforehand = Beforehand { season: 0.10, plant: 0.10, fruit: 0.124 };

/// Dry matter. Source: fruit .13, plant .12 (the same); season: taken as plants, no source.
const DRY_MATTER: Beforehand = Beforehand { season: 0.12, plant: 0.12, fruit: 0.13 };

/// Degrees of freedom that the season's figure weighs: few, as gardens differ. Common practice, no source.
const SEASON_DEGREES: f64 = 4.0;
/// Degrees of freedom that the plants' figure weighs. Common practice, no source.
const PLANT_DEGREES: f64 = 8.0;
/// Degrees of freedom that the fruits' figure weighs. Common practice, no source.
const FRUIT_DEGREES: f64 = 20.0;

/// What is known of a trait beforehand.
#[must_use]
pub fn of(what: Trait) -> Beforehand {
    match what {
        Trait::Weight | Trait::SizedWeight => WEIGHT,
        Trait::Shape => SHAPE,
        Trait::ImpliedShape => IMPLIED_SHAPE,
        Trait::Neck => NECK,
        Trait::Fullness => FULLNESS,
        Trait::Length | Trait::Width => SIZE,
        Trait::Locules => LOCULES,
        Trait::Lobes => LOBES,
        Trait::SolubleSolids => SOLUBLE_SOLIDS,
        Trait::DryMatter => DRY_MATTER,
    }
}

/// Standard deviation between fruits of one plant, on the logarithm.
#[must_use]
pub fn fruit_sd(what: Trait) -> f64 {
    of(what).fruit
}

/// The same as priors of the mixed model.
#[must_use]
pub(super) fn priors(what: Trait) -> Priors {
    let Beforehand { season, plant, fruit } = of(what);
    Priors {
        season: Prior::new(season * season, SEASON_DEGREES),
        plant: Prior::new(plant * plant, PLANT_DEGREES),
        fruit: Prior::new(fruit * fruit, FRUIT_DEGREES),
    }
}
