//! What a spread that had to be estimated does to a chance worked out for a known one.
//!
//! The estimated spread over the true one, s, is a chi draw over the root of its degrees. A chance for a known
//! spread, as a function of s, is averaged over s by Gauss and Legendre's rule on stretches that follow both
//! the density of s and the function. [`TailTable`] keeps a tail, so that a thousand averages cost little more
//! than one.

use crate::chebyshev::Curve;
use crate::quadrature::Rule;
use crate::students_t::Degrees;

/// Nodes a stretch.
const NODES: u32 = 16;

/// How far from 1 the spread may wander, in units of one over the root of its degrees: beyond lies less than 1e-15.
const WANDER: f64 = 8.5;

/// Stretches across the body of the density, each about four of its standard deviations wide.
const BODY_STRETCHES: u32 = 6;

/// Below this many degrees the density has a corner at zero that a polynomial follows only in small steps.
const CORNERED: f64 = 3.0;

/// Those steps: each stretch ten times as long as the one before it.
const CORNER_EDGES: [f64; 10] = [1e-10, 1e-9, 1e-8, 1e-7, 1e-6, 1e-5, 1e-4, 1e-3, 1e-2, 1e-1];

/// The mean of `chance(s)` over the estimated spread; `edges` are where `chance` bends.
pub(crate) fn average(degrees: Degrees, edges: &[f64], chance: impl Fn(f64) -> f64) -> f64 {
    if degrees.endless() {
        return chance(1.0);
    }
    let n = degrees.get();
    // Up to a factor, which dividing by the whole takes out.
    let density = |s: f64| ((n - 1.0) * s.ln() - 0.5 * n * (s * s - 1.0)).exp();
    let (rule, stretches) = (Rule::legendre(NODES), stretches(n, edges));
    let (mut whole, mut sum) = (0.0, 0.0);
    for (low, high) in stretches.iter().zip(stretches.iter().skip(1)) {
        let half = 0.5 * (high - low);
        for (x, weight) in rule.points() {
            let s = low + half * (1.0 + x);
            let mass = half * weight * density(s);
            whole += mass;
            sum += if 0.0 < mass { mass * chance(s) } else { 0.0 };
        }
    }
    sum / whole
}

/// Ascending edges of the stretches to integrate on.
fn stretches(n: f64, edges: &[f64]) -> Vec<f64> {
    let (low, high) = ((1.0 - WANDER / n.sqrt()).max(0.0), 1.0 + WANDER / n.sqrt());
    let body =
        (0..=BODY_STRETCHES).map(|step| low + (high - low) * f64::from(step) / f64::from(BODY_STRETCHES));
    let corner = CORNER_EDGES.iter().copied().filter(|_| n < CORNERED);
    let mut all: Vec<f64> = body.chain(corner).chain(edges.iter().copied()).collect();
    all.retain(|edge| low <= *edge && *edge <= high);
    all.sort_by(f64::total_cmp);
    all.dedup();
    all
}

/// Nodes a stretch of a table: enough for twelve digits of the tails kept here.
const TABLE_NODES: u32 = 14;

/// The chance of something beyond a threshold, for a known spread, kept as logarithms on stretches.
#[derive(Clone, Debug)]
pub(crate) struct TailTable {
    edges: Vec<f64>,
    logs: Vec<Curve>,
}

impl TailTable {
    /// Tabulates `tail` between the ascending `edges`; below the first it is 1, above the last nothing.
    pub(crate) fn new(edges: &[f64], tail: impl Fn(f64) -> f64) -> Self {
        let log_tail = |threshold: f64| tail(threshold).clamp(f64::MIN_POSITIVE, 1.0).ln();
        let stretch = |(low, high): (&f64, &f64)| Curve::new(*low, *high, TABLE_NODES, log_tail);
        let logs = edges.iter().zip(edges.iter().skip(1)).map(stretch).collect();
        Self { edges: edges.to_vec(), logs }
    }

    /// The chance beyond `threshold` with a known spread.
    pub(crate) fn known(&self, threshold: f64) -> f64 {
        if self.edges.first().is_none_or(|first| threshold < *first) {
            return 1.0;
        }
        let stretch = self.logs.partition_point(|curve| curve.high() < threshold);
        self.logs.get(stretch).map_or(0.0, |curve| curve.at(threshold).exp().min(1.0))
    }

    /// The chance beyond `threshold` estimated spreads.
    pub(crate) fn averaged(&self, threshold: f64, degrees: Degrees) -> f64 {
        let edges: Vec<f64> =
            self.edges.iter().map(|edge| edge / threshold).filter(|edge| edge.is_finite()).collect();
        average(degrees, &edges, |s| self.known(threshold * s)).clamp(0.0, 1.0)
    }
}
