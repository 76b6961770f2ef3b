//! Varieties of a plan that seed is saved of: from which of the others they would stand apart, and how far.
//!
//! Start at [`of`]. The plan is not bound by it: a kitchen garden is smaller than the distance, and what follows is told.

use super::ground::Ground;
use super::planned::Line;
use super::request::Garden;
use crate::fault::HouseFault;
use crate::folder::House;
use crate::lots::isolation::guide;
use record::length::Millimetres;
pub use seedroom::trueness::isolation::apart::Reach;
use seedroom::trueness::isolation::apart::{self, Apart};
use std::collections::BTreeSet;

/// A variety that seed is saved of.
#[derive(Clone, Debug)]
pub struct ForSeed {
    /// Its name.
    pub variety: String,
    /// The other varieties of the plan.
    pub others: Vec<String>,
    /// How far it would stand from them.
    pub apart: Apart,
}

/// Those of a plan, in the order in which they were asked for.
///
/// # Errors
/// The isolation guide's fault; what the disk refuses.
pub(super) fn of(
    house: &House,
    ground: &Ground,
    garden: &Garden,
    lines: &[Line],
) -> Result<Vec<ForSeed>, HouseFault> {
    if ground.said.for_seed.is_empty() {
        return Ok(Vec::new());
    }
    let guide = guide(house)?;
    let planted: BTreeSet<&str> = lines.iter().map(|line| line.variety.as_str()).collect();
    let lengths = garden.beds.iter().map(|bed| bed.length);
    let longest = lengths.max_by(|one: &Millimetres, other| one.get().total_cmp(&other.get()));
    let own = ground.said.for_seed.iter().filter(|name| planted.contains(name.as_str()));
    let told = own.filter_map(|name| {
        let others: Vec<String> =
            planted.iter().filter(|other| *other != name).map(|other| (*other).to_owned()).collect();
        let candidate = ground.candidates.iter().find(|candidate| candidate.listed.variety.name == *name)?;
        let fruit = candidate.listed.fruit.as_ref();
        let class = fruit.and_then(|fruit| fruit.call.verdict.as_deref());
        let apart = apart::apart(&guide, (name, class), others.len(), longest)?;
        Some(ForSeed { variety: name.clone(), others, apart })
    });
    Ok(told.collect())
}
