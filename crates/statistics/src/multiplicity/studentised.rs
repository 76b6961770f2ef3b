//! The studentised range: how far apart the largest and smallest of several equal means come out by chance.
//!
//! `Q = (largest - smallest) / s`, with s the estimated standard deviation of one mean. Start at
//! [`StudentisedRange`]. Tails are kept: a chance of 1e-20 keeps its digits.

use crate::estimated_spread::TailTable;
use crate::normal::{chance_below, log_density};
use crate::quadrature::Rule;
use crate::roots;
use crate::students_t::Degrees;
use record::share::Share;

/// The range of a number of means; made once, asked often.
#[derive(Clone, Debug)]
pub struct StudentisedRange {
    tail: TailTable,
}

/// Where the table of a known spread has its edges, in standard deviations of one mean; beyond the last, chances
/// are under 1e-60.
const EDGES: [f64; 11] = [0.0, 0.75, 1.5, 2.5, 3.5, 5.0, 7.0, 9.0, 12.0, 16.0, 24.0];

/// Nodes a stretch, and the stretch's length: fine enough for the largest of a thousand means, whose density
/// is a third as wide as that of one.
const NODES: u32 = 16;
const STRETCH: f64 = 2.0;

/// How far below the mean the largest of several may come out: beyond lies less than 1e-19.
const LOWEST: f64 = -9.0;

impl StudentisedRange {
    /// The range of `means` equal means; `None` for fewer than two.
    #[must_use]
    pub fn new(means: u32) -> Option<Self> {
        let rule = Rule::legendre(NODES);
        (2 <= means).then(|| Self { tail: TailTable::new(&EDGES, |range| beyond(&rule, means, range)) })
    }

    /// The chance of a range above `range`.
    #[must_use]
    pub fn chance_above(&self, range: f64, degrees: Degrees) -> Share {
        Share::new(self.tail.averaged(range.max(0.0), degrees)).unwrap_or(Share::ALL)
    }

    /// The range that is not passed with chance `level`; `None` for certainty.
    #[must_use]
    pub fn quantile(&self, level: Share, degrees: Degrees) -> Option<f64> {
        let above = level.rest().get();
        let log_tail = |range: f64| self.tail.averaged(range, degrees).ln();
        (0.0 < above).then(|| roots::falling_from(0.0, 4.0, above.ln(), log_tail))
    }
}

/// The chance that the range of `means` standard normal draws passes `range`.
///
/// With z the largest: `k` times the integral of `phi(z) (Phi(z)^(k-1) - (Phi(z) - Phi(z - w))^(k-1))`, the
/// difference of powers taken through logarithms so that a small one is not lost in two large ones.
fn beyond(rule: &Rule, means: u32, range: f64) -> f64 {
    let others = f64::from(means - 1);
    let highest = (-LOWEST).max(0.5 * range - LOWEST);
    let mut edges = vec![LOWEST];
    while let Some(last) = edges.last().copied().filter(|last| *last < highest) {
        edges.push(last + STRETCH);
    }
    let integral = rule.over_stretches(&edges, |z| {
        let (below, out) = (chance_below(z), chance_below(z - range));
        log_density(z).exp() * below.powf(others) * -(others * (-out / below).ln_1p()).exp_m1()
    });
    (f64::from(means) * integral).min(1.0)
}
