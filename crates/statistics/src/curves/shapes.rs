//! Each shape's formula, and how its value answers to its numbers.

use super::Shape;

impl Shape {
    /// How many numbers the shape has.
    #[must_use]
    pub fn number_count(self) -> usize {
        if matches!(self, Self::Line) { 2 } else { 3 }
    }

    /// The value at a time, for numbers in the order of the formula.
    pub(super) fn value(self, numbers: &[f64], time: f64) -> f64 {
        match (self, numbers) {
            (Self::Line, [a, b]) => a + b * time,
            (Self::BrokenStick, [a, b, stop]) => a + b * time.min(*stop),
            (Self::Rise, [top, below, slowness]) => top - below * (-time / slowness).exp(),
            (Self::Logistic, [top, middle, slowness]) => top * logistic((time - middle) / slowness),
            (Self::Gompertz, [top, middle, slowness]) => top * (-(-(time - middle) / slowness).exp()).exp(),
            // Numbers of another shape: no curve.
            _ => 0.0,
        }
    }

    /// Derivatives of the value by each number, in the order of the formula; a line has no third.
    pub(super) fn gradient(self, numbers: &[f64], time: f64) -> [f64; 3] {
        match (self, numbers) {
            (Self::Line, _) => [1.0, time, 0.0],
            (Self::BrokenStick, [_, b, stop]) => [1.0, time.min(*stop), if *stop < time { *b } else { 0.0 }],
            (Self::Rise, [_, below, slowness]) => {
                let left = (-time / slowness).exp();
                [1.0, -left, -below * left * time / (slowness * slowness)]
            }
            (Self::Logistic, [top, middle, slowness]) => {
                let z = (time - middle) / slowness;
                let share = logistic(z);
                let steep = top * share * logistic(-z) / slowness;
                [share, -steep, -steep * z]
            }
            (Self::Gompertz, [top, middle, slowness]) => {
                let z = (time - middle) / slowness;
                let share = (-(-z).exp()).exp();
                // share * e^-z, with the two exponents joined so that neither overflows alone.
                let steep = top * (-z - (-z).exp()).exp() / slowness;
                [share, -steep, -steep * z]
            }
            _ => [0.0; 3],
        }
    }
}

/// `1 / (1 + e^-z)`.
fn logistic(z: f64) -> f64 {
    (1.0 + (-z).exp()).recip()
}
