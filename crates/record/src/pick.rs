//! Picks: fruit taken from a plot or plant on one day, and what of it was culled.

use crate::mass::Grams;
use crate::subject::Subject;
use jiff::civil::Date;

/// Fruit taken on one day. At least one of count and weight is known.
#[derive(Clone, Debug, PartialEq)]
pub struct Pick {
    /// Variety, season, plot and plant.
    pub subject: Subject,
    /// The day.
    pub picked_on: Date,
    /// Sound fruit, counted.
    pub fruit_count: Option<u32>,
    /// Sound fruit, weighed.
    pub weight: Option<Grams>,
    /// Fruit taken and not counted as sound, by cause.
    pub culls: Vec<Cull>,
}

/// Fruit culled from one pick for one cause.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Cull {
    /// Why.
    pub cause: CullCause,
    /// How many.
    pub fruit_count: Option<u32>,
    /// How heavy, together.
    pub weight: Option<Grams>,
}

/// Why fruit was culled.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum CullCause {
    /// Cracked or split.
    Cracked,
    /// Catfaced.
    Catfaced,
    /// Blossom-end rot.
    BlossomEndRot,
    /// Any other rot.
    Rotten,
    /// Sunscald.
    Sunscald,
    /// Eaten by insects or animals.
    Eaten,
    /// Too small.
    Undersized,
    /// Another cause, or none given.
    Other,
}
