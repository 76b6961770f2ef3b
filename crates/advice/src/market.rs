//! Fruit by the basket, the cup and the plate, and the plants behind it.
//!
//! Baskets are dry measures and jars are liquid ones: a dry quart is a sixth larger. Pints are volumes, not weights; what
//! is sold is sold by net weight. Start at whichever measure is at hand.

use crate::jars::BUSHEL_POUNDS;
use record::mass::{GRAMS_PER_POUND, Grams};
use record::share::Share;

/// Millilitres in a U.S. dry pint. Source: NIST Handbook 44, Appendix C.
pub const DRY_PINT_MILLILITRES: f64 = 550.6105;
/// Litres in a struck bushel, 2150.42 cubic inches. Source: NIST Handbook 44, Appendix C.
pub const BUSHEL_LITRES: f64 = 35.239;
/// Millilitres in a U.S. cup, a quarter of the liquid quart. Source: NIST Handbook 44, Appendix C.
const CUP_MILLILITRES: f64 = 236.588;

/// Cups of cherry tomatoes in a pound: 12.1 quarter-cups. Source: U.S. Department of Agriculture, Food Buying Guide for
/// Child Nutrition, as printed by a state extension (2014).
pub const CHERRY_CUPS_A_POUND: f64 = 12.1 / 4.0;
/// Slices of an eighth of an inch in a pound: 8.53 quarter-cups of about 5 slices. Source: the same guide.
pub const SLICES_A_POUND: f64 = 8.53 * 5.0;
/// Part of fruit as bought that is left when it is cored and diced: 0.87 lb a pound. Source: the same guide.
const DICED: f64 = 0.87;

/// Weight of cherry tomatoes in a cup.
#[must_use]
pub fn cherry_cup() -> Grams {
    Grams::new(GRAMS_PER_POUND / CHERRY_CUPS_A_POUND).unwrap_or(Grams::NONE)
}

/// Weight in so many dry pints of fruit that weighs so much a cup.
#[must_use]
pub fn dry_pints(pints: u32, cup: Grams) -> Option<Grams> {
    Grams::new(f64::from(pints) * DRY_PINT_MILLILITRES / CUP_MILLILITRES * cup.get())
}

/// Weight of a bushel of tomatoes.
#[must_use]
pub fn bushel() -> Grams {
    Grams::new(BUSHEL_POUNDS * GRAMS_PER_POUND).unwrap_or(Grams::NONE)
}

/// Diced fruit from fruit as bought.
#[must_use]
pub fn diced(bought: Grams) -> Grams {
    Grams::new(bought.get() * DICED).unwrap_or(Grams::NONE)
}

/// Plants for so much fruit, if each bears its part: whole plants, rounded up.
///
/// `None` where a plant bears nothing. Plants of a kind differ about twofold between good and bad years, so this is a
/// check on a plan, not a plan.
#[must_use]
pub fn plants_for(fruit: Grams, a_plant: Grams) -> Option<u32> {
    let plants = (fruit.get() / a_plant.get()).ceil();
    #[expect(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "checked to lie within u32")]
    (plants.is_finite() && plants <= f64::from(u32::MAX)).then_some(plants as u32)
}

/// Part of its raw weight that is left of dried fruit: what trimming leaves, times solids over what is not water.
///
/// `None` where more would be left than there was. Published household figures are lower, for much is lost with the seeds.
#[must_use]
pub fn dried_share(trimmed: Share, solids: crate::solids::Total, moisture: Share) -> Option<Share> {
    use crate::solids::Strength;
    Share::new(trimmed.get() * solids.percent() / 100.0 / moisture.rest().get())
}
