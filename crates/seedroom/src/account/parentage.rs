//! What the parents of a lot keep of what is rare in its variety.

use crate::germination::SURE;
use crate::trueness::parents::{chance_kept, plants_to_keep};
use record::share::{Share, WholePercent};

/// The share of plants that carry what is taken for rare. Common practice, no source.
pub const RARE: WholePercent = WholePercent::of::<5>();

/// What so many parents keep.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Parentage {
    /// Plants that its fruit was taken from.
    pub plants: u32,
    /// The chance that what 1 plant in 20 carries is among them.
    pub kept: Share,
    /// Plants that keep it with 95 in 100.
    pub enough: u32,
}

/// Says what so many parents keep.
///
/// # Examples
/// 20 plants keep what 1 in 20 carries with 64 in 100; 59 are enough.
#[must_use]
pub fn parentage(plants: u32) -> Option<Parentage> {
    let enough = plants_to_keep(RARE.share(), SURE.share())?;
    Some(Parentage { plants, kept: chance_kept(RARE.share(), plants), enough })
}
