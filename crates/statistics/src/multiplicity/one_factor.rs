//! Correlations that come from one shared part: `r_ij = b_i b_j`, as differences from one check often have them.
//!
//! Such a family's chance is a single integral over the shared part. Other correlations are near enough to one
//! of these that only the small rest has to be found by lattice points.

use super::check::Question;
use super::rectangle::{Correlation, CorrelationFault};
use crate::normal::{chance_below, inner_quantile, log_density};
use crate::quadrature::Rule;

/// Shares of the common part, one a contrast.
#[derive(Clone, Debug)]
pub(crate) struct OneFactor {
    shares: Vec<f64>,
    /// Different shares and how many contrasts have each.
    kinds: Vec<(f64, f64)>,
}

/// Largest share of the common part: the integral grows too sharp to be cheap above it.
const LARGEST_SHARE: f64 = 0.99;

/// Rounds of fitting at most, and the change in shares that ends them. Correlations of one sign take some thirty.
const ROUNDS: u32 = 1000;
const SMALLEST_CHANGE: f64 = 1e-15;

/// Nodes a stretch, the longest stretch, and how much shorter it gets where a contrast's own part is small.
const NODES: u32 = 16;
const LONGEST_STRETCH: f64 = 2.0;
const STRETCH_PER_OWN_PART: f64 = 4.0;

/// Beyond this the shared part is not looked for: less than 1e-18 lies there.
const REACH: f64 = 9.0;

/// Correlations this close to those of one shared part are taken for them: chances then agree to nine digits.
const ONE_FACTOR: f64 = 1e-9;

/// How much the shared part is taken back, step by step, until what is left beside it is possible.
const TAKEN_BACK: f64 = 0.98;

impl OneFactor {
    /// The nearest shared part, and the correlations of what is beside it; `None` where it explains all.
    pub(crate) fn with_the_rest(
        correlation: &[Vec<f64>],
    ) -> Result<(Self, Option<Correlation>), CorrelationFault> {
        let whole = Correlation::new(correlation)?;
        let mut shared = Self::nearest(correlation);
        if shared.misfit(correlation) < ONE_FACTOR {
            return Ok((shared, None));
        }
        while SAME_SHARE < shared.largest() {
            if let Ok(beside) = Correlation::new(&shared.beside(correlation)) {
                return Ok((shared, Some(beside)));
            }
            shared = shared.scaled(TAKEN_BACK);
        }
        Ok((shared.scaled(0.0), Some(whole)))
    }

    fn largest(&self) -> f64 {
        self.shares.iter().map(|share| share.abs()).fold(0.0, f64::max)
    }

    /// The shares whose products come nearest to the correlations off the diagonal, by least squares.
    fn nearest(correlation: &[Vec<f64>]) -> Self {
        let mut shares = vec![0.7; correlation.len()];
        for _ in 0..ROUNDS {
            let mut change = 0.0_f64;
            for at in 0..shares.len() {
                let others = || shares.iter().zip(correlation.get(at).into_iter().flatten()).enumerate();
                let (mut with, mut own) = (0.0, 0.0);
                for (_, (share, r)) in others().filter(|(other, _)| *other != at) {
                    with += r * share;
                    own += share * share;
                }
                if let Some(share) = shares.get_mut(at).filter(|_| 0.0 < own) {
                    let better = (with / own).clamp(-LARGEST_SHARE, LARGEST_SHARE);
                    change = change.max((better - *share).abs());
                    *share = better;
                }
            }
            if change <= SMALLEST_CHANGE {
                break;
            }
        }
        Self::new(shares)
    }

    fn new(shares: Vec<f64>) -> Self {
        let mut kinds: Vec<(f64, f64)> = Vec::new();
        for share in &shares {
            match kinds.iter_mut().find(|(known, _)| (known - share).abs() < SAME_SHARE) {
                Some((_, count)) => *count += 1.0,
                None => kinds.push((*share, 1.0)),
            }
        }
        Self { shares, kinds }
    }

