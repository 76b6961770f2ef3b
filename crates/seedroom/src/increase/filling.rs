//! Filling packets of one lot: the seed that goes into each, and what its label can say of it, by count and by weight.
//!
//! Start at [`filling`].

use super::packets::{Varies, fill};
use super::weight::SeedWeight;
use crate::germination::SURE;
use record::mass::Milligrams;
use record::stock::Fill;

/// What a packet is to hold.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Contents {
    /// So many seeds at least, weighed out by the lot's own seed weight.
    Seeds(u32),
    /// So much seed.
    Mass(Milligrams),
}

/// How packets of one lot are filled.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Filling {
    /// The seed that goes into each.
    pub fill: Fill,
    /// Seeds that 95 packets in 100 hold at least; `None` of seed that was never weighed.
    pub seeds: Option<u32>,
    /// What so many seeds weigh, or the mass that was asked for: the net weight of the label.
    pub net: Milligrams,
    /// Seeds by which each is filled over what it says, on the mean.
    pub over: Option<u32>,
}

/// Why packets cannot be filled so.
#[derive(Clone, Copy, Debug, PartialEq, Eq, thiserror::Error)]
pub enum FillingFault {
    /// Seeds are to be weighed out, and nobody has weighed any.
    #[error("its seed was never weighed, so it cannot be weighed out by count")]
    NotWeighed,
    /// No seed, or its weighings vary so much that no filling holds what it says.
    #[error("no packet can be filled so")]
    NoFilling,
}

/// Says how full to fill, so that 95 packets in 100 hold what the label says.
///
/// # Errors
/// [`FillingFault`].
pub fn filling(contents: Contents, weight: Option<&SeedWeight>) -> Result<Filling, FillingFault> {
    match contents {
        Contents::Seeds(seeds) => by_count(seeds, weight.ok_or(FillingFault::NotWeighed)?),
        Contents::Mass(mass) => by_mass(mass, weight),
    }
}

fn by_count(seeds: u32, weight: &SeedWeight) -> Result<Filling, FillingFault> {
    let filled = fill(seeds, varies(weight), SURE.share()).filter(|_| 0 < seeds);
    let filled = filled.ok_or(FillingFault::NoFilling)?;
    let mass = |seeds: u32| milligrams(f64::from(seeds) * each(weight)).ok_or(FillingFault::NoFilling);
    let fill = Fill::new(mass(filled.seeds)?).ok_or(FillingFault::NoFilling)?;
    Ok(Filling { fill, seeds: Some(seeds), net: mass(seeds)?, over: Some(filled.over) })
}

fn by_mass(mass: Milligrams, weight: Option<&SeedWeight>) -> Result<Filling, FillingFault> {
    let fill = Fill::new(mass).ok_or(FillingFault::NoFilling)?;
    let promised = weight.and_then(|weight| promised(mass, weight));
    Ok(Filling {
        fill,
        seeds: promised.map(|(seeds, _)| seeds),
        net: mass,
        over: promised.map(|(_, over)| over),
    })
}

/// A part of a number that is rounding and no seed.
const HAIR: f64 = 1.0e-12;

/// Seeds that 95 packets in 100 of a mass hold at least, and by how many the mean is over them.
fn promised(mass: Milligrams, weight: &SeedWeight) -> Option<(u32, u32)> {
    // A hair over, so that whole seeds are not lost to the last digit of a division.
    let mean = whole(1000.0 * mass.to_grams().get() / each(weight) * (1.0 + HAIR))?;
    let held =
        |seeds: &u32| fill(*seeds, varies(weight), SURE.share()).is_some_and(|filled| filled.seeds <= mean);
    // The seeds to fill for rise with the seeds promised: halve the stretch between one that holds and one that does not.
    let (mut low, mut high) = (0, mean.checked_add(1)?);
    while low + 1 < high {
        let middle = low + (high - low) / 2;
        if held(&middle) { low = middle } else { high = middle }
    }
    (0 < low).then_some((low, mean - low))
}

fn varies(weight: &SeedWeight) -> Varies {
    Varies::ByWeight { of_a_seed: weight.seed_variation() }
}

/// Milligrams of one seed: a thousand weigh as many grams.
fn each(weight: &SeedWeight) -> f64 {
    weight.thousand.get()
}

fn whole(count: f64) -> Option<u32> {
    #[expect(
        clippy::cast_possible_truncation,
        clippy::cast_sign_loss,
        reason = "whole, not negative and in reach"
    )]
    (0.0..f64::from(u32::MAX)).contains(&count).then_some(count.floor() as u32)
}

/// The nearest milligrams that are not less, so that no seed is rounded away.
fn milligrams(mass: f64) -> Option<Milligrams> {
    whole(mass.ceil()).map(|mg| Milligrams::new(mg.into()))
}
