//! Before planting: how clear a difference would come out, and how many plots that takes.
//!
//! Start at [`power`] and [`plots_needed`]; [`noncentral_t_above`] and [`noncentral_f_above`] are the chances
//! behind them: what t and F do when there is a difference.

use crate::estimated_spread::average;
use crate::normal::chance_below;
use crate::students_t::{Degrees, beyond};
use record::share::Share;
use statrs::function::beta::beta_reg;
use statrs::function::gamma::ln_gamma;

/// The chance that t comes out above `t` when the true difference is `shift` true standard errors.
///
/// `(z + shift) / s` with z standard normal and s the estimated spread over the true one, averaged over s.
#[must_use]
pub fn noncentral_t_above(t: f64, degrees: Degrees, shift: f64) -> Share {
    Share::new(t_above(t, degrees, shift).clamp(0.0, 1.0)).unwrap_or(Share::NONE)
}

/// How far, in standard deviations of z, the chance takes to go from all to nothing.
const BENDS: [f64; 7] = [-9.0, -6.0, -3.0, 0.0, 3.0, 6.0, 9.0];

fn t_above(t: f64, degrees: Degrees, shift: f64) -> f64 {
    let edges: Vec<f64> = BENDS.iter().map(|bend| (shift + bend) / t).filter(|s| s.is_finite()).collect();
    average(degrees, &edges, |s| chance_below(shift - t * s))
}

/// The chance that F comes out above `ratio` when the true means spread by `shift`.
///
/// `shift` is the sum of squared true effects over the variance of an estimate of one (the noncentrality);
/// `numerator` degrees belong to the means, `denominator` to the error.
///
/// # Source
/// Mixture of central chances with Poisson weights (standard theory), summed outwards from the largest weight.
#[must_use]
pub fn noncentral_f_above(ratio: f64, numerator: Degrees, denominator: Degrees, shift: f64) -> Share {
    let (top, bottom) = (0.5 * numerator.get(), 0.5 * denominator.get().min(MOST_DENOMINATOR));
    let explained = top * ratio.max(0.0);
    let left = bottom / (bottom + explained);
    let mean = 0.5 * shift.max(0.0);
    // `beta_reg` of the part left over keeps its digits where the chance is small.
    let term = |count: f64| {
        let log_weight = if mean > 0.0 { count * mean.ln() - mean - ln_gamma(count + 1.0) } else { 0.0 };
        log_weight.exp() * beta_reg(bottom, top + count, left)
    };
    let start = mean.floor();
    let mut sum = term(start);
    if 0.0 < mean {
        for direction in [-1.0, 1.0] {
            let mut count = start + direction;
            while 0.0 <= count && (count - start).abs() < POISSON_REACH * (mean + POISSON_REACH).sqrt() {
                sum += term(count);
                count += direction;
            }
        }
    }
    Share::new(sum.clamp(0.0, 1.0)).unwrap_or(Share::NONE)
}

/// Error degrees counted as endless by the mixture: more would only cost digits.
const MOST_DENOMINATOR: f64 = 1e7;

/// Standard deviations of the Poisson weights that are summed; beyond lies less than 1e-16.
const POISSON_REACH: f64 = 9.0;

/// The chance that a true difference is found: that it, or a larger one the same way, passes the two-sided test at
/// `level` (0.95 for an interval of 95 %).
///
/// `in_errors`: the true difference over its standard error; its sign does not matter. A difference
/// found the wrong way round is not counted.
#[must_use]
pub fn power(in_errors: f64, degrees: Degrees, level: Share) -> Share {
    let tails = level.rest().get();
    if tails <= 0.0 {
        return Share::NONE;
    }
    noncentral_t_above(beyond(tails, degrees), degrees, in_errors.abs())
}

/// A comparison that is planned.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Plan {
    /// Variance of one plot about its variety's mean, in squared units of the trait.
    pub plot_variance: f64,
    /// How much of the information of complete blocks the layout keeps.
    pub efficiency: Share,
    /// The true difference that should be found, in units of the trait.
    pub difference: f64,
    /// Level of the test or interval, such as 0.95.
    pub level: Share,
}

impl Plan {
    /// The standard error of a difference between two varieties of `plots` plots each, in units of the trait;
    /// `None` where no plot or no information makes it endless.
    #[must_use]
    pub fn error_of_difference(&self, plots: u32) -> Option<f64> {
        let variance = 2.0 * self.plot_variance / (f64::from(plots) * self.efficiency.get());
        (variance.is_finite() && 0.0 <= variance).then(|| variance.sqrt())
    }

    /// The chance that the difference is found with `plots` plots a variety.
    #[must_use]
    pub fn power(&self, plots: u32, degrees: Degrees) -> Share {
        let in_errors = self.error_of_difference(plots).map(|error| self.difference.abs() / error);
        match in_errors {
            Some(clear) if clear.is_infinite() => Share::ALL,
            Some(clear) if clear.is_finite() => power(clear, degrees, self.level),
            _ => Share::NONE,
        }
    }

    /// The least true difference that is found with chance `wanted`, in units of the trait; `None` where no
    /// difference is found so surely.
    #[must_use]
    pub fn least_difference(&self, plots: u32, degrees: Degrees, wanted: Share) -> Option<f64> {
        let error = self.error_of_difference(plots)?;
        let possible = 0.0 < self.level.rest().get() && 0.0 < wanted.rest().get();
        let missed = |clear: f64| power(clear, degrees, self.level).rest().get();
        possible.then(|| error * crate::roots::falling_from(0.0, 4.0, wanted.rest().get(), missed))
    }
}

/// The fewest plots a variety that find the planned difference with chance `wanted`.
///
/// `degrees(plots)` tells how well the spread will be known, `None` where not at all: for v varieties in complete
/// blocks (v - 1)(plots - 1). `None` where `most` plots are not enough.
#[must_use]
pub fn plots_needed(
    plan: &Plan,
    wanted: Share,
    most: u32,
    degrees: impl Fn(u32) -> Option<Degrees>,
) -> Option<u32> {
    (1..=most).find(|plots| degrees(*plots).is_some_and(|known| wanted <= plan.power(*plots, known)))
}
