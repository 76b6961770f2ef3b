//! Curves through readings over time, by least squares: a straight line and shapes that level off.
//!
//! A stem that ends stops growing; one that does not keeps on. [`fit`] gives each shape's best curve
//! with its residual sum of squares and AICc, and [`crate::information::akaike_weights`] weighs them.
//! Times and readings may be in any unit; every number comes back in the same ones.

mod bent;
mod shapes;
mod straight;

use crate::information::{aicc, normal_log_likelihood};

/// A reading at a time.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Reading {
    /// When, such as days since transplanting.
    pub time: f64,
    /// What was read, such as height.
    pub value: f64,
}

/// A shape of curve and its numbers, in the order given by [`Curve::numbers`].
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Shape {
    /// `a + b t`: keeps on growing.
    Line,
    /// `a + b min(t, T)`: grows evenly, then stops at T.
    BrokenStick,
    /// `A - B e^(-t/s)`: slows steadily towards A.
    Rise,
    /// `A / (1 + e^(-(t - m)/s))`: slow, fast at m, slow towards A.
    Logistic,
    /// `A e^(-e^(-(t - m)/s))`: as the logistic, with a longer slowing.
    Gompertz,
}

/// A fitted curve.
#[derive(Clone, Debug, PartialEq)]
pub struct Curve {
    /// Which shape.
    pub shape: Shape,
    /// Its numbers, in the order of the formula: line `[a, b]`, broken stick `[a, b, T]`, rise `[A, B, s]`,
    /// logistic and Gompertz `[A, m, s]`.
    pub numbers: Vec<f64>,
    /// Their standard errors, in the same order; empty where no reading is
    /// left over to judge them by, or where the curve ends at a reading and they have none.
    pub standard_errors: Vec<f64>,
    /// Sum of squared distances of the readings from the curve.
    pub residual_sum_of_squares: f64,
    /// How many readings it was fitted to.
    pub readings: u32,
}

/// Why a shape could not be fitted.
#[derive(Clone, Copy, Debug, PartialEq, Eq, thiserror::Error)]
pub enum CurveFault {
    /// A time or a value is not a finite number.
    #[error("a reading is not a finite number")]
    NotFinite,
    /// Too few different times for the shape's numbers.
    #[error("{needed} different times are needed and {found} were given")]
    TooFewTimes {
        /// How many different times the shape needs.
        needed: usize,
        /// How many there are.
        found: usize,
    },
    /// The readings do not single out one best curve of this shape.
    #[error("the readings do not single out one curve of this shape")]
    NotIdentified,
}

/// Fits one shape to readings by least squares.
///
/// # Errors
/// [`CurveFault`] where readings are too few, not finite, or do not single out a curve.
pub fn fit(shape: Shape, readings: &[Reading]) -> Result<Curve, CurveFault> {
    if readings.iter().any(|reading| !reading.time.is_finite() || !reading.value.is_finite()) {
        return Err(CurveFault::NotFinite);
    }
    let mut sorted = readings.to_vec();
    sorted.sort_unstable_by(|a, b| a.time.total_cmp(&b.time));
    let found = sorted.chunk_by(|a, b| a.time == b.time).count();
    let needed = shape.number_count();
    if found < needed {
        return Err(CurveFault::TooFewTimes { needed, found });
    }
    let numbers = match shape {
        Shape::Line => straight::line(&sorted),
        Shape::BrokenStick => straight::broken_stick(&sorted).ok_or(CurveFault::NotIdentified)?,
        Shape::Rise | Shape::Logistic | Shape::Gompertz => bent::bent(shape, &sorted)?,
    };
    Ok(curve(shape, numbers, &sorted))
}

/// Adds residuals and standard errors to a shape's best numbers.
fn curve(shape: Shape, numbers: Vec<f64>, readings: &[Reading]) -> Curve {
    let residual_sum_of_squares = bent::squares(shape, &numbers, readings);
    let spare = readings.len().saturating_sub(numbers.len());
    let (products, _) = bent::normal_equations(shape, &numbers, readings);
    #[expect(clippy::cast_precision_loss, reason = "nobody takes 2^52 readings")]
    let variance = residual_sum_of_squares / spare as f64;
    let factor = if spare == 0 { None } else { products.cholesky() };
    let standard_errors = factor.map_or_else(Vec::new, |factor| {
        let inverse = factor.inverse();
        (0..numbers.len()).map(|at| (variance * inverse.at(at, at)).sqrt()).collect()
    });
    let readings = u32::try_from(readings.len()).unwrap_or(u32::MAX);
    Curve { shape, numbers, standard_errors, residual_sum_of_squares, readings }
}

impl Curve {
    /// The curve's value at a time.
    #[must_use]
    pub fn at(&self, time: f64) -> f64 {
        self.shape.value(&self.numbers, time)
    }

    /// AICc with the error's spread counted among the parameters; `None` with too few readings or a
    /// perfect fit.
    #[must_use]
    pub fn aicc(&self) -> Option<f64> {
        let parameters = u32::try_from(self.shape.number_count() + 1).ok()?;
        let log_likelihood = normal_log_likelihood(self.residual_sum_of_squares, self.readings)?;
        aicc(log_likelihood, parameters, self.readings)
    }
}
