//! Packets that the seed of a lot makes, and whether that seed will still be good when they are wanted.
//!
//! Start at [`packets`] and [`Lasts::until`].

use jiff::civil::Date;
use record::mass::{Grams, Milligrams};

/// The thousand-seed weight where nobody weighed: the middle of 8 000 to 12 000 seeds to the ounce. Source: a newspaper's
/// garden column (weak); weigh the lot.
const USUAL_THOUSAND_G: f64 = 2.9;

/// The thousand-seed weight that is taken where nobody weighed.
#[must_use]
pub fn usual_thousand() -> Grams {
    Grams::new(USUAL_THOUSAND_G).unwrap_or(Grams::NONE)
}

/// What a house holds of a lot.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Held {
    /// Its mass.
    pub mass: Milligrams,
    /// Its thousand-seed weight, where it was weighed.
    pub thousand: Option<Grams>,
}

/// Whole packets of so many seeds.
#[must_use]
pub fn packets(held: Held, seeds_each: u32) -> u32 {
    let thousand = held.thousand.map(Grams::get).filter(|grams| 0.0 < *grams).unwrap_or(USUAL_THOUSAND_G);
    let seeds = 1000.0 * held.mass.to_grams().get() / thousand;
    #[expect(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "kept in reach")]
    let whole = (seeds / f64::from(seeds_each.max(1)) + HAIR).clamp(0.0, f64::from(u32::MAX)).floor() as u32;
    whole
}

/// A part of a packet that is rounding.
const HAIR: f64 = 1e-9;

/// Whether seed is expected to be good on a day.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Lasts {
    /// It is expected to be above the minimum.
    Yes,
    /// It is under it already.
    Under,
    /// It is expected to fall under it before, about that day.
    FallsUnder(Date),
    /// Nobody knows: it was never tested, and its harvest is not dated.
    NotKnown,
}

impl Lasts {
    /// Judges a lot that is under the minimum now, or is expected to fall under it about some day.
    #[must_use]
    pub fn until(day: Date, standing: Standing) -> Self {
        match standing {
            Standing::Under => Self::Under,
            Standing::Above(None) => Self::NotKnown,
            Standing::Above(Some(about)) if about < day => Self::FallsUnder(about),
            Standing::Above(Some(_)) => Self::Yes,
        }
    }
}

/// How a lot stands to the minimum.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Standing {
    /// Its last test was under it.
    Under,
    /// Not shown to be under it; the day about which it is expected to fall under it, where somebody can tell.
    Above(Option<Date>),
}
