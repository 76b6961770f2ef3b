//! The climb to the best variances: average-information Newton steps with a floor at zero.
//!
//! Both mixed models hand this file a function from three variances (outer level, inner level,
//! residual) to a [`Slope`]: the criterion, its exact score and its average information. Variances are
//! climbed in as they are, not as logarithms, so zero is an ordinary point: the score there says
//! whether the top lies inside or on the floor. The climb stops on the score alone.
//!
//! # Source
//! Average information: Gilmour, Thompson and Cullis 1995, Biometrics 51:1440-1450 (formula from
//! memory, confirmed by the tests against `lme4`).

use crate::component::Prior;
use crate::matrix::{Square, dot};

/// How many variances: outer level, inner level, residual.
pub(crate) const LEVELS: usize = 3;

/// Three numbers, one a level: outer, inner, residual.
pub(crate) type PerLevel<T> = [T; LEVELS];

/// What a criterion says at one point.
#[derive(Clone, Debug)]
pub(crate) struct Slope {
    /// -2 times the log-likelihood.
    pub(crate) criterion: f64,
    /// Derivatives of the log-likelihood by each variance.
    pub(crate) score: PerLevel<f64>,
    /// Average information of the variances.
    pub(crate) information: PerLevel<PerLevel<f64>>,
}

/// What holds while climbing.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Ground {
    /// Where to begin; above zero where free.
    pub(crate) start: PerLevel<f64>,
    /// Which variances may move.
    pub(crate) free: PerLevel<bool>,
    /// What was known beforehand.
    pub(crate) priors: PerLevel<Option<Prior>>,
}

/// Where the climb ended.
#[derive(Clone, Debug)]
pub(crate) struct Summit {
    /// The best variances.
    pub(crate) variances: PerLevel<f64>,
    /// Standard errors of those that are free and above zero.
    pub(crate) standard_errors: PerLevel<Option<f64>>,
    /// How often the criterion was worked out.
    pub(crate) evaluations: u32,
}

/// The climb is over when the expected gain `score' information^-1 score` falls below this: then no
/// variance is further than 1e-9 of its standard error from the top.
const DONE: f64 = 1e-18;
/// Gain at which the climb counts as over even though roundings keep it from [`DONE`].
const DONE_WITHIN_ROUNDING: f64 = 1e-12;
/// Steps before giving up; ordinary data need 5 to 15.
const MOST_STEPS: u32 = 200;
/// Halvings of one step before a plainer direction is tried; 2^-30 is no step at all.
const MOST_HALVINGS: u32 = 30;
/// Share of itself that a variance which must stay above zero keeps in one step.
const LEAST_KEPT: f64 = 0.05;
/// Relative rounding of a criterion summed over many terms.
const CRITERION_ROUNDING: f64 = 1e-12;

/// A gain larger than this share of the last one is slow; then the score's own change sets the step.
const SLOW: f64 = 0.01;
/// Share of a variance (or of the residual, near the floor) over which the score's change is taken:
/// about the square root of the score's own rounding.
const DIFFERENCE: f64 = 1e-6;

/// Climbs to the variances with the smallest criterion, or gives `None` where no top is reached.
pub(crate) fn climb(ground: &Ground, criterion: impl Fn(&PerLevel<f64>) -> Option<Slope>) -> Option<Summit> {
    let mut evaluations = 0;
    let mut look = |variances: &PerLevel<f64>| {
        evaluations += 1;
        criterion(variances).and_then(|slope| slope.with_priors(variances, ground))
    };
    let mut here = ground.start;
    let mut slope = look(&here)?;
    let mut last_gain = f64::INFINITY;
    let mut found = None;
    for _ in 0..MOST_STEPS {
        let moving = moving(&here, &slope, ground);
        let gain = dot(&slope.score, &average_step(&slope, &moving));
        let stuck = gain < DONE_WITHIN_ROUNDING && last_gain <= gain;
        if gain <= DONE || stuck {
            found = Some(moving);
            break;
        }
        let next = ascend(&here, &slope, &moving, ground, last_gain * SLOW < gain, &mut look);
        match next {
            Some(next) => (here, slope) = next,
            None if gain < DONE_WITHIN_ROUNDING => {
                found = Some(moving);
                break;
            }
            None => break,
        }
        last_gain = gain;
    }
    found.map(|moving| summit(here, &slope, &moving, evaluations))
}

/// One step that does not go down: Newton's where the average information has become slow, else its
/// own, else each variance by itself.
fn ascend(
    here: &PerLevel<f64>,
    slope: &Slope,
    moving: &PerLevel<bool>,
    ground: &Ground,
    slow: bool,
    look: &mut impl FnMut(&PerLevel<f64>) -> Option<Slope>,
) -> Option<(PerLevel<f64>, Slope)> {
    let newton = if slow { newton_step(here, slope, moving, look) } else { None };
    let directions = newton.into_iter().chain([average_step(slope, moving), plain_step(slope, moving)]);
    let mut found = directions.into_iter().map(|step| shorten(here, &step, slope, ground, look));
    found.find_map(|next| next)
}

/// Newton's step with the observed information, taken from the score's change along each variance;
/// `None` where the ground is not curved like a top.
fn newton_step(
    here: &PerLevel<f64>,
    slope: &Slope,
    moving: &PerLevel<bool>,
    look: &mut impl FnMut(&PerLevel<f64>) -> Option<Slope>,
) -> Option<PerLevel<f64>> {
    let [.., residual] = *here;
    let mut observed = [[0.0; LEVELS]; LEVELS];
    for (level, row) in observed.iter_mut().enumerate() {
        let mut aside = *here;
        let place = aside.get_mut(level)?;
        let before = *place;
        *place += DIFFERENCE * before.max(DIFFERENCE * residual);
        let width = *place - before;
        let there = look(&aside)?;
        let change = slope.score.iter().zip(there.score).map(|(here, there)| (here - there) / width);
        row.iter_mut().zip(change).for_each(|(cell, change)| *cell = change);
    }
    solve(&symmetric(&observed), &slope.score, moving)
}

