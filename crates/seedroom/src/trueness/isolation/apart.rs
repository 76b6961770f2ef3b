//! Seed plants in a garden of several varieties: how far from the others they would stand, and whether a bed is long enough for it.
//!
//! Start at [`apart`].

use super::{Flower, IsolationGuide, KnownBy, ROUNDING_MM};
use record::length::Millimetres;

/// How a variety that seed is saved of would stand among others.
#[derive(Clone, Debug, PartialEq)]
pub struct Apart {
    /// The type of its flowers, with the distance that suits it.
    pub flower: Flower,
    /// How that is known.
    pub known_by: KnownBy,
    /// Where it can be had.
    pub reach: Reach,
}

/// Whether a garden is large enough for a distance.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Reach {
    /// No other variety is planted.
    Alone,
    /// The longest bed is at least so long, so that the two could stand at its ends.
    WithinABed,
    /// No bed is so long: another place, bagged trusses, or seed that may have crossed.
    BeyondTheBeds,
}

/// Holds the distance that suits a variety's flowers against the garden; `None` of a guide without flowers.
///
/// # Shape
/// `others`: varieties planted beside it. `longest`: the garden's longest bed; nothing where it has none.
#[must_use]
pub fn apart(
    guide: &IsolationGuide,
    (variety, fruit_class): (&str, Option<&str>),
    others: usize,
    longest: Option<Millimetres>,
) -> Option<Apart> {
    let (flower, known_by) = guide.flower(variety, fruit_class)?;
    let is_long = longest.is_some_and(|bed| flower.away.get() <= bed.get() + ROUNDING_MM);
    let reach = match others {
        0 => Reach::Alone,
        _ if is_long => Reach::WithinABed,
        _ => Reach::BeyondTheBeds,
    };
    Some(Apart { flower: flower.clone(), known_by, reach })
}
