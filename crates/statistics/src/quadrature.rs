//! Integrals of smooth functions: Gauss's nodes and weights, on one stretch or on several.
//!
//! Crate-private ground of the multiple comparisons (Legendre) and of fits with a normal effect that must be
//! integrated out (Hermite).

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

    /// Gauss and Hermite's rule for the mean of a function of a standard normal draw; weights sum to 1.
    ///
    /// Nodes are the roots of the probabilists' Hermite polynomial, found between those of the one before
    /// (the roots interlace), so that no start can run to a neighbour.
    pub(crate) fn normal(count: u32) -> Self {
        let mut roots: Vec<f64> = Vec::new();
        for degree in 1..=count {
            let reach = 2.0 * f64::from(degree).sqrt() + 1.0;
            let walls: Vec<f64> =
                std::iter::once(-reach).chain(roots).chain(std::iter::once(reach)).collect();
            roots = walls
                .iter()
                .zip(walls.iter().skip(1))
                .map(|(low, high)| between(degree, *low, *high))
                .collect();
        }
        let weight = |x: f64| {
            let (_, before) = hermite(count, x);
            (x, 1.0 / (f64::from(count) * before * before))
        };
        Self { points: roots.into_iter().map(weight).collect() }
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

/// The normalised probabilists' Hermite polynomial (unit length under the normal curve) and the one before it.
fn hermite(degree: u32, x: f64) -> (f64, f64) {
    let (mut before, mut value) = (0.0, 1.0);
    for k in 0..degree {
        let k = f64::from(k);
        (before, value) = (value, (x * value - k.sqrt() * before) / (k + 1.0).sqrt());
    }
    (value, before)
}

/// The root of a Hermite polynomial between two walls, by halving.
fn between(degree: u32, mut low: f64, mut high: f64) -> f64 {
    let below = hermite(degree, low).0;
    while let middle = 0.5 * (low + high)
        && low < middle
        && middle < high
    {
        if (hermite(degree, middle).0 < 0.0) == (below < 0.0) { low = middle } else { high = middle }
    }
    0.5 * (low + high)
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

    /// The even moments of a normal draw are 1, 1, 3, 15, 105, ..
    #[test]
    fn normal_is_exact_for_moments() {
        let rule = Rule::normal(21);
        let mean = |power: i32| rule.points().iter().map(|(x, weight)| weight * x.powi(power)).sum::<f64>();
        let mut moment = 1.0;
        for half in 0..=20 {
            assert!((mean(2 * half) / moment - 1.0).abs() < 1e-11, "{half}");
            moment *= f64::from(2 * half + 1);
        }
        assert!(mean(1).abs() < 1e-13);
    }
}
