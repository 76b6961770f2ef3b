//! The likelihood of one reading and its first and second derivatives by location and logarithm of the scale.

use super::laws::{Standard, gamma_tails};
use crate::logarithms::log_rest;

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
        return by_differences(
            |location, log_scale| gamma_log(ends, location, log_scale),
            location,
            log_scale,
        );
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

/// Derivatives of a smooth function of two numbers by fourth-order central differences.
fn by_differences(f: impl Fn(f64, f64) -> f64, x: f64, y: f64) -> Row {
    let at = |i: f64, j: f64| f(x + i * NUDGE, y + j * NUDGE);
    let centre = at(0.0, 0.0);
    let first = |g: &dyn Fn(f64) -> f64| (8.0 * (g(1.0) - g(-1.0)) - (g(2.0) - g(-2.0))) / (12.0 * NUDGE);
    let second = |g: &dyn Fn(f64) -> f64| {
        (16.0 * (g(1.0) + g(-1.0)) - (g(2.0) + g(-2.0)) - 30.0 * centre) / (12.0 * NUDGE * NUDGE)
    };
    let along = |j: f64| first(&|i| at(i, j));
    Row {
        log: centre,
        slope: [along(0.0), first(&|j| at(0.0, j))],
        bend: [second(&|i| at(i, 0.0)), first(&along), second(&|j| at(0.0, j))],
    }
}
