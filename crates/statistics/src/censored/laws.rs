//! The laws, centred on nothing: logarithms of their tails and densities.

use super::Law;
use crate::{normal, roots};
use statrs::function::gamma::{gamma_lr, gamma_ur};

/// A law of the scatter.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Standard {
    Normal,
    /// The least of many: `1 - exp(-exp(z))`.
    Least,
    Logistic,
    /// Logarithm of a gamma draw of mean 1; its shape is one over the scale squared.
    LogGamma,
}

/// Below this the normal tail is taken from its series: the error function underflows soon after.
const NORMAL_SERIES: f64 = -30.0;

impl Standard {
    pub(super) fn of(law: Law) -> Self {
        match law {
            Law::LogNormal | Law::Normal => Self::Normal,
            Law::Weibull => Self::Least,
            Law::LogLogistic => Self::Logistic,
            Law::Gamma => Self::LogGamma,
        }
    }

    /// Logarithms of the chances below and above z; not for the gamma, which has no scale of its own.
    pub(super) fn log_tails(self, z: f64) -> (f64, f64) {
        match self {
            Self::Normal | Self::LogGamma => (log_normal_tail(z), log_normal_tail(-z)),
            Self::Least => {
                let hazard = z.exp();
                ((-(-hazard).exp_m1()).ln(), -hazard)
            }
            Self::Logistic => (-log_one_and(-z), -log_one_and(z)),
        }
    }

    /// Logarithm of the density at z, and the density's slope over itself.
    pub(super) fn log_density(self, z: f64) -> (f64, f64) {
        match self {
            Self::Normal | Self::LogGamma => (normal::log_density(z), -z),
            Self::Least => (z - z.exp(), 1.0 - z.exp()),
            Self::Logistic => (-log_one_and(z) - log_one_and(-z), -(0.5 * z).tanh()),
        }
    }

    /// Where a share lies below, from the location, and its slope by the logarithm of the scale.
    pub(super) fn place_of(self, share: f64, log_scale: f64) -> (f64, f64) {
        let scale = log_scale.exp();
        let z = match self {
            Self::Normal => normal::inner_quantile(share),
            Self::Least => (-(-share).ln_1p()).ln(),
            Self::Logistic => share.ln() - (-share).ln_1p(),
            Self::LogGamma => {
                let place = |log_scale: f64| log_gamma_place(share, log_scale);
                let slope = (place(log_scale + NUDGE) - place(log_scale - NUDGE)) / (2.0 * NUDGE);
                return (place(log_scale), slope);
            }
        };
        (scale * z, scale * z)
    }
}

/// Step of a slope that has no closed form: its error is the square of it, its rounding some 1e-10.
const NUDGE: f64 = 1e-5;

/// `ln(1 + e^z)`, without overflow.
fn log_one_and(z: f64) -> f64 {
    z.max(0.0) + (-z.abs()).exp().ln_1p()
}

fn log_normal_tail(z: f64) -> f64 {
    if NORMAL_SERIES < z {
        return normal::chance_below(z).ln();
    }
    let square = (z * z).recip();
    // The first four terms leave less than 1e-13 at 30.
    let series = 1.0 - square * (1.0 - 3.0 * square * (1.0 - 5.0 * square * (1.0 - 7.0 * square)));
    normal::log_density(z) - (-z).ln() + series.ln()
}

/// Chances below and above a logarithm of time, for a gamma draw of mean `e^location`.
pub(super) fn gamma_tails(place: f64, location: f64, log_scale: f64) -> (f64, f64) {
    let shape = (-2.0 * log_scale).exp();
    let at = shape * (place - location).exp();
    if at <= 0.0 {
        (0.0, 1.0)
    } else if at.is_finite() {
        (gamma_lr(shape, at), gamma_ur(shape, at))
    } else {
        (1.0, 0.0)
    }
}

/// Where a share of logarithms of gamma draws of mean 1 lies below.
fn log_gamma_place(share: f64, log_scale: f64) -> f64 {
    let above = |place: f64| gamma_tails(place, 0.0, log_scale).1;
    let mut low = -1.0;
    while above(low) < 1.0 - share && LOWEST < low {
        low *= 2.0;
    }
    roots::falling_from(low, 1.0, 1.0 - share, above)
}

/// No logarithm of a time is looked for below this.
const LOWEST: f64 = -1e4;