    /// Smaller shares, all by one factor.
    fn scaled(&self, factor: f64) -> Self {
        Self::new(self.shares.iter().map(|share| share * factor).collect())
    }

    /// How far the products are from the correlations at most.
    fn misfit(&self, correlation: &[Vec<f64>]) -> f64 {
        self.gaps(correlation).flatten().map(f64::abs).fold(0.0, f64::max)
    }

    /// Correlations of what each contrast has beside the shared part.
    fn beside(&self, correlation: &[Vec<f64>]) -> Vec<Vec<f64>> {
        let own: Vec<f64> = self.shares.iter().map(|share| own_part(*share)).collect();
        let scale = |(at, gaps): (usize, Vec<f64>)| {
            let row = own.get(at).copied().unwrap_or(1.0);
            let cell = |(other, (gap, column)): (usize, (f64, &f64))| {
                if at == other { 1.0 } else { gap / (row * column) }
            };
            gaps.into_iter().zip(&own).enumerate().map(cell).collect()
        };
        self.gaps(correlation).enumerate().map(scale).collect()
    }

    /// Correlations less the products of shares, nothing on the diagonal.
    fn gaps<'a>(&'a self, correlation: &'a [Vec<f64>]) -> impl Iterator<Item = Vec<f64>> + 'a {
        correlation.iter().zip(&self.shares).enumerate().map(move |(at, (row, own))| {
            let gap = |(other, (r, share)): (usize, (&f64, &f64))| {
                if at == other { 0.0 } else { r - own * share }
            };
            row.iter().zip(&self.shares).enumerate().map(gap).collect()
        })
    }

    /// The bounds, in its own standard deviations, of what each contrast has beside the shared part, where that
    /// part has a share `place` of its draws below it.
    pub(crate) fn bounds(
        &self,
        question: Question,
        threshold: f64,
        place: f64,
        bounds: &mut Vec<(f64, f64)>,
    ) {
        let z = inner_quantile(place.clamp(f64::EPSILON, 1.0 - f64::EPSILON));
        bounds.clear();
        bounds.extend(self.shares.iter().map(|share| {
            let (own, shift) = (own_part(*share), share * z);
            let low =
                if question == Question::Differs { -(threshold + shift) / own } else { f64::NEG_INFINITY };
            (low, (threshold - shift) / own)
        }));
    }

    /// The chance, for a known spread, that some contrast passes `threshold`.
    pub(crate) fn beyond(&self, question: Question, threshold: f64) -> f64 {
        let least = self.kinds.iter().map(|(share, _)| own_part(*share)).fold(1.0, f64::min);
        let stretch = LONGEST_STRETCH.min(STRETCH_PER_OWN_PART * least);
        let reach = REACH.max(threshold.abs() + 0.5 * REACH);
        let mut edges = vec![if question == Question::Differs { 0.0 } else { -reach }];
        while let Some(last) = edges.last().copied().filter(|last| *last < reach) {
            edges.push(last + stretch);
        }
        let integral = Rule::legendre(NODES).over_stretches(&edges, |z| {
            // The logarithm of "none passes", so that a small chance of passing is not lost beside 1.
            let none: f64 = self
                .kinds
                .iter()
                .map(|(share, count)| {
                    let (own, shift) = (own_part(*share), share * z);
                    let above = chance_below(-(threshold - shift) / own);
                    let below = chance_below(-(threshold + shift) / own);
                    let passes = if question == Question::Differs { above + below } else { above };
                    count * (-passes.min(1.0)).ln_1p()
                })
                .sum();
            log_density(z).exp() * -none.exp_m1()
        });
        (if question == Question::Differs { 2.0 * integral } else { integral }).min(1.0)
    }
}

/// What is left to a contrast itself.
fn own_part(share: f64) -> f64 {
    (1.0 - share * share).sqrt()
}

/// Shares this close count as one: chances are then the same to twelve digits.
const SAME_SHARE: f64 = 1e-13;
