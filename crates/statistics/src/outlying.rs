//! Rows of measures that lie far from the others, all measures taken together.
//!
//! Start at [`chances`]; for several rows at once put its answer through [`holm`](crate::multiplicity::steps::holm).

use crate::matrix::Square;
use record::share::Share;
use statrs::function::beta::beta_reg;

/// The chance, of each row, that a row chosen beforehand lies as far from the middle or further, were all of one normal
/// population with unknown middle and spread.
///
/// With Mahalanobis's squared distance `d` from the rows' own mean and covariance, `n d / (n - 1)^2` follows a beta law with
/// `p / 2` and `(n - p - 1) / 2`: the far row's own part in mean and covariance is allowed for.
///
/// `None` of too few rows (fewer than measures and two), of rows of unlike lengths or with numbers that are none, and where
/// measures hang together so that one is known from the others.
///
/// # Shape
/// `rows`: n rows of p measures each. Returns n chances, in order.
///
/// # Source
/// Wilks 1963, Sankhya A 25:407-426; Gnanadesikan and Kettenring 1972, Biometrics 28:81-124 (citations from memory,
/// unverified).
#[must_use]
pub fn chances(rows: &[Vec<f64>]) -> Option<Vec<Share>> {
    let measures = rows.first()?.len();
    let fits = |row: &Vec<f64>| row.len() == measures && row.iter().all(|value| value.is_finite());
    if measures == 0 || rows.len() < measures + 2 || !rows.iter().all(fits) {
        return None;
    }
    let n = f64::from(u32::try_from(rows.len()).ok()?);
    let p = f64::from(u32::try_from(measures).ok()?);
    let mean = |place: usize| rows.iter().filter_map(|row| row.get(place)).sum::<f64>() / n;
    let means: Vec<f64> = (0..measures).map(mean).collect();
    let off: Vec<Vec<f64>> =
        rows.iter().map(|row| row.iter().zip(&means).map(|(value, mean)| value - mean).collect()).collect();
    let mut covariance = Square::zero(measures);
    off.iter().for_each(|row| covariance.add_outer(1.0 / (n - 1.0), row, row));
    let factor = covariance.cholesky()?;
    let chance = |row: &Vec<f64>| {
        let part = n * factor.inverse_form(row) / ((n - 1.0) * (n - 1.0));
        Share::new(beta_reg(0.5 * (n - p - 1.0), 0.5 * p, (1.0 - part).clamp(0.0, 1.0)).clamp(0.0, 1.0))
    };
    off.iter().map(chance).collect()
}
