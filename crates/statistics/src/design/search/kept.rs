//! The trace of the treatments' covariance, and what any exchange of two plots would make of it.
//!
//! With `M = (C + S)^-1` (S spans the mean, or is I/ratio for random treatments) and `Y = X G`, an exchange of
//! treatments a and b between plots p and q changes C by `-(d w' + w d')`, where `d = e_b - e_a`,
//! `u = z_p - z_q` and `w = Y u + d u'Gu / 2`. Sherman, Morrison and Woodbury's formula then needs only numbers
//! that can be read off `M`, `M M`, `M Y`, `M M Y`, `Y'M Y` and `Y'M M Y`. These are kept and updated after each
//! exchange, and made anew now and then against drift.

#![expect(
    clippy::indexing_slicing,
    reason = "treatments, plots and groups are numbered below the sizes of the grids made for them"
)]

use crate::design::absorbed::{Absorbed, information_from};
use crate::design::grid::Grid;
use crate::design::{Design, DesignFault, Treatments};

/// Exchanges between two fresh starts of the sums; updates lose about a digit in a thousand.
const STALE_AFTER: u32 = 100;
/// Added to C's diagonal with fixed treatments: a trial that is not connected is then very bad, not impossible,
/// and the search walks out of it. It moves the variances by less than a ten-thousandth part.
const RIDGE: f64 = 1e-5;
/// A trial whose variance is so many times that of one without blocking is cut apart but for the ridge: its
/// large numbers lose digits, so it is never updated.
const CUT_APART: f64 = 50.0;
/// An exchange must gain at least this share, so that rounding never drives the search.
const LEAST_GAIN: f64 = 1e-9;
/// The same in a trial that is cut apart: joining one treatment of a thousand gains a thousandth part.
const LEAST_GAIN_APART: f64 = 1e-3;
/// Nearer to 0 than this, an exchange would cut the trial apart.
const SINGULAR: f64 = 1e-12;

/// Products kept for judging exchanges.
#[derive(Clone, Debug)]
pub(super) struct Kept {
    /// How many blockings there are; `columns` holds as many numbers a plot.
    blockings: usize,
    columns: Vec<usize>,
    absorbed: Absorbed,
    replication: Vec<usize>,
    /// S: what is added to every cell, and to the diagonal.
    everywhere: f64,
    diagonal: f64,
    /// Taken off the trace: what the mean's own direction has in it.
    of_mean: f64,
    /// The trace in a trial without blocking.
    unblocked: f64,
    products: Products,
    trace: f64,
    age: u32,
}

/// The six products and Y.
#[derive(Clone, Debug)]
struct Products {
    y: Grid,
    m: Grid,
    mm: Grid,
    my: Grid,
    mmy: Grid,
    ymy: Grid,
    ymmy: Grid,
}

/// What one exchange does: half of `u'Gu`, the middle of Woodbury's formula and the products of `M d` and `M w`.
struct Turn {
    half: f64,
    middle: [[f64; 2]; 2],
    squares: [[f64; 2]; 2],
    change: f64,
}

impl Kept {
    /// Starts from a design.
    pub(super) fn of(design: &Design, treatments: Treatments) -> Result<Self, DesignFault> {
        let plots = design.plots.len();
        let absorbed = Absorbed::of(&design.blockings, plots);
        let columns = (0..plots).flat_map(|plot| absorbed.columns_of(&design.blockings, plot)).collect();
        let size = design.treatments as f64;
        let (everywhere, diagonal, of_mean) = match treatments {
            Treatments::Fixed => (size.recip(), RIDGE, (1.0 + RIDGE).recip()),
            Treatments::Random { ratio } => (0.0, ratio.recip(), ratio),
        };
        let replication = design.replication();
        let alone = replication.iter().map(|count| (*count as f64 + diagonal).recip()).sum::<f64>();
        let products = Products::empty();
        let mut kept = Self {
            blockings: design.blockings.len(),
            columns,
            absorbed,
            replication,
            everywhere,
            diagonal,
            of_mean,
            unblocked: alone * (size - 1.0) / size,
            products,
            trace: 0.0,
            age: 0,
        };
        kept.refresh(&design.plots)?;
        Ok(kept)
    }