/// The mean of a table and its transpose.
fn symmetric(table: &PerLevel<PerLevel<f64>>) -> PerLevel<PerLevel<f64>> {
    let [[a, b, c], [d, e, f], [g, h, i]] = *table;
    let [b, c, f] = [(b + d) / 2.0, (c + g) / 2.0, (f + h) / 2.0];
    [[a, b, c], [b, e, f], [c, f, i]]
}

/// `information^-1 score` over the moving variances, or `None` where that has no inverse.
fn solve(
    information: &PerLevel<PerLevel<f64>>,
    score: &PerLevel<f64>,
    moving: &PerLevel<bool>,
) -> Option<PerLevel<f64>> {
    let score: Vec<f64> =
        score.iter().zip(moving).filter(|(_, moves)| **moves).map(|(score, _)| *score).collect();
    let mut solved = Square::from_rows(information).part(moving).cholesky()?.solve(&score).into_iter();
    Some(moving.map(|moves| if moves { solved.next().unwrap_or(0.0) } else { 0.0 }))
}

impl Slope {
    /// Adds what the priors say; `None` where the sum is not a number to climb by.
    fn with_priors(mut self, variances: &PerLevel<f64>, ground: &Ground) -> Option<Self> {
        for (level, prior) in ground.priors.iter().enumerate() {
            if let (Some(prior), Some(variance)) = (prior, variances.get(level)) {
                self.add_prior(level, *prior, *variance);
            }
        }
        self.criterion.is_finite().then_some(self)
    }

    /// Adds `degrees * (ln v + v0 / v)` with its score and average information.
    fn add_prior(&mut self, level: usize, prior: Prior, variance: f64) {
        let (degrees, ratio) = (prior.degrees(), prior.variance() / variance);
        self.criterion += degrees * (variance.ln() + ratio);
        if let Some(score) = self.score.get_mut(level) {
            *score -= 0.5 * degrees * (1.0 - ratio) / variance;
        }
        if let Some(information) = self.information.get_mut(level).and_then(|row| row.get_mut(level)) {
            *information += 0.5 * degrees * ratio / (variance * variance);
        }
    }
}

/// The free variances, less those on the floor that the score holds down.
fn moving(here: &PerLevel<f64>, slope: &Slope, ground: &Ground) -> PerLevel<bool> {
    let mut moving = ground.free;
    for ((moves, variance), score) in moving.iter_mut().zip(here).zip(&slope.score) {
        *moves &= 0.0 < *variance || 0.0 < *score;
    }
    moving
}

/// The step of the average information, or the plain one where that has no inverse.
fn average_step(slope: &Slope, moving: &PerLevel<bool>) -> PerLevel<f64> {
    solve(&slope.information, &slope.score, moving).unwrap_or_else(|| plain_step(slope, moving))
}

/// Each moving variance on its own: `score / information`.
fn plain_step(slope: &Slope, moving: &PerLevel<bool>) -> PerLevel<f64> {
    let mut step = [0.0; LEVELS];
    for (level, to) in step.iter_mut().enumerate() {
        let own = slope.information.get(level).and_then(|row| row.get(level)).copied().unwrap_or(0.0);
        let score = slope.score.get(level).copied().unwrap_or(0.0);
        let moves = moving.get(level).copied().unwrap_or(false) && 0.0 < own;
        *to = if moves { score / own } else { 0.0 };
    }
    step
}

/// Halves a step until the criterion no longer rises, and gives where that leads.
fn shorten(
    here: &PerLevel<f64>,
    step: &PerLevel<f64>,
    slope: &Slope,
    ground: &Ground,
    look: &mut impl FnMut(&PerLevel<f64>) -> Option<Slope>,
) -> Option<(PerLevel<f64>, Slope)> {
    let highest = slope.criterion + CRITERION_ROUNDING * slope.criterion.abs().max(1.0);
    let mut length = 1.0;
    for _ in 0..MOST_HALVINGS {
        let next = walk(here, step, length, ground);
        match look(&next) {
            Some(found) if found.criterion <= highest => return Some((next, found)),
            _ => length *= 0.5,
        }
    }
    None
}

/// Goes `length` of a step, stopping at the floor.
fn walk(here: &PerLevel<f64>, step: &PerLevel<f64>, length: f64, ground: &Ground) -> PerLevel<f64> {
    let mut next = *here;
    for (level, (to, by)) in next.iter_mut().zip(step).enumerate() {
        let from = *to;
        *to = (from + length * by).max(if stays_positive(level, ground) { LEAST_KEPT * from } else { 0.0 });
    }
    next
}

/// The residual and whatever has a prior never reach zero.
fn stays_positive(level: usize, ground: &Ground) -> bool {
    level + 1 == LEVELS || ground.priors.get(level).is_some_and(Option::is_some)
}

/// Reads the standard errors at the top.
fn summit(variances: PerLevel<f64>, slope: &Slope, moving: &PerLevel<bool>, evaluations: u32) -> Summit {
    let inverse =
        Square::from_rows(&slope.information).part(moving).cholesky().map(|factor| factor.inverse());
    let mut place = 0..;
    let standard_errors = moving.map(|moves| {
        let at = if moves { place.next() } else { None }?;
        inverse.as_ref().map(|inverse| inverse.at(at, at).sqrt())
    });
    Summit { variances, standard_errors, evaluations }
}
