//! Multivariate normal and t: the chance that correlated estimates all lie between their bounds.
//!
//! Start at [`Correlation::new`] and [`inside`]. Variables are taken one after the other, each within the bounds
//! that the earlier ones leave it, at lattice points (Genz's separation of variables). The answer tells how far
//! off it may be. `check` needs it only where no closed form is at hand.

use super::points;
use crate::normal::{chance_below, inner_quantile};
use crate::roots;
use crate::students_t::Degrees;
use record::share::Share;
use statrs::function::gamma::gamma_ur;

/// Correlations that were found to be some: a factored, positive semidefinite matrix with ones on its diagonal.
#[derive(Clone, Debug)]
pub struct Correlation {
    /// Lower triangle of the factor, row by row; a row whose last number is 0 follows from those before it.
    factor: Vec<Vec<f64>>,
}

/// Why a matrix is not one of correlations.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
pub enum CorrelationFault {
    /// Not square, or empty.
    #[error("correlations need as many columns as rows, and at least one")]
    Shape,
    /// A diagonal that is not 1, a number outside -1 to 1, or two halves that differ.
    #[error("row {row} (counted from 0) holds what is not a correlation, or differs from its column")]
    NotCorrelations {
        /// The row.
        row: usize,
    },
    /// The correlations contradict each other.
    #[error("row {row} (counted from 0) contradicts the correlations before it")]
    Contradiction {
        /// The row.
        row: usize,
    },
}

/// Rounding that correlations may carry.
const ROUNDING: f64 = 1e-8;

/// A chance found at lattice points.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct FoundChance {
    /// The chance.
    pub chance: Share,
    /// How far off it may be: three standard errors over the shifted lattices.
    pub error: f64,
}

impl Correlation {
    /// Takes a square matrix of correlations; singular ones are welcome.
    ///
    /// # Errors
    /// [`CorrelationFault`] where it is none.
    pub fn new(rows: &[Vec<f64>]) -> Result<Self, CorrelationFault> {
        if rows.is_empty() || rows.iter().any(|row| row.len() != rows.len()) {
            return Err(CorrelationFault::Shape);
        }
        let at = |row: usize, column: usize| rows.get(row).and_then(|cells| cells.get(column)).copied();
        let fits = |row: usize, column: usize| {
            let (Some(here), Some(there)) = (at(row, column), at(column, row)) else { return false };
            let sound = here.abs() <= 1.0 + ROUNDING && (here - there).abs() <= ROUNDING;
            sound && (row != column || (here - 1.0).abs() <= ROUNDING)
        };
        let size = rows.len();
        match (0..size).find(|row| !(0..size).all(|column| fits(*row, column))) {
            Some(row) => Err(CorrelationFault::NotCorrelations { row }),
            None => factor(rows),
        }
    }

    /// How many variables.
    #[must_use]
    pub fn size(&self) -> usize {
        self.factor.len()
    }

    /// The chance of all variables lying between bounds, given where each lies within what is left to it.
    ///
    /// `bounds(i)` are those of variable i; `place` holds a number from 0 to 1 for each variable but the last.
    pub(crate) fn given(
        &self,
        bounds: impl Fn(usize) -> (f64, f64),
        place: &[f64],
        draws: &mut Vec<f64>,
    ) -> f64 {
        draws.clear();
        let mut chance = 1.0;
        for (index, row) in self.factor.iter().enumerate() {
            let (low, high) = bounds(index);
            let before: f64 = row.iter().zip(draws.iter()).map(|(l, draw)| l * draw).sum();
            let own = row.last().copied().unwrap_or(0.0);
            if own <= 0.0 {
                if before < low - ROUNDING || high + ROUNDING < before {
                    return 0.0;
                }
                draws.push(0.0);
                continue;
            }
            let (from, to) = ((low - before) / own, (high - before) / own);
            let width = width(from, to);
            chance *= width;
            if chance <= NEGLIGIBLE {
                return 0.0;
            }
            if let Some(u) = place.get(index) {
                draws.push(within(from, to, width, *u).clamp(from.min(FARTHEST), to.max(-FARTHEST)));
            }
        }
        chance
    }
}

