//! Integrals of smooth functions: Gauss's nodes and weights, on one stretch or on several.
//!
//! Crate-private ground of the multiple comparisons.

use std::f64::consts::PI;

/// Nodes and weights of a rule.
#[derive(Clone, Debug)]
pub(crate) struct Rule {
    points: Vec<(f64, f64)>,
}

/// Newton steps a node gets; five are enough from the usual starts, so this only bounds the loop.
const NODE_STEPS: u32 = 60;

impl Rule {
    /// Gauss and Legendre's rule: exact on -1 to 1 for polynomials up to degree `2 count - 1`.
    pub(crate) fn legendre(count: u32) -> Self {
        let n = f64::from(count);
        let node = |index: u32| {
            let mut x = (PI * (f64::from(index) + 0.75) / (n + 0.5)).cos();
            for _ in 0..NODE_STEPS {
                let (value, slope) = legendre(count, x);
                let step = value / slope;
                x -= step;
                if step.abs() < f64::EPSILON {
                    break;
                }
            }
            let (_, slope) = legendre(count, x);
            (x, 2.0 / ((1.0 - x * x) * slope * slope))
        };
        Self { points: (0..count).map(node).collect() }
    }

    /// Node and weight of each point.
    pub(crate) fn points(&self) -> &[(f64, f64)] {
        &self.points
    }

    /// The integral of `f` from `low` to `high` by a rule made for -1 to 1.
    pub(crate) fn over(&self, low: f64, high: f64, mut f: impl FnMut(f64) -> f64) -> f64 {
        let (middle, half) = (0.5 * (low + high), 0.5 * (high - low));
        half * self.points.iter().map(|(x, weight)| weight * f(middle + half * x)).sum::<f64>()
    }

    /// The integral over stretches that meet at `edges`, which ascend.
    pub(crate) fn over_stretches(&self, edges: &[f64], mut f: impl FnMut(f64) -> f64) -> f64 {
        edges.iter().zip(edges.iter().skip(1)).map(|(low, high)| self.over(*low, *high, &mut f)).sum()
    }
}

/// The Legendre polynomial of a degree at `x`, and its slope.
fn legendre(degree: u32, x: f64) -> (f64, f64) {
    let (mut before, mut value) = (1.0, x);
    for k in 2..=degree {
        let k = f64::from(k);
        (before, value) = (value, ((2.0 * k - 1.0) * x * value - (k - 1.0) * before) / k);
    }
    (value, f64::from(degree) * (x * value - before) / (x * x - 1.0))
}

#[cfg(test)]
mod tests {
    use super::*;

    /// The powers of x from -1 to 1 integrate to 2 / (n + 1), or to nothing.
    #[test]
    fn legendre_is_exact_for_polynomials() {
        let rule = Rule::legendre(16);
        for power in 0..=31 {
            let exact = if power % 2 == 0 { 2.0 / f64::from(power + 1) } else { 0.0 };
            assert!((rule.over(-1.0, 1.0, |x| x.powi(power)) - exact).abs() < 1e-14, "{power}");
        }
    }
}
