//! Smooth curves kept as their values at Chebyshev's nodes, and read off between them.

use std::f64::consts::PI;

/// A curve on one stretch.
#[derive(Clone, Debug)]
pub(crate) struct Curve {
    low: f64,
    high: f64,
    /// Node in -1 to 1, its weight in the barycentric formula, and the curve's value there.
    nodes: Vec<(f64, f64, f64)>,
}

impl Curve {
    /// Takes the curve's values at `count` nodes from `low` to `high`.
    pub(crate) fn new(low: f64, high: f64, count: u32, f: impl Fn(f64) -> f64) -> Self {
        let node = |index: u32| {
            let angle = PI * (f64::from(index) + 0.5) / f64::from(count);
            let weight = if index.is_multiple_of(2) { angle.sin() } else { -angle.sin() };
            (angle.cos(), weight, f(0.5 * (low + high) + 0.5 * (high - low) * angle.cos()))
        };
        Self { low, high, nodes: (0..count).map(node).collect() }
    }

    /// Where the curve ends.
    pub(crate) fn high(&self) -> f64 {
        self.high
    }

    /// The curve's value at `x`, which lies on the stretch.
    pub(crate) fn at(&self, x: f64) -> f64 {
        let x = (2.0 * x - self.low - self.high) / (self.high - self.low);
        let (mut top, mut bottom) = (0.0, 0.0);
        for (node, weight, value) in &self.nodes {
            let gap = x - node;
            if gap == 0.0 {
                return *value;
            }
            top += weight / gap * value;
            bottom += weight / gap;
        }
        top / bottom
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn follows_a_smooth_curve() {
        let curve = Curve::new(-1.0, 3.0, 20, f64::exp);
        for step in 0..=40_i32 {
            let x = -1.0 + 0.1 * f64::from(step);
            assert!((curve.at(x) - x.exp()).abs() < 1e-12 * 20.0, "{x}");
        }
    }
}
