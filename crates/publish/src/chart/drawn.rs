//! Looks as pictures, before paper gives them their size.

use crate::catalogue::Portrait;
use drawing::look::FruitLook;
use drawing::plant::{PlantLook, plant};
use drawing::portrait::portrait;
use drawing::scale::Scale;
use record::language::Units;

/// Pixels a millimetre at which plants are drawn: two metres take 400. A choice of the drawing.
const PLANT_SCALE: f64 = 0.2;

/// A fruit with its cut face.
pub(super) fn fruit(look: &FruitLook, units: Units) -> Option<Portrait> {
    Portrait::drawn(&portrait(look, Scale::LIFE_SIZE, units), Scale::LIFE_SIZE)
}

/// A plant on its stake.
pub(super) fn stem(look: &PlantLook) -> Option<Portrait> {
    let scale = Scale::new(PLANT_SCALE)?;
    Portrait::drawn(&plant(look, scale), scale)
}
