//! How exactly a design compares each pair of treatments.

use super::absorbed::information;
use super::connection::{NOTHING, grouped};
use super::grid::Grid;
use super::{Design, DesignFault, Treatments, checked_ratio};

/// Variances of the differences between treatments, in residual variances of one plot.
///
/// With random treatments they are prediction error variances.
#[derive(Clone, Debug, PartialEq)]
pub struct Differences {
    covariance: Grid,
    /// The group of each treatment within which comparisons can be made.
    group: Vec<usize>,
}

impl Differences {
    /// The variance of one difference, or `None` where it cannot be estimated or a number is no treatment.
    #[must_use]
    pub fn between(&self, left: usize, right: usize) -> Option<f64> {
        let together = self.group.get(left)? == self.group.get(right)?;
        let at = |row, column| self.covariance.at(row, column);
        together.then(|| (at(left, left) + at(right, right) - 2.0 * at(left, right)).max(0.0))
    }

    /// The mean over all pairs; `None` where some pair cannot be compared.
    #[must_use]
    pub fn mean(&self) -> Option<f64> {
        if self.group.iter().any(|group| *group != 0) {
            return None;
        }
        let size = self.group.len();
        let whole: f64 = (0..size).flat_map(|row| self.covariance.row(row)).sum();
        let size = size as f64;
        Some(2.0 * (self.covariance.trace() - whole / size) / (size - 1.0))
    }

    /// The mean over the pairs of a treatment with the others; `None` where some pair cannot be compared.
    #[must_use]
    pub fn mean_with(&self, treatment: usize) -> Option<f64> {
        let others = (0..self.group.len()).filter(|other| *other != treatment);
        let all: Option<Vec<f64>> = others.map(|other| self.between(treatment, other)).collect();
        all.filter(|all| !all.is_empty()).map(|all| all.iter().sum::<f64>() / all.len() as f64)
    }

    /// The least and the greatest variance among the pairs that can be compared.
    #[must_use]
    pub fn range(&self) -> Option<(f64, f64)> {
        let size = self.group.len();
        let pairs = (0..size).flat_map(|left| (left + 1..size).map(move |right| (left, right)));
        pairs.filter_map(|(left, right)| self.between(left, right)).fold(None, |range, variance| {
            let (least, most) = range.unwrap_or((variance, variance));
            Some((variance.min(least), variance.max(most)))
        })
    }
}

/// Works out the variance of every difference.
///
/// With fixed treatments from the Moore-Penrose inverse of C, with random ones from the inverse of
/// `C + I/ratio`.
///
/// # Errors
/// [`DesignFault::Ratio`] for a ratio that is none, [`DesignFault::NotDecomposed`] where the sums fail.
pub fn differences(design: &Design, treatments: Treatments) -> Result<Differences, DesignFault> {
    let information = information(design);
    match treatments {
        Treatments::Random { ratio } => predicted(information, ratio),
        Treatments::Fixed => estimated(&information),
    }
}

fn predicted(mut information: Grid, ratio: f64) -> Result<Differences, DesignFault> {
    checked_ratio(ratio)?;
    let size = information.rows();
    (0..size).for_each(|at| information.add(at, at, ratio.recip()));
    let covariance = information.inverse().ok_or(DesignFault::NotDecomposed)?;
    Ok(Differences { covariance, group: vec![0; size] })
}

fn estimated(information: &Grid) -> Result<Differences, DesignFault> {
    let size = information.rows();
    let (values, vectors) = information.eigen().ok_or(DesignFault::NotDecomposed)?;
    let mut covariance = Grid::zero(size, size);
    for (at, value) in values.iter().enumerate().filter(|(_, value)| NOTHING <= **value) {
        let vector = vectors.row(at);
        let scaled: Vec<f64> = vector.iter().map(|cell| cell / value).collect();
        covariance.add_outer(vector, &scaled);
    }
    let groups = grouped(&values, &vectors);
    let mut group = vec![0; size];
    for (number, treatments) in groups.iter().enumerate() {
        for treatment in treatments {
            if let Some(own) = group.get_mut(*treatment) {
                *own = number;
            }
        }
    }
    Ok(Differences { covariance, group })
}
