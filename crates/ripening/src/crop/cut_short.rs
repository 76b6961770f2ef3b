//! When a crop came, from picks that end before it does: what was never picked, because frost came first, is not among them.
//!
//! So picks are held against each other only: the chance of each is that of a fruit of all those taken. Of a hump that had
//! come to its end this is the whole likelihood; of one cut short it is the part that does not take the last pick for the
//! end. Start at [`fit`].

use super::{Shape, come};
use statistics::censored::Reading;

/// The middle of a hump or the beginning of a stream, and the spread, on the logarithm of time.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Course {
    /// Mean of the logarithm of time.
    pub(super) middle: f64,
    /// Its standard deviation.
    pub(super) spread: f64,
}

/// Spreads that are looked among: what lies outside no picks of a season can tell.
const SPREADS: (f64, f64) = (0.02, 0.6);
/// Steps of the climb; it stops sooner where a step changes nothing.
const STEPS: usize = 40;
/// A step shorter than this on either scale changes no printed digit.
const DONE: f64 = 1e-9;
/// Half width of the differences that stand for derivatives.
const STEP: f64 = 1e-4;

/// Finds the middle (or beginning) and spread that make the picks likeliest, given all that they took together; `None` where
/// they do not tell.
///
/// # Shape
/// Readings as [`crate::picked::Picked::readings`] gives them, each with its amount. What a clear-out took was not ripe, and
/// is left out.
pub(super) fn fit(shape: Shape, readings: &[Reading], amounts: &[f64]) -> Option<Course> {
    let ends: Vec<(f64, f64)> = readings
        .iter()
        .zip(amounts)
        .filter_map(|(reading, amount)| match reading {
            Reading::Before(to) | Reading::Between(_, to) => Some((*to, *amount)),
            _ => None,
        })
        .collect();
    let total: f64 = ends.iter().map(|(_, amount)| amount).sum();
    let first = ends.first().map(|(to, _)| *to)?;
    (3 <= ends.len() && 0.0 < total && 0.0 < first).then_some(())?;
    let shares: Vec<(f64, f64)> = ends.iter().map(|(to, amount)| (*to, amount / total)).collect();
    let last = shares.last().map(|(to, _)| to.ln())?;
    // Somewhere between the first pick and the middle one is a fair place to begin from.
    let mut here = [first.ln().midpoint(first.ln().midpoint(last)), 0.15_f64.ln()];
    let mut height = likelihood(shape, &shares, here)?;
    for _ in 0..STEPS {
        let Some(step) = scoring_step(shape, &shares, here) else { break };
        let Some((next, risen)) = climbed(shape, &shares, here, step, height) else { break };
        let moved = (next[0] - here[0]).abs().max((next[1] - here[1]).abs());
        (here, height) = (next, risen);
        if moved < DONE {
            break;
        }
    }
    (here[0] < last).then(|| course(here))
}

/// The point as a course; its second number is the logarithm of the spread.
fn course([middle, spread]: [f64; 2]) -> Course {
    Course { middle, spread: spread.exp().clamp(SPREADS.0, SPREADS.1) }
}

/// Chance that a fruit of all those taken was taken at each pick.
fn chances(shape: Shape, shares: &[(f64, f64)], at: [f64; 2]) -> Vec<f64> {
    let Course { middle, spread } = course(at);
    let sums: Vec<f64> = shares.iter().map(|(to, _)| come(shape, middle, spread, *to)).collect();
    let whole = sums.last().copied().unwrap_or_default();
    let mut before = 0.0;
    let part = |sum: &f64| {
        let own = (sum - before) / whole;
        before = *sum;
        own
    };
    sums.iter().map(part).collect()
}

/// Smallest chance that is told from none: a pick before any plant can have begun is a slip, not an impossibility.
const LEAST: f64 = 1e-12;

fn likelihood(shape: Shape, shares: &[(f64, f64)], at: [f64; 2]) -> Option<f64> {
    let chances = chances(shape, shares, at);
    let height: f64 =
        chances.iter().zip(shares).map(|(chance, (_, share))| share * chance.max(LEAST).ln()).sum();
    height.is_finite().then_some(height)
}

/// Fisher's scoring step, held back a little so that two numbers the picks cannot part do not run away.
fn scoring_step(shape: Shape, shares: &[(f64, f64)], at: [f64; 2]) -> Option<[f64; 2]> {
    let middle = chances(shape, shares, at);
    let slope = |by: [f64; 2]| -> Vec<f64> {
        let (more, less) = (
            chances(shape, shares, [at[0] + by[0], at[1] + by[1]]),
            chances(shape, shares, [at[0] - by[0], at[1] - by[1]]),
        );
        more.iter().zip(less).map(|(more, less)| (more - less) / (2.0 * STEP)).collect()
    };
    let (first, second) = (slope([STEP, 0.0]), slope([0.0, STEP]));
    let (mut score, mut information) = ([0.0; 2], [1e-6, 0.0, 1e-6]);
    for (((chance, (_, share)), one), other) in middle.iter().zip(shares).zip(&first).zip(&second) {
        let chance = chance.max(LEAST);
        score[0] += share * one / chance;
        score[1] += share * other / chance;
        information[0] += one * one / chance;
        information[1] += one * other / chance;
        information[2] += other * other / chance;
    }
    let determinant = information[0] * information[2] - information[1].powi(2);
    let step = [
        (information[2] * score[0] - information[1] * score[1]) / determinant,
        (information[0] * score[1] - information[1] * score[0]) / determinant,
    ];
    step.iter().all(|part| part.is_finite()).then_some(step)
}

/// The first of ever shorter steps that leads higher.
fn climbed(
    shape: Shape,
    shares: &[(f64, f64)],
    here: [f64; 2],
    step: [f64; 2],
    height: f64,
) -> Option<([f64; 2], f64)> {
    let mut reach = 1.0 / (step[0].abs() / 0.3).max(step[1].abs() / 1.0).max(1.0);
    for _ in 0..20 {
        let next =
            [here[0] + reach * step[0], (here[1] + reach * step[1]).clamp(SPREADS.0.ln(), SPREADS.1.ln())];
        match likelihood(shape, shares, next) {
            Some(risen) if height < risen => return Some((next, risen)),
            _ => reach *= 0.5,
        }
    }
    None
}
