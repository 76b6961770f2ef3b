//! The walk itself: down to where no exchange helps, then from a shaken best or a fresh deal down again.

#![expect(
    clippy::indexing_slicing,
    reason = "plots and treatments are numbered below the lengths of the lists that `search` checked"
)]

use super::faults::Faults;
use super::kept::Kept;
use super::{Effort, Found, Ground, Standing};
use crate::design::DesignFault;
use rand::RngExt;
use rand::seq::SliceRandom;
use rand_chacha::ChaCha8Rng;
use std::ops::ControlFlow;

/// Rounds through all plots after which a descent ends whatever it still gains: ten times what any needs.
const MOST_ROUNDS: usize = 100;
/// Every so many descents start from a fresh deal, the others from the best, shaken.
/// Tried on lattices of 25 to 100 treatments; common practice, no source.
const FRESH_EVERY: u32 = 8;
/// Exchanges that shake the best: few enough that most of it survives.
const SHAKES: std::ops::RangeInclusive<usize> = 2..=6;

/// A trial under way.
#[derive(Clone)]
struct Trial {
    plots: Vec<usize>,
    kept: Kept,
    faults: Faults,
}

impl Trial {
    fn of(ground: &Ground<'_>, plots: Vec<usize>) -> Result<Self, DesignFault> {
        let design = ground.start.with_plots(plots)?;
        let kept = Kept::of(&design, ground.treatments)?;
        let faults = Faults::of(ground, design.plots());
        Ok(Self { plots: design.plots, kept, faults })
    }

    fn sum(&self) -> f64 {
        self.kept.variance() + self.faults.sum()
    }

    /// What an exchange changes; beyond `limit` only roughly.
    fn change(&mut self, left: usize, right: usize, limit: f64) -> f64 {
        let variance = self.kept.change(&self.plots, left, right);
        // Faults cannot fall by more than there are.
        if limit + self.faults.sum() < variance {
            return variance;
        }
        variance + self.faults.change(&mut self.plots, left, right)
    }

    fn exchange(&mut self, left: usize, right: usize) -> Result<(), DesignFault> {
        self.faults.exchange(&mut self.plots, left, right);
        // The counts have moved the treatments already: the products want them as they were.
        self.plots.swap(left, right);
        self.kept.exchange(&mut self.plots, left, right)
    }
}

/// Which plots may exchange.
struct Rules<'a> {
    ground: &'a Ground<'a>,
    /// The plots of each region.
    regions: Vec<Vec<usize>>,
    /// The region's place in `regions` of each plot.
    region: Vec<usize>,
    penned: Vec<bool>,
}

impl<'a> Rules<'a> {
    fn of(ground: &'a Ground<'a>) -> Self {
        let mut names: Vec<usize> = ground.regions.to_vec();
        names.sort_unstable();
        names.dedup();
        let region: Vec<usize> =
            ground.regions.iter().map(|own| names.partition_point(|name| name < own)).collect();
        let mut regions = vec![Vec::new(); names.len()];
        region.iter().enumerate().for_each(|(plot, own)| regions[*own].push(plot));
        let penned =
            (0..ground.start.treatments()).map(|treatment| ground.penned.contains(&treatment)).collect();
        Self { ground, regions, region, penned }
    }

    fn partners(&self, plot: usize) -> &[usize] {
        &self.regions[self.region[plot]]
    }

    fn allow(&self, plots: &[usize], left: usize, right: usize) -> bool {
        let (a, b) = (plots[left], plots[right]);
        let stays = self.penned[a] || self.penned[b];
        a != b && (!stays || self.ground.pens[left] == self.ground.pens[right])
    }
}

/// How often every plot is exchanged with one of its region when plots are dealt anew.
const ROUNDS: usize = 4;

pub(super) fn dealt(ground: &Ground<'_>, chance: &mut ChaCha8Rng) -> Vec<usize> {
    let mut plots = ground.start.plots().to_vec();
    let rules = Rules::of(ground);
    for _ in 0..ROUNDS {
        for left in 0..plots.len() {
            let partners = rules.partners(left);
            let right = partners[chance.random_range(0..partners.len())];
            if rules.allow(&plots, left, right) {
                plots.swap(left, right);
            }
        }
    }
    plots
}

pub(super) fn judged(ground: &Ground<'_>) -> Result<f64, DesignFault> {
    Ok(Trial::of(ground, ground.start.plots().to_vec())?.sum())
}

pub(super) fn walk(
    ground: &Ground<'_>,
    effort: Effort,
    chance: &mut ChaCha8Rng,
    mut watch: impl FnMut(&Standing) -> ControlFlow<()>,
) -> Result<Found, DesignFault> {
    let rules = Rules::of(ground);
    let mut trial = Trial::of(ground, ground.start.plots().to_vec())?;
    let mut standing = Standing { looked: 0, descents: 0, best: f64::INFINITY };
    let mut best = trial.clone();
    loop {
        descend(&mut trial, &rules, chance, &mut standing.looked)?;
        standing.descents += 1;
        if trial.sum() < standing.best - trial.kept.least_gain() {
            standing.best = trial.sum();
            best.clone_from(&trial);
        }
        if watch(&standing).is_break() || effort.looks <= standing.looked {
            break;
        }
        trial = next_start(ground, &rules, &best, standing.descents, chance)?;
    }
    let (itself, same_pair, same_zone) = best.faults.counted();
    let design = ground.start.with_plots(best.plots)?;
    Ok(Found { design, sum: standing.best, itself, same_pair, same_zone, standing })
}

/// Takes the best exchange of one plot after another until a whole round finds none.
fn descend(
    trial: &mut Trial,
    rules: &Rules<'_>,
    chance: &mut ChaCha8Rng,
    looked: &mut u64,
) -> Result<(), DesignFault> {
    let mut order: Vec<usize> = (0..trial.plots.len()).collect();
    order.shuffle(chance);
    let mut since_gain = 0;
    for plot in order.iter().cycle().take(order.len() * MOST_ROUNDS) {
        match best_partner(trial, rules, *plot, looked) {
            Some(partner) => {
                trial.exchange(*plot, partner)?;
                since_gain = 0;
            }
            None => since_gain += 1,
        }
        if order.len() <= since_gain {
            return Ok(());
        }
    }
    Ok(())
}

fn best_partner(trial: &mut Trial, rules: &Rules<'_>, plot: usize, looked: &mut u64) -> Option<usize> {
    let mut best = (-trial.kept.least_gain(), None);
    *looked += rules.partners(plot).len() as u64;
    for partner in rules.partners(plot) {
        if rules.allow(&trial.plots, plot, *partner) {
            let change = trial.change(plot, *partner, best.0);
            if change < best.0 {
                best = (change, Some(*partner));
            }
        }
    }
    best.1
}

/// A fresh deal now and then, else the best with a few plots exchanged.
fn next_start(
    ground: &Ground<'_>,
    rules: &Rules<'_>,
    best: &Trial,
    descents: u32,
    chance: &mut ChaCha8Rng,
) -> Result<Trial, DesignFault> {
    if descents.is_multiple_of(FRESH_EVERY) {
        return Trial::of(ground, dealt(ground, chance));
    }
    let mut trial = best.clone();
    for _ in 0..chance.random_range(SHAKES) {
        let left = chance.random_range(0..trial.plots.len());
        let partners = rules.partners(left);
        let right = partners[chance.random_range(0..partners.len())];
        if rules.allow(&trial.plots, left, right) {
            trial.exchange(left, right)?;
        }
    }
    Ok(trial)
}
