//! Differences between means, with their errors and how they hang together.
//!
//! Start at [`Means`].

use crate::students_t::Degrees;

/// One comparison: an estimated difference and how well it is known.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Contrast {
    estimate: f64,
    standard_error: f64,
    degrees: Degrees,
}

impl Contrast {
    /// Takes a finite estimate and a finite standard error above nothing.
    #[must_use]
    pub fn new(estimate: f64, standard_error: f64, degrees: Degrees) -> Option<Self> {
        let known = estimate.is_finite() && standard_error.is_finite() && 0.0 < standard_error;
        known.then_some(Self { estimate, standard_error, degrees })
    }

    /// The estimated difference.
    #[must_use]
    pub fn estimate(self) -> f64 {
        self.estimate
    }

    /// Its standard error.
    #[must_use]
    pub fn standard_error(self) -> f64 {
        self.standard_error
    }

    /// How well the spread behind that error is known.
    #[must_use]
    pub fn degrees(self) -> Degrees {
        self.degrees
    }

    /// The difference in standard errors.
    #[must_use]
    pub fn t(self) -> f64 {
        self.estimate / self.standard_error
    }
}

/// Means and their covariances.
#[derive(Clone, Copy, Debug)]
pub struct Means<'a> {
    estimates: &'a [f64],
    covariance: &'a [Vec<f64>],
}

/// Why comparisons cannot be made.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
pub enum ContrastFault {
    /// The covariance does not fit the means.
    #[error("{means} means need as many rows and columns of covariances")]
    Lengths {
        /// Means given.
        means: usize,
    },
    /// A mean that is not there.
    #[error("there is no mean number {index} (counted from 0)")]
    Missing {
        /// Its number.
        index: usize,
    },
    /// A number is not finite.
    #[error("mean {index} (counted from 0) or one of its covariances is not finite")]
    NotFinite {
        /// The mean's number.
        index: usize,
    },
    /// Two means whose difference has no error.
    #[error("the difference between means {first} and {second} (counted from 0) has no error to judge it by")]
    NoError {
        /// The first mean's number.
        first: usize,
        /// The second's.
        second: usize,
    },
}

/// The difference of two means: `first` less `second`.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Pair {
    /// The mean that is compared.
    pub first: usize,
    /// The mean that it is compared with.
    pub second: usize,
    /// Their difference.
    pub contrast: Contrast,
}

/// Differences from one mean and the correlations between those differences.
#[derive(Clone, Debug, PartialEq)]
pub struct FromCheck {
    /// Every other mean less the check's, in the order of the means.
    pub pairs: Vec<Pair>,
    /// Correlations of those differences: row i, column j.
    pub correlation: Vec<Vec<f64>>,
}

impl<'a> Means<'a> {
    /// Takes n estimates and their n by n covariances.
    ///
    /// # Errors
    /// [`ContrastFault`] where sizes differ or a number is not finite.
    pub fn new(estimates: &'a [f64], covariance: &'a [Vec<f64>]) -> Result<Self, ContrastFault> {
        let means = estimates.len();
        if covariance.len() != means || covariance.iter().any(|row| row.len() != means) {
            return Err(ContrastFault::Lengths { means });
        }
        let finite = |(mean, row): (&f64, &Vec<f64>)| mean.is_finite() && row.iter().all(|v| v.is_finite());
        match estimates.iter().zip(covariance).position(|row| !finite(row)) {
            Some(index) => Err(ContrastFault::NotFinite { index }),
            None => Ok(Self { estimates, covariance }),
        }
    }

    /// Every mean less that of `check`; `degrees(i)` are those of mean i's difference.
    ///
    /// # Errors
    /// [`ContrastFault`] where the check is missing or a difference has no error.
    pub fn from_check(
        self,
        check: usize,
        degrees: impl Fn(usize) -> Degrees,
    ) -> Result<FromCheck, ContrastFault> {
        if self.estimates.len() <= check {
            return Err(ContrastFault::Missing { index: check });
        }
        let others: Vec<usize> = (0..self.estimates.len()).filter(|index| *index != check).collect();
        let pairs = others
            .iter()
            .map(|other| self.pair(*other, check, degrees(*other)))
            .collect::<Result<Vec<_>, _>>()?;
        let correlation = pairs.iter().map(|a| self.correlations(*a, &pairs)).collect();
        Ok(FromCheck { pairs, correlation })
    }

    /// Every pair of means, the earlier less the later; `degrees(i, j)` are those of its difference.
    ///
    /// # Errors
    /// [`ContrastFault::NoError`] for a difference without error.
    pub fn every_pair(self, degrees: impl Fn(usize, usize) -> Degrees) -> Result<Vec<Pair>, ContrastFault> {
        let count = self.estimates.len();
        let both = (0..count).flat_map(|first| (first + 1..count).map(move |second| (first, second)));
        both.map(|(first, second)| self.pair(first, second, degrees(first, second))).collect()
    }

    fn pair(self, first: usize, second: usize, degrees: Degrees) -> Result<Pair, ContrastFault> {
        let difference = self.estimate(first) - self.estimate(second);
        let error = self.between(first, second, first, second).max(0.0).sqrt();
        let contrast = Contrast::new(difference, error, degrees);
        contrast
            .map(|contrast| Pair { first, second, contrast })
            .ok_or(ContrastFault::NoError { first, second })
    }

    fn correlations(self, a: Pair, pairs: &[Pair]) -> Vec<f64> {
        let with = |b: &Pair| {
            let covariance = self.between(a.first, a.second, b.first, b.second);
            let scale = a.contrast.standard_error() * b.contrast.standard_error();
            if a == *b { 1.0 } else { (covariance / scale).clamp(-1.0, 1.0) }
        };
        pairs.iter().map(with).collect()
    }

    /// The covariance of `a - b` with `c - d`.
    fn between(self, a: usize, b: usize, c: usize, d: usize) -> f64 {
        self.at(a, c) - self.at(a, d) - self.at(b, c) + self.at(b, d)
    }

    fn estimate(self, index: usize) -> f64 {
        self.estimates.get(index).copied().unwrap_or(f64::NAN)
    }

    fn at(self, row: usize, column: usize) -> f64 {
        self.covariance.get(row).and_then(|cells| cells.get(column)).copied().unwrap_or(f64::NAN)
    }
}
