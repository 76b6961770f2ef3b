//! Probit regression: a share whose normal deviate is a straight line in something known, fitted to counts.
//!
//! `share = Phi(start + slope x)`. Start at [`fit`].

use crate::normal::{chance_below, log_density, quantile};
use record::share::Share;

/// A count at one value of x.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Point {
    /// Where on the line.
    pub x: f64,
    /// Seen.
    pub seen: u32,
    /// Looked at; at least 1 and as many as were seen.
    pub looked_at: u32,
}

/// A fitted line on the probit scale.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Line {
    /// The deviate at x = 0.
    pub start: f64,
    /// What one unit of x adds.
    pub slope: f64,
    /// Variances of start and slope, and their covariance: the inverse of the expected information.
    pub covariance: Covariance,
    /// Twice the log-likelihood that a share of its own for each point would add.
    pub deviance: f64,
    /// Points less the two numbers estimated.
    pub degrees: u32,
}

/// Variances and the covariance of a line's two numbers.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Covariance {
    /// Variance of the start.
    pub start: f64,
    /// Variance of the slope.
    pub slope: f64,
    /// Covariance of the two.
    pub both: f64,
}

/// Why no line can be fitted.
#[derive(Clone, Copy, Debug, PartialEq, Eq, thiserror::Error)]
pub enum ProbitFault {
    /// A point saw more than was looked at, looked at nothing, or lies nowhere.
    #[error("a point is no count of a share")]
    NoCount,
    /// Fewer than two different x.
    #[error("one x alone gives no line")]
    OneX,
    /// The likelihood has no top: the counts part at an x, or all or nothing was seen.
    #[error("the counts part completely, so that no line fits best")]
    NoTop,
}

/// Steps at most: Fisher's scoring needs about ten.
const MOST_STEPS: u32 = 100;
/// Halvings of one step at most.
const MOST_HALVINGS: u32 = 30;
/// Twice the gain in log-likelihood that a step promises below which the line counts as found, to all its digits.
const SETTLED: f64 = 1e-24;
/// A promise that the rounded log-likelihood can no longer see: steps this small are taken on trust.
const UNSEEN: f64 = 1e-9;
/// A deviate beyond which a fitted share counts as all or nothing: none of ten thousand million.
const FARTHEST: f64 = 6.5;

/// Fits the line by maximum likelihood, with Fisher's scoring.
///
/// # Errors
/// [`ProbitFault`] where there is no best line.
///
/// # Source
/// McCullagh and Nelder, Generalized Linear Models, 2nd edition 1989, section 2.5 (from memory, unverified).
pub fn fit(points: &[Point]) -> Result<Line, ProbitFault> {
    if points.iter().any(|point| !point.x.is_finite() || point.looked_at < point.seen.max(1)) {
        return Err(ProbitFault::NoCount);
    }
    let scale = Scale::of(points).ok_or(ProbitFault::OneX)?;
    let mut line = (pooled(points), 0.0);
    let mut reached = scale.log_likelihood(points, line);
    for _ in 0..MOST_STEPS {
        let (score, information) = scale.score(points, line);
        let step = information.solve(score).ok_or(ProbitFault::NoTop)?;
        let promised = step.0 * score.0 + step.1 * score.1;
        if promised <= SETTLED {
            return told(points, &scale, line, information);
        }
        if promised <= UNSEEN {
            line = (line.0 + step.0, line.1 + step.1);
            reached = scale.log_likelihood(points, line);
            continue;
        }
        let lengths = (0..MOST_HALVINGS).map(|halving| 0.5_f64.powi(halving.cast_signed()));
        let tried = lengths.map(|length| (line.0 + length * step.0, line.1 + length * step.1));
        let better =
            tried.map(|line| (scale.log_likelihood(points, line), line)).find(|(at, _)| reached < *at);
        let Some((at, there)) = better else { return told(points, &scale, line, information) };
        (reached, line) = (at, there);
    }
    Err(ProbitFault::NoTop)
}

/// x moved to its middle and to unit width, so that days by the thousand lose no digits.
struct Scale {
    middle: f64,
    half: f64,
}

impl Scale {
    fn of(points: &[Point]) -> Option<Self> {
        let low = points.iter().map(|point| point.x).fold(f64::INFINITY, f64::min);
        let high = points.iter().map(|point| point.x).fold(f64::NEG_INFINITY, f64::max);
        let half = 0.5 * (high - low);
        (half.is_finite() && 0.0 < half).then_some(Self { middle: low + half, half })
    }