    /// The mean variance of a difference over that of a trial without blocking.
    pub(super) fn variance(&self) -> f64 {
        (self.trace - self.of_mean) / self.unblocked
    }

    /// The least gain that is more than rounding, on the scale of [`Kept::variance`].
    pub(super) fn least_gain(&self) -> f64 {
        let variance = self.variance();
        variance * if variance < CUT_APART { LEAST_GAIN } else { LEAST_GAIN_APART }
    }

    /// Makes every product anew.
    pub(super) fn refresh(&mut self, plots: &[usize]) -> Result<(), DesignFault> {
        let mut incidence = Grid::zero(self.replication.len(), self.absorbed.width());
        for (plot, treatment) in plots.iter().enumerate() {
            incidence.add(*treatment, 0, 1.0);
            self.groups(plot).iter().for_each(|column| incidence.add(*treatment, *column, 1.0));
        }
        let mut shifted = information_from(&self.replication, &incidence, &self.absorbed.inverse);
        for row in 0..shifted.rows() {
            shifted.row_mut(row).iter_mut().for_each(|cell| *cell += self.everywhere);
            shifted.add(row, row, self.diagonal);
        }
        let m = shifted.inverse().ok_or(DesignFault::NotDecomposed)?;
        self.trace = m.trace();
        self.products = Products::of(m, incidence.times(&self.absorbed.inverse));
        self.age = 0;
        Ok(())
    }

    fn groups(&self, plot: usize) -> &[usize] {
        &self.columns[plot * self.blockings..(plot + 1) * self.blockings]
    }

    /// How much [`Kept::variance`] would change if two plots exchanged their treatments.
    pub(super) fn change(&self, plots: &[usize], left: usize, right: usize) -> f64 {
        self.turn(plots, left, right).map_or(0.0, |turn| turn.change / self.unblocked)
    }

    /// `None` where plots lie in the same groups: the covariance stays as it is.
    fn turn(&self, plots: &[usize], left: usize, right: usize) -> Option<Turn> {
        let (a, b) = (plots[left], plots[right]);
        let (here, there) = (self.groups(left), self.groups(right));
        let kept = &self.products;
        let (mut form, mut y, mut yy, mut x, mut xx) = (0.0, 0.0, 0.0, 0.0, 0.0);
        for (at, to) in here.iter().zip(there).filter(|(at, to)| at != to) {
            for (other, beyond) in here.iter().zip(there).filter(|(other, beyond)| other != beyond) {
                let across = |grid: &Grid| {
                    let (near, far) = (grid.row(*at), grid.row(*to));
                    near[*other] - near[*beyond] - far[*other] + far[*beyond]
                };
                form += across(&self.absorbed.inverse);
                y += across(&kept.ymy);
                yy += across(&kept.ymmy);
            }
            x += kept.my.at(b, *at) - kept.my.at(a, *at) - kept.my.at(b, *to) + kept.my.at(a, *to);
            xx += kept.mmy.at(b, *at) - kept.mmy.at(a, *at) - kept.mmy.at(b, *to) + kept.mmy.at(a, *to);
        }
        if here == there {
            return None;
        }
        let apart = |grid: &Grid| grid.at(a, a) + grid.at(b, b) - 2.0 * grid.at(a, b);
        Some(Turn::of(form / 2.0, [apart(&kept.m), x, y], [apart(&kept.mm), xx, yy]))
    }

    /// Exchanges two plots' treatments in `plots` and in every product.
    pub(super) fn exchange(
        &mut self,
        plots: &mut [usize],
        left: usize,
        right: usize,
    ) -> Result<(), DesignFault> {
        let turn = self.turn(plots, left, right);
        let (a, b) = (plots[left], plots[right]);
        plots.swap(left, right);
        let Some(turn) = turn else { return Ok(()) };
        self.age += 1;
        let steady = turn.change.is_finite() && self.variance() < CUT_APART && self.age < STALE_AFTER;
        if !steady {
            return self.refresh(plots);
        }
        let ends: Vec<(usize, usize)> =
            self.groups(left).iter().copied().zip(self.groups(right).iter().copied()).collect();
        let weights = spread(&self.absorbed.inverse, &ends);
        self.products.update(&turn, (a, b), &ends, &weights);
        self.trace += turn.change;
        Ok(())
    }
}