/// A chance this small counts as none: it is a ten-thousandth of the error wanted.
const NEGLIGIBLE: f64 = 1e-10;

/// Beyond this no draw is placed: a normal draw comes there once in 1e300.
const FARTHEST: f64 = 37.0;

/// The chance that a normal draw falls between two bounds.
pub(crate) fn width(from: f64, to: f64) -> f64 {
    // From the nearer tail, so that a stretch far out keeps its digits.
    let width = if 0.0 < from {
        chance_below(-from) - chance_below(-to)
    } else {
        chance_below(to) - chance_below(from)
    };
    width.max(0.0)
}

/// The normal draw that has a share `u` of the stretch between its bounds, which holds `width`, below it.
fn within(from: f64, to: f64, width: f64, u: f64) -> f64 {
    let under = chance_below(from) + u * width;
    if under < 0.5 {
        inner_quantile(under.max(f64::MIN_POSITIVE))
    } else {
        -inner_quantile((chance_below(-to) + (1.0 - u) * width).max(f64::MIN_POSITIVE))
    }
}

/// Cholesky's factor; a pivot within rounding of 0 makes its row follow from those before.
fn factor(rows: &[Vec<f64>]) -> Result<Correlation, CorrelationFault> {
    let mut factor: Vec<Vec<f64>> = Vec::with_capacity(rows.len());
    for (index, row) in rows.iter().enumerate() {
        let mut own: Vec<f64> = Vec::with_capacity(index + 1);
        for (earlier, r) in factor.iter().zip(row) {
            let pivot = earlier.last().copied().unwrap_or(0.0);
            let shared: f64 = own.iter().zip(earlier).map(|(a, b)| a * b).sum();
            own.push(if 0.0 < pivot { (r - shared) / pivot } else { 0.0 });
        }
        let left = 1.0 - own.iter().map(|x| x * x).sum::<f64>();
        if left < -ROUNDING.sqrt() {
            return Err(CorrelationFault::Contradiction { row: index });
        }
        own.push(if left <= ROUNDING { 0.0 } else { left.sqrt() });
        factor.push(own);
    }
    Ok(Correlation { factor })
}

/// How close to come before more points are tried.
const WANTED_ERROR: f64 = 1e-6;

/// The chance that every variable lies between its bounds, which may be infinite.
///
/// The variables are normal with these correlations, all divided by one estimated spread of the given degrees.
/// `None` unless there are as many bounds as variables, each low one at or below its high one.
///
/// # Source
/// Genz and Bretz 2002, J. Computational and Graphical Statistics 11:950-971 (citation from memory, unverified).
#[must_use]
pub fn inside(correlation: &Correlation, bounds: &[(f64, f64)], degrees: Degrees) -> Option<FoundChance> {
    let ordered = bounds.iter().all(|(low, high)| low <= high);
    if bounds.len() != correlation.size() || !ordered {
        return None;
    }
    let mut found = points::Mean { value: 0.0, error: f64::INFINITY };
    let mut draws = Vec::new();
    for lattice in &points::LATTICES {
        // The first axis places the spread, the others the variables.
        found = points::mean(correlation.size(), lattice, |point| {
            let (first, rest) = point.split_first().unwrap_or((&0.5, &[]));
            let s = spread(*first, degrees);
            let bound =
                |index: usize| bounds.get(index).map_or((0.0, 0.0), |(low, high)| (low * s, high * s));
            correlation.given(bound, rest, &mut draws)
        });
        if found.error < WANTED_ERROR {
            break;
        }
    }
    Share::new(found.value.clamp(0.0, 1.0)).map(|chance| FoundChance { chance, error: found.error })
}

/// The estimated spread, over the true one, that is passed with chance `above`.
fn spread(above: f64, degrees: Degrees) -> f64 {
    if degrees.endless() {
        return 1.0;
    }
    let half = 0.5 * degrees.get();
    let passed = |s: f64| if s <= 0.0 { 1.0 } else { gamma_ur(half, half * s * s) };
    roots::falling_from(0.0, 2.0, above.clamp(f64::EPSILON, 1.0 - f64::EPSILON), passed)
}