    fn place(&self, x: f64) -> f64 {
        (x - self.middle) / self.half
    }

    fn log_likelihood(&self, points: &[Point], (start, slope): (f64, f64)) -> f64 {
        let at = |point: &Point| log_likelihood(*point, start + slope * self.place(point.x));
        points.iter().map(at).sum()
    }

    fn score(&self, points: &[Point], (start, slope): (f64, f64)) -> ((f64, f64), Information) {
        let mut score = (0.0, 0.0);
        let mut information = Information::default();
        for point in points {
            let place = self.place(point.x);
            let deviate = start + slope * place;
            let (share, rest) = (chance_below(deviate), chance_below(-deviate));
            let density = log_density(deviate).exp();
            let (seen, looked_at) = (f64::from(point.seen), f64::from(point.looked_at));
            let pull = density * (seen / share - (looked_at - seen) / rest);
            let weight = looked_at * density * density / (share * rest);
            score = (score.0 + pull, score.1 + pull * place);
            information.add(weight, place);
        }
        (score, information)
    }
}

/// The log-likelihood of one point at a deviate, without the ways to choose.
#[must_use]
pub fn log_likelihood(point: Point, deviate: f64) -> f64 {
    let part = |count: u32, deviate: f64| {
        if count == 0 { 0.0 } else { f64::from(count) * chance_below(deviate).max(f64::MIN_POSITIVE).ln() }
    };
    part(point.seen, deviate) + part(point.looked_at.saturating_sub(point.seen), -deviate)
}

/// Expected information of the two numbers.
#[derive(Clone, Copy, Default)]
struct Information {
    start: f64,
    slope: f64,
    both: f64,
}

impl Information {
    fn add(&mut self, weight: f64, place: f64) {
        self.start += weight;
        self.both += weight * place;
        self.slope += weight * place * place;
    }

    fn determinant(&self) -> Option<f64> {
        let determinant = self.start * self.slope - self.both * self.both;
        (determinant.is_finite() && 0.0 < determinant).then_some(determinant)
    }

    fn solve(&self, (start, slope): (f64, f64)) -> Option<(f64, f64)> {
        let determinant = self.determinant()?;
        Some((
            (self.slope * start - self.both * slope) / determinant,
            (self.start * slope - self.both * start) / determinant,
        ))
    }
}

/// The deviate of the pooled share, kept off its ends.
fn pooled(points: &[Point]) -> f64 {
    let seen: f64 = points.iter().map(|point| f64::from(point.seen)).sum();
    let looked_at: f64 = points.iter().map(|point| f64::from(point.looked_at)).sum();
    Share::new((seen + 0.5) / (looked_at + 1.0)).and_then(quantile).unwrap_or(0.0)
}

fn told(
    points: &[Point],
    scale: &Scale,
    line: (f64, f64),
    information: Information,
) -> Result<Line, ProbitFault> {
    let apart = |point: &Point| FARTHEST < (line.0 + line.1 * scale.place(point.x)).abs();
    let determinant = information.determinant().ok_or(ProbitFault::NoTop)?;
    if points.iter().all(apart) {
        return Err(ProbitFault::NoTop);
    }
    let slope = line.1 / scale.half;
    // Variances on the scale of the search, then carried to x's own.
    let middle = information.slope / determinant;
    let own_slope = information.start / determinant / (scale.half * scale.half);
    let both = -information.both / determinant / scale.half;
    Ok(Line {
        start: line.0 - slope * scale.middle,
        slope,
        covariance: Covariance {
            start: middle - 2.0 * scale.middle * both + scale.middle * scale.middle * own_slope,
            slope: own_slope,
            both: both - scale.middle * own_slope,
        },
        deviance: deviance(points, scale, line),
        degrees: u32::try_from(points.len()).unwrap_or(u32::MAX).saturating_sub(2),
    })
}

fn deviance(points: &[Point], scale: &Scale, line: (f64, f64)) -> f64 {
    let best = |point: &Point| {
        let part = |count: u32| {
            let share = f64::from(count) / f64::from(point.looked_at);
            if count == 0 { 0.0 } else { f64::from(count) * share.ln() }
        };
        part(point.seen) + part(point.looked_at - point.seen)
    };
    let saturated: f64 = points.iter().map(best).sum();
    (2.0 * (saturated - scale.log_likelihood(points, line))).max(0.0)
}
