//! Exchanges plots until no exchange makes the trial better, from many starts, always the same for one seed.
//!
//! [`search`] takes a [`Ground`]: a design to start from, which plots may exchange, which are neighbours, which
//! zones treatments should be spread over. What is made small is
//!
//! `mean variance of a difference / what it would be without blocking + aside * (neighbour and zone faults) / plots`
//!
//! Each exchange is judged in a fixed number of steps, whatever the size of the trial, from products that are
//! kept up to date (see `kept`). Effort is counted in exchanges looked at, never in seconds, so that a slow
//! machine finds the same trial.

mod faults;
mod kept;
mod walk;

use super::{Design, DesignFault, Treatments, checked_ratio};
use rand_chacha::ChaCha8Rng;
use std::ops::ControlFlow;

/// What the search may change, and what it should heed.
///
/// # Shape
/// `regions`, `pens` and every list of `zones`: one number a plot. `penned`: treatments. `neighbours`: pairs
/// of plots, each pair once.
#[derive(Clone, Debug)]
pub struct Ground<'a> {
    /// Where to start: treatments in plots, and the blockings.
    pub start: &'a Design,
    /// Treatments taken as fixed, or as drawn with a variance ratio.
    pub treatments: Treatments,
    /// Only plots of one region exchange; a replicate is a region, so that it stays whole.
    pub regions: &'a [usize],
    /// A narrower place that penned treatments never leave, such as a block that must keep its checks.
    pub pens: &'a [usize],
    /// Treatments that stay in their pen.
    pub penned: &'a [usize],
    /// Plots that stand side by side.
    pub neighbours: &'a [(usize, usize)],
    /// Partitions of the plots over which the plots of one treatment should be spread.
    pub zones: &'a [Vec<usize>],
    /// What each fault weighs beside efficiency.
    pub weights: Weights,
}

/// What each kind of fault weighs, in shares of the mean variance if every plot had one.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Weights {
    /// Two plots of one treatment side by side.
    pub itself: f64,
    /// One pair of treatments side by side once more than the first time.
    pub same_pair: f64,
    /// Two plots of one treatment in one zone.
    pub same_zone: f64,
}

/// Chosen so that a plot beside its own replicate is given up for about a hundredth of the trial's information and
/// a repeated pair for less; common practice, no source.
impl Default for Weights {
    fn default() -> Self {
        Self { itself: 0.5, same_pair: 0.1, same_zone: 0.05 }
    }
}

/// How long to look.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Effort {
    /// Exchanges looked at before the search ends with the descent it is in.
    pub looks: u64,
}

/// Where a search stands, told after every descent.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Standing {
    /// Exchanges looked at so far.
    pub looked: u64,
    /// Descents done so far.
    pub descents: u32,
    /// The best sum of variance and faults so far.
    pub best: f64,
}

/// What a search found.
#[derive(Clone, Debug, PartialEq)]
pub struct Found {
    /// The best treatments in plots, with the same blockings.
    pub design: Design,
    /// Its sum of variance and faults.
    pub sum: f64,
    /// Neighbour pairs that hold one treatment twice.
    pub itself: usize,
    /// How often pairs stand side by side beyond the first time.
    pub same_pair: usize,
    /// Pairs of plots of one treatment in one zone.
    pub same_zone: usize,
    /// Where the search ended.
    pub standing: Standing,
}

/// Looks for better treatments in plots, as long as `watch` lets it.
///
/// # Errors
/// [`DesignFault`] where lists do not have the design's length or a ratio is none.
pub fn search(
    ground: &Ground<'_>,
    effort: Effort,
    chance: &mut ChaCha8Rng,
    watch: impl FnMut(&Standing) -> ControlFlow<()>,
) -> Result<Found, DesignFault> {
    check(ground)?;
    walk::walk(ground, effort, chance, watch)
}

/// Deals the treatments of each region anew by chance, penned ones within their pens: a start that owes nothing
/// to the order in which treatments were named.
///
/// # Errors
/// As [`search`].
pub fn dealt(ground: &Ground<'_>, chance: &mut ChaCha8Rng) -> Result<Design, DesignFault> {
    check(ground)?;
    ground.start.with_plots(walk::dealt(ground, chance))
}

/// The sum of variance and faults of the start itself, on the scale of [`Found::sum`].
///
/// # Errors
/// As [`search`].
pub fn judge(ground: &Ground<'_>) -> Result<f64, DesignFault> {
    check(ground)?;
    walk::judged(ground)
}

fn check(ground: &Ground<'_>) -> Result<(), DesignFault> {
    let plots = ground.start.plots.len();
    let lists =
        [ground.regions.len(), ground.pens.len()].into_iter().chain(ground.zones.iter().map(Vec::len));
    if let Some(other) = lists.into_iter().find(|length| *length != plots) {
        return Err(DesignFault::Lengths { plots, other });
    }
    let highest = ground.zones.iter().flatten().copied().max().unwrap_or(0);
    if plots <= highest {
        return Err(DesignFault::Numbering { highest, plots });
    }
    let beyond = ground.neighbours.iter().map(|(left, right)| *left.max(right)).find(|plot| plots <= *plot);
    if let Some(other) = beyond {
        return Err(DesignFault::Lengths { plots, other });
    }
    match ground.treatments {
        Treatments::Random { ratio } => checked_ratio(ratio),
        Treatments::Fixed => Ok(()),
    }
}