/// A symmetric or tall grid's columns summed as `u` says: those of one plot less those of the other.
fn spread(grid: &Grid, ends: &[(usize, usize)]) -> Vec<f64> {
    let of = |row: &[f64]| ends.iter().map(|(at, to)| row[*at] - row[*to]).sum();
    (0..grid.rows()).map(|row| of(grid.row(row))).collect()
}

impl Turn {
    /// From `u'Gu / 2` and the products `[d'Md, d'MYu, u'Y'MYu]`, and the same with `M M`.
    fn of(half: f64, once: [f64; 3], twice: [f64; 3]) -> Self {
        let gram = with_half(half, once);
        let squares = with_half(half, twice);
        let cross = 1.0 - gram[0][1];
        let determinant = gram[0][0] * gram[1][1] - cross * cross;
        // Above zero the exchanged trial's information would not be positive: rounding, or cut apart.
        if -SINGULAR < determinant {
            return Self { half, middle: [[0.0; 2]; 2], squares, change: f64::INFINITY };
        }
        let [dd, dw, ww] = [-gram[1][1], -cross, -gram[0][0]].map(|cell| cell / determinant);
        let change = dd * squares[0][0] + 2.0 * dw * squares[0][1] + ww * squares[1][1];
        Self { half, middle: [[dd, dw], [dw, ww]], squares, change }
    }
}

/// Products of d and w from those of d and `Y u`, as `w = Y u + half d`.
fn with_half(half: f64, [dd, dy, yy]: [f64; 3]) -> [[f64; 2]; 2] {
    let dw = dy + half * dd;
    [[dd, dw], [dw, yy + 2.0 * half * dy + half * half * dd]]
}

impl Products {
    fn empty() -> Self {
        let none = || Grid::zero(0, 0);
        Self { y: none(), m: none(), mm: none(), my: none(), mmy: none(), ymy: none(), ymmy: none() }
    }

    fn of(m: Grid, y: Grid) -> Self {
        let turned = y.turned();
        let my = m.times(&y);
        let mmy = m.times(&my);
        Self { ymy: turned.times(&my), ymmy: turned.times(&mmy), mm: m.times(&m), y, m, my, mmy }
    }

    /// Carries one exchange into every product. `weights` is `G u`.
    fn update(&mut self, turn: &Turn, treatments: (usize, usize), ends: &[(usize, usize)], weights: &[f64]) {
        // M d, M w, M M d and M M w; then the same against Y.
        let of = |grid: &Grid, by_group: &Grid| pair(grid, by_group, treatments, ends, turn.half);
        let (m, n) = (of(&self.m, &self.my), of(&self.mm, &self.mmy));
        let (my, ny) = (of(&self.my, &self.ymy), of(&self.mmy, &self.ymmy));
        let inner = sandwich(turn.middle, turn.squares);
        add_form(&mut self.m, turn.middle, &m, &m);
        add_both(&mut self.mm, turn.middle, inner, (&m, &m), (&n, &n));
        add_form(&mut self.my, turn.middle, &m, &my);
        add_both(&mut self.mmy, turn.middle, inner, (&m, &my), (&n, &ny));
        add_form(&mut self.ymy, turn.middle, &my, &my);
        add_both(&mut self.ymmy, turn.middle, inner, (&my, &my), (&ny, &ny));
        self.shift(treatments, weights);
    }

    /// Carries `Y + d (G u)'` into the products, M being the new one already.
    fn shift(&mut self, (a, b): (usize, usize), weights: &[f64]) {
        let of_m = difference(self.m.row(b), self.m.row(a));
        let of_mm = difference(self.mm.row(b), self.mm.row(a));
        for (form, half, column) in
            [(&mut self.ymy, &mut self.my, &of_m), (&mut self.ymmy, &mut self.mmy, &of_mm)]
        {
            form.add_outer(&difference(half.row(b), half.row(a)), weights);
            half.add_outer(column, weights);
            form.add_outer(weights, &difference(half.row(b), half.row(a)));
        }
        self.y.row_mut(b).iter_mut().zip(weights).for_each(|(cell, weight)| *cell += weight);
        self.y.row_mut(a).iter_mut().zip(weights).for_each(|(cell, weight)| *cell -= weight);
    }
}

