//! The efficiency of a design: what is left of each comparison once the blockings are taken out.

use super::absorbed::information;
use super::connection::NOTHING;
use super::{Design, DesignFault};

/// Canonical efficiencies and their harmonic mean.
#[derive(Clone, Debug, PartialEq)]
pub struct Efficiency {
    /// One a comparison, ascending, v - 1 of them: 1 where the blocking costs nothing, 0 where the comparison is lost.
    pub canonical: Vec<f64>,
    /// E, their harmonic mean: the share of the plots' information on differences that is left. Exactly 0
    /// where some treatments cannot be compared.
    pub average: f64,
}

/// Works out the efficiency of a design against the same plots without any blocking.
///
/// Canonical efficiencies are the eigenvalues of `R^-1/2 C R^-1/2` but the one of the mean;
/// `E = (v-1) / sum of 1/e`. With equal replication r the mean variance of a difference is `2/(rE)`
/// residual variances; with unequal replication ask [`super::differences`].
///
/// # Errors
/// [`DesignFault::NotDecomposed`] where the sums fail.
///
/// # Source
/// John and Williams, Cyclic and Computer Generated Designs (1995); definition from memory, held against
/// designs worked out elsewhere.
///
/// # Examples
/// ```
/// use statistics::design::{constructions::square_lattice, efficiency::efficiency};
/// let simple = square_lattice(5, 2)?;
/// assert!((efficiency(&simple)?.average - 0.75).abs() < 1e-12);
/// # Ok::<(), statistics::design::DesignFault>(())
/// ```
pub fn efficiency(design: &Design) -> Result<Efficiency, DesignFault> {
    let mut scaled = information(design);
    let roots: Vec<f64> = design.replication().iter().map(|count| (*count as f64).sqrt()).collect();
    for (row, root) in roots.iter().enumerate() {
        let cells = scaled.row_mut(row).iter_mut().zip(&roots);
        cells.for_each(|(cell, other)| *cell /= root * other);
    }
    let (values, _) = scaled.eigen().ok_or(DesignFault::NotDecomposed)?;
    // The smallest belongs to the mean, which every design leaves out.
    let canonical: Vec<f64> = values.into_iter().skip(1).map(|value| value.clamp(0.0, 1.0)).collect();
    let lost = canonical.first().is_none_or(|least| *least < NOTHING);
    let reciprocals: f64 = canonical.iter().map(|value| value.recip()).sum();
    let average = if lost { 0.0 } else { canonical.len() as f64 / reciprocals };
    Ok(Efficiency { canonical, average })
}
