//! A lot's own decline: the viability equation fitted to its dated tests by probit regression.
//!
//! Start at [`fit`]. It needs tests at two times at least; [`keeping`](super::keeping) works with fewer.

use super::Course;
use record::days::Days;
use statistics::probit::{self, Covariance, Point, ProbitFault};

/// One test of a lot: how long it had been kept, and what sprouted.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct DatedTest {
    /// Days from the first day of storage, at the temperature that the forecast is for; days at another are carried over by
    /// [`Temperature::carried`](super::storage::Temperature::carried).
    pub kept: Days,
    /// Seeds that sprouted.
    pub normal: u32,
    /// Seeds laid out.
    pub sown: u32,
}

impl DatedTest {
    pub(super) fn point(self) -> Point {
        Point { x: self.kept.get(), seen: self.normal, looked_at: self.sown }
    }
}

/// A fitted decline.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Decline {
    /// The deviate on day 0, and its standard error.
    pub start: (f64, f64),
    /// What a day adds to the deviate, and its standard error; below nothing where seed declines.
    pub a_day: (f64, f64),
    /// Variances and covariance of the two.
    pub covariance: Covariance,
    /// How far tests scatter about the line: deviance, and tests less two.
    pub scatter: (f64, u32),
}

impl Decline {
    /// The course; `None` where the tests show no decline.
    #[must_use]
    pub fn course(&self) -> Option<Course> {
        let (start, a_day) = (self.start.0, self.a_day.0);
        (a_day < 0.0).then(|| Course { start, sigma_days: -1.0 / a_day })
    }
}

/// Fits a lot's decline by maximum likelihood.
///
/// # Shape
/// `tests`: two or more, at two different ages at least, in any order.
///
/// # Errors
/// [`ProbitFault`] where there are too few, or where they leave the decline open.
///
/// # Source
/// Ellis and Roberts 1980, Annals of Botany 45:13-30 (as restated in teaching pages).
pub fn fit(tests: &[DatedTest]) -> Result<Decline, ProbitFault> {
    let points: Vec<Point> = tests.iter().map(|test| test.point()).collect();
    let line = probit::fit(&points)?;
    Ok(Decline {
        start: (line.start, line.covariance.start.max(0.0).sqrt()),
        a_day: (line.slope, line.covariance.slope.max(0.0).sqrt()),
        covariance: line.covariance,
        scatter: (line.deviance, line.degrees),
    })
}