/// `grid d` and `grid w`, where `grid` is symmetric, or its rows are treatments, and `by_group` is `grid Y`.
fn pair(
    grid: &Grid,
    by_group: &Grid,
    (a, b): (usize, usize),
    ends: &[(usize, usize)],
    half: f64,
) -> [Vec<f64>; 2] {
    let d = difference(grid.row(b), grid.row(a));
    let w = spread(by_group, ends).iter().zip(&d).map(|(over, d)| over + half * d).collect();
    [d, w]
}

fn difference(left: &[f64], right: &[f64]) -> Vec<f64> {
    left.iter().zip(right).map(|(l, r)| l - r).collect()
}

/// `middle squares middle`.
fn sandwich(middle: [[f64; 2]; 2], squares: [[f64; 2]; 2]) -> [[f64; 2]; 2] {
    let times = |left: [[f64; 2]; 2], right: [[f64; 2]; 2]| {
        left.map(|[first, second]| {
            [first * right[0][0] + second * right[1][0], first * right[0][1] + second * right[1][1]]
        })
    };
    times(times(middle, squares), middle)
}

/// Both vectors of `right`, mixed as `middle` says.
fn mixed(middle: [[f64; 2]; 2], [first, second]: &[Vec<f64>; 2]) -> [Vec<f64>; 2] {
    middle.map(|[f, s]| first.iter().zip(second).map(|(one, other)| f * one + s * other).collect())
}

/// Adds `left middle right'`.
fn add_form(grid: &mut Grid, middle: [[f64; 2]; 2], left: &[Vec<f64>; 2], right: &[Vec<f64>; 2]) {
    let [first, second] = mixed(middle, right);
    grid.add_outer(&left[0], &first);
    grid.add_outer(&left[1], &second);
}

/// Adds `n middle m' + m middle n' + m inner m'`, each pair given as (rows' side, columns' side).
fn add_both(
    grid: &mut Grid,
    middle: [[f64; 2]; 2],
    inner: [[f64; 2]; 2],
    once: (&[Vec<f64>; 2], &[Vec<f64>; 2]),
    twice: (&[Vec<f64>; 2], &[Vec<f64>; 2]),
) {
    add_form(grid, middle, twice.0, once.1);
    let [first, second] = mixed(middle, twice.1);
    let [inner_first, inner_second] = mixed(inner, once.1);
    let sum =
        |left: &[f64], right: &[f64]| -> Vec<f64> { left.iter().zip(right).map(|(l, r)| l + r).collect() };
    grid.add_outer(&once.0[0], &sum(&first, &inner_first));
    grid.add_outer(&once.0[1], &sum(&second, &inner_second));
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::design::constructions::{rows_and_columns, square_lattice};
    use rand::RngExt;

    /// Many exchanges, none refreshed, against sums made anew each time: the judged change and the kept trace.
    #[track_caller]
    fn keeps_up(design: &Design, treatments: Treatments, tolerance: f64) {
        let mut chance = crate::draws::stream(&["kept products"]);
        let mut kept = Kept::of(design, treatments).unwrap();
        let mut plots = design.plots().to_vec();
        for _ in 0..90 {
            let (left, right) = (chance.random_range(0..plots.len()), chance.random_range(0..plots.len()));
            let expected = kept.variance() + kept.change(&plots, left, right);
            if plots[left] == plots[right] || !expected.is_finite() || CUT_APART < expected {
                continue;
            }
            kept.exchange(&mut plots, left, right).unwrap();
            let mut anew = kept.clone();
            anew.refresh(&plots).unwrap();
            let found = anew.variance();
            assert!((expected - found).abs() < tolerance * found, "judged {expected}, anew {found}");
            assert!(
                (kept.variance() - found).abs() < tolerance * found,
                "kept {}, anew {found}",
                kept.variance()
            );
        }
    }

    #[test]
    fn exchanges_agree_with_sums_made_anew() {
        keeps_up(&square_lattice(5, 3).unwrap(), Treatments::Fixed, 1e-8);
        keeps_up(&square_lattice(5, 3).unwrap(), Treatments::Random { ratio: 0.7 }, 1e-10);
        keeps_up(&rows_and_columns(3, 5, 3).unwrap(), Treatments::Fixed, 1e-7);
        keeps_up(&rows_and_columns(3, 5, 3).unwrap(), Treatments::Random { ratio: 2.0 }, 1e-10);
    }
}
