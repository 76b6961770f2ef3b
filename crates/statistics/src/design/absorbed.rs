//! The treatments' information once the blockings are taken out.

#![expect(
    clippy::indexing_slicing,
    reason = "every index is a loop variable below the size of what it reads, or checked by `Design::new`"
)]

use super::grid::Grid;
use super::{BlockEffect, Blocking, Design};

/// A pivot below this share of its diagonal was zero but for rounding: counts of plots are whole numbers.
const NO_PIVOT: f64 = 1e-9;

/// The blockings' side of the sums, which stays the same while treatments change places.
#[derive(Clone, Debug)]
pub(crate) struct Absorbed {
    /// The first column of each blocking; the mean is column 0.
    starts: Vec<usize>,
    /// A generalised inverse of `Z'Z + D`.
    pub(crate) inverse: Grid,
}

impl Absorbed {
    /// Takes the blockings of `plots` plots.
    pub(crate) fn of(blockings: &[Blocking], plots: usize) -> Self {
        let mut starts = Vec::with_capacity(blockings.len());
        let mut width = 1;
        for blocking in blockings {
            starts.push(width);
            width += blocking.width();
        }
        let mut cross = Grid::zero(width, width);
        for plot in 0..plots {
            let columns: Vec<usize> = std::iter::once(0)
                .chain(starts.iter().zip(blockings).map(|(start, blocking)| start + blocking.levels[plot]))
                .collect();
            for row in &columns {
                columns.iter().for_each(|column| cross.add(*row, *column, 1.0));
            }
        }
        for (start, blocking) in starts.iter().zip(blockings) {
            if let BlockEffect::Random { ratio } = blocking.effect {
                (*start..start + blocking.width()).for_each(|at| cross.add(at, at, ratio.recip()));
            }
        }
        Self { starts, inverse: generalised_inverse(cross) }
    }

    /// How many columns all blockings have, the mean's among them.
    pub(crate) fn width(&self) -> usize {
        self.inverse.rows()
    }

    /// The columns of one plot's groups, without the mean's.
    pub(crate) fn columns_of(&self, blockings: &[Blocking], plot: usize) -> Vec<usize> {
        self.starts.iter().zip(blockings).map(|(start, blocking)| start + blocking.levels[plot]).collect()
    }

    /// X: how often each treatment stands in each group, the whole trial as group 0.
    pub(crate) fn incidence(&self, treatments: usize, plots: &[usize], blockings: &[Blocking]) -> Grid {
        let mut incidence = Grid::zero(treatments, self.width());
        for (plot, treatment) in plots.iter().enumerate() {
            incidence.add(*treatment, 0, 1.0);
            for column in self.columns_of(blockings, plot) {
                incidence.add(*treatment, column, 1.0);
            }
        }
        incidence
    }
}

/// A symmetric generalised inverse by sweeping every pivot that is not nothing, the largest first.
fn generalised_inverse(mut matrix: Grid) -> Grid {
    let size = matrix.rows();
    let diagonal: Vec<f64> = (0..size).map(|at| matrix.at(at, at)).collect();
    let mut open: Vec<usize> = (0..size).collect();
    loop {
        let usable =
            open.iter().enumerate().filter(|(_, at)| NO_PIVOT * diagonal[**at] < matrix.at(**at, **at));
        let largest = usable.max_by(|a, b| matrix.at(*a.1, *a.1).total_cmp(&matrix.at(*b.1, *b.1)));
        let Some((place, _)) = largest else { break };
        let pivot = open.swap_remove(place);
        sweep(&mut matrix, pivot);
    }
    // What was never swept is a combination of the others and takes no part.
    for at in open {
        for other in 0..size {
            matrix.row_mut(at)[other] = 0.0;
            matrix.row_mut(other)[at] = 0.0;
        }
    }
    matrix
}

/// One step of Gauss and Jordan that keeps a symmetric matrix symmetric: swept rows hold the inverse.
fn sweep(matrix: &mut Grid, pivot: usize) {
    let line: Vec<f64> = matrix.row(pivot).to_vec();
    let column: Vec<f64> = (0..matrix.rows()).map(|row| matrix.at(row, pivot)).collect();
    let scale = line[pivot].recip();
    let scaled: Vec<f64> = line.iter().map(|value| -scale * value).collect();
    matrix.add_outer(&column, &scaled);
    for at in 0..matrix.rows() {
        matrix.row_mut(pivot)[at] = line[at] * scale;
        matrix.row_mut(at)[pivot] = -column[at] * scale;
    }
    matrix.row_mut(pivot)[pivot] = scale;
}

/// C: what the plots say of the treatments, blockings taken out.
pub(crate) fn information(design: &Design) -> Grid {
    let absorbed = Absorbed::of(&design.blockings, design.plots.len());
    let incidence = absorbed.incidence(design.treatments, &design.plots, &design.blockings);
    information_from(&design.replication(), &incidence, &absorbed.inverse)
}

/// `R - X G X'`.
pub(crate) fn information_from(replication: &[usize], incidence: &Grid, inverse: &Grid) -> Grid {
    let mut left = incidence.times(inverse);
    for row in 0..left.rows() {
        left.row_mut(row).iter_mut().for_each(|cell| *cell = -*cell);
    }
    let mut information = left.times(&incidence.turned());
    for (at, count) in replication.iter().enumerate() {
        information.add(at, at, *count as f64);
    }
    information
}
