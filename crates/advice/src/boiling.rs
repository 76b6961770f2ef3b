//! Boiling down: raw fruit to pulp to a product of the strength wanted, by the mass of solids that stays.
//!
//! Nothing is lost but waste at the strainer and water from the pot. Start at [`pulp`] and [`boil_down`];
//! [`fruit_for`] runs the sum backwards. Heat and hours are in [`crate::burner`].

use crate::solids::Strength;
use record::mass::Grams;
use record::share::Share;

/// The lesser and the greater end of what may be.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Between<T> {
    /// The lesser end.
    pub low: T,
    /// The greater end.
    pub high: T,
}

/// Part of the raw fruit that a home kitchen loses to trimming, core, skin and seed: least and most of what was weighed.
///
/// # Source
/// 0.27: a cook's weights of several years, half trimming and half mill (a forum's page). 0.35: computed from the U.S.
/// Department of Agriculture's Complete Guide to Home Canning (2015), 3.25 lb of fruit to a quart of juice.
pub const HOME_WASTE: Between<f64> = Between { low: 0.27, high: 0.35 };

/// What a home kitchen may lose, as shares.
#[must_use]
pub fn home_waste() -> Between<Share> {
    let share = |part| Share::new(part).unwrap_or(Share::NONE);
    Between { low: share(HOME_WASTE.low), high: share(HOME_WASTE.high) }
}

/// Pulp or juice from raw fruit, less what stays in the mill and on the board.
#[must_use]
pub fn pulp(raw: Grams, waste: Share) -> Grams {
    scaled(raw, waste.rest().get())
}

/// What pulp becomes in the pot.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct BoiledDown {
    /// The product.
    pub product: Grams,
    /// The water that has to leave as steam.
    pub water: Grams,
}

/// Boils pulp down to a strength. Pulp that is strong enough stays as it is.
///
/// Product = pulp x s0 / s1, both strengths by the same measure; the rest is water.
///
/// # Examples
/// 10 kg of pulp at 5 % make 2.5 kg at 20 %, and 7.5 kg of water leave.
#[must_use]
pub fn boil_down<S: Strength>(pulp: Grams, from: S, to: S) -> BoiledDown {
    let kept = (from.percent() / to.percent()).min(1.0);
    BoiledDown { product: scaled(pulp, kept), water: scaled(pulp, 1.0 - kept) }
}

/// Raw fruit for so much product, or `None` where waste leaves nothing.
#[must_use]
pub fn fruit_for<S: Strength>(product: Grams, waste: Share, from: S, to: S) -> Option<Grams> {
    let pulp = product.get() * (to.percent() / from.percent()).max(1.0);
    Grams::new(pulp / waste.rest().get())
}

/// Strength of the feed that leaves so much product at a strength, in per cent; `None` without a feed.
#[must_use]
pub fn strength_before<S: Strength>(feed: Grams, water: Grams, to: S) -> Option<f64> {
    let kept = 1.0 - water.get() / feed.get();
    (0.0 < kept && kept <= 1.0).then_some(to.percent() * kept)
}

/// A part of a mass, from none to all of it, which is a mass again.
fn scaled(mass: Grams, part: f64) -> Grams {
    Grams::new(mass.get() * part).unwrap_or(Grams::NONE)
}
