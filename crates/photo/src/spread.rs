//! How well a fruit's measures are known: standard deviations of length, width and volume.
//!
//! What goes into them: the outline's own error in pixels; the scale, which is one for the whole photograph and grows less sure
//! away from the card; and that a fruit is no perfect solid of revolution. The last and the first were chosen on the made
//! pictures, so that intervals meant for nine in ten hold the truth there about so often. Start at [`spread`].

use crate::card::Card;
use crate::pose::Pose;
use crate::solid::{Axis, Solid};
use record::length::Millimetres;
use record::mass::Grams;

/// Standard deviation of the distance of two opposite edges, px: edges err together, for light bounces.
pub(crate) const EDGES: f64 = 0.7;
/// Relative error of the scale beside the card, and its growth for each mm away from its middle (facts: 0.1% at 100 mm, 0.4% at
/// 400 mm with 12 megapixels; a smaller picture and a lens that is not quite straight are worse).
const SCALE_AT_CARD: f64 = 0.002;
const SCALE_AWAY: f64 = 0.000_012;
/// Relative error of the length and of the volume of a fruit that is no perfect solid of revolution (facts, section 6: 1.5% for
/// round and plum-shaped, 5% for flat and ribbed ones).
const LENGTH_SHAPE: f64 = 0.015;
const FLAT_LENGTH_SHAPE: f64 = 0.035;
const VOLUME_SHAPE: f64 = 0.012;
const FLAT_VOLUME_SHAPE: f64 = 0.02;
/// Length over width below which a fruit is flat.
const FLAT: f64 = 0.9;
/// Relative error of the usual density (facts, section 6).
pub const DENSITY_SD: f64 = 0.025;
/// An interval of so many standard deviations on either side is meant to hold the truth nine times in ten.
pub const NINE_IN_TEN: f64 = 1.645;

/// Standard deviations of a fruit's measures.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Spread {
    /// Of the length, mm.
    pub length: f64,
    /// Of the width, mm.
    pub width: f64,
    /// Of the volume, cubic centimetres.
    pub volume: f64,
    /// Of the weight at the usual density, over the weight.
    pub weight_share: f64,
    /// Of the scale alone, over any length: the part that all fruit of one photograph share.
    pub scale_share: f64,
}

/// By how much the truth may lie on either side of a measure, nine times in ten.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Give {
    /// Of the length.
    pub length: Millimetres,
    /// Of the width.
    pub width: Millimetres,
    /// Of the weight at the usual density.
    pub weight: Grams,
}

impl Spread {
    /// The intervals that hold the truth nine times in ten, for a fruit of this weight.
    #[must_use]
    pub fn give(&self, weight: Grams) -> Option<Give> {
        Some(Give {
            length: Millimetres::new(NINE_IN_TEN * self.length)?,
            width: Millimetres::new(NINE_IN_TEN * self.width)?,
            weight: Grams::new(NINE_IN_TEN * self.weight_share * weight.get())?,
        })
    }
}

/// How well the measures of a lying fruit are known.
#[must_use]
pub fn spread(pose: &Pose, card: &Card, solid: &Solid) -> Spread {
    let middle = card.size.map(|side| side / 2.0);
    let away = (solid.middle[0] - middle[0]).hypot(solid.middle[1] - middle[1]);
    let steep = 1.0 + (pose.camera.tilt() / 20.0).powi(2);
    let scale_share = steep * (SCALE_AT_CARD + SCALE_AWAY * away);
    let at = pose.camera.sees([solid.middle[0], solid.middle[1], 0.0]);
    let edges = EDGES / pose.camera.pixels_a_millimetre(at);
    let width = edges.hypot(scale_share * solid.width);
    let flat = solid.length < FLAT * solid.width;
    let bulges = if flat { FLAT_LENGTH_SHAPE } else { LENGTH_SHAPE };
    let along = edges.hypot(scale_share * solid.length);
    let shape = along.hypot(bulges * solid.length);
    // Which of the two is the length is not known: their difference is part of the doubt.
    let doubt = match solid.axis {
        Axis::Known => 0.0,
        Axis::Unsure => 0.5 * (solid.length - solid.width).abs(),
    };
    let length = shape.hypot(doubt);
    let round = if flat { FLAT_VOLUME_SHAPE } else { VOLUME_SHAPE };
    let (along, across) = (along / solid.length.max(1e-9), width / solid.width.max(1e-9));
    // Taken the other way round, what is longer in one is shorter in the other: the volume changes by their ratio once.
    let volume_share = along.hypot(2.0 * across).hypot(round).hypot(doubt / solid.width.max(1e-9));
    Spread {
        length,
        width: width.hypot(doubt),
        volume: volume_share * solid.volume,
        weight_share: volume_share.hypot(DENSITY_SD),
        scale_share,
    }
}
