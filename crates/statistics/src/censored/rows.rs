//! The likelihood of one reading and its first and second derivatives by location and logarithm of the scale.

use super::laws::{Standard, gamma_tails};
use crate::logarithms::log_rest;
use statrs::function::gamma::{digamma, ln_gamma};

/// A reading's log-likelihood.
#[derive(Clone, Copy, Debug)]
pub(super) struct Row {
    pub(super) log: f64,
    /// By location, by logarithm of the scale.
    pub(super) slope: [f64; 2],
    /// By location twice, by both, by logarithm of the scale twice.
    pub(super) bend: [f64; 3],
}

/// A reading between `ends`, either of which may be infinite.
pub(super) fn row(standard: Standard, ends: (f64, f64), location: f64, log_scale: f64) -> Row {
    if standard == Standard::LogGamma {
        return gamma_row(ends, location, log_scale);
    }
    let scale = log_scale.exp();
    let (low, high) = ((ends.0 - location) / scale, (ends.1 - location) / scale);
    let log = log_between(standard, low, high);
    let (from, to) = (end(standard, low, log), end(standard, high, log));
    let difference = |of: fn(&End) -> f64| of(&to) - of(&from);
    // First derivatives of the chance over the chance, then second ones less products of the first.
    let slope = [-difference(|e| e.density) / scale, -difference(|e| e.z * e.density)];
    let second = [
        difference(|e| e.bend) / (scale * scale),
        difference(|e| e.z * e.bend + e.density) / scale,
        difference(|e| e.z * e.density + e.z * e.z * e.bend),
    ];
    let bend =
        [second[0] - slope[0] * slope[0], second[1] - slope[0] * slope[1], second[2] - slope[1] * slope[1]];
    Row { log, slope, bend }
}

/// One end of a reading: z, and density and its slope over the reading's chance.
#[derive(Clone, Copy, Debug, Default)]
struct End {
    z: f64,
    density: f64,
    bend: f64,
}

fn end(standard: Standard, z: f64, log_chance: f64) -> End {
    if z.is_infinite() {
        return End::default();
    }
    let (log_density, steepness) = standard.log_density(z);
    let density = (log_density - log_chance).exp();
    // Far out a density of nothing may meet a steepness beyond numbers.
    let bend = if density > 0.0 { density * steepness } else { 0.0 };
    End { z, density, bend }
}

/// Logarithm of the chance between two z, differenced in the tail that both lie in.
fn log_between(standard: Standard, low: f64, high: f64) -> f64 {
    let tails = |z: f64| match z {
        z if z == f64::NEG_INFINITY => (f64::NEG_INFINITY, 0.0),
        z if z == f64::INFINITY => (0.0, f64::NEG_INFINITY),
        z => standard.log_tails(z),
    };
    let ((below_low, above_low), (below_high, above_high)) = (tails(low), tails(high));
    let difference = |large: f64, small: f64| large + log_rest((small - large).min(0.0)).unwrap_or(0.0);
    if 0.0 < low {
        difference(above_low, above_high)
    } else if high < 0.0 {
        difference(below_high, below_low)
    } else {
        (-below_low.exp() - above_high.exp()).ln_1p()
    }
}

fn gamma_log(ends: (f64, f64), location: f64, log_scale: f64) -> f64 {
    let tails = |end: f64| match end {
        end if end == f64::NEG_INFINITY => (0.0, 1.0),
        end if end == f64::INFINITY => (1.0, 0.0),
        end => gamma_tails(end, location, log_scale),
    };
    let ((below_low, above_low), (below_high, above_high)) = (tails(ends.0), tails(ends.1));
    // The difference of the smaller two keeps its digits.
    let chance = if above_low < below_high { above_low - above_high } else { below_high - below_low };
    chance.max(f64::MIN_POSITIVE).ln()
}

/// Step of differences, in units of the logarithm of time: with fourth-order differences their error is some 1e-9.
const NUDGE: f64 = 2e-3;

/// A reading of the gamma: derivatives by location are closed, those by the scale alone are fourth-order differences.
fn gamma_row(ends: (f64, f64), location: f64, log_scale: f64) -> Row {
    let at = |steps: f64| gamma_log(ends, location, log_scale + steps * NUDGE);
    let [before, less, log, more, beyond] = [-2.0, -1.0, 0.0, 1.0, 2.0].map(at);
    let by_scale = (8.0 * (more - less) - (beyond - before)) / (12.0 * NUDGE);
    let by_scale_twice = (16.0 * (more + less) - (beyond + before) - 30.0 * log) / (12.0 * NUDGE * NUDGE);
    let (from, to) =
        (gamma_end(ends.0, location, log_scale, log), gamma_end(ends.1, location, log_scale, log));
    let difference = |of: fn(&GammaEnd) -> f64| of(&to) - of(&from);
    let by_location = -difference(|end| end.density);
    let twice = difference(|end| end.density * end.left) - by_location * by_location;
    let both = -difference(|end| end.density * end.by_scale) - by_location * by_scale;
    Row { log, slope: [by_location, by_scale], bend: [twice, both, by_scale_twice] }
}

/// One end of a reading of the gamma: the density of its logarithm over the reading's chance, the shape less the end
/// on the gamma's own scale, and the slope of the density's logarithm by the logarithm of the scale.
#[derive(Clone, Copy, Debug, Default)]
struct GammaEnd {
    density: f64,
    left: f64,
    by_scale: f64,
}

fn gamma_end(end: f64, location: f64, log_scale: f64, log_chance: f64) -> GammaEnd {
    let shape = (-2.0 * log_scale).exp();
    let at = shape * (end - location).exp();
    if !(0.0 < at && at.is_finite()) {
        return GammaEnd::default();
    }
    let density = (shape * at.ln() - at - ln_gamma(shape) - log_chance).exp();
    let by_scale = 2.0 * (at - shape - shape * (at.ln() - digamma(shape)));
    GammaEnd { density, left: shape - at, by_scale }
}
